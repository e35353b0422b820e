"""The least gap between a tyre and what stands around it: how wide, where, when, how sure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.keeping import Known, content_name
from drybuild.physics.envelope.obstacles import Obstacle
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
    def content(self) -> bytes:
        """A name of its nominal form and place."""
        return content_name(self.shift, self.pieces)

    @cached_property
    def pieces(self) -> tuple[tuple[str, Array], ...]:
        """Every convex piece with what it is a part of, the tyre first."""
        inside = [(RIM, one) for one in self.barrel] + [(DISC, one) for one in self.disc]
        return ((TYRE, self.outline), *inside)


@dataclass(frozen=True, kw_only=True)
class Drift:
    """How far the wheel goes with each input of its path that is not surely known, per unit."""

    centre: Array
    """Of the wheel's middle, (inputs, 3, positions)."""
    spin: Array
    """Of the axle, (inputs, 3, positions)."""

    @cached_property
    def content(self) -> bytes:
        """A name of it all."""
        return content_name(self.centre, self.spin)


@dataclass(frozen=True, kw_only=True)
class Wander:
    """The inputs of the path that are not surely known."""

    drift: Drift
    error: Array
    """Less nominal, (inputs, samples)."""

    @cached_property
    def spread(self) -> Array:
        """Standard deviation of each."""
        return np.asarray(self.error.std(axis=-1))

    @staticmethod
    def none(positions: int) -> Wander:
        """Return that a path of so many positions is surely known."""
        still = np.zeros((0, 3, positions))
        return Wander(drift=Drift(centre=still, spin=still), error=np.zeros((0, 1)))


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


def least_gaps(*, room: Room, fitted: Fitted, wander: Wander) -> tuple[Gap, ...]:
    """Return the least gap to every obstacle, with its spread.

    Parameters
    ----------
    room : Room
        What stands around, as the wheel sees it. [m]
    fitted : Fitted
        The tyre. [m]
    wander : Wander
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
    contacts = _KNOWN.of(
        content_name(room.content, fitted.content, wander.drift.content),
        lambda: tuple(_contacts(room.path, one, fitted, wander.drift) for one in room.seen),
    )
    return tuple(
        replace(one.nominal, values=_sampled(one, seen.obstacle, fitted, wander))
        for one, seen in zip(contacts, room.seen, strict=True)
    )


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


@dataclass(frozen=True, kw_only=True)
class _Contacts:
    """Where an obstacle comes near to a wheel, nearest first, and how each place moves."""

    nominal: Gap
    distance: Array
    rates: Array
    """By the obstacle's readings, the path's inputs and the tyre's, (readings, contacts)."""


_KNOWN: Known[tuple[_Contacts, ...]] = Known(256)
"""Contacts of a wheel in its room: options that differ in their spreads alone share them."""


def _contacts(path: WheelPath, seen: Seen, fitted: Fitted, drift: Drift) -> _Contacts:
    points = np.stack((seen.s - fitted.shift, seen.rho), axis=1)
    near = _near(points, fitted)
    near = near.at(_sectors(near.distance, points[near.point], fitted))
    foot = points[near.point] - near.distance[:, np.newaxis] * near.normal
    return _Contacts(
        nominal=_nominal(path, seen, fitted, near, foot),
        distance=near.distance,
        rates=np.concatenate((*_moving(path, seen, near, drift), _growing(fitted, near, foot))),
    )


def _nominal(path: WheelPath, seen: Seen, fitted: Fitted, near: _Near, foot: Array) -> Gap:
    first, form = near.point[:1], seen.obstacle.form
    position = int(seen.position[first[0]])
    where = form.place(seen.point[first], seen.position[first])[:, 0]
    return Gap(
        name=seen.obstacle.name,
        values=near.distance[:1] - form.roundness,
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


def _sampled(contacts: _Contacts, obstacle: Obstacle, fitted: Fitted, wander: Wander) -> Array:
    """Return the least gap of every sample: only what may be the nearest, and tells, is moved."""
    grown, growth = fitted.errors
    spread = np.concatenate((obstacle.spread, wander.spread, growth))[:, np.newaxis]
    distance, rates = contacts.distance, contacts.rates
    apart = np.sqrt((((rates - rates[:, :1]) * spread) ** 2).sum(axis=0))
    hopeful = distance - distance[0] <= SURE * apart
    distance, rates = distance[hopeful], rates[:, hopeful]
    shares = (rates * spread) ** 2
    telling = (shares > LEAST_SHARE * shares.sum(axis=0)).any(axis=1)
    errors = (obstacle.readings, wander.error, grown)
    moved = _summed(np.where(telling[:, np.newaxis], rates, 0.0), errors)
    values = (distance[:, np.newaxis] + moved).min(axis=0) - obstacle.form.roundness
    values[0] = contacts.nominal.values[0]
    return np.asarray(values)


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


def _sectors(distance: Array, points: Array, fitted: Fitted) -> Places:
    """Return the nearest place, then the nearest of each other sector, nearest first."""
    middle = fitted.outline.mean(axis=0)
    order = np.argsort(distance, kind="stable")
    angle = np.arctan2(points[order, 1] - middle[1], points[order, 0] - middle[0])
    _, first = np.unique(np.floor(angle / SECTOR), return_index=True)
    return np.asarray(order[np.sort(first)][:CONTACTS])


def _moving(path: WheelPath, seen: Seen, near: _Near, drift: Drift) -> tuple[Array, Array]:
    """Return how each contact's point goes along its normal by the readings, and by the path."""
    point, position = seen.point[near.point], seen.position[near.point]
    normal, form = near.normal, seen.obstacle.form
    place = form.place(point, position)
    if form.follows:
        place = place + form.follows * carried(path=path)[:, position]
    spin = path.spin[:, position]
    apart = place - path.centre[:, position]
    s = (apart * spin).sum(axis=0)
    radial = apart - s * spin
    rho = np.linalg.norm(radial, axis=0)
    radial = radial / np.where(rho > 0.0, rho, 1.0)
    way = normal[:, 0] * spin + normal[:, 1] * radial
    centre, turn = drift.centre[:, :, position], drift.spin[:, :, position]
    # ds = -dc.e + a.de; d(rho) = -dc.r - s r.de, as a = s e + rho r.
    along = (apart * turn - centre * spin).sum(axis=1)
    out = -(centre * radial).sum(axis=1) - s * (radial * turn).sum(axis=1)
    own = form.rates(point, position, way, seen.obstacle.readings.shape[0])
    return own, normal[:, 0] * along + normal[:, 1] * out


def _growing(fitted: Fitted, near: _Near, foot: Array) -> Array:
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
    return np.stack((aside, up, -moves * normal[:, 0]))


def _summed(rates: Array, errors: Sequence[Array]) -> Array:
    """Return sums over readings, (readings, contacts) with several (readings, samples)."""
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
