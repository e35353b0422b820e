"""The least gap between a tyre and what stands around it: how wide, where, when, how sure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.envelope.path import WheelPath
from drybuild.physics.envelope.rim import Pieces
from drybuild.physics.envelope.room import Room, Seen, carried

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

CONTACTS = 16
"""Places at most that the spread of one gap is followed at."""
SECTOR = np.radians(4.0)
"""Two contacts are told apart when the section's middle sees them this far apart."""
TYRE, RIM, DISC = "tyre", "rim", "disc"
"""Parts of a wheel; seats and flanges count with the tyre that sits on them."""
FEW = 40
"""So many places are looked at without a choice."""
SURE = 4.0
"""A place that would have to gain so many standard deviations on the nearest is left out."""
LEAST_SHARE = 1e-5
"""A reading with less of a gap's variance is left out: a hundred of them miss 0.05 % of its spread.
"""
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
    barrel: Pieces = ()
    """What the rim has inside its bead seats. [m]"""
    disc: Pieces = ()
    """Disc or spokes, which stay on the hub's face whatever the offset. [m]"""

    @cached_property
    def errors(self) -> tuple[Array, Array]:
        """Width, radius and shift less nominal, (3, samples), and their standard deviations."""
        parts = (self.width_error, self.radius_error, self.shift_error)
        found = np.stack(np.broadcast_arrays(*parts))
        return found, found.std(axis=-1)

    @cached_property
    def name(self) -> bytes:
        """All that decides its nominal form and place."""
        found = blake2b(repr(self.shift).encode())
        for part, corners in self.pieces:
            found.update(part.encode())
            found.update(np.ascontiguousarray(corners).data)
        return found.digest()

    @cached_property
    def pieces(self) -> tuple[tuple[str, Array], ...]:
        """Every convex piece with what it is a part of, the tyre first."""
        inside = [(RIM, one) for one in self.barrel] + [(DISC, one) for one in self.disc]
        return ((TYRE, self.outline), *inside)


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
    meets: str
    """What of the wheel that is: tyre, rim or disc."""
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
        Their places, rising; of many within a degree the one that seems nearest. [-]

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
    known = float((least - roundness[first]).min())
    kept = np.flatnonzero(over <= known + beyond)
    return kept if kept.size < FEW else _thinned(kept, over[kept], points[kept], outline, known)


