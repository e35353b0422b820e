"""Checks become tables over the options of the systems that they depend on.

A combination is excluded only when its check fails whatever the rest of the build weighs, costs
or draws: it is judged beside the lightest and beside the heaviest complete build, and beside those
with the least and the most current, and every time it must fail. What is left may still fail once
the whole build is known; the shortlist is proven by full evaluation.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod
from typing import TypeAlias

import numpy as np

from drybuild.checks.check import Check
from drybuild.checks.verdicts import UNLIKELY, State, Verdict, judge
from drybuild.options.additive import Additive
from drybuild.options.network import Network, Picks, Table
from drybuild.options.rules import declared_tables
from drybuild.project.build import Build
from drybuild.quantities.graph import Evaluation, Frozen

Say: TypeAlias = Callable[[Verdict, Evaluation], str]
"""Words for a failing verdict in the person's units; the room above provides them."""

SCREEN = 120
"""Samples for a first look; a share near the bound is judged again with all samples."""
DOUBTFUL = 0.13
"""How near to the bound is near: about three standard errors of a share over `SCREEN` samples."""
WIDEST = 4
"""Systems in a table at most."""
MOST = 1500
"""Combinations in a table at most; larger checks are left to full evaluation."""


@dataclass(frozen=True, kw_only=True)
class Tabulated:
    """A build's options as a network, and what the network does not hold."""

    network: Network
    """Over the systems with a choice."""
    fixed: dict[str, str]
    """The only option of each other system."""
    hopeless: tuple[Table, ...]
    """Rules and checks that exclude every combination; kept out, as nothing could be told."""
    wide: tuple[Check, ...]
    """Checks that rule things out but depend on too much for a table."""


