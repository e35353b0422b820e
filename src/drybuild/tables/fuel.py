"""Typed reader of the table of fuels, in SI."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.table import read_table

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
    atmospheric: tuple[float, float, float]
    """Specific consumption at full power without a blower: low, usual, high [kg/J]."""
    charged: tuple[float, float, float]
    """The same with a turbocharger or supercharger."""
    source_id: str


@cache
def fuels() -> dict[str, Fuel]:
    """Return every fuel by name."""
    return {
        row["fuel"]: Fuel(
            name=row["fuel"],
            density=float(row["density"]),
            heating_value=float(row["heating_value"]) * 1e6,
            stoichiometric_ratio=float(row["stoichiometric_ratio"]),
            full_power_ratio=float(row["full_power_ratio"]),
            atmospheric=_range(row, "atmospheric"),
            charged=_range(row, "charged"),
            source_id=row["source_id"],
        )
        for row in read_table("fuel_kind").rows
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


def _range(row: dict[str, str], name: str) -> tuple[float, float, float]:
    low, usual, high = (float(row[f"{name}{end}"]) for end in ("_low", "", "_high"))
    return low * _GRAM_PER_KWH, usual * _GRAM_PER_KWH, high * _GRAM_PER_KWH
