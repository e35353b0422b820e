"""A published range in a table's row: three columns ``<name>_low, <name>, <name>_high``."""

from __future__ import annotations

from dataclasses import dataclass, replace

from drybuild.tables.table import Table


@dataclass(frozen=True, kw_only=True)
class Range:
    """Where 90 % of cases lie, and the usual value; in the unit of the table's column."""

    low: float
    value: float
    high: float
    unit: str
    source_id: str
    locator: str


def range_of(table: Table, row: dict[str, str], name: str) -> Range:
    """Return the range that a row gives under a name."""
    return Range(
        low=float(row[f"{name}_low"]),
        value=float(row[name]),
        high=float(row[f"{name}_high"]),
        unit=table.units[name],
        source_id=row["source_id"],
        locator=row["locator"],
    )


def scaled(known: Range, factor: float, unit: str) -> Range:
    """Return a range times a factor, in another unit: a share of a length as a length."""
    ends = sorted((known.low * factor, known.high * factor))
    return replace(known, low=ends[0], value=known.value * factor, high=ends[1], unit=unit)
