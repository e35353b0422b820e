"""The least gap between a tyre and what stands around it: how wide, where, when, how sure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.envelope.path import WheelPath
from drybuild.physics.envelope.room import Room, Seen, carried

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

CONTACTS = 16
"""Places at most that the spread of one gap is followed at."""
SECTOR = np.radians(4.0)
"""Two contacts are told apart when the section's middle sees them this far apart."""
BEYOND = 0.030
"""A place whose nominal gap is wider than the least by this is out of question. [m]"""


@dataclass(frozen=True, kw_only=True)
class Fitted:
    """A tyre on its rim, as put on the hub, with the spreads of both."""

    outline: Array
    """Corners, (corners, 2), nominal. [m]"""
    shift: float
    """Of the rim's middle outward from where the measured wheels had it. [m]"""
    width_error: Array
    """Section width less nominal, (samples,). [m]"""
    radius_error: Array
    """Radius less nominal. [m]"""
    shift_error: Array
    """Of the shift, and of the track. [m]"""


@dataclass(frozen=True, kw_only=True)
class Wander:
    """An input of the path that is not surely known."""

    centre: Array
    """Motion of the wheel's middle per unit, (3, positions)."""
    spin: Array
    """Motion of the axle per unit, (3, positions)."""
    error: Array
    """Less nominal, (samples,)."""


@dataclass(frozen=True, kw_only=True)
class Gap:
    """The least gap to one obstacle."""

    name: str
    values: Array
    """(samples,). [m]"""
    angle: float
    """Of the place round the wheel's centre as it stood: 0 ahead, 90 deg above. [rad]"""
    place: Array
    """(3,), in the arch's axes. [m]"""
    travel: float
    steer: float
    roll: float
    contact: tuple[float, float]
    """Of the obstacle's point in the wheel's half plane: s and rho. [m]"""
    tyre: tuple[float, float]
    """Of the outline's point that is nearest. [m]"""
    normal: tuple[float, float]
    """From the one to the other [-]."""


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


def nearby(*, outline: Array, points: Array, roundness: Array, beyond: float) -> Places:
    """Return the points that may be nearest, and those a little farther.

    Parameters
    ----------
    outline : array
        Corners anticlockwise, (corners, 2). [m]
    points : array
        (points, 2). [m]
    roundness : array
        Radius round each point, (points,). [m]
    beyond : float
        How much farther than the nearest is still asked for. [m]

    Returns
    -------
    array
        Their places, rising. [-]

    Notes
    -----
    The farthest that a point stands over any edge's line is no more than its distance: what
    stands farther than the nearest point's distance and `beyond` is left out for certain.

    References
    ----------
    .. [1] Support lines of a convex polygon.

    """
    edges = np.roll(outline, -1, axis=0) - outline
    size = np.hypot(edges[:, 0], edges[:, 1])
    out = np.stack((edges[:, 1] / size, -edges[:, 0] / size))
    # Not a matrix product: its threads cost more than they save on so little.
    over = np.multiply.outer(points[:, 0], out[0]) + np.multiply.outer(points[:, 1], out[1])
    over = (over - (outline.T * out).sum(axis=0)).max(axis=1) - roundness
    first = np.argpartition(over, min(8, over.size - 1))[:8]
    least, _ = outline_distance(outline=outline, points=points[first])
    return np.flatnonzero(over <= (least - roundness[first]).min() + beyond)


def least_gaps(*, room: Room, fitted: Fitted, wanders: Sequence[Wander]) -> tuple[Gap, ...]:
    """Return the least gap to every obstacle, with its spread.

    Parameters
    ----------
    room : Room
        What stands around, as the wheel sees it. [m]
    fitted : Fitted
        The tyre. [m]
    wanders : sequence of Wander
        What is not surely known of the path. [-]

    Returns
    -------
    tuple of Gap
        One for each obstacle that comes near at all.

    Notes
    -----
    The nominal gap is exact for the points of the obstacle. A sample moves each of up to 16
    contacts by its first derivative (d = d_0 + n.(dp - dq), contact point p, outline point q) and
    takes the least: the place of contact may jump from sample to sample, curvature is left out.
    The tests compare with moving everything anew for each sample.

    References
    ----------
    .. [1] Envelope theorem: the derivative of a least distance is the partial derivative at the
       points where it is least (J. M. Danskin, "The Theory of Max-Min", 1967).

    """
    return tuple(_least(room.path, one, fitted, wanders) for one in room.seen)


