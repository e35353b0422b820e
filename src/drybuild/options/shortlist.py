"""Complete builds worth looking at: proven by every check, unbeaten in what the brief prefers.

What is preferred (comfort, grip, cost by a date) does not add up over the options, so the front
is searched, not proven to be complete: it starts from the cheapest, the lightest, the best trades
between the two and builds drawn at random, and goes on from the best found so far to builds that
differ in one system. Each build on the list itself is proven: every check was judged on it.

References
----------
Paquete, Chiarandini, Stützle, "Pareto local optimum sets in the biobjective traveling salesman
problem", 2004 (from memory): search from each unbeaten solution to its neighbours.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from random import Random
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.checks.verdicts import Verdict, judge
from drybuild.options.diagram import Diagram
from drybuild.options.labels import Weights
from drybuild.options.network import Picks
from drybuild.options.pareto import additive_front, front
from drybuild.options.paths import k_cheapest, random_builds
from drybuild.options.queries import consistent
from drybuild.options.tables import Tabulator
from drybuild.quantities.graph import Evaluation, summary

LESS_IN = ("money", "kg", "s", "date")
"""Units of which less is better where no limit says which way is good."""
RANDOM, TRADES, NEIGHBOURS = 24, 12, 10
Build: TypeAlias = dict[str, str]
Costs: TypeAlias = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Listed:
    """One build of the shortlist."""

    build: Mapping[str, str]
    values: Mapping[str, tuple[float, float, float]]
    """Nominal, 5 % and 95 % of each preferred quantity, of its worst label."""
    score: float
    """Weighted share of the way from the worst to the best on the list; 1 is best in all."""
    verdicts: tuple[Verdict, ...]


@dataclass(frozen=True, kw_only=True)
class Shortlist:
    """The builds that no other build found beats, the best score first."""

    listed: tuple[Listed, ...]
    tried: int
    """Builds judged by every check."""
    failing: Mapping[str, int]
    """How many of them each check ruled out."""
    open: tuple[str, ...]
    """Preferred quantities that could not be computed for any of them."""


@dataclass(frozen=True, kw_only=True)
class Tried:
    """A build as judged on few samples."""

    build: Build
    fails: tuple[str, ...]
    costs: tuple[float, ...]
    """Of each preferred quantity, turned so that less is better; NaN when open."""


class Search:
    """The search for one shortlist."""

    def __init__(
        self,
        tabulator: Tabulator,
        diagram: Diagram,
        whole: Callable[[Picks], Build],
        prefer: Mapping[str, float],
        picks: Picks,
    ) -> None:
        self.tabulator = tabulator
        self.diagram = diagram
        self.whole = whole
        self.picks = dict(picks)
        known = tabulator.full.graph.quantities
        self.prefer = {name: weight for name, weight in prefer.items() if name in known}
        self.strange = tuple(name for name in prefer if name not in known)
        self.signs = {name: self._sign(name) for name in self.prefer}
        self.tried: dict[tuple[str, ...], Tried] = {}
        self.excluded: list[frozenset[tuple[str, str]]] = []
        """Combinations that a check was seen to rule out, over the systems it depends on."""
        self.random = Random(11)

    def _sign(self, name: str) -> float:
        """Return 1 if less is better, else -1: by the limits that stand on it, else by its unit."""
        for check in self.tabulator.checks:
            if check.quantity == name and (check.at_most is None) != (check.at_least is None):
                return 1.0 if check.at_most is not None else -1.0
        return 1.0 if self.tabulator.full.graph.quantities[name].unit in LESS_IN else -1.0

    def run(self, weights: Mapping[str, Weights], evaluations: int, most: int) -> Shortlist:
        """Search, then prove the best with all samples."""
        for build in self._seeds(weights):
            if len(self.tried) < evaluations:
                self._try(build)
        expanded: set[tuple[str, ...]] = set()
        while len(self.tried) < evaluations:
            best = next((key for key in self._ranking() if key not in expanded), None)
            if best is None:
                break
            expanded.add(best)
            for build in self._neighbours(self.tried[best].build):
                if len(self.tried) < evaluations:
                    self._try(build)
        return self._proven(most)

    def _seeds(self, weights: Mapping[str, Weights]) -> Iterator[Build]:
        for one in weights.values():
            yield from (found.build for found in k_cheapest(self.diagram, one, 2, self.picks))
        trades = additive_front(self.diagram, weights["price"], weights["mass"], self.picks)
        for place in np.unique(np.linspace(0, len(trades) - 1, TRADES).astype(int)):
            yield trades[place].build
        yield from random_builds(self.diagram, RANDOM, 5, self.picks)

    def _neighbours(self, build: Build) -> Iterator[Build]:
        """Give builds that differ in one system and that the tables allow, in random order."""
        steps = [
            (system, option)
            for system, options in self.diagram.network.options.items()
            for option in options
            if system not in self.picks and build[system] != option
        ]
        given = 0
        for system, option in self.random.sample(steps, len(steps)):
            other = {**build, system: option}
            if self._key(other) not in self.tried and consistent(self.diagram, other):
                yield other
                given += 1
            if given == NEIGHBOURS:
                return

    @staticmethod
    def _key(build: Build) -> tuple[str, ...]:
        return tuple(build[system] for system in sorted(build))

    def _try(self, build: Build) -> None:
        key = self._key(build)
        if key in self.tried or any(bad <= build.items() for bad in self.excluded):
            return
        whole, screen = self.whole(build), self.tabulator.screen
        verdicts = self._judge(whole, screen)
        fails = tuple(one.check.id for one in verdicts if one.rules_out)
        for one in verdicts:
            if one.rules_out:
                self._exclude(one, build)
        costs = tuple(self._worst(name, whole, screen)[0] for name in self.prefer)
        self.tried[key] = Tried(build=build, fails=fails, costs=costs)

    def _judge(self, whole: Build, evaluation: Evaluation) -> tuple[Verdict, ...]:
        checks = self.tabulator.checks
        return tuple(judge(check, evaluation, picks=whole, doubts=False) for check in checks)

    def _exclude(self, verdict: Verdict, build: Build) -> None:
        scope = self.tabulator.scope(verdict.check, cut=False)
        if scope is not None:
            self.excluded.append(frozenset((system, build[system]) for system in scope))

    def _worst(
        self, name: str, whole: Build, evaluation: Evaluation
    ) -> tuple[float, tuple[float, float, float]]:
        """Return the cost and the summary of a quantity's worst label."""
        sign = self.signs[name]
        found = [summary(one) for one in evaluation.result(name, whole).labelled().values()]
        if not found:
            return float("nan"), (float("nan"),) * 3
        worst = max(found, key=lambda triple: sign * triple[0])
        return sign * worst[0], worst

    def _ranking(self) -> list[tuple[str, ...]]:
        """Return the tried builds: fewest failing checks, then unbeaten, then best score first."""
        keys = list(self.tried)
        costs, scores = self._scores(keys)
        unbeaten = {keys[place] for place in front(costs)}
        order = dict(zip(keys, scores, strict=True))
        return sorted(
            keys,
            key=lambda key: (len(self.tried[key].fails), key not in unbeaten, -order[key]),
        )

    def _scores(self, keys: list[tuple[str, ...]]) -> tuple[Costs, list[float]]:
        """Return the costs of what can be computed, and each build's score."""
        every = np.array([self.tried[key].costs for key in keys]).reshape(len(keys), -1)
        known = ~np.isnan(every).all(axis=0)
        if not known.any():
            return np.zeros((len(keys), 1)), [0.0] * len(keys)
        costs = every[:, known]
        weights = np.array(list(self.prefer.values()))[known]
        low, high = np.nanmin(costs, axis=0), np.nanmax(costs, axis=0)
        shares = np.nan_to_num((high - costs) / np.where(high > low, high - low, 1.0), nan=0.0)
        return costs, (shares @ weights / (weights.sum() or 1.0)).tolist()

    def _proven(self, most: int) -> Shortlist:
        """Judge the best with all samples; one that fails after all makes room for others."""
        failing = Counter(check for one in self.tried.values() for check in one.fails)
        passing = [key for key, one in self.tried.items() if not one.fails]
        proven: dict[tuple[str, ...], tuple[Verdict, ...]] = {}
        best: list[tuple[str, ...]] = []
        while passing:
            best = self._best(passing, most)
            judged = next((key for key in best if key not in proven), None)
            if judged is None:
                break
            proven[judged] = self._judge(self.whole(self.tried[judged].build), self.tabulator.full)
            ruled = [one.check.id for one in proven[judged] if one.rules_out]
            if ruled:
                failing.update(ruled)
                passing.remove(judged)
        scores = dict(zip(passing, self._scores(passing)[1], strict=True)) if passing else {}
        return Shortlist(
            listed=tuple(
                self._listed(key, proven[key], scores[key]) for key in best if key in scores
            ),
            tried=len(self.tried),
            failing=dict(failing),
            open=(*self.strange, *self._never_known()),
        )

    def _never_known(self) -> tuple[str, ...]:
        costs = np.array([one.costs for one in self.tried.values()]).reshape(len(self.tried), -1)
        never = np.isnan(costs).all(axis=0)
        return tuple(name for name, open_ in zip(self.prefer, never, strict=True) if open_)

    def _best(self, keys: list[tuple[str, ...]], most: int) -> list[tuple[str, ...]]:
        costs, scores = self._scores(keys)
        unbeaten = sorted(front(costs).tolist(), key=lambda place: -scores[place])
        return [keys[place] for place in unbeaten[:most]]

    def _listed(self, key: tuple[str, ...], verdicts: tuple[Verdict, ...], score: float) -> Listed:
        whole, full = self.whole(self.tried[key].build), self.tabulator.full
        values = {name: self._worst(name, whole, full)[1] for name in self.prefer}
        return Listed(build=whole, values=values, score=score, verdicts=verdicts)
