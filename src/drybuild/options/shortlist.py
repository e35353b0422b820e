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
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from random import Random
from typing import TypeAlias

import numpy as np

from drybuild.checks.all import standing_checks
from drybuild.checks.check import Check
from drybuild.checks.verdicts import Verdict, judge
from drybuild.options.additive import Additive
from drybuild.options.diagram import Diagram
from drybuild.options.labels import Costs
from drybuild.options.network import Picks
from drybuild.options.pareto import additive_front, front
from drybuild.options.paths import k_cheapest, random_builds
from drybuild.options.queries import consistent
from drybuild.options.tables import Tabulator, limits_of
from drybuild.quantities.graph import Evaluation, Graph, summary

LESS_IN = ("money", "kg", "s", "date")
"""Units of which less is better where no limit says which way is good."""
RANDOM, TRADES, NEIGHBOURS = 24, 12, 10
SLOW = "work_runs"
"""What rests on this simulation of the work is asked only of the builds on the list: it takes
longer than all else together. The search goes by the price and the last delivery instead."""
STAND_INS = {"money": "price", "date": "lead_time"}
Build: TypeAlias = dict[str, str]
Key: TypeAlias = tuple[str, ...]


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
    """Builds judged in the search: by every check but those that rest on the simulated work."""
    failing: Mapping[str, int]
    """How many of them each check ruled out."""
    open: tuple[str, ...]
    """Preferred quantities that could not be computed for any of them."""


@dataclass(frozen=True, kw_only=True)
class Tried:
    """A build as judged."""

    build: Build
    verdicts: tuple[Verdict, ...]
    costs: tuple[float, ...]
    """Of each preferred quantity, turned so that less is better; NaN when open."""

    @property
    def fails(self) -> tuple[str, ...]:
        """The checks that rule it out."""
        return tuple(one.check.id for one in self.verdicts if one.rules_out)


