"""Typed reader of the table of fuels, in SI."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.ranges import Range, range_of
from drybuild.tables.table import Table, read_table

_GRAM_PER_KWH = 1.0 / 3.6e9  # [kg/J]


@dataclass(frozen=True, kw_only=True)
class Fuel:
    """A fuel: density, heating value, air it needs, and what an engine uses of it."""

    name: str
    density: float
    heating_value: float
    stoichiometric_ratio: float
    full_power_ratio: float
    """Mass of air for each mass of fuel at full power."""
    atmospheric: Range
    """Specific consumption at full power without a blower [kg/J]."""
    charged: Range
    """The same with a turbocharger or supercharger."""
    source_id: str


@cache
def fuels() -> dict[str, Fuel]:
    """Return every fuel by name."""
    table = read_table("fuel_kind")
    return {
        row["fuel"]: Fuel(
            name=row["fuel"],
            density=float(row["density"]),
            heating_value=float(row["heating_value"]) * 1e6,
            stoichiometric_ratio=float(row["stoichiometric_ratio"]),
            full_power_ratio=float(row["full_power_ratio"]),
            atmospheric=_consumption(table, row, "atmospheric"),
            charged=_consumption(table, row, "charged"),
            source_id=row["source_id"],
        )
        for row in table.rows
    }


def fuel_named(name: str) -> Fuel:
    """Return a fuel by its name.

    Raises
    ------
    TableError
        The table has no such fuel.

    """
    try:
        return fuels()[name]
    except KeyError:
        raise TableError(f"no fuel is called {name!r}; known: {', '.join(fuels())}") from None


def _consumption(table: Table, row: dict[str, str], name: str) -> Range:
    printed = range_of(table, row, name)
    return replace(
        printed,
        low=printed.low * _GRAM_PER_KWH,
        value=printed.value * _GRAM_PER_KWH,
        high=printed.high * _GRAM_PER_KWH,
        unit="kg/J",
    )
