"""Typed readers of the tyre tables: loads, speeds, listed sizes, interchange, rims."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.tables.table import Table, read_table

MILLIMETRE = 0.001  # [m]
INCH = 0.0254  # [m]
POUND = 0.45359237  # [kg]
KILOMETRE_PER_HOUR = 1.0 / 3.6  # [m/s]
UNSTATED_ASPECT = 0.82  # [-], tyre-size-guide: where a metric size names no series


@dataclass(frozen=True, kw_only=True)
class ListedSize:
    """A size whose dimensions the standard prints instead of a formula."""

    measuring_rim_width: float
    """[m]"""
    outside_diameter: float
    """[m]"""
    section_width: float
    """[m]"""


def load_capacity(load_index: int) -> float:
    """Return the load of a load index. [kg]."""
    return float(read_table("tyre_load_index").row("load_index", str(load_index))["capacity"])


def highest_speed(symbol: str) -> float:
    """Return the speed of a speed symbol. [m/s].

    Notes
    -----
    ZR alone promises more than 240 km/h; 240 is what it is taken for.

    """
    known = "V" if symbol in ("Z", "ZR") else symbol
    row = read_table("tyre_speed_symbol").row("symbol", known)
    return float(row["speed"]) * KILOMETRE_PER_HOUR


def letter_load_capacity(letter: str) -> float:
    """Return the load of a letter size at 32 psi, load range B. [kg]."""
    row = read_table("tyre_load_letter").row("letter", letter)
    return float(row["load_at_32_psi"]) * POUND


def listed_size(size: str) -> ListedSize | None:
    """Return what the standard lists for a size without a series, or None if it does not."""
    row = _optional_row(read_table("tyre_listed_size"), "size", size)
    if row is None:
        return None
    return ListedSize(
        measuring_rim_width=float(row["measuring_rim_width"]) * INCH,
        outside_diameter=float(row["outside_diameter"]) * MILLIMETRE,
        section_width=float(row["section_width"]) * MILLIMETRE,
    )


def metric_sizes() -> tuple[str, ...]:
    """Return the metric sizes that exist, with the load index of each: ``185/65R15 88``."""
    rows = read_table("tyre_metric_size").rows
    return tuple(f"{row['size']} {row['load_index']}" for row in rows)


def metric_equivalent(size: str) -> str | None:
    """Return the metric size that the trade fits in place of an old one; only nearly equal."""
    row = _optional_row(read_table("tyre_interchange"), "old_size", size)
    return None if row is None else row["metric_size"]


def measuring_rim_ratio(aspect: float) -> float:
    """Return measuring rim width over section width for a series, 0.55 for a 55. [-]."""
    return float(_band("tyre_rim_ratio", aspect)["measuring_ratio"])


def rim_width_range(aspect: float) -> tuple[float, float]:
    """Return the least and largest rim width over section width for a series. [-]."""
    row = _band("tyre_rim_range", aspect)
    return float(row["least_ratio"]), float(row["largest_ratio"])


def _optional_row(table: Table, column: str, value: str) -> dict[str, str] | None:
    return next((row for row in table.rows if row[column] == value), None)


def _band(name: str, aspect: float) -> dict[str, str]:
    per_cent = aspect * 100.0
    for row in read_table(name).rows:
        if float(row["aspect_from"]) <= per_cent < float(row["aspect_to"]):
            return row
    raise TableError(f"{name} has no row for a series of {per_cent:g}")
