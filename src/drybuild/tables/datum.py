"""Typed readers of the datum sheet's tables: numbered points, tolerances, openings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from drybuild.errors import TableError
from drybuild.tables.table import read_table

SIDES = ("left", "right")
LONG = (("1", "7"), ("2", "6"), ("3", "5"), ("2", "7"))
"""Pairs whose long diagonals check the rest."""
OPENINGS = (
    "windscreen",
    "rear window",
    "front door left",
    "front door right",
    "rear door left",
    "rear door right",
    "bonnet",
    "boot",
)
"""Openings whose two diagonals are measured."""


@dataclass(frozen=True, kw_only=True)
class PointPair:
    """A pair of points, left and right, as numbered on the sheet."""

    number: str
    station: float
    """Along the body: 0 front end, 1 and 2 the wheel centres, 3 rear end."""
    across: float
    """Off the middle, in half-widths of the body."""
    seam: bool
    """Whether it lies on the straight line of the sill or cab rail."""
    words: str


@cache
def point_pairs(kind: str) -> tuple[PointPair, ...]:
    """Return the numbered pairs of a kind of body, front to rear."""
    return tuple(
        PointPair(
            number=row["point"],
            station=float(row["station"]),
            across=float(row["across"]),
            seam=row["seam"] == "yes",
            words=row["words"],
        )
        for row in read_table("datum_point").rows
        if kind in row["kinds"].split()
    )


def asked_lengths(pairs: tuple[PointPair, ...]) -> tuple[str, ...]:
    """Return the lengths that the sheet asks for: widths, sides, and diagonals of each field."""
    numbers = [one.number for one in pairs]
    found = [f"{one} left to {one} right" for one in numbers]
    for first, second in pairwise(numbers):
        found += [f"{first} {side} to {second} {side}" for side in SIDES]
        found += [f"{first} left to {second} right", f"{first} right to {second} left"]
    for first, second in LONG:
        if {first, second} <= set(numbers):
            found += [f"{first} left to {second} right", f"{first} right to {second} left"]
    return tuple(dict.fromkeys(found))


@cache
def point_names() -> tuple[str, ...]:
    """Return every point's name: ``3 left``."""
    numbers = dict.fromkeys(row["point"] for row in read_table("datum_point").rows)
    return tuple(f"{number} {side}" for number in numbers for side in SIDES)


@cache
def allowed(what: str) -> float:
    """Return a tolerance in metres."""
    for row in read_table("datum_tolerance").rows:
        if row["what"] == what:
            return float(row["allowed"]) * 1e-3
    raise TableError(f"datum_tolerance has no {what!r}")


@cache
def length_ends(name: str) -> tuple[str, str] | None:
    """Return the two points that a length's name tells: ``3 left to 6 right``; else nothing."""
    first, word, second = name.partition(" to ")
    ends = first.strip(), second.strip()
    if not word or ends[0] == ends[1] or not set(ends) <= set(point_names()):
        return None
    return ends
