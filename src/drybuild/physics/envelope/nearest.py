"""Which points come nearest to a wheel's section: to a convex outline, of many points."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

SECTOR = np.radians(4.0)
"""Two contacts are told apart when the section's middle sees them this far apart."""
FEW = 40
"""So many places are looked at without a choice."""


def outline_distance(*, outline: Array, points: Array) -> tuple[Array, Array]:
    """Return the distance of points from a convex outline, and which way it grows.

    Parameters
    ----------
    outline : array
        Corners anticlockwise, (corners, 2). [m]
    points : array
        (points, 2). [m]

    Returns
    -------
    tuple of array
        Distance, less than zero inside, (points,), and unit vectors, (points, 2). [m]

    Notes
    -----
    Outside: to the nearest point of the nearest edge. Inside: to the nearest edge's line.

    References
    ----------
    .. [1] Geometry of a convex polygon.

    """
    require(outline.shape[0] > 2, "outline", outline.shape[0], "-", "three corners or more")
    edges = np.roll(outline, -1, axis=0) - outline
    size = np.linalg.norm(edges, axis=1)
    along = edges / size[:, np.newaxis]
    out = np.stack((along[:, 1], -along[:, 0]), axis=1)
    apart = points[:, np.newaxis] - outline
    height = apart[..., 0] * out[:, 0] + apart[..., 1] * out[:, 1]
    foot = apart[..., 0] * along[:, 0] + apart[..., 1] * along[:, 1]
    beyond = np.maximum(np.maximum(-foot, foot - size), 0.0)
    squared = height * height + beyond * beyond
    inside = height.max(axis=1) <= 0.0
    edge = np.where(inside, height.argmax(axis=1), _nearest(squared, height))
    line = np.arange(points.shape[0])
    past = np.clip(foot[line, edge], 0.0, size[edge])
    nearest = outline[edge] + past[:, np.newaxis] * along[edge]
    away = points - nearest
    length = np.linalg.norm(away, axis=1)
    known = ~inside & (length > 0.0)
    normal = np.where(
        known[:, np.newaxis], away / np.where(known, length, 1.0)[:, np.newaxis], out[edge]
    )
    return np.where(inside, height[line, edge], length), normal


def nearby(
    *, outline: Array, points: Array, roundness: Array, beyond: float, starts: Places
) -> Places:
    """Return the points of each group that may be its nearest, and those a little farther.

    Parameters
    ----------
    outline : array
        Corners anticlockwise, (corners, 2). [m]
    points : array
        (points, 2), group after group. [m]
    roundness : array
        Radius round each point, (points,). [m]
    beyond : float
        How much farther than the nearest is still asked for. [m]
    starts : array
        Place of each group's first point, rising from zero. [-]

    Returns
    -------
    array
        Their places, rising; of many within a degree the one that seems nearest. [-]

    Notes
    -----
    The farthest that a point stands over any edge's line is no more than its distance: what
    stands farther than the nearest point's distance and `beyond` is left out for certain.

    References
    ----------
    .. [1] Support lines of a convex polygon.

    """
    over = _over(outline, points) - roundness
    ends = np.append(starts[1:], over.size)
    first = [
        start + np.argpartition(over[start:end], min(8, end - start - 1))[:8]
        for start, end in zip(starts, ends, strict=True)
    ]
    tried = np.concatenate(first)
    least, _ = outline_distance(outline=outline, points=points[tried])
    begins = np.cumsum([0, *(one.size for one in first[:-1])])
    group = np.repeat(np.arange(starts.size), ends - starts)
    known = np.minimum.reduceat(least - roundness[tried], begins)[group]
    kept = np.flatnonzero(over <= known + beyond)
    many = np.bincount(group[kept], minlength=starts.size) >= FEW
    if not many.any():
        return kept
    told = ~many[group[kept]] | (over[kept] <= known[kept])
    told |= _seeming_nearest(over[kept], points[kept], outline, group[kept])
    return np.asarray(kept[told])


def sector_firsts(
    *, outline: Array, points: Array, width: float, order: Places, group: Places
) -> Places:
    """Return the first point of each group in each direction from a section's middle.

    Parameters
    ----------
    outline : array
        Corners of the section, (corners, 2). [m]
    points : array
        (points, 2). [m]
    width : float
        Of a direction. [rad]
    order : array
        Places of all points, the first ones first, group after group. [-]
    group : array
        Group of each point. [-]

    Returns
    -------
    array
        Places within the order, rising. [-]

    Notes
    -----
    Directions are counted from a full turn's half.

    References
    ----------
    .. [1] Definition.

    """
    away = points[order] - outline.mean(axis=0)
    sector = np.floor(np.arctan2(away[:, 1], away[:, 0]) / width).astype(np.intp)
    sectors = 2 + int(2.0 * np.pi / width)
    _, first = np.unique(group[order] * sectors + sector, return_index=True)
    return np.asarray(np.sort(first))


def _over(outline: Array, points: Array) -> Array:
    """Return the farthest that points stand over any edge's line."""
    edges = np.roll(outline, -1, axis=0) - outline
    size = np.hypot(edges[:, 0], edges[:, 1])
    out = np.stack((edges[:, 1] / size, -edges[:, 0] / size))
    # Not a matrix product: its threads cost more than they save on so little.
    over = np.multiply.outer(out[0], points[:, 0]) + np.multiply.outer(out[1], points[:, 1])
    return np.asarray((over - (outline.T * out).sum(axis=0)[:, np.newaxis]).max(axis=0))


def _seeming_nearest(
    over: Array, points: Array, outline: Array, group: Places
) -> npt.NDArray[np.bool_]:
    """Say which point of each narrow sector seems nearest."""
    order = np.lexsort((over, group))
    first = sector_firsts(
        outline=outline, points=points, width=SECTOR / 4.0, order=order, group=group
    )
    found = np.zeros(over.size, dtype=np.bool_)
    found[order[first]] = True
    return found


def _nearest(squared: Array, height: Array) -> Places:
    """Return the nearest edge that faces each point; of equal ones the one that faces it most."""
    facing = np.where(height > 0.0, squared, np.inf)
    return np.asarray(facing.argmin(axis=1))