class Search:
    """The search for one shortlist."""

    def __init__(
        self,
        tabulator: Tabulator,
        diagram: Diagram,
        additives: Mapping[str, Additive],
        prefer: Mapping[str, float],
        picks: Picks,
    ) -> None:
        self.tabulator = tabulator
        self.diagram = diagram
        self.additives = additives
        self.picks = dict(picks)
        self.graph = tabulator.full.graph
        known = self.graph.quantities
        self.prefer = {name: weight for name, weight in prefer.items() if name in known}
        self.strange = tuple(name for name in prefer if name not in known)
        self.signs = {name: self._sign(name) for name in self.prefer}
        self.slow = _resting_on(self.graph, SLOW)
        self.tried: dict[Key, Tried] = {}
        self.excluded: list[frozenset[tuple[str, str]]] = []
        """Combinations that a check was seen to rule out, over the systems it depends on."""
        self.random = Random(11)

    def _sign(self, name: str) -> float:
        """Return 1 if less is better, else -1: by the limits that stand on it, else by its unit."""
        for check in (*self.tabulator.checks, *standing_checks()):  # advice too knows its side
            if check.quantity == name and (check.at_most is None) != (check.at_least is None):
                return 1.0 if check.at_most is not None else -1.0
        return 1.0 if self.graph.quantities[name].unit in LESS_IN else -1.0

    def run(self, evaluations: int, most: int) -> Shortlist:
        """Search on few samples, then prove the best with all of them."""
        for build in self._seeds():
            if len(self.tried) < evaluations:
                self._try(build)
        expanded: set[Key] = set()
        while len(self.tried) < evaluations:
            best = next((key for key in self._ranking() if key not in expanded), None)
            if best is None:
                break
            expanded.add(best)
            for build in self._neighbours(self.tried[best].build):
                if len(self.tried) < evaluations:
                    self._try(build)
        return self._proven(most)

    def _seeds(self) -> Iterator[Build]:
        systems = self.diagram.network.options
        price, mass = (
            {system: self.additives[name].weights[system] for system in systems}
            for name in ("price", "mass")
        )
        for weights in (price, mass):
            yield from (one.build for one in k_cheapest(self.diagram, weights, 2, self.picks))
        trades = additive_front(self.diagram, price, mass, self.picks)
        for place in np.unique(np.linspace(0, len(trades) - 1, TRADES).astype(int)):
            yield from (one.build for one in trades[place : place + 1])
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
            if _key(other) not in self.tried and consistent(self.diagram, other):
                yield other
                given += 1
            if given == NEIGHBOURS:
                return

    def _try(self, build: Build) -> None:
        if _key(build) in self.tried or any(bad <= build.items() for bad in self.excluded):
            return
        quick = [c for c in self.tabulator.checks if self.slow.isdisjoint(limits_of(c))]
        tried = self._judge(build, self.tabulator.screen, quick, slow=False)
        for verdict in tried.verdicts:
            scope = self.tabulator.scope(verdict.check, cut=False)
            if verdict.rules_out and scope is not None:
                self.excluded.append(frozenset((system, build[system]) for system in scope))
        self.tried[_key(build)] = tried

    def _judge(
        self, build: Build, evaluation: Evaluation, checks: Sequence[Check], *, slow: bool
    ) -> Tried:
        whole = self.tabulator.whole(build)
        return Tried(
            build=build,
            verdicts=tuple(judge(one, evaluation, picks=whole, doubts=False) for one in checks),
            costs=tuple(
                self._stand_in(name, whole)
                if name in self.slow and not slow
                else self.signs[name] * self._worst(name, whole, evaluation)[0]
                for name in self.prefer
            ),
        )

    def _stand_in(self, name: str, whole: Build) -> float:
        """Return what a slow quantity goes with: money with prices, a date with the last part."""
        unit = self.graph.quantities[name].unit
        if unit not in STAND_INS:
            return float("nan")
        weights = self.additives[STAND_INS[unit]].weights
        found = [weights[system].get(option, 0.0) for system, option in whole.items()]
        return sum(found) if unit == "money" else max(found)

    def _worst(self, name: str, whole: Build, evaluation: Evaluation) -> tuple[float, float, float]:
        """Return nominal, 5 % and 95 % of a quantity's worst label."""
        found = [summary(one) for one in evaluation.result(name, whole).labelled().values()]
        nothing = (float("nan"),) * 3
        return max(found, key=lambda triple: self.signs[name] * triple[0], default=nothing)

    def _ranking(self) -> list[Key]:
        """Return the tried builds: fewest failing checks, then unbeaten, then best score first."""
        tried = list(self.tried.values())
        costs, scores = self._scores(tried)
        unbeaten = set(front(costs).tolist())
        places = sorted(
            range(len(tried)),
            key=lambda place: (len(tried[place].fails), place not in unbeaten, -scores[place]),
        )
        return [_key(tried[place].build) for place in places]

    def _scores(self, tried: Sequence[Tried]) -> tuple[Costs, list[float]]:
        """Return the costs of what can be computed, and each build's score."""
        every = np.array([one.costs for one in tried]).reshape(len(tried), len(self.prefer))
        known = ~np.isnan(every).all(axis=0)
        if not known.any():
            return np.zeros((len(tried), 1)), [0.0] * len(tried)
        costs = every[:, known]
        weights = np.array(list(self.prefer.values()))[known]
        low, high = np.nanmin(costs, axis=0), np.nanmax(costs, axis=0)
        shares = np.nan_to_num((high - costs) / np.where(high > low, high - low, 1.0), nan=0.0)
        return costs, (shares @ weights / (weights.sum() or 1.0)).tolist()

    def _proven(self, most: int) -> Shortlist:
        """Judge the best by every check with all samples; those that fail make room for others."""
        proven: list[Tried] = []
        failing = Counter(check for one in self.tried.values() for check in one.fails)
        asked = [key for key in self._ranking() if not self.tried[key].fails]
        for key in asked[: 2 * most]:
            full = self._judge(
                self.tried[key].build, self.tabulator.full, self.tabulator.checks, slow=True
            )
            failing.update(full.fails)
            if not full.fails:
                proven.append(full)
            if len(proven) == most:
                break
        costs, scores = self._scores(proven) if proven else (np.zeros((0, 1)), [])
        best = sorted(front(costs).tolist(), key=lambda place: -scores[place])
        return Shortlist(
            listed=tuple(self._listed(proven[place], scores[place]) for place in best),
            tried=len(self.tried),
            failing=dict(failing),
            open=(*self.strange, *self._never_known(proven)),
        )

    def _never_known(self, proven: Sequence[Tried]) -> tuple[str, ...]:
        return tuple(
            name
            for place, name in enumerate(self.prefer)
            if proven and all(np.isnan(one.costs[place]) for one in proven)
        )

    def _listed(self, one: Tried, score: float) -> Listed:
        whole, full = self.tabulator.whole(one.build), self.tabulator.full
        values = {name: self._worst(name, whole, full) for name in self.prefer}
        return Listed(build=whole, values=values, score=score, verdicts=one.verdicts)


def _key(build: Build) -> Key:
    return tuple(build[system] for system in sorted(build))


def _resting_on(graph: Graph, name: str) -> frozenset[str]:
    found = {name}
    for one in graph.order:
        if not found.isdisjoint(graph.quantities[one].needs):
            found.add(one)
    return frozenset(found)