class Tabulator:
    """Turns one build's checks and rules into tables."""

    def __init__(
        self,
        evaluation: Evaluation,
        checks: Sequence[Check],
        additives: Mapping[str, Additive],
        say: Say,
    ) -> None:
        self.full = evaluation
        self.build: Build = evaluation.build
        self.screen = Evaluation(evaluation.graph, self.build, min(SCREEN, evaluation.samples))
        self.checks = tuple(check for check in checks if not check.advice)
        self.say = say
        self.systems = {
            system: tuple(options)
            for system, options in self.build.options.items()
            if len(options) > 1
        }
        self.fixed = {
            system: next(iter(options))
            for system, options in self.build.options.items()
            if system not in self.systems
        }
        self.beside = extreme_builds(self.build, additives)
        self._frozen: dict[tuple[int, str], Frozen] = {}

    def tabulate(self) -> Tabulated:
        """Return the network of everything that depends on few enough systems."""
        tables = list(declared_tables(self.build, self.systems))
        wide = []
        for check in self.checks:
            scope = self.scope(check)
            if scope is None or not self._fits(scope):
                wide.append(check)
            elif scope:
                tables.append(self.table(check, scope))
            elif self.scope(check, cut=False) != ():
                wide.append(check)  # nothing but sums over the whole build
        return Tabulated(
            network=Network(
                options=self.systems,
                tables=tuple(one for one in tables if one.allowed.any() and not one.allowed.all()),
            ),
            fixed=self.fixed,
            hopeless=tuple(one for one in tables if not one.allowed.any()),
            wide=tuple(wide),
        )

    def scope(self, check: Check, *, cut: bool = True) -> tuple[str, ...] | None:
        """Return the systems with a choice that a check depends on; None for all of them."""
        graph = self.full.graph
        found: set[str] = set()
        for name in (check.quantity, check.at_least, check.at_most):
            if name in graph.quantities:
                below = graph.scope(name, cut=cut)
                if below is None:
                    return None
                found |= below
        return tuple(system for system in self.systems if system in found)

    def _fits(self, scope: tuple[str, ...]) -> bool:
        return len(scope) <= WIDEST and prod(len(self.systems[s]) for s in scope) <= MOST

    def table(self, check: Check, scope: tuple[str, ...]) -> Table:
        """Return the table of one check."""
        allowed = np.ones([len(self.systems[system]) for system in scope], dtype=np.bool_)
        margin = np.full(allowed.shape, np.nan)
        for place, picks in self._combinations(scope):
            if all(verdict.rules_out for verdict in self._verdicts(check, picks)):
                allowed[place] = False
                margin[place] = self._best(check, picks)[0]

        def reason(picks: Picks) -> str:
            at = tuple(
                self.systems[system].index(picks[system]) if system in picks else slice(None)
                for system in scope
            )
            near = np.full(margin.shape, np.nan)
            near[at] = margin[at]
            place = np.unravel_index(int(np.nanargmax(near)), near.shape)
            nearest = {s: self.systems[s][i] for s, i in zip(scope, place, strict=True)}
            return self.say(self._best(check, nearest)[1], self.screen)

        return Table(id=check.id, scope=scope, allowed=allowed, reason=reason, source=check.source)

    def _combinations(
        self, scope: tuple[str, ...]
    ) -> Iterator[tuple[tuple[int, ...], dict[str, str]]]:
        for place in product(*(range(len(self.systems[system])) for system in scope)):
            yield place, {s: self.systems[s][i] for s, i in zip(scope, place, strict=True)}

    def _verdicts(self, check: Check, picks: Picks) -> Iterator[Verdict]:
        """Give the verdict beside each extreme build, until one of them does not fail."""
        for name in self._besides(check):
            verdict = self._judge(check, picks, self.screen, name)
            if self._doubtful(verdict):
                verdict = self._judge(check, picks, self.full, name)
            yield verdict
            if verdict.state is not State.FAILS:
                return

    def _besides(self, check: Check) -> tuple[str, ...]:
        """Return the extreme builds to judge a check beside; one will do if it sums nothing."""
        sums = self.scope(check, cut=False) != self.scope(check)
        return tuple(self.beside) if sums else ("",)

    def _judge(self, check: Check, picks: Picks, evaluation: Evaluation, beside: str) -> Verdict:
        frozen = self._sums(evaluation, beside) if beside else None
        whole = {**self.fixed, **picks}
        return judge(check, evaluation, picks=whole, frozen=frozen, doubts=False)

    def _sums(self, evaluation: Evaluation, beside: str) -> Frozen:
        """Return every aggregate as it stands in an extreme build."""
        key = (evaluation.samples, beside)
        if key not in self._frozen:
            results = {
                one.name: evaluation.result(one.name, self.beside[beside])
                for one in evaluation.graph.quantities.values()
                if one.aggregate
            }
            self._frozen[key] = Frozen(id=beside, results=results)
        return self._frozen[key]

    def _doubtful(self, verdict: Verdict) -> bool:
        bound = UNLIKELY if verdict.check.probability is None else verdict.check.probability
        near = any(abs(judged.probability - bound) < DOUBTFUL for judged in verdict.judged)
        return near and self.screen.samples < self.full.samples

    def _best(self, check: Check, picks: Picks) -> tuple[float, Verdict]:
        """Return the largest margin beside any extreme build, with its verdict."""
        found = [self._judge(check, picks, self.screen, name) for name in self._besides(check)]
        best = max(found, key=lambda verdict: verdict.worst.margin if verdict.worst else -np.inf)
        return (best.worst.margin if best.worst else -np.inf), best


def extreme_builds(build: Build, additives: Mapping[str, Additive]) -> dict[str, dict[str, str]]:
    """Return the complete builds with the least and the most mass and current, by name."""
    found: dict[str, dict[str, str]] = {}
    for name in ("mass", "current"):
        weights = additives[name].weights
        for word, pick in (("least", min), ("most", max)):
            picks = {
                system: pick(options, key=lambda option: weights[system].get(option, 0.0))
                for system, options in build.options.items()
            }
            if picks not in found.values():
                found[f"{word} {name}"] = picks
    return found