def _thinned(kept: Places, over: Array, points: Array, outline: Array, known: float) -> Places:
    """Return all that may be the nearest, and of each narrow sector the one that seems nearest."""
    middle = outline.mean(axis=0)
    angle = np.arctan2(points[:, 1] - middle[1], points[:, 0] - middle[0])
    order = np.argsort(over, kind="stable")
    _, first = np.unique(np.floor(angle[order] / (SECTOR / 4.0)), return_index=True)
    return np.asarray(kept[np.union1d(order[first], np.flatnonzero(over <= known))])


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
    contacts that may become the nearest by its first derivative (d = d_0 + n.(dp - dq), contact
    point p, outline point q) and takes the least: the place of contact may jump from sample to
    sample, curvature is left out. The tests compare with moving everything anew for each sample.

    References
    ----------
    .. [1] Envelope theorem: the derivative of a least distance is the partial derivative at the
       points where it is least (J. M. Danskin, "The Theory of Max-Min", 1967).

    """
    known = [one for one in wanders if one.error.size > 1]
    moves = _Moves(
        centre=np.array([one.centre for one in known]),
        spin=np.array([one.spin for one in known]),
        error=np.array([one.error for one in known]),
    )
    return tuple(_least(room.path, one, fitted, moves) for one in room.seen)


@dataclass(frozen=True, kw_only=True)
class _Moves:
    """Every wander at once."""

    centre: Array
    """(wanders, 3, positions)."""
    spin: Array
    error: Array
    """(wanders, samples)."""

    @cached_property
    def spread(self) -> Array:
        """Standard deviation of each."""
        return np.asarray(self.error.std(axis=-1))


@dataclass(frozen=True, kw_only=True)
class _Near:
    """Places where an obstacle comes near to a piece of the wheel, nearest first."""

    distance: Array
    normal: Array
    point: Places
    """Which of the points that are kept of the obstacle."""
    piece: Places
    """Which piece of the wheel."""

    def at(self, places: Places) -> _Near:
        """Return some of them."""
        return _Near(
            distance=self.distance[places],
            normal=self.normal[places],
            point=self.point[places],
            piece=self.piece[places],
        )


def _least(path: WheelPath, seen: Seen, fitted: Fitted, moves: _Moves) -> Gap:
    points = np.stack((seen.s - fitted.shift, seen.rho), axis=1)
    near = _known_near(seen, points, fitted)
    foot = points[near.point] - near.distance[:, np.newaxis] * near.normal
    moving = _moving(path, seen, near, moves) + _growing(fitted, near, foot)
    rates, errors = np.concatenate([one[0] for one in moving]), [one[1] for one in moving]
    spread = np.concatenate([one[2] for one in moving])
    apart = np.sqrt((((rates - rates[:, :1]) * spread[:, np.newaxis]) ** 2).sum(axis=0))
    hopeful = near.distance - near.distance[0] <= SURE * apart
    near, foot, rates = near.at(np.flatnonzero(hopeful)), foot[hopeful], rates[:, hopeful]
    shares = (rates * spread[:, np.newaxis]) ** 2
    telling = (shares > LEAST_SHARE * shares.sum(axis=0)).any(axis=1)
    moved = _summed(np.where(telling[:, np.newaxis], rates, 0.0), errors)
    values = (near.distance[:, np.newaxis] + moved).min(axis=0) - seen.obstacle.roundness
    values[0] = near.distance[0] - seen.obstacle.roundness
    first = near.point[:1]
    position = int(seen.position[first[0]])
    where = seen.obstacle.place(seen.point[first], seen.position[first])[:, 0]
    return Gap(
        name=seen.obstacle.name,
        values=values,
        angle=float(np.arctan2(where[2], where[0])),
        place=where,
        travel=float(path.travel[position]),
        steer=float(path.steer[position]),
        roll=float(path.roll[position]),
        contact=(float(seen.s[first[0]]), float(seen.rho[first[0]])),
        tyre=(float(foot[0, 0] + fitted.shift), float(foot[0, 1])),
        meets=fitted.pieces[near.piece[0]][0],
        normal=(float(near.normal[0, 0]), float(near.normal[0, 1])),
    )


_KNOWN: dict[tuple[int, bytes], tuple[Array, _Near]] = {}
"""Contacts by the kept points, which are held so that their identity stays theirs, and the wheel:
options that differ in their spreads alone share them."""
MOST_KNOWN = 2048


def _known_near(seen: Seen, points: Array, fitted: Fitted) -> _Near:
    key = (id(seen.s), fitted.name)
    known = _KNOWN.get(key)
    if known is not None:
        return known[1]
    near = _near(points, fitted)
    near = near.at(_contacts(near.distance, points[near.point], fitted))
    if len(_KNOWN) >= MOST_KNOWN:
        _KNOWN.clear()
    _KNOWN[key] = seen.s, near
    return near


def _near(points: Array, fitted: Fitted) -> _Near:
    """Return what is nearest to the tyre, and what stands inside it to the pieces of the rim."""
    found: list[tuple[Array, Array, Places, Places]] = []
    inside = np.flatnonzero(points[:, 1] < fitted.outline[:, 1].min())
    for number, (_, piece) in enumerate(fitted.pieces):
        if number == 0:
            chosen = nearby(
                outline=piece,
                points=points,
                roundness=np.zeros(points.shape[0]),
                beyond=BEYOND,
            )
        else:
            chosen = inside[_box_distance(piece, points[inside]) <= found[0][0].min() + BEYOND]
        if chosen.size:
            distance, normal = outline_distance(outline=piece, points=points[chosen])
            found.append((distance, normal, chosen, np.full(chosen.size, number)))
    distance, normal, point, which = (
        np.concatenate([one[k] for one in found]) for k in range(len(found[0]))
    )
    close = np.flatnonzero(distance <= distance.min() + BEYOND)
    return _Near(distance=distance, normal=normal, point=point, piece=which).at(close)


def _box_distance(piece: Array, points: Array) -> Array:
    """Return a distance to a piece's box, which is never more than that to the piece."""
    low, high = piece.min(axis=0), piece.max(axis=0)
    return np.asarray(np.maximum(low - points, points - high).max(axis=1, initial=0.0))


