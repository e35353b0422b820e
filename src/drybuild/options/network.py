"""Systems, their options, and tables that say which options go together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import DrybuildError

Flags: TypeAlias = npt.NDArray[np.bool_]
Picks: TypeAlias = Mapping[str, str]
"""The option taken for some of the systems."""
Reason: TypeAlias = str | Callable[[Picks], str]
"""Text, or what gives the text for a combination of (some of) the scope's options."""


class NetworkError(DrybuildError):
    """A network does not hold together, or was asked about a system or option it lacks."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Table:
    """Which combinations of the options of a few systems are allowed, and why not the others."""

    id: str
    scope: tuple[str, ...]
    allowed: Flags
    """One axis a system of the scope, one place an option."""
    reason: Reason
    source: str = ""

    def why(self, combination: Picks) -> str:
        """Return why a combination is not allowed; it may name only part of the scope."""
        if isinstance(self.reason, str):
            return self.reason
        return self.reason({s: combination[s] for s in self.scope if s in combination})

    def over(self, scope: tuple[str, ...]) -> Flags:
        """Return the allowed combinations, to broadcast over a scope that holds this one."""
        axes = sorted(range(len(self.scope)), key=lambda axis: scope.index(self.scope[axis]))
        missing = tuple(axis for axis, system in enumerate(scope) if system not in self.scope)
        return np.expand_dims(self.allowed.transpose(axes), missing)


@dataclass(frozen=True, kw_only=True, eq=False)
class Network:
    """Systems with their options, and the tables over them."""

    options: Mapping[str, tuple[str, ...]]
    """The systems in the person's order, each with its options."""
    tables: tuple[Table, ...] = ()

    def __post_init__(self) -> None:
        for system, options in self.options.items():
            if not options or len(set(options)) != len(options):
                raise NetworkError(f"{system} needs options, each with a name of its own")
        if len({table.id for table in self.tables}) != len(self.tables):
            raise NetworkError("two tables have the same id")
        for table in self.tables:
            self._check(table)

    def _check(self, table: Table) -> None:
        unknown = [system for system in table.scope if system not in self.options]
        if unknown:
            raise NetworkError(f"table {table.id} names {unknown}, which the network lacks")
        shape = tuple(len(self.options[system]) for system in table.scope)
        if not shape or len(set(table.scope)) != len(shape) or table.allowed.shape != shape:
            raise NetworkError(f"table {table.id} has shape {table.allowed.shape}, not {shape}")
        if table.allowed.dtype != np.bool_:
            raise NetworkError(f"table {table.id} must hold true and false")

    @property
    def systems(self) -> tuple[str, ...]:
        """The systems in the person's order."""
        return tuple(self.options)

    @cached_property
    def first(self) -> dict[str, int]:
        """Where each system's options begin when all options stand in one row."""
        ends = np.cumsum([0, *(len(options) for options in self.options.values())])
        return {system: int(end) for system, end in zip(self.options, ends, strict=False)}

    @cached_property
    def labels(self) -> tuple[tuple[str, str], ...]:
        """Every (system, option), in one row."""
        return tuple((s, o) for s, options in self.options.items() for o in options)

    @cached_property
    def place(self) -> dict[tuple[str, str], int]:
        """Where each (system, option) stands in the row."""
        return {label: place for place, label in enumerate(self.labels)}

    def at(self, system: str, option: str) -> int:
        """Return where an option stands in the row of all options.

        Raises
        ------
        NetworkError
            The network has no such system or option.

        """
        try:
            return self.place[system, option]
        except KeyError:
            raise NetworkError(f"{system} has no option called {option!r}") from None

    def block(self, system: str) -> slice:
        """Return the part of the row that holds a system's options."""
        start = self.first[system]
        return slice(start, start + len(self.options[system]))

    def mask(self, picks: Picks) -> Flags:
        """Return which options of the row the picks leave open; a pick leaves only itself."""
        open_ = np.ones(len(self.labels), dtype=np.bool_)
        for system, option in picks.items():
            place = self.at(system, option)
            open_[self.block(system)] = False
            open_[place] = True
        return open_

    def with_tables(self, tables: Iterable[Table]) -> Network:
        """Return the same systems under these tables."""
        return Network(options=self.options, tables=tuple(tables))


def all_but(
    options: Mapping[str, tuple[str, ...]],
    excluded: Iterable[Picks],
    *,
    id: str,
    reason: Reason,
    source: str = "",
) -> Table:
    """Return the table that allows everything but the given combinations.

    Parameters
    ----------
    options : mapping
        The systems and options of the network.
    excluded : iterable of picks
        Combinations that do not go together, all over the same systems. [-]
    id, reason, source : str
        As the table carries them.

    """
    rows = list(excluded)
    if not rows or any(set(row) != set(rows[0]) for row in rows):
        raise NetworkError(f"table {id} needs combinations, all over the same systems")
    scope = tuple(system for system in options if system in rows[0])
    allowed = np.ones([len(options[system]) for system in scope], dtype=np.bool_)
    for row in rows:
        try:
            allowed[tuple(options[system].index(row[system]) for system in scope)] = False
        except ValueError:
            raise NetworkError(f"table {id} excludes {dict(row)}, which does not exist") from None
    return Table(id=id, scope=scope, allowed=allowed, reason=reason, source=source)
