"""Checks become tables over the options of the systems that they depend on.

A combination is excluded only when its check fails whatever the rest of the build weighs, costs
or draws: it is judged beside the lightest and beside the heaviest complete build, and beside those
with the least and the most current, and every time it must fail. What is left may still fail once
the whole build is known; the shortlist is proven by full evaluation.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np

from drybuild.checks.check import Check
from drybuild.checks.verdicts import UNLIKELY, State, Verdict, judge
from drybuild.options.additive import Additive
from drybuild.options.labels import Costs
from drybuild.options.network import Flags, Network, Picks, Table
from drybuild.options.rules import declared_tables
from drybuild.options.stored import Judged, Words, content_key, fetch, keep
from drybuild.project.build import Build
from drybuild.quantities.graph import PARTS, Evaluation, Frozen, Result
from drybuild.quantities.recent import Recent

Say: TypeAlias = Callable[[Verdict, Evaluation], str]
"""Words for a failing verdict in the person's units; the room above provides them."""

SCREEN = 120
"""Samples for a first look; a share near the bound is judged again with all samples."""
DOUBTFUL = 0.13
"""How near to the bound is near: about three standard errors of a share over `SCREEN` samples."""
SECOND = 500
"""Samples for a second look."""
STILL_DOUBTFUL = 0.055
"""Likewise over `SECOND` samples; what is nearer still is judged with all samples."""
WIDEST = 6
"""Systems in a table at most."""
MOST = 600
"""Combinations judged for a table at most; larger checks are left to full evaluation."""
FEW = 250
"""Up to here combinations are judged even if two options of them exclude each other already, so
that a table's reasons stand by themselves; beyond, those that smaller tables exclude are passed
over. Options that are excluded by themselves are passed over always."""
KEPT_AFTER = 400
"""Results that are kept for telling reasons, once the tables are there."""
ROOM_AFTER = 8e6
"""Bytes of arrays within them."""
ENDS = {"mass": ("least mass", "most mass"), "electrics": ("least current", "most current")}
"""The extreme builds that bound the sums of a matter; other matters' sums are tried at all."""


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
        self.second = Evaluation(evaluation.graph, self.build, min(SECOND, evaluation.samples))
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
        self.told: Callable[[int, int], None] | None = None
        self.words = Words()
        self._frozen: dict[tuple[int, str], Frozen] = {}
        self._below: dict[str, frozenset[str]] = {}
        self._ends: dict[Check, tuple[str, ...]] = {}

    def tabulate(self, folder: Path | None = None) -> Tabulated:
        """Return the network of everything that depends on few enough systems.

        Parameters
        ----------
        folder : Path
            Where judged tables are kept by content; None keeps nothing. [-]

        """
        key = content_key(self.build, self.checks, self.full.samples) if folder else ""
        known = fetch(folder, key) if folder else {}
        if folder:
            spoken = f"{self.build.units}-{self.build.currency}"
            self.words = Words(folder / f"{key}-{spoken}.json")
        before = set(known)
        try:
            return self._tabulate(known)
        finally:  # what was judged is kept even if the work is stopped half way
            if folder and set(known) != before:
                keep(folder, key, known)

    def watched(
        self, between: Callable[[], None] | None, told: Callable[[int, int], None] | None
    ) -> None:
        """Be held up or stopped by one function, and tell another of checks done, and of all."""
        self.told = told
        for one in (self.full, self.second, self.screen):
            one.between = between

    def forget(self) -> None:
        """Drop what led to the tables; what is asked of it later is worked out again."""
        for one in (self.full, self.second, self.screen):
            one.memory = Recent(KEPT_AFTER, ROOM_AFTER)
        self._frozen.clear()

    def _tabulate(self, known: dict[str, Judged]) -> Tabulated:
        tables = list(declared_tables(self.build, self.systems))
        hopeless = [table for table in tables if not table.allowed.any()]
        tables = [table for table in tables if table.allowed.any()]
        wide: list[Check] = []
        ordered = sorted(self.checks, key=lambda check: len(self.scope(check) or ()))
        for done, check in enumerate(ordered):
            if self.told is not None:
                self.told(done, len(ordered))
            scope = self.scope(check)
            if scope == () and self.scope(check, cut=False) == ():
                continue  # no pick changes its answer
            open_ = self._open(scope, tables) if scope else None
            if scope is None or open_ is None or open_.sum() > MOST:
                wide.append(check)
                continue
            if not open_.any():
                continue  # other tables exclude it all
            if check.id not in known:
                known[check.id] = self._judged(check, scope, open_)
            table = self._table(check, scope, *known[check.id])
            if not table.allowed[open_].any():
                hopeless.append(table)
            elif not table.allowed.all():
                tables.append(table)
        return Tabulated(
            network=Network(options=self.systems, tables=tuple(tables)),
            fixed=self.fixed,
            hopeless=tuple(hopeless),
            wide=tuple(check for check in self.checks if check in wide),
        )

    def _open(self, scope: tuple[str, ...], tables: Sequence[Table]) -> Flags | None:
        """Return the combinations of a scope to be judged, or None if it is too wide to say."""
        shape = [len(self.systems[system]) for system in scope]
        if len(scope) > WIDEST:
            return None
        open_ = np.ones(shape, dtype=np.bool_)
        for table in tables:
            alone = len(table.scope) == 1
            if (alone or open_.size > FEW) and set(table.scope) <= set(scope):
                open_ &= table.over(scope)
        return open_

    def whole(self, build: Picks) -> dict[str, str]:
        """Return a build of the network with the systems that have no choice, in file order."""
        both = {**self.fixed, **build}
        return {system: both[system] for system in self.build.options}

    def scope(self, check: Check, *, cut: bool = True) -> tuple[str, ...] | None:
        """Return the systems with a choice that a check depends on; None for all of them."""
        graph = self.full.graph
        found: set[str] = set()
        for name in limits_of(check):
            if name in graph.quantities:
                below = graph.scope(name, cut=cut)
                if below is None:
                    return None
                found |= below
        return tuple(system for system in self.systems if system in found)

    def _judged(self, check: Check, scope: tuple[str, ...], open_: Flags) -> Judged:
        """Judge the open combinations: which are allowed, and by how much the others fail."""
        allowed = np.ones(open_.shape, dtype=np.bool_)
        margin = np.full(open_.shape, np.nan)
        for place in map(tuple, np.argwhere(open_)):
            verdicts = self._verdicts(check, self._at(scope, place))
            if all(verdict.rules_out for verdict in verdicts):
                allowed[place] = False
                margin[place] = max(map(_margin, verdicts))
        return allowed, margin

    def _table(self, check: Check, scope: tuple[str, ...], allowed: Flags, margin: Costs) -> Table:
        def reason(picks: Picks) -> str:
            """Tell of the excluded combination that comes nearest."""
            at = tuple(
                self.systems[system].index(picks[system]) if system in picks else slice(None)
                for system in scope
            )
            near = np.full(margin.shape, np.nan)
            near[at] = margin[at]
            place = np.unravel_index(int(np.nanargmax(near)), near.shape)

            def say() -> str:
                verdicts = self._verdicts(check, self._at(scope, place))
                return self.say(max(verdicts, key=_margin), self.screen)

            return self.words.of(f"{check.id} {tuple(map(int, place))}", say)

        return Table(id=check.id, scope=scope, allowed=allowed, reason=reason, source=check.source)

    def _at(self, scope: tuple[str, ...], place: Sequence[np.intp]) -> dict[str, str]:
        return {s: self.systems[s][i] for s, i in zip(scope, place, strict=True)}

    def _verdicts(self, check: Check, picks: Picks) -> list[Verdict]:
        """Return the verdict beside each extreme build, up to the first that does not fail."""
        found = []
        if check not in self._ends:
            self._ends[check] = self._besides(check)
        for name in self._ends[check]:
            verdict = self._judge(check, picks, self.screen, name)
            if self._doubtful(verdict, DOUBTFUL):
                verdict = self._judge(check, picks, self.second, name)
            if self._doubtful(verdict, STILL_DOUBTFUL):
                verdict = self._judge(check, picks, self.full, name)
            found.append(verdict)
            if verdict.state is not State.FAILS:
                break
        return found

    def _besides(self, check: Check) -> tuple[str, ...]:
        """Return the extreme builds to judge a check beside; one will do if it sums nothing."""
        if self.scope(check, cut=False) == self.scope(check):
            return ("",)
        sums = {name for need in limits_of(check) for name in self._sums_below(need)}
        matters = {self.full.graph.quantities[name].matter.partition("_")[0] for name in sums}
        ends = {end for matter in matters for end in ENDS.get(matter, tuple(self.beside))}
        return tuple(end for end in self.beside if end in ends) or tuple(self.beside)

    def _sums_below(self, name: str) -> frozenset[str]:
        """Return the quantities below one that sum over the parts themselves."""
        if name not in self._below:
            one = self.full.graph.quantities.get(name)
            needs = one.needs if one else ()
            own = [name] if PARTS in needs else []
            self._below[name] = frozenset(own).union(*map(self._sums_below, needs))
        return self._below[name]

    def _judge(self, check: Check, picks: Picks, evaluation: Evaluation, beside: str) -> Verdict:
        frozen = self._sums(evaluation, beside) if beside else None
        whole = {**self.fixed, **picks}
        return judge(check, evaluation, picks=whole, frozen=frozen, doubts=False)

    def _sums(self, evaluation: Evaluation, beside: str) -> Frozen:
        """Return every aggregate as it stands in an extreme build."""
        key = (evaluation.samples, beside)
        if key not in self._frozen:
            results = _Sums(evaluation, self.beside[beside])
            self._frozen[key] = Frozen(id=beside, results=results)
        return self._frozen[key]

    def _doubtful(self, verdict: Verdict, reach: float) -> bool:
        bound = UNLIKELY if verdict.check.probability is None else verdict.check.probability
        near = any(abs(judged.probability - bound) < reach for judged in verdict.judged)
        return near and self.screen.samples < self.full.samples


class _Sums(Mapping[str, Result]):
    """The aggregates of one complete build, each worked out when it is first asked for."""

    def __init__(self, evaluation: Evaluation, picks: Picks) -> None:
        self._evaluation = evaluation
        self._picks = picks
        quantities = evaluation.graph.quantities.values()
        self._names = frozenset(one.name for one in quantities if one.aggregate)
        self._known: dict[str, Result] = {}

    def __getitem__(self, name: str) -> Result:
        if name not in self._names:
            raise KeyError(name)
        if name not in self._known:
            self._known[name] = self._evaluation.result(name, self._picks)
        return self._known[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __contains__(self, name: object) -> bool:
        return name in self._names


def limits_of(check: Check) -> tuple[str, ...]:
    """Return the names that a check may rest on: its quantity, and its limits."""
    return tuple(filter(None, (check.quantity, check.at_least, check.at_most)))


def _margin(verdict: Verdict) -> float:
    return verdict.worst.margin if verdict.worst else -np.inf


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