def _contacts(distance: Array, points: Array, fitted: Fitted) -> Places:
    """Return the nearest place, then the nearest of each other sector, nearest first."""
    middle = fitted.outline.mean(axis=0)
    order = np.argsort(distance, kind="stable")
    angle = np.arctan2(points[order, 1] - middle[1], points[order, 0] - middle[0])
    _, first = np.unique(np.floor(angle / SECTOR), return_index=True)
    return np.asarray(order[np.sort(first)][:CONTACTS])


Moving = tuple[Array, Array, Array]
"""Rates of contacts by readings (readings, contacts), those less nominal (readings, samples), and
their standard deviations."""


def _moving(path: WheelPath, seen: Seen, near: _Near, moves: _Moves) -> list[Moving]:
    """Return how each contact's point goes along its normal by what is not surely known."""
    point, position = seen.point[near.point], seen.position[near.point]
    normal, obstacle = near.normal, seen.obstacle
    place = obstacle.place(point, position)
    if obstacle.follows:
        place = place + obstacle.follows * carried(path=path)[:, position]
    spin = path.spin[:, position]
    apart = place - path.centre[:, position]
    s = (apart * spin).sum(axis=0)
    radial = apart - s * spin
    rho = np.linalg.norm(radial, axis=0)
    radial = radial / np.where(rho > 0.0, rho, 1.0)
    way = normal[:, 0] * spin + normal[:, 1] * radial
    found = [(obstacle.rates(point, position, way).T, obstacle.readings, obstacle.spread)]
    if moves.error.size:
        centre, turn = moves.centre[:, :, position], moves.spin[:, :, position]
        # ds = -dc.e + a.de; d(rho) = -dc.r - s r.de, as a = s e + rho r.
        along = (apart * turn - centre * spin).sum(axis=1)
        out = -(centre * radial).sum(axis=1) - s * (radial * turn).sum(axis=1)
        found.append((normal[:, 0] * along + normal[:, 1] * out, moves.error, moves.spread))
    return found


def _growing(fitted: Fitted, near: _Near, foot: Array) -> list[Moving]:
    """Return how the wheel comes along each normal by what makers and offsets differ by."""
    outline, normal = fitted.outline, near.normal
    parts = [name for name, _ in fitted.pieces]
    tyre, moves = (
        np.array([name in which for name in parts], dtype=np.float64)[near.piece]
        for which in ((TYRE,), (TYRE, RIM))
    )
    half, top, seat = outline[:, 0].max(), outline[:, 1].max(), outline[:, 1].min()
    aside = -0.5 * tyre * normal[:, 0] * foot[:, 0] / half
    up = -tyre * normal[:, 1] * (foot[:, 1] - seat) / (top - seat)
    rates = np.stack((aside, up, -moves * normal[:, 0]))
    return [(rates, *fitted.errors)]


def _summed(rates: Array, errors: Sequence[Array]) -> Array:
    """Return sums over readings, (readings, contacts) with (readings, samples)."""
    found: Array | float = 0.0
    first = 0
    for some in errors:
        part = rates[first : first + len(some)]
        used = np.flatnonzero(part.any(axis=1))
        # Not a matrix product: its threads cost more than they save on so little.
        found = found + np.einsum("kp,ks->ps", part[used], some[used])
        first += len(some)
    return np.asarray(found)


def _nearest(squared: Array, height: Array) -> Places:
    """Return the nearest edge that faces each point; of equal ones the one that faces it most."""
    facing = np.where(height > 0.0, squared, np.inf)
    return np.asarray(facing.argmin(axis=1))
