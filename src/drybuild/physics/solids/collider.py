"""The one place that asks the collision library: convex pieces and cells of sheets, two by two."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple, TypeAlias
from weakref import WeakKeyDictionary

import numpy as np

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array, Piece, Sheet, Whole, hull_piece, planes_of

Body: TypeAlias = Any  # an object of the collision library, which ships no types
Placing: TypeAlias = Any  # likewise
CELL = 200
"""Triangles in a cell of a sheet: few enough to ask quickly, many enough to keep cells few."""
HIT = 1e-9
"""A distance below this is contact. [m]"""


class Answer(NamedTuple):
    """What is told of two items."""

    gap: float
    """Least distance; minus the depth where one is inside the other. [m]"""
    on_first: Array
    """Closest or deepest point of the first, shape (3,). [m]"""
    on_second: Array
    """The same of the second. [m]"""
    normal: Array | None
    """Unit way in which the first comes free soonest, where the points do not say it. [-]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Item:
    """Something that the library can be asked about: a convex piece, or a cell of a sheet."""

    name: str
    points: Array
    """Nominal, in its own axes, shape (points, 3). [m]"""
    body: Body
    normals: Array
    """Unit normals of a piece's faces, outward, shape (faces, 3); none for a cell. [-]"""
    offsets: Array
    """Of those faces' planes from the origin, shape (faces,). [m]"""
    sheet: bool = False


def piece_item(*, piece: Piece) -> Item:
    """Make a convex piece ready to be asked about.

    Parameters
    ----------
    piece : Piece
        The piece; its nominal points count. [m]

    Returns
    -------
    Item
        With a body of the library. [m]

    """
    import fcl  # noqa: PLC0415  a native library, loaded only where distances are asked

    known = _SHAPES.get(piece)
    if known is None:
        whole = piece if piece.faces else hull_piece(name=piece.name, points=piece.nominal)
        points = np.ascontiguousarray(whole.nominal)
        require(np.isfinite(points), piece.name, points, "m", "finite")
        flat = np.array([k for face in whole.faces for k in (len(face), *face)])
        known = (points, fcl.Convex(points, len(whole.faces), flat), *planes_of(piece=whole))
        _SHAPES[piece] = known
    points, shape, normals, offsets = known
    body = fcl.CollisionObject(shape)
    return Item(name=piece.name, points=points, body=body, normals=normals, offsets=offsets)


_SHAPES: WeakKeyDictionary[Piece, tuple[Array, Body, Array, Array]] = WeakKeyDictionary()
"""Pieces as the library holds them: what stands in a bay is asked about for many engines."""


def sheet_items(*, name: str, sheet: Sheet) -> list[Item]:
    """Cut a sheet into cells that lie together, each ready to be asked about.

    Parameters
    ----------
    name : str
        Name of the solid that it belongs to. [-]
    sheet : Sheet
        Its triangles. [m]

    Returns
    -------
    list
        One item a cell of up to `CELL` triangles. [m]

    """
    import fcl  # noqa: PLC0415  as above

    if sheet not in _SHEETS:
        middles = sheet.points[sheet.triangles].mean(axis=1)
        _SHEETS[sheet] = [_cell(sheet, one) for one in cells(middles=middles, most=CELL)]
    none = np.zeros((0, 3))
    return [
        Item(
            name=name,
            points=points,
            body=fcl.CollisionObject(model),
            normals=none,
            offsets=none[:, 0],
            sheet=True,
        )
        for points, model in _SHEETS[sheet]
    ]


_SHEETS: WeakKeyDictionary[Sheet, list[tuple[Array, Body]]] = WeakKeyDictionary()
"""Likewise the cells of sheets: points that stand for the skin, and the library's model."""


def _cell(sheet: Sheet, cell: Whole) -> tuple[Array, Body]:
    import fcl  # noqa: PLC0415  as above

    corners, places = np.unique(sheet.triangles[cell], return_inverse=True)
    points = np.ascontiguousarray(sheet.points[corners])
    triangles = places.reshape(-1, 3)
    model = fcl.BVHModel()
    model.beginModel(len(points), len(triangles))
    model.addSubModel(points, triangles)
    model.endModel()
    inside = points[triangles]
    # Corners, edges' middles and triangles' middles stand for the skin where it is inside.
    seen = np.concatenate(
        (points, inside.mean(axis=1), (inside + np.roll(inside, 1, axis=1)).reshape(-1, 3) / 2)
    )
    return seen, model


