"""Outlines of solids: what is seen along an axis, and what a plane cuts.

A solid is a union of convex pieces. Seen along an axis, or cut by a plane, each piece gives a
convex polygon; the outline is the boundary of their union. A scan's open sheet gives lines.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array, Whole

Polygon: TypeAlias = Array
"""Corners of a convex polygon, anticlockwise, shape (corners, 2) (m)."""
Flags: TypeAlias = npt.NDArray[np.bool_]
Segments: TypeAlias = Array
"""Straight lines, shape (lines, 2 ends, 2) (m)."""
SAME = 1e-7
"""Lines and points nearer than this are the same. [m]"""
JOINS = 1e-5
"""Ends of lines nearer than this are joined to a loop. [m]"""


def convex_outline(*, points: npt.ArrayLike) -> Polygon:
    """Return the corners of the least convex polygon round points in a plane.

    Parameters
    ----------
    points : array_like
        Points, shape (points, 2). [m]

    Returns
    -------
    array
        Corners, anticlockwise; fewer than three where the points lie on one line. [m]

    Notes
    -----
    Monotone chain: points by x, then the lower and the upper side by left turns.

    References
    ----------
    .. [1] A. Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information
       Processing Letters 9, 1979 (from memory).

    """
    given = np.unique(np.asarray(points, float).round(12), axis=0)
    if len(given) < 3:
        return given

    def side(ordered: Iterable[Array]) -> list[Array]:
        kept: list[Array] = []
        for point in ordered:
            while len(kept) > 1 and _left(kept[-2], kept[-1], point) <= SAME**2:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    return np.array(side(given) + side(given[::-1]))


def seen_along(*, points: Iterable[Array], axes: tuple[int, int]) -> list[Polygon]:
    """Return each convex piece as it is seen along the axis that is not named.

    Parameters
    ----------
    points : iterable of array
        Corners of each piece, shape (points, 3). [m]
    axes : tuple
        Which of x, y, z (0, 1, 2) go along and up. [-]

    Returns
    -------
    list of array
        Polygons; pieces that are seen edge-on are left out. [m]

    """
    found = (convex_outline(points=one[:, list(axes)]) for one in points)
    return [one for one in found if len(one) > 2]


def cut_piece(*, points: Array, axis: int, at: float) -> Polygon:
    """Return what a plane square to an axis cuts out of a convex piece.

    Parameters
    ----------
    points : array
        Corners of the piece, shape (points, 3). [m]
    axis : int
        The plane is square to x, y or z (0, 1, 2). [-]
    at : float
        Where on that axis it stands. [m]

    Returns
    -------
    array
        The polygon in the other two axes, in their order; empty where the plane passes by. [m]

    Notes
    -----
    Each line between a corner on one side and one on the other meets the plane inside the piece;
    the hull of all these points is the section.

    References
    ----------
    .. [1] Definition of a convex set.

    """
    others = [k for k in range(3) if k != axis]
    above = points[points[:, axis] >= at]
    below = points[points[:, axis] < at]
    if not (len(above) and len(below)):
        return np.zeros((0, 2))
    high, low = above[:, None, axis] - at, at - below[None, :, axis]
    share = (high / (high + low))[:, :, None]
    met = above[:, None, others] * (1.0 - share) + below[None, :, others] * share
    found = convex_outline(points=met.reshape(-1, 2))
    return found if len(found) > 2 else np.zeros((0, 2))


def cut_sheet(*, points: Array, triangles: Whole, axis: int, at: float) -> Segments:
    """Return the lines in which a plane square to an axis cuts triangles.

    Parameters
    ----------
    points : array
        Points, shape (points, 3). [m]
    triangles : array
        Their corners, shape (triangles, 3). [-]
    axis : int
        The plane is square to x, y or z (0, 1, 2). [-]
    at : float
        Where on that axis it stands. [m]

    Returns
    -------
    array
        Lines in the other two axes, in their order. [m]

    Notes
    -----
    A triangle with corners on both sides has two sides that cross the plane, each at the share
    d_a / (d_a - d_b) of its way; a corner in the plane counts as above it.

    References
    ----------
    .. [1] Section of a triangle by a plane, definition.

    """
    over = points[:, axis] - at
    above = over[triangles] >= 0.0
    met = triangles[above.any(axis=1) & ~above.all(axis=1)]
    others = [k for k in range(3) if k != axis]
    found = np.zeros((len(met), 2, 2))
    filled = np.zeros(len(met), dtype=int)
    for first, last in ((0, 1), (1, 2), (2, 0)):
        a, b = met[:, first], met[:, last]
        rows = np.nonzero((over[a] >= 0.0) != (over[b] >= 0.0))[0]
        a, b = a[rows], b[rows]
        share = (over[a] / (over[a] - over[b]))[:, None]
        found[rows, filled[rows]] = (
            points[a][:, others] * (1.0 - share) + points[b][:, others] * share
        )
        filled[rows] += 1
    kept: Segments = found[np.linalg.norm(found[:, 1] - found[:, 0], axis=1) > SAME]
    return kept


def clipped(*, polygon: Polygon, low: tuple[float, float], high: tuple[float, float]) -> Polygon:
    """Return what of a convex polygon lies within an upright box.

    Parameters
    ----------
    polygon : array
        Corners, anticlockwise. [m]
    low : tuple
        The box's least place along and up. [m]
    high : tuple
        Its greatest. [m]

    Returns
    -------
    array
        Corners, anticlockwise; fewer than three where nothing is left. [m]

    Notes
    -----
    The box's sides cut one after another; what is cut stays convex.

    References
    ----------
    .. [1] I. Sutherland, G. Hodgman, "Reentrant polygon clipping", Communications of the ACM 17,
       1974 (from memory).

    """
    left = np.asarray(polygon, float)
    for axis in (0, 1):
        for way, bound in ((1.0, low[axis]), (-1.0, -high[axis])):
            over = way * left[:, axis] - bound
            kept: list[Array] = []
            for k in range(len(left)):
                after = (k + 1) % len(left)
                if over[k] >= 0.0:
                    kept.append(left[k])
                if (over[k] >= 0.0) != (over[after] >= 0.0):
                    share = over[k] / (over[k] - over[after])
                    kept.append(left[k] + (left[after] - left[k]) * share)
            left = np.array(kept).reshape(-1, 2)
    return left


def union_edges(*, polygons: Sequence[Polygon]) -> Segments:
    """Return the boundary of the union of convex polygons, its inside to the left.

    Parameters
    ----------
    polygons : sequence of array
        Convex polygons, anticlockwise. [m]

    Returns
    -------
    array
        Lines, each with its inside to the left; holes run clockwise. [m]

    Notes
    -----
    Of each side what lies inside another polygon is left out. Of two sides on one line with the
    same way the first polygon's counts; with opposite ways the polygons join there.

    References
    ----------
    .. [1] M. Cyrus, J. Beck, "Generalized two- and three-dimensional clipping", Computers and
       Graphics 3, 1978 (from memory).

    """
    if not polygons:
        return np.zeros((0, 2, 2))
    sides = [np.stack((one, np.roll(one, -1, axis=0)), axis=1) for one in polygons]
    lines, own = np.concatenate(sides), np.repeat(np.arange(len(sides)), [len(s) for s in sides])
    spans = _inside(lines, polygons, own)
    kept = [
        _part(line[0], line[1], *span)
        for line, taken in zip(lines, spans, strict=True)
        for span in _rest(taken, line[0], line[1])
    ]
    return np.array(kept).reshape(-1, 2, 2)


def parted(*, lines: Segments, polygons: Sequence[Polygon]) -> tuple[Segments, Segments]:
    """Return what of some lines lies outside of polygons, and what inside.

    Parameters
    ----------
    lines : array
        Lines, shape (lines, 2, 2). [m]
    polygons : sequence of array
        Convex polygons, anticlockwise; any of them hides. [m]

    Returns
    -------
    tuple
        Lines outside and lines inside. [m]

    """
    outside: list[Array] = []
    hidden: list[Array] = []
    for (start, end), spans in zip(lines, _inside(lines, polygons, None), strict=True):
        rest = _rest(spans, start, end)
        outside += [_part(start, end, *span) for span in rest]
        hidden += [_part(start, end, *span) for span in _rest(rest, start, end)]
    return np.array(outside).reshape(-1, 2, 2), np.array(hidden).reshape(-1, 2, 2)


def loops_of(*, lines: Segments) -> list[Array]:
    """Return lines joined end to end to loops, the longest first.

    Parameters
    ----------
    lines : array
        Lines with their inside to the left. [m]

    Returns
    -------
    list of array
        Corners of each loop, shape (corners, 2), not repeated; corners on a straight line are
        left out. [m]

    """
    left = list(range(len(lines)))
    found: list[Array] = []
    while left:
        chain = [lines[left.pop(0)]]
        while left:
            ends = np.array([lines[k][0] for k in left])
            away = np.linalg.norm(ends - chain[-1][1], axis=1)
            nearest = int(np.argmin(away))
            if away[nearest] > JOINS:
                break
            chain.append(lines[left.pop(nearest)])
            if float(np.linalg.norm(chain[-1][1] - chain[0][0])) < JOINS:
                break
        corners = _straightened(np.array([one[0] for one in chain]))
        if len(corners) > 2:
            found.append(corners)
    return sorted(found, key=lambda one: -abs(area_of(loop=one)))


def area_of(*, loop: npt.ArrayLike) -> float:
    """Return the area within a loop; minus where it runs clockwise.

    Parameters
    ----------
    loop : array_like
        Corners, shape (corners, 2). [m]

    Returns
    -------
    float
        Signed area. [m²]

    Notes
    -----
    A = ½ Σ (x_k y_{k+1} − x_{k+1} y_k).

    References
    ----------
    .. [1] The surveyor's formula; any text on plane geometry (from memory).

    """
    at = np.asarray(loop, float)
    require(at.ndim == 2 and at.shape[1:] == (2,), "loop", at.shape, "m", "x, y rows")
    after = np.roll(at, -1, axis=0)
    return float((at[:, 0] * after[:, 1] - after[:, 0] * at[:, 1]).sum() / 2.0)


def _left(a: Array, b: Array, c: Array) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def _inside(
    lines: Segments, polygons: Sequence[Polygon], own: Whole | None
) -> list[list[tuple[float, float]]]:
    """Return for each line from where to where, as shares, it runs inside polygons.

    With `own`, lines are sides of these polygons: each is held against the others, and on a side
    that it shares with an earlier one it counts as inside.
    """
    found: list[list[tuple[float, float]]] = [[] for _ in lines]
    if not len(lines) or not polygons:
        return found
    which, other = np.nonzero(_near(lines, polygons))
    if own is not None:
        apart = own[which] != other
        which, other = which[apart], other[apart]
    start, along = lines[which, 0], lines[which, 1] - lines[which, 0]
    earlier = np.zeros(len(which), dtype=np.bool_) if own is None else other < own[which]
    low, high = _spans(start, along, other, polygons, earlier)
    for k in np.flatnonzero(low < high):
        found[which[k]].append((float(low[k]), float(high[k])))
    return found


def _spans(
    start: Array, along: Array, of: Whole, polygons: Sequence[Polygon], earlier: Flags
) -> tuple[Array, Array]:
    """Return where lines come into and go out of convex polygons; nothing inside: the same."""
    corners, sides, inward = _sides(polygons)
    from_ = ((start[:, None] - corners[of]) * inward[of]).sum(axis=2)
    slope = (inward[of] * along[:, None]).sum(axis=2)
    on = np.maximum(np.abs(from_), np.abs(from_ + slope)) < SAME  # on one line with that side
    alike = (sides[of] * along[:, None]).sum(axis=2) > 0.0
    beside = ~on & (np.abs(slope) < 1e-12)
    out = (on & alike & ~earlier[:, None]) | (beside & (from_ <= 0.0))
    meets = np.divide(-from_, slope, out=np.zeros_like(slope), where=~(on | beside))
    low = np.where(~(on | beside) & (slope > 0.0), meets, 0.0).max(axis=1, initial=0.0)
    high = np.where(~(on | beside) & (slope < 0.0), meets, 1.0).min(axis=1, initial=1.0)
    return np.where(out.any(axis=1), high, low), high


def _sides(polygons: Sequence[Polygon]) -> tuple[Array, Array, Array]:
    """Return corners, sides and inward normals, as many a polygon: the first is repeated."""
    most = max(len(one) for one in polygons)
    corners = np.zeros((len(polygons), most, 2))
    sides = np.zeros((len(polygons), most, 2))
    for k, one in enumerate(polygons):
        places = np.arange(most) * (np.arange(most) < len(one))
        corners[k], sides[k] = one[places], (np.roll(one, -1, axis=0) - one)[places]
    square = np.stack([-sides[..., 1], sides[..., 0]], axis=2)
    return corners, sides, square / np.linalg.norm(sides, axis=2)[..., None]


def _near(lines: Segments, polygons: Sequence[Polygon]) -> Flags:
    """Return which lines' boxes meet which polygons' boxes."""
    low = np.array([one.min(axis=0) for one in polygons]) - SAME
    high = np.array([one.max(axis=0) for one in polygons]) + SAME
    first, last = lines.min(axis=1)[:, None], lines.max(axis=1)[:, None]
    found: Flags = ((first <= high) & (last >= low)).all(axis=2)
    return found


def _rest(
    taken: Sequence[tuple[float, float]], start: Array, end: Array
) -> list[tuple[float, float]]:
    """Return what spans leave of a line, as shares."""
    least = SAME / max(float(np.linalg.norm(end - start)), SAME)
    found, at = [], 0.0
    for low, high in sorted(taken):
        if low - at > least:
            found.append((at, low))
        at = max(at, high)
    if 1.0 - at > least:
        found.append((at, 1.0))
    return found


def _part(start: Array, end: Array, low: float, high: float) -> Array:
    return np.array([start + (end - start) * low, start + (end - start) * high])


def _straightened(corners: Array) -> Array:
    """Leave out corners that lie on the line between their neighbours."""
    if len(corners) < 3:
        return corners
    before, after = np.roll(corners, 1, axis=0), np.roll(corners, -1, axis=0)
    a, b = corners - before, after - corners
    bend = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
    kept: Array = corners[
        bend > SAME * np.maximum(np.linalg.norm(a, axis=1), np.linalg.norm(b, axis=1))
    ]
    return kept
