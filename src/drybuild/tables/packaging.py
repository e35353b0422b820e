"""Typed readers of the clearances that an engine needs, and of the usual shapes of engines."""

from __future__ import annotations

from functools import cache

from drybuild.tables.ranges import Range, range_of
from drybuild.tables.table import read_table


@cache
def needed_clearance(pair: str) -> float:
    """Return the clearance that a kind of pair needs (fixed, bonnet, radiator, steering), in m."""
    return float(read_table("packaging_clearance").row("pair", pair)["clearance"]) * 1e-3


@cache
def clearance_row(part: str, standing: str) -> str:
    """Return the row that holds for a part of the engine and a kind of standing thing.

    A row for just this pair goes before that of the standing thing; without either, a hot part
    keeps what it keeps of any fixed part, and everything else what any fixed pair keeps.
    """
    known = {row["pair"] for row in read_table("packaging_clearance").rows}
    tried = [f"{part} to {standing}", standing, f"{part} to fixed", "fixed"]
    if part == "hot" and tried[0] not in known:
        tried = [f"{part} to fixed"]
    return next(one for one in tried if one in known)


def engine_rows(form: str, heads: str) -> tuple[dict[str, str], ...]:
    """Return the pieces of a kind of engine, as shares of its dimensions."""
    return tuple(
        row
        for row in read_table("engine_pieces").rows
        if row["shape"] == form and row["heads"] in ("any", heads)
    )


def part_rows(form: str) -> tuple[dict[str, str], ...]:
    """Return the pieces of a usual part, as shares of the box round it."""
    return tuple(row for row in read_table("part_pieces").rows if row["shape"] == form)


def part_size(form: str, side: str) -> Range:
    """Return the usual length, width or height of a part, in m."""
    table = read_table("part_sizes")
    return range_of(table, table.row("shape", form), side)