def _least(path: WheelPath, seen: Seen, fitted: Fitted, wanders: Sequence[Wander]) -> Gap:
    points = np.stack((seen.s - fitted.shift, seen.rho), axis=1)
    round_ = seen.obstacle.roundness
    near = nearby(
        outline=fitted.outline,
        points=points,
        roundness=np.zeros(points.shape[0]),
        beyond=BEYOND,
    )
    distance, normal = outline_distance(outline=fitted.outline, points=points[near])
    kept = _contacts(distance, points[near], fitted)
    distance, normal, chosen = distance[kept], normal[kept], near[kept]
    foot = points[chosen] - distance[:, np.newaxis] * normal
    moved = _moved(path, seen, chosen, normal, wanders)
    values = (distance[:, np.newaxis] - round_ + moved - _grown(fitted, foot, normal)).min(axis=0)
    values[0] = distance[0] - round_
    position = int(seen.position[chosen[0]])
    where = seen.obstacle.base[:, seen.point[chosen[0]]]
    if where.ndim > 1:
        where = where[:, position // path.each]
    return Gap(
        name=seen.obstacle.name,
        values=values,
        angle=float(np.arctan2(where[2], where[0])),
        place=where,
        travel=float(path.travel[position]),
        steer=float(path.steer[position]),
        roll=float(path.roll[position]),
        contact=(float(seen.s[chosen[0]]), float(seen.rho[chosen[0]])),
        tyre=(float(foot[0, 0] + fitted.shift), float(foot[0, 1])),
        normal=(float(normal[0, 0]), float(normal[0, 1])),
    )


def _contacts(distance: Array, points: Array, fitted: Fitted) -> Places:
    """Return the nearest place, then the nearest of each other sector, nearest first."""
    middle = fitted.outline.mean(axis=0)
    order = np.argsort(distance, kind="stable")
    angle = np.arctan2(points[order, 1] - middle[1], points[order, 0] - middle[0])
    _, first = np.unique(np.floor(angle / SECTOR), return_index=True)
    return np.asarray(order[np.sort(first)][:CONTACTS])


def _moved(
    path: WheelPath, seen: Seen, kept: Places, normal: Array, wanders: Sequence[Wander]
) -> Array:
    """Return how far each contact's point moves along its normal, (contacts, samples)."""
    point, position = seen.point[kept], seen.position[kept]
    base = seen.obstacle.base
    place = base[:, point] if base.ndim == 2 else base[:, point, position // path.each]
    if seen.obstacle.follows:
        place = place + seen.obstacle.follows * carried(path=path)[:, position]
    spin = path.spin[:, position]
    apart = place - path.centre[:, position]
    s = (apart * spin).sum(axis=0)
    radial = apart - s * spin
    rho = np.linalg.norm(radial, axis=0)
    radial = radial / np.where(rho > 0.0, rho, 1.0)
    way = normal[:, 0] * spin + normal[:, 1] * radial
    rates = seen.obstacle.rates(point, way)
    used = np.flatnonzero(rates.any(axis=0))
    # Not a matrix product: its threads cost more than they save on so little.
    found = np.einsum("pk,ks->ps", rates[:, used], seen.obstacle.readings[used])
    for one in wanders:
        if one.error.size == 1:
            continue
        centre, turn = one.centre[:, position], one.spin[:, position]
        # ds = -dc.e + a.de; d(rho) = -dc.r - s r.de, as a = s e + rho r.
        along = -(centre * spin).sum(axis=0) + (apart * turn).sum(axis=0)
        out = -(centre * radial).sum(axis=0) - s * (radial * turn).sum(axis=0)
        rate = normal[:, 0] * along + normal[:, 1] * out
        found = found + np.multiply.outer(rate, one.error)
    return np.asarray(found)


def _grown(fitted: Fitted, foot: Array, normal: Array) -> Array:
    """Return how far the outline grows along each normal, (contacts, samples)."""
    outline = fitted.outline
    half, top, seat = outline[:, 0].max(), outline[:, 1].max(), outline[:, 1].min()
    aside = np.multiply.outer(normal[:, 0] * foot[:, 0] / half, fitted.width_error / 2.0)
    up = normal[:, 1] * (foot[:, 1] - seat) / (top - seat)
    shift = np.multiply.outer(normal[:, 0], fitted.shift_error)
    return np.asarray(aside + np.multiply.outer(up, fitted.radius_error) + shift)


def _nearest(squared: Array, height: Array) -> Places:
    """Return the nearest edge that faces each point; of equal ones the one that faces it most."""
    facing = np.where(height > 0.0, squared, np.inf)
    return np.asarray(facing.argmin(axis=1))
