"""Typed reader of where the zones of a body lie on drawings of it.

Lengthwise in stations: 0 the front end, 1 the front wheel centres, 2 the rear ones, 3 the rear
end. Across in half-widths, left is plus; upwards in heights of the body over its sill seam.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.tables.table import read_table

VIEWS = ("side", "top", "under")
"""One side; the skin from above; floor and frame from above."""


@dataclass(frozen=True, kw_only=True)
class Place:
    """A piece of a zone on one view."""

    zone: str
    view: str
    side: str
    """left, right, or nothing for the middle."""
    front: float
    rear: float
    low: float
    high: float


@cache
def places(kind: str) -> tuple[Place, ...]:
    """Return where the zones of a kind of body lie; later ones lie on top of earlier ones."""
    found: list[Place] = []
    for row in read_table("body_place").rows:
        if kind not in row["kinds"].split():
            continue
        front, rear, low, high = (float(row[name]) for name in ("front", "rear", "low", "high"))
        for side in ("left", "right") if row["sided"] == "yes" else ("",):
            mirrored = side == "right" and row["view"] != "side"
            found.append(
                Place(
                    zone=f"{row['zone']} {side}".strip(),
                    view=row["view"],
                    side=side,
                    front=front,
                    rear=rear,
                    low=-high if mirrored else low,
                    high=-low if mirrored else high,
                )
            )
    return tuple(found)