def cells(*, middles: Array, most: int) -> list[Whole]:
    """Part points into groups that lie together, halving across the longest side.

    Parameters
    ----------
    middles : array
        Shape (points, 3). [m]
    most : int
        Points in a group at most. [-]

    Returns
    -------
    list
        Places of the points in each group.

    """
    open_ = [np.arange(len(middles))]
    done: list[Whole] = []
    while open_:
        one = open_.pop()
        if len(one) <= most:
            done.append(one)
            continue
        at = middles[one]
        side = int(np.argmax(np.ptp(at, axis=0)))
        order = one[np.argsort(at[:, side], kind="stable")]
        open_ += [order[: len(order) // 2], order[len(order) // 2 :]]
    return done


def placing(*, turn: Array, shift: Array) -> Placing:
    """Return a place as the library has it, for whatever is put there.

    Parameters
    ----------
    turn : array
        Rotation, shape (3, 3). [-]
    shift : array
        Shift, shape (3,). [m]

    Returns
    -------
    Placing
        A transformation of the library. [-]

    """
    import fcl  # noqa: PLC0415  as above

    return fcl.Transform(turn, shift)


def put(*, item: Item, place: Placing) -> None:
    """Put an item in its place.

    Parameters
    ----------
    item : Item
        The item. [-]
    place : Placing
        Its place. [-]

    """
    item.body.setTransform(place)


def ask(
    *, first: Item, second: Item, place: tuple[Array, Array], other: tuple[Array, Array]
) -> Answer:
    """Return how far two items are apart, as put.

    Parameters
    ----------
    first : Item
        A convex piece, put at `place`. [m]
    second : Item
        A convex piece or a cell of a sheet, put at `other`. [m]
    place : tuple
        Rotation [-] and shift [m] of the first.
    other : tuple
        Rotation [-] and shift [m] of the second.

    Returns
    -------
    Answer
        Signed gap, and the closest or deepest points; `touch` says more. [m]

    Notes
    -----
    Convex pieces: the distance where apart (GJK), the penetration depth where not (EPA). The
    library gives no depth against a sheet: there the depth is the greatest distance to the nearest
    face over the sheet's points inside the piece, which is at most half the piece's thickness.

    References
    ----------
    .. [1] E. Gilbert, D. Johnson, S. Keerthi, "A fast procedure for computing the distance between
       complex objects in three-dimensional space", IEEE J. Robotics and Automation 4, 1988.
    .. [2] G. van den Bergen, "Proximity queries and penetration depth computation on 3D game
       objects", 2001.

    """
    distance, result_of, request = _library(second.sheet)
    result = result_of()
    gap = distance(first.body, second.body, request, result)
    if second.sheet and gap < HIT:
        return _depth_in_sheet(first, second, place, other)
    on_first, on_second = result.nearest_points
    return Answer(gap, on_first, on_second, None)


@cache
def _library(sheet: bool) -> tuple[Body, Body, Body]:
    """Return what asks, what makes room for an answer, and the question."""
    import fcl  # noqa: PLC0415  as above

    request = fcl.DistanceRequest(enable_nearest_points=True, enable_signed_distance=not sheet)
    return fcl.distance, fcl.DistanceResult, request


def way_out(
    *,
    answer: Answer,
    first: Item,
    second: Item,
    place: tuple[Array, Array],
    other: tuple[Array, Array],
) -> Array:
    """Return the unit way in which the first of two items has to go to come free soonest.

    Parameters
    ----------
    answer : Answer
        Of asking about the two. [m]
    first : Item
        As it was asked about. [m]
    second : Item
        The same. [m]
    place : tuple
        Rotation [-] and shift [m] of the first.
    other : tuple
        Rotation [-] and shift [m] of the second.

    Returns
    -------
    array
        Shape (3,); along the line between the closest points. [-]

    """
    if answer.normal is not None:
        return answer.normal
    apart = answer.on_first - answer.on_second
    length = math.sqrt(apart @ apart)
    if length < HIT:
        return _widest(first, second, place, other)
    return np.asarray(apart / (length if answer.gap > 0.0 else -length))


def _depth_in_sheet(
    piece: Item, sheet: Item, place: tuple[Array, Array], other: tuple[Array, Array]
) -> Answer:
    at = sheet.points @ other[0].T + other[1]
    own = (at - place[1]) @ place[0]
    room = piece.offsets[None, :] - own @ piece.normals.T
    depth = room.min(axis=1)
    deepest = int(np.argmax(depth))
    face = int(np.argmin(room[deepest]))
    gap = -max(float(depth[deepest]), 0.0)  # triangles cut the piece's edge, all points outside
    normal = -(place[0] @ piece.normals[face])
    return Answer(gap, at[deepest] + normal * gap, at[deepest], normal)


def _widest(
    first: Item, second: Item, place: tuple[Array, Array], other: tuple[Array, Array]
) -> Array:
    """Return the face normal along which two touching items are least inside each other."""
    a = first.points @ place[0].T + place[1]
    b = second.points @ other[0].T + other[1]
    ways = np.concatenate((-(first.normals @ place[0].T), second.normals @ other[0].T))
    apart = (a @ ways.T).min(axis=0) - (b @ ways.T).max(axis=0)
    found: Array = ways[int(np.argmax(apart))]
    return found
