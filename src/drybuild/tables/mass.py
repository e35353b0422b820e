"""Typed reader of where in a car its systems, people, luggage and fuel usually sit."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.tables.ranges import Range, range_of
from drybuild.tables.table import read_table

ANYWHERE = "any"


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where an item usually sits, and how much of it goes up and down with the wheels."""

    behind: Range
    """Behind the front axle over the wheelbase. [-]"""
    up: Range
    """Over the sill seam. [m]"""
    fitted: bool
    """Whether every car has one already, so that a new one takes its place."""
    unsprung_front: float
    unsprung_rear: float


def place_of(item: str) -> Place:
    """Return the usual place of a system or load; the middle of the car for one without a row."""
    table = read_table("mass_place")
    try:
        row = table.row("item", item)
    except TableError:
        row = table.row("item", ANYWHERE)
    return Place(
        behind=range_of(table, row, "behind"),
        up=range_of(table, row, "up"),
        fitted=row["fitted"] == "yes",
        unsprung_front=float(row["unsprung_front"]),
        unsprung_rear=float(row["unsprung_rear"]),
    )
