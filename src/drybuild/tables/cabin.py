"""Typed readers of belt rules and roll-bar tubes."""

from __future__ import annotations

from math import radians

from drybuild.errors import TableError
from drybuild.tables.table import read_table

_SI = {"deg": radians(1.0), "m": 1.0, "N": 1.0}


def belt_rule(rule: str, item: str) -> tuple[float, float | None]:
    """Return the lower and the upper bound of a rule's item, in SI; no upper one is None."""
    for row in read_table("cabin_belt_rule").rows:
        if (row["rule"], row["item"]) == (rule, item):
            factor = _SI[row["unit"]]
            high = float(row["high"]) * factor if row["high"] else None
            return float(row["low"]) * factor, high
    raise TableError(f"cabin_belt_rule has no row for {rule}, {item}")


def roll_bar_tubes(use: str) -> tuple[tuple[float, float], ...]:
    """Return outside diameter and wall of the tubes listed for a use, in m."""
    return tuple(
        (float(row["outside_diameter"]) * 1e-3, float(row["wall"]) * 1e-3)
        for row in read_table("cabin_roll_bar_tube").rows
        if row["use"] == use
    )
