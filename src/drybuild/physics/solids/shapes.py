"""Parts as convex pieces or as sheets of triangles, in axes of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]
Faces = tuple[tuple[int, ...], ...]

BOX_FACES: Faces = (
    (0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3),
)  # fmt: skip
"""Faces of eight points in the order x, then y, then z from low to high; outward to the right."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Piece:
    """A convex body: the hull of its points."""

    name: str
    points: Array
    """Shape (points, 3), or (points, 3, samples + 1) where readings have a spread (m)."""
    faces: Faces = ()
    """Corners of each face, counted so that the normal points out; empty: scipy finds the hull."""
    front: int = 0
    """A wall: only the polygon of so many leading points is to be drawn. Zero draws all faces."""

    @property
    def nominal(self) -> Array:
        """Points as they are at the nominal readings, shape (points, 3) (m)."""
        return self.points if self.points.ndim == 2 else self.points[:, :, 0]


@dataclass(frozen=True, kw_only=True, eq=False)
class Sheet:
    """Triangles of a scan or a drawing; may be open, and its normals need not agree."""

    points: Array
    """Shape (points, 3) (m)."""
    triangles: Whole
    """Three points each, shape (triangles, 3)."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Solid:
    """A named part: pieces, or a sheet, or both."""

    name: str
    pieces: tuple[Piece, ...] = ()
    sheet: Sheet | None = None
    kind: str = "fixed"
    """What it is to its neighbours: `fixed`, `bonnet`, `radiator`, `steering`, `hot`, `rotating`,
    `engine`, `gearbox`, ...: rows of the table of needed clearances."""
    movement: str = ""
    """Name of the movement in the scene that moves it; empty for none."""
    doubt: Array | float = 0.0
    """How far its real skin stands outside of the one drawn; over samples (m)."""
    group: str = ""
    """Parts of one group share a row of the result; the empty one is the engine itself."""
    typical: bool = False
    """A generic or usual shape stands in for a measured one."""


def box_piece(
    *,
    name: str,
    low: Sequence[npt.ArrayLike],
    high: Sequence[npt.ArrayLike],
) -> Piece:
    """Return a box square to its axes.

    Parameters
    ----------
    name : str
        Name of the piece. [-]
    low : sequence of array_like
        Least x, y, z; each a number or samples. [m]
    high : sequence of array_like
        Greatest x, y, z. [m]

    Returns
    -------
    Piece
        Eight corners. [m]

    """
    ends = [(np.asarray(a, float), np.asarray(b, float)) for a, b in zip(low, high, strict=True)]
    corners = [[ends[0][i], ends[1][j], ends[2][k]] for i in (0, 1) for j in (0, 1) for k in (0, 1)]
    return Piece(name=name, points=stacked(corners=corners), faces=BOX_FACES)


def prism_piece(
    *, name: str, first: Sequence[Sequence[npt.ArrayLike]], last: Sequence[Sequence[npt.ArrayLike]]
) -> Piece:
    """Return the hull between two polygons with as many corners: a cylinder, a wedge, a wall.

    Parameters
    ----------
    name : str
        Name of the piece. [-]
    first : sequence
        Corners (x, y, z) of one end, anticlockwise as seen from the other end. [m]
    last : sequence
        Corners of the other end, in the same order. [m]

    Returns
    -------
    Piece
        Twice as many points as corners. [m]

    """
    n = len(first)
    require(len(last) == n and n >= 3, "last", len(last), "-", "as many corners as first")
    sides = tuple((k, k + n, (k + 1) % n + n, (k + 1) % n) for k in range(n))
    faces = (tuple(range(n)), tuple(reversed(range(n, 2 * n))), *sides)
    return Piece(name=name, points=stacked(corners=[*first, *last]), faces=faces)


def cylinder_piece(
    *,
    name: str,
    start: Sequence[npt.ArrayLike],
    end: Sequence[npt.ArrayLike],
    diameter: npt.ArrayLike,
    corners: int = 12,
) -> Piece:
    """Return a cylinder as a prism drawn round it: never smaller than the part.

    Parameters
    ----------
    name : str
        Name of the piece. [-]
    start : sequence of array_like
        Centre of one end. [m]
    end : sequence of array_like
        Centre of the other end. [m]
    diameter : array_like
        Diameter. [m]
    corners : int
        Corners of the prism; twelve stand out by 3.5 % of the radius at most. [-]

    Returns
    -------
    Piece
        The prism. [m]

    Notes
    -----
    A regular polygon round a circle of radius r has its corners at r / cos(π/n).

    """
    a, b = stacked(corners=[start])[0], stacked(corners=[end])[0]
    radius = np.asarray(diameter, float) / 2.0 / np.cos(np.pi / corners)
    axis = (b - a if b.ndim == a.ndim else _like(b, a) - _like(a, b)).reshape(3, -1)[:, 0]
    require(float(np.linalg.norm(axis)) > 0.0, "end", end, "m", "apart from start")
    u, v = _across(axis / np.linalg.norm(axis))
    rings = []
    for centre in (a, b):
        ring = []
        for k in range(corners):
            angle = 2.0 * np.pi * (k + 0.5) / corners
            way = u * np.cos(angle) + v * np.sin(angle)
            ring.append([centre[i] + radius * way[i] for i in range(3)])
        rings.append(ring)
    return prism_piece(name=name, first=rings[0], last=rings[1])


def hull_piece(*, name: str, points: npt.ArrayLike) -> Piece:
    """Return the hull of points.

    Parameters
    ----------
    name : str
        Name of the piece. [-]
    points : array_like
        Four or more points that do not lie in one plane, shape (points, 3). [m]

    Returns
    -------
    Piece
        The points that lie on the hull. [m]

    """
    from scipy.spatial import ConvexHull, QhullError  # noqa: PLC0415  slow to import

    given = np.asarray(points, float)
    require(given.ndim == 2 and given.shape[1:] == (3,), "points", given.shape, "m", "x, y, z rows")
    require(np.isfinite(given), "points", given, "m", "finite")
    try:
        hull = ConvexHull(given)
    except QhullError:
        require(False, "points", len(given), "-", "four or more that do not lie in one plane")
        raise
    place = {int(k): i for i, k in enumerate(hull.vertices)}
    middle = given[hull.vertices].mean(axis=0)
    faces = tuple(
        _outward(given, tuple(int(k) for k in simplex), middle) for simplex in hull.simplices
    )
    return Piece(
        name=name,
        points=given[hull.vertices],
        faces=tuple(tuple(place[k] for k in face) for face in faces),
    )


def moved_piece(*, piece: Piece, turn: Array, shift: Array) -> Piece:
    """Return a piece turned about its axes' origin, then shifted.

    Parameters
    ----------
    piece : Piece
        The piece. [m]
    turn : array
        Rotation, shape (3, 3) or (3, 3, samples + 1). [-]
    shift : array
        Shift, shape (3,) or (3, samples + 1). [m]

    Returns
    -------
    Piece
        As placed. [m]

    """
    return replace(piece, points=moved_points(points=piece.points, turn=turn, shift=shift))


def moved_points(*, points: Array, turn: Array, shift: Array) -> Array:
    """Return points turned, then shifted; whatever has samples spreads to the rest.

    Parameters
    ----------
    points : array
        Shape (points, 3) or (points, 3, samples + 1). [m]
    turn : array
        Rotation, shape (3, 3) or (3, 3, samples + 1). [-]
    shift : array
        Shift, shape (3,) or (3, samples + 1). [m]

    Returns
    -------
    array
        Points as placed. [m]

    """
    if points.ndim == 2 and turn.ndim == 2 and shift.ndim == 1:
        return points @ turn.T + shift
    at = points if points.ndim == 3 else points[:, :, None]
    by = turn if turn.ndim == 3 else turn[:, :, None]
    to = shift if shift.ndim == 2 else shift[:, None]
    return np.asarray(np.einsum("kjs,pjs->pks", by, at) + to)


def triangles_of(
    *, solid: Solid, turn: Array | None = None, shift: Array | None = None
) -> tuple[Array, Whole]:
    """Return a solid at its nominal readings as triangles to draw.

    Parameters
    ----------
    solid : Solid
        The solid. [m]
    turn : array
        Rotation to put it with, shape (3, 3); none leaves it in its own axes. [-]
    shift : array
        Shift after that, shape (3,). [m]

    Returns
    -------
    tuple
        Points (points, 3) [m], and the triangles' corners (triangles, 3) as places in them.

    """
    points: list[Array] = []
    corners: list[tuple[int, ...]] = []
    count = 0
    for piece in solid.pieces:
        whole = piece if piece.faces else hull_piece(name=piece.name, points=piece.nominal)
        faces: Faces = (tuple(range(whole.front)),) if whole.front else whole.faces
        middle = whole.nominal.mean(axis=0)
        corners += [
            _outward(whole.nominal, (face[0], face[k], face[k + 1]), middle, count)
            for face in faces
            for k in range(1, len(face) - 1)
        ]
        points.append(whole.nominal)
        count += len(whole.nominal)
    found = np.array(corners, dtype=np.int64).reshape(-1, 3)
    if solid.sheet is not None:
        points.append(solid.sheet.points)
        found = np.concatenate((found, solid.sheet.triangles + count))
    at = np.concatenate(points) if points else np.zeros((0, 3))
    return moved_points(
        points=at,
        turn=np.eye(3) if turn is None else turn,
        shift=np.zeros(3) if shift is None else shift,
    ), found


def planes_of(*, piece: Piece) -> tuple[Array, Array]:
    """Return the planes of a piece's faces at its nominal readings; a warped face gives two.

    Parameters
    ----------
    piece : Piece
        A piece with faces. [m]

    Returns
    -------
    tuple
        Outward unit normals (faces, 3) [-], and their distances from the origin (faces,). [m]

    """
    points = piece.nominal
    corners = _corners(piece.faces)
    a = points[corners[:, 0]]
    u, v = points[corners[:, 1]] - a, points[corners[:, 2]] - a
    normals = u[:, [1, 2, 0]] * v[:, [2, 0, 1]] - u[:, [2, 0, 1]] * v[:, [1, 2, 0]]
    length = np.sqrt((normals**2).sum(axis=1))
    kept = length > 1e-12
    normals = normals[kept] / length[kept, None]
    outward = ((a[kept] - points.mean(axis=0)) * normals).sum(axis=1)
    normals = np.where(outward[:, None] < 0.0, -normals, normals)
    return normals, (points @ normals.T).max(axis=0)


@lru_cache(maxsize=256)  # most pieces are boxes and prisms
def _corners(faces: Faces) -> Whole:
    """Return three corners of each face, and three more where four or more may be warped."""
    return np.array(
        [
            (face[0], face[k], face[k + 1])
            for face in faces
            for k in ({1, len(face) - 2} if len(face) > 3 else {1})
        ]
    )


def stacked(*, corners: Sequence[Sequence[npt.ArrayLike]]) -> Array:
    """Return points of numbers and samples as one array.

    Parameters
    ----------
    corners : sequence
        Points, each of three numbers or arrays over samples. [m]

    Returns
    -------
    array
        Shape (points, 3), or (points, 3, samples + 1) as soon as one has samples. [m]

    """
    values = [[np.asarray(one, dtype=np.float64) for one in corner] for corner in corners]
    size = max((one.size for corner in values for one in corner), default=1)
    if size == 1:
        return np.array([[one.reshape(-1)[0] for one in corner] for corner in values])
    found = np.empty((len(values), 3, size))
    for i, corner in enumerate(values):
        for j, one in enumerate(corner):
            found[i, j] = one
    return found


def _like(one: Array, other: Array) -> Array:
    return one if one.ndim >= other.ndim else one[..., None]


def _across(axis: Array) -> tuple[Array, Array]:
    """Return two unit vectors square to an axis, right-handed with it."""
    least = np.eye(3)[int(np.argmin(np.abs(axis)))]
    u = np.cross(axis, least)
    u /= np.linalg.norm(u)
    return u, np.cross(axis, u)


def _outward(
    points: Array, face: tuple[int, ...], middle: Array, count: int = 0
) -> tuple[int, ...]:
    """Return a face that looks away from a middle, with its corners counted from a place."""
    a, b, c = (points[k] for k in face[:3])
    inward = float(np.dot(np.cross(b - a, c - a), a - middle)) < 0.0
    return tuple(count + k for k in (reversed(face) if inward else face))
