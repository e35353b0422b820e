"""Typed readers of the clearances that an engine needs in its bay."""

from __future__ import annotations

from drybuild.tables.table import read_table


def needed_clearance(pair: str) -> float:
    """Return the clearance that a kind of pair needs (fixed, bonnet, radiator, steering), in m."""
    return float(read_table("packaging_clearance").row("pair", pair)["clearance"]) * 1e-3
