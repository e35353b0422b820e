"""Typed reader of how things are measured, asked for or looked up, by field."""

from __future__ import annotations

from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache

from drybuild.errors import UnitError
from drybuild.tables.table import read_table
from drybuild.units import factor_and_offset


@dataclass(frozen=True, kw_only=True)
class HowTo:
    """How to come by a field's value, and how good it will be."""

    field: str
    act: str
    """measure, ask, look up or decide."""
    tool: str
    method: str
    error: float
    error_unit: str
    minutes: float
    caution: str

    def error_of(self, value: float, unit: str) -> float:
        """Return the half-width of its 5-95 % band for a value in SI."""
        if self.error_unit == "%":
            return abs(value) * self.error / 100.0
        return self.error * abs(factor_and_offset(self.error_unit, unit)[0])


@cache
def how_to(field: str, unit: str = "") -> HowTo | None:
    """Return how to come by a field; the most exact row that fits counts, else nothing.

    Parameters
    ----------
    field : str
        The path without the person's own names: ``engine.mass``, ``car.body.wheelbase``.
    unit : str
        SI unit of the field; rows whose error measures something else do not fit.

    """
    wanted = field.replace("[", "(").replace("]", ")")
    alike = [one for beginning, one in _rows() if wanted.startswith(beginning)]
    fitting = [one for one in alike if fnmatchcase(wanted, one.field) and _measures(one, unit)]
    return max(fitting, key=_exactness, default=None)


def _measures(one: HowTo, unit: str) -> bool:
    if not unit or one.error_unit == "%":
        return True
    try:
        factor_and_offset(one.error_unit, unit)
    except UnitError:
        return False
    return True


def _exactness(one: HowTo) -> tuple[bool, bool, int]:
    """Rank rows: a whole path, then a field of any system (``*.mass``), then any of a system."""
    return "*" not in one.field, not one.field.endswith(".*"), len(one.field)


@cache
def _rows() -> tuple[tuple[str, HowTo], ...]:
    """Return every row behind what its field begins with, up to the first star."""
    return tuple(
        (one.field.partition("*")[0], one)
        for one in map(_how_to, read_table("how_to_measure").rows)
    )


def _how_to(row: dict[str, str]) -> HowTo:
    return HowTo(
        field=row["field"].replace("[", "(").replace("]", ")"),
        act=row["act"],
        tool=row["tool"],
        method=row["method"],
        error=float(row["error"]),
        error_unit=row["error_unit"],
        minutes=float(row["minutes"]),
        caution=row["caution"],
    )
