"""Why an option is no longer possible: the fewest picks and the fewest tables that say so."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np

from drybuild.options.conflicts import preferred_conflict
from drybuild.options.fallback import Clauses
from drybuild.options.network import Flags, Network, Picks, Table
from drybuild.options.rules import EXCLUDE, JOINT, KEEP, NEED

WRITTEN = (KEEP, JOINT, NEED, EXCLUDE)
"""How the names of tables begin that are the file's own words, not checks."""
Label: TypeAlias = tuple[str, str]
"""A system and one of its options."""


Stands: TypeAlias = Callable[[tuple[Label, ...], Label], bool]
"""Whether an option stands in some complete build that holds these picks."""


@dataclass(frozen=True, kw_only=True)
class Explanation:
    """Picks and tables that cannot all hold; leave out any one and the rest can."""

    picks: tuple[Label, ...]
    """The option asked for stands last, if one was."""
    tables: tuple[Table, ...]

    def sentences(self) -> tuple[str, ...]:
        """Return what each table has to say."""
        return self._sentences

    @property
    def told(self) -> bool:
        """Whether the sentences are there already; finding them may mean judging a combination."""
        return "_sentences" in vars(self)

    @cached_property
    def _sentences(self) -> tuple[str, ...]:
        return tuple(table.why(dict(self.picks)) for table in self.tables)


class Reasons:
    """Explains one network; remembers what it found."""

    def __init__(self, network: Network, stands: Stands, pairs: Flags | None = None) -> None:
        self.network = network
        self._stands = stands
        self._pairs = pairs
        """Which two options stand together in some build, if known."""
        self._tables = {table.id: table for table in network.tables}
        self._single: dict[tuple[str, tuple[str | None, ...]], dict[Label, Explanation]] = {}
        self._several: dict[tuple[Label, ...], Explanation] = {}

    @cached_property
    def _clauses(self) -> Clauses:
        return Clauses(self.network)

    def why_not(self, options: Iterable[Label], picks: Picks) -> dict[Label, Explanation]:
        """Return, for each of the options, why it does not go with the picks of other systems.

        Options that do go are left out. An explanation by a single table is preferred, then few
        picks, then the earliest picks. Where the file's own words rule an option out and a check
        does so as well, both are told: meeting the one would still leave the other.
        """
        single = self._by_single_tables(picks)
        found = {}
        for target in options:
            reason = single.get(target) or self._through(target, picks)
            if reason is not None:
                found[target] = reason
        return found

    def conflict(self, picks: Picks) -> Explanation | None:
        """Return the preferred conflict among the picks, the most important first; None if none.

        Without any picks to blame it names the tables that leave no build at all.
        """
        clash = preferred_conflict(tuple(picks.items()), self._fits)
        return None if clash is None else self._named(clash)

    def _fits(self, kept: tuple[Label, ...]) -> bool:
        return self._stands(kept[:-1], kept[-1]) if kept else self._clauses.consistent({})

    def _by_single_tables(self, picks: Picks) -> dict[Label, Explanation]:
        best: dict[bool, dict[Label, Explanation]] = {True: {}, False: {}}
        for table in self.network.tables:
            known = tuple(map(picks.get, table.scope))
            key = (table.id, known)
            if key not in self._single:
                self._single[key] = self._read(table, known)
            kind = best[table.id.partition(".")[0] in WRITTEN]
            for target, reason in self._single[key].items():
                if target not in kind or len(reason.picks) < len(kind[target].picks):
                    kind[target] = reason
        written, judged = best[True], best[False]
        both = {one: _together(written[one], judged[one]) for one in written.keys() & judged.keys()}
        return {**judged, **written, **both}

    def _read(self, table: Table, known: tuple[str | None, ...]) -> dict[Label, Explanation]:
        """Return the options that one table alone excludes under the picks of its scope."""
        found: dict[Label, Explanation] = {}
        at = [
            slice(None) if option is None else self.network.options[system].index(option)
            for system, option in zip(table.scope, known, strict=True)
        ]
        for axis, system in enumerate(table.scope):
            others = [*at[:axis], slice(None), *at[axis + 1 :]]
            allowed = _along(table.allowed, axis, others)
            for place in np.flatnonzero(~allowed):
                needed = _fewest(table.allowed, axis, int(place), others)
                picks = tuple((table.scope[other], str(known[other])) for other in needed)
                target = (system, self.network.options[system][place])
                found[target] = Explanation(picks=(*picks, target), tables=(table,))
        return found

    def _through(self, target: Label, picks: Picks) -> Explanation | None:
        others = {s: o for s, o in picks.items() if s != target[0]}
        culprit = self._culprit(target, others)
        if culprit is not None:
            return self._named(culprit)
        clash = preferred_conflict(tuple(others.items()), lambda kept: self._stands(kept, target))
        return None if clash is None else self._named((*clash, target))

    def _culprit(self, target: Label, others: Picks) -> tuple[Label, ...] | None:
        """Return the target alone, or with the first pick that it never stands with."""
        if self._pairs is None:
            return None
        row = self._pairs[self.network.at(*target)]
        if not row[self.network.at(*target)]:
            return (target,)
        pick = next((pick for pick in others.items() if not row[self.network.at(*pick)]), None)
        return None if pick is None else (pick, target)

    def _named(self, picks: tuple[Label, ...]) -> Explanation:
        """Return the picks with a smallest set of tables that forbid them."""
        if picks not in self._several:
            blamed = self._clauses.conflict(dict(picks))
            tables = tuple(self._tables[table] for table in blamed)
            self._several[picks] = Explanation(picks=picks, tables=tables)
        return self._several[picks]


def _together(first: Explanation, second: Explanation) -> Explanation:
    """Return two reasons that each are enough as one, the fewer picks first."""
    if len(second.picks) < len(first.picks):
        first, second = second, first
    others = dict.fromkeys((*first.picks[:-1], *second.picks[:-1]))
    return Explanation(picks=(*others, first.picks[-1]), tables=(*first.tables, *second.tables))


def _along(allowed: Flags, axis: int, at: Sequence[int | slice]) -> Flags:
    """Return which options of one axis some combination allows, the others held at places."""
    view = allowed[tuple(at)]
    kept = sum(isinstance(place, slice) for place in at[:axis])
    return np.asarray(view.any(axis=tuple(other for other in range(view.ndim) if other != kept)))


def _fewest(allowed: Flags, axis: int, place: int, at: Sequence[int | slice]) -> list[int]:
    """Return the held axes that are needed to exclude an option, the earliest kept."""
    held = [other for other, where in enumerate(at) if isinstance(where, int)]
    for other in reversed(held):
        freed = [
            at[each] if each in held and each != other else slice(None) for each in range(len(at))
        ]
        if not _along(allowed, axis, freed)[place]:
            held = [each for each in held if each != other]
    return held
