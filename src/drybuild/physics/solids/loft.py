"""Walls and skins lofted between tape-measure stations, as convex pieces with their back away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeAlias

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array, Piece, prism_piece

BACK = 0.5
"""How thick a wall is made behind its face, so that a part driven into it is pushed out again. [m]
It is no reading: clearances go by the face alone until a part is half as deep inside."""

Number: TypeAlias = Array | float
Point: TypeAlias = tuple[Number, Number, Number]


@dataclass(frozen=True, kw_only=True)
class Section:
    """One station across the car: half-widths over heights. Numbers or samples."""

    x: Number
    """Place of the station. [m]"""
    heights: Sequence[Number]
    """Heights, rising. [m]"""
    widths: Sequence[Number]
    """Distance of the wall from the car's middle at each height. [m]"""


def wall_pieces(*, name: str, sections: Sequence[Section], side: float) -> tuple[Piece, ...]:
    """Return one side's wall between stations.

    Parameters
    ----------
    name : str
        Name of the wall; its pieces count from there. [-]
    sections : sequence of Section
        Two or more stations, each with as many heights as the others, two or more. [m]
    side : float
        1 for the left wall, -1 for the right one. [-]

    Returns
    -------
    tuple of Piece
        One piece for each field between two stations and two heights. A field whose corners do not
        lie in one plane bulges towards the bay, never away from it. [m]

    Notes
    -----
    Linear loft: straight lines from station to station at each counted height.

    References
    ----------
    .. [1] Ruled surface, definition.

    """
    _check(sections)
    found = []
    for i, (rear, front) in enumerate(pairwise(sections)):
        for j in range(len(rear.heights) - 1):
            face = [
                _on_wall(rear, j, side),
                _on_wall(front, j, side),
                _on_wall(front, j + 1, side),
                _on_wall(rear, j + 1, side),
            ]
            found.append(_backed(f"{name} {i + 1}.{j + 1}", face, (0.0, side * BACK, 0.0)))
    return tuple(found)


def roof_pieces(
    *, name: str, left: Sequence[Section], right: Sequence[Section]
) -> tuple[Piece, ...]:
    """Return the roof between the tops of two walls: a tunnel's.

    Parameters
    ----------
    name : str
        Name of the roof. [-]
    left : sequence of Section
        Stations of the left wall. [m]
    right : sequence of Section
        Stations of the right wall, at the same places. [m]

    Returns
    -------
    tuple of Piece
        One piece between each two stations. [m]

    """
    _check(left)
    _check(right)
    found = []
    for i, ((rear, front), (rear_right, front_right)) in enumerate(
        zip(pairwise(left), pairwise(right), strict=True)
    ):
        face = [
            _on_wall(rear, -1, 1.0),
            _on_wall(front, -1, 1.0),
            _on_wall(front_right, -1, -1.0),
            _on_wall(rear_right, -1, -1.0),
        ]
        found.append(_backed(f"{name} {i + 1}", face, (0.0, 0.0, BACK)))
    return tuple(found)


def lid_pieces(
    *,
    name: str,
    stations: Sequence[tuple[Number, Number]],
    half_width: Number,
    drops: Sequence[Number],
) -> tuple[Piece, ...]:
    """Return the underside of a bonnet: straight between stations, falling to its sides.

    Parameters
    ----------
    name : str
        Name of the lid. [-]
    stations : sequence
        Places and heights in the middle, rear to front, two or more. [m]
    half_width : array_like
        Half its width. [m]
    drops : sequence of array_like
        How much lower its edges lie at each station. [m]

    Returns
    -------
    tuple of Piece
        Two pieces, left and right, between each two stations. [m]

    """
    require(len(stations) >= 2, "stations", len(stations), "-", "two or more")
    found = []
    rows = [(x, z, drop) for (x, z), drop in zip(stations, drops, strict=True)]
    for i, (rear, front) in enumerate(pairwise(rows)):
        for word, side in (("left", 1.0), ("right", -1.0)):
            edge = half_width * side
            face: list[Point] = [
                (rear[0], 0.0, rear[1]),
                (front[0], 0.0, front[1]),
                (front[0], edge, front[1] - front[2]),
                (rear[0], edge, rear[1] - rear[2]),
            ]
            found.append(_backed(f"{name} {word} {i + 1}", face, (0.0, 0.0, BACK)))
    return tuple(found)


def _backed(name: str, face: list[Point], away: tuple[float, float, float]) -> Piece:
    """Return a face with its back put off by a way."""
    back = [(x + away[0], y + away[1], z + away[2]) for x, y, z in face]
    return replace(prism_piece(name=name, first=face, last=back), front=len(face))


def _on_wall(section: Section, k: int, side: float) -> Point:
    return section.x, side * section.widths[k], section.heights[k]


def _check(sections: Sequence[Section]) -> None:
    require(len(sections) >= 2, "sections", len(sections), "-", "two or more")
    sizes = {(len(one.heights), len(one.widths)) for one in sections}
    first = next(iter(sizes))
    same = len(sizes) == 1 and first[0] == first[1] and first[0] >= 2
    require(same, "heights", sorted(sizes), "-", "as many as widths, two or more, at each station")
