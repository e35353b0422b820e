"""Room between boxes: what a tape measure can say about an engine in its bay.

Body axes: x forward, y left, z up. Boxes lie square to them. A box drawn around a rounded part is
larger than the part, so a clearance from boxes is a lower bound; a clash of boxes wants a template
or a scan before it is believed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Box:
    """A box square to the body axes; each bound broadcasts over samples."""

    rear: Array
    """Least x. [m]"""
    front: Array
    """Greatest x. [m]"""
    right: Array
    """Least y. [m]"""
    left: Array
    """Greatest y. [m]"""
    bottom: Array
    """Least z. [m]"""
    top: Array
    """Greatest z. [m]"""


def box_gap(*, first: Box, second: Box) -> Array:
    """Return the signed gap between two boxes.

    Parameters
    ----------
    first : Box
        One box. [m]
    second : Box
        The other. [m]

    Returns
    -------
    array
        Shortest distance where they are apart; where they overlap, minus the shortest way out. [m]

    Notes
    -----
    Per axis g = max(low₂ − high₁, low₁ − high₂). Apart: √Σ max(g, 0)². Overlapping: max g, which is
    negative.

    References
    ----------
    .. [1] C. Ericson, "Real-Time Collision Detection", 2005, ch. 4 and 5 (from memory).

    """
    gaps = np.stack(
        np.broadcast_arrays(
            np.maximum(second.rear - first.front, first.rear - second.front),
            np.maximum(second.right - first.left, first.right - second.left),
            np.maximum(second.bottom - first.top, first.bottom - second.top),
        )
    )
    apart = np.sqrt((np.maximum(gaps, 0.0) ** 2).sum(axis=0))
    return np.asarray(np.where(apart > 0.0, apart, gaps.max(axis=0)), dtype=np.float64)


def rolled_box(
    *, box: Box, axis_y: npt.ArrayLike, axis_z: npt.ArrayLike, angle: npt.ArrayLike
) -> Box:
    """Return the box around all that a box sweeps while it rolls to both sides.

    Parameters
    ----------
    box : Box
        The box at rest. [m]
    axis_y : array_like
        Sideways place of the roll axis, which lies along x. [m]
    axis_z : array_like
        Height of the roll axis. [m]
    angle : array_like
        Roll to each side. [rad]

    Returns
    -------
    Box
        Bounds over the rest position and both end positions. [m]

    Notes
    -----
    Each corner turned by +φ and −φ in the y-z plane; the bounds of those and of the box at rest.
    Between the ends a corner can stand out further by no more than r(1 − cos φ).

    References
    ----------
    .. [1] Rotation in a plane, definition.

    """
    turn = np.asarray(angle, float)
    require((turn >= 0.0) & (turn < 0.5), "angle", turn, "rad", "from zero to below 0.5")
    y0, z0 = np.asarray(axis_y, float), np.asarray(axis_z, float)
    ys, zs = [box.right, box.left], [box.bottom, box.top]
    for signed in (turn, -turn):
        cosine, sine = np.cos(signed), np.sin(signed)
        for y in (box.right - y0, box.left - y0):
            for z in (box.bottom - z0, box.top - z0):
                ys.append(y0 + y * cosine - z * sine)
                zs.append(z0 + y * sine + z * cosine)
    return Box(
        rear=box.rear,
        front=box.front,
        right=_least(ys),
        left=-_least([-y for y in ys]),
        bottom=_least(zs),
        top=-_least([-z for z in zs]),
    )


def pitched_box(
    *, box: Box, axis_x: npt.ArrayLike, axis_z: npt.ArrayLike, nose_up: npt.ArrayLike
) -> Box:
    """Return the box around a box that is tilted in side view.

    Parameters
    ----------
    box : Box
        The box before, square to the engine. [m]
    axis_x : array_like
        Place of the point that stays put. [m]
    axis_z : array_like
        Height of the point that stays put. [m]
    nose_up : array_like
        Tilt that lifts the front end. [rad]

    Returns
    -------
    Box
        Bounds after the tilt; larger than the part by up to length × sin(tilt). [m]

    Notes
    -----
    x' = x₀ + x cos θ − z sin θ; z' = z₀ + x sin θ + z cos θ, with x and z from the fixed point.

    References
    ----------
    .. [1] Rotation in a plane, definition.

    """
    tilt = np.asarray(nose_up, float)
    require(np.abs(tilt) < 0.5, "nose_up", tilt, "rad", "between -0.5 and 0.5")
    x0, z0 = np.asarray(axis_x, float), np.asarray(axis_z, float)
    cosine, sine = np.cos(tilt), np.sin(tilt)
    corners = [(x - x0, z - z0) for x in (box.rear, box.front) for z in (box.bottom, box.top)]
    xs = [x0 + x * cosine - z * sine for x, z in corners]
    zs = [z0 + x * sine + z * cosine for x, z in corners]
    return Box(
        rear=_least(xs),
        front=-_least([-x for x in xs]),
        right=box.right,
        left=box.left,
        bottom=_least(zs),
        top=-_least([-z for z in zs]),
    )


def rock_angle(*, movement: npt.ArrayLike, height: npt.ArrayLike) -> Array:
    """Return the roll that moves the top of an engine sideways by so much.

    Parameters
    ----------
    movement : array_like
        Sideways movement of the top, to each side. [m]
    height : array_like
        Height of the top above the roll axis. [m]

    Returns
    -------
    array
        Roll. [rad]

    Notes
    -----
    φ = arcsin(s/h).

    References
    ----------
    .. [1] Geometry of a circle, definition.

    """
    s, h = np.asarray(movement, float), np.asarray(height, float)
    require(h > 0.0, "height", h, "m", "more than zero")
    require((s >= 0.0) & (s < 0.4 * h), "movement", s, "m", "from zero to 0.4 of the height")
    return np.asarray(np.arcsin(s / h), dtype=np.float64)


def line_clearance(*, box: Box, stations: npt.ArrayLike, heights: npt.ArrayLike) -> Array:
    """Return how far the top of a box stays under a line of heights in side view.

    Parameters
    ----------
    box : Box
        The box. [m]
    stations : array_like
        Places along x, two or more on the first axis. [m]
    heights : array_like
        Height of the line at each station. [m]

    Returns
    -------
    array
        Least upright clearance over the box's length, negative where it stands out; nan where no
        part of the box lies between the first and the last station, or two stations coincide. [m]

    Notes
    -----
    The line is straight between stations, so its lowest point over a stretch is at an end of the
    stretch or at a station inside it.

    References
    ----------
    .. [1] Linear interpolation, definition.

    """
    xs, zs = np.atleast_1d(np.asarray(stations, float)), np.asarray(heights, float)
    require(xs.shape[0] >= 2, "stations", xs.shape[0], "-", "two or more")
    order = np.argsort(np.mean(xs.reshape(xs.shape[0], -1), axis=1))
    xs, zs = xs[order], zs[order]
    rising = np.all(np.diff(xs, axis=0) > 0.0, axis=0)
    shape = np.broadcast_shapes(box.rear.shape, box.top.shape, xs.shape[1:], zs.shape[1:])
    xs, zs = (np.broadcast_to(_aligned(a, shape), (a.shape[0], *shape)) for a in (xs, zs))
    rear = np.maximum(np.broadcast_to(box.rear, shape), xs[0])
    front = np.minimum(np.broadcast_to(box.front, shape), xs[-1])
    lowest = np.minimum(_height_at(rear, xs, zs), _height_at(front, xs, zs))
    inside = (xs >= rear) & (xs <= front)
    lowest = np.minimum(lowest, np.where(inside, zs, np.inf).min(axis=0))
    known = rising & (front >= rear)
    return np.asarray(np.where(known, lowest - box.top, np.nan), dtype=np.float64)


def _aligned(array: Array, shape: tuple[int, ...]) -> Array:
    """Give an array of stations as many axes behind the first as the samples have."""
    return array.reshape(array.shape[0], *(1,) * (len(shape) + 1 - array.ndim), *array.shape[1:])


def _height_at(x: Array, xs: Array, zs: Array) -> Array:
    """Height of the line at x; x lies between the first and the last station."""
    height = np.array(zs[0], dtype=np.float64)
    for k in range(xs.shape[0] - 1):
        piece = np.maximum(xs[k + 1] - xs[k], 1e-9)  # no length: the caller says nan there
        share = np.clip((x - xs[k]) / piece, 0.0, 1.0)  # 0 before, 1 past this piece
        height = height + share * (zs[k + 1] - zs[k])
    return height


def _least(values: list[Array]) -> Array:
    least = values[0]
    for value in values[1:]:
        least = np.minimum(least, value)
    return least
