"""Typed reader of what follows from how a suspension guides its wheels."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.tables.ranges import Range, range_of
from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class Layout:
    """What wheels that are guided in one way have in common."""

    rigid: bool
    """Whether one beam carries both wheels."""
    carries_final_drive: bool
    """Whether the final drive goes up and down with the wheels."""
    roll_centre: Range
    """Height over the road. [m]"""
    lean: Range
    """Lean of the wheels to the road per roll of the body. [-]"""
    roll_steer: Range
    """Steer per roll, positive to understeer. [-]"""
    motion_ratio: Range
    """Spring travel over wheel travel. [-]"""
    spacing: Range
    """Distance between the springs over the track, where a rigid axle rolls on them. [-]"""
    unsprung: Range
    """Unsprung mass of the axle, with wheels, tyres and brakes. [kg]"""


def layouts() -> tuple[str, ...]:
    """Return the name of every layout."""
    return tuple(row["layout"] for row in read_table("suspension_layout").rows)


def usual_layout(end: str) -> str:
    """Return the most usual layout of a classic car's ``front`` or ``rear``."""
    return read_table("suspension_layout").row("usual", end)["layout"]


def layout_of(name: str) -> Layout:
    """Return what a layout implies."""
    table = read_table("suspension_layout")
    row = table.row("layout", name)
    ranges = {
        one: range_of(table, row, one)
        for one in ("roll_centre", "lean", "roll_steer", "motion_ratio", "spacing", "unsprung")
    }
    return Layout(
        rigid=row["rigid"] == "yes",
        carries_final_drive=row["carries_final_drive"] == "yes",
        **ranges,
    )
