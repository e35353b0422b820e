"""The least gap between a tyre and what stands around it: how wide, where, when, how sure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from drybuild.keeping import Known, content_name
from drybuild.physics.envelope.nearest import SECTOR, nearby, outline_distance, sector_firsts
from drybuild.physics.envelope.obstacles import Form, Obstacle
from drybuild.physics.envelope.path import WheelPath
from drybuild.physics.envelope.rim import Pieces
from drybuild.physics.envelope.room import Room, Seen, carried

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

CONTACTS = 16
"""Places at most that the spread of one gap is followed at."""
TYRE, RIM, DISC = "tyre", "rim", "disc"
"""Parts of a wheel; seats and flanges count with the tyre that sits on them."""
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
        lambda: tuple(_contacts(room, fitted, wander.drift)),
    )
    return tuple(
        replace(one.nominal, values=_sampled(one, seen.obstacle, fitted, wander))
        for one, seen in zip(contacts, room.seen, strict=True)
    )


@dataclass(frozen=True, kw_only=True)
class _Near:
    """Places where obstacles come near to a piece of the wheel: each one's nearest first."""

    group: Places
    """Which obstacle."""
    distance: Array
    normal: Array
    point: Places
    """Which of the points that are kept of the obstacle."""
    piece: Places
    """Which piece of the wheel."""

    def reach(self, groups: int) -> Array:
        """Return how far each obstacle's contacts may be away, (groups,)."""
        nearest = np.full(groups, np.inf)
        np.minimum.at(nearest, self.group, self.distance)
        return nearest + BEYOND

    def at(self, places: Places | slice) -> _Near:
        """Return some of them."""
        return _Near(**{name: values[places] for name, values in vars(self).items()})


@dataclass(frozen=True, kw_only=True)
class _Contacts:
    """Where an obstacle comes near to a wheel, nearest first, and how each place moves."""

    nominal: Gap
    distance: Array
    rates: Array
    """By the obstacle's readings, the path's inputs and the tyre's, (readings, contacts)."""


_KNOWN: Known[tuple[_Contacts, ...]] = Known(128)
"""Contacts of a wheel in its room: options that differ in their spreads alone share them."""


def _contacts(room: Room, fitted: Fitted, drift: Drift) -> Iterator[_Contacts]:
    """Look at all obstacles at once: there are few points of each."""
    path, seen = room.path, room.seen
    sizes = np.array([one.s.size for one in seen])
    s, rho = np.concatenate([one.s for one in seen]), np.concatenate([one.rho for one in seen])
    points = np.stack((s - fitted.shift, rho), axis=1)
    near = _sectors(_near(points, sizes, fitted), points, fitted)
    foot = points[near.point] - near.distance[:, np.newaxis] * near.normal
    near = replace(near, point=near.point - (np.cumsum(sizes) - sizes)[near.group])
    each = [slice(*ends) for ends in pairwise(np.searchsorted(near.group, range(sizes.size + 1)))]
    source = [one.point[near.point[some]] for one, some in zip(seen, each, strict=True)]
    position = [one.position[near.point[some]] for one, some in zip(seen, each, strict=True)]
    place = [
        _place(path, one.obstacle.form, which, when)
        for one, which, when in zip(seen, source, position, strict=True)
    ]
    way, drifting = _moving(
        path, np.concatenate(place, axis=1), np.concatenate(position), near.normal, drift
    )
    growing = _growing(fitted, near, foot)
    for one, some, which, when in zip(seen, each, source, position, strict=True):
        first, count = some.start, one.obstacle.readings.shape[0]
        own = one.obstacle.form.rates(which, when, way[:, some], count)
        yield _Contacts(
            nominal=_nominal(path, one, fitted, near.at(slice(first, first + 1)), foot[first]),
            distance=near.distance[some],
            rates=np.concatenate((own, drifting[:, some], growing[:, some])),
        )


def _nominal(path: WheelPath, seen: Seen, fitted: Fitted, near: _Near, foot: Array) -> Gap:
    """Return the gap at an obstacle's nearest contact."""
    point, position = seen.point[near.point], seen.position[near.point]
    place = seen.obstacle.form.place(point, position)[:, 0]
    moment = int(position[0])
    return Gap(
        name=seen.obstacle.name,
        values=near.distance - seen.obstacle.form.roundness,
        angle=float(np.arctan2(place[2], place[0])),
        place=place,
        travel=float(path.travel[moment]),
        steer=float(path.steer[moment]),
        roll=float(path.roll[moment]),
        contact=(float(seen.s[near.point[0]]), float(seen.rho[near.point[0]])),
        tyre=(float(foot[0] + fitted.shift), float(foot[1])),
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


def _near(points: Array, sizes: Places, fitted: Fitted) -> _Near:
    """Return what is nearest to the tyre, and what stands inside it to the pieces of the rim."""
    group = np.repeat(np.arange(sizes.size), sizes)
    chosen = nearby(
        outline=fitted.outline,
        points=points,
        roundness=np.zeros(points.shape[0]),
        beyond=BEYOND,
        starts=np.cumsum(sizes) - sizes,
    )
    found = [_against(fitted, 0, points, group, chosen)]
    inside = np.flatnonzero(points[:, 1] < fitted.outline[:, 1].min())
    reach = found[0].reach(sizes.size)[group[inside]]
    for number in range(1, len(fitted.pieces)):
        piece = fitted.pieces[number][1]
        chosen = inside[_box_distance(piece, points[inside]) <= reach]
        if chosen.size:
            found.append(_against(fitted, number, points, group, chosen))
    names = vars(found[0])
    near = _Near(**{name: np.concatenate([vars(one)[name] for one in found]) for name in names})
    return near.at(np.flatnonzero(near.distance <= near.reach(sizes.size)[near.group]))


def _against(fitted: Fitted, number: int, points: Array, group: Places, chosen: Places) -> _Near:
    """Return the distances of some of the points from a piece of the wheel."""
    piece = fitted.pieces[number][1]
    distance, normal = outline_distance(outline=piece, points=points[chosen])
    which = np.full(chosen.size, number)
    return _Near(group=group[chosen], distance=distance, normal=normal, point=chosen, piece=which)


def _sectors(near: _Near, points: Array, fitted: Fitted) -> _Near:
    """Return of each obstacle the nearest place, then the nearest of each other sector."""
    order = np.lexsort((near.distance, near.group))
    first = sector_firsts(
        outline=fitted.outline,
        points=points[near.point],
        width=SECTOR,
        order=order,
        group=near.group,
    )
    group = near.group[order[first]]
    rank = np.arange(group.size) - np.searchsorted(group, group)
    return near.at(order[first[rank < CONTACTS]])


def _box_distance(piece: Array, points: Array) -> Array:
    """Return a distance to a piece's box, which is never more than that to the piece."""
    low, high = piece.min(axis=0), piece.max(axis=0)
    return np.asarray(np.maximum(low - points, points - high).max(axis=1, initial=0.0))


def _place(path: WheelPath, form: Form, point: Places, position: Places) -> Array:
    """Return where points of an obstacle stand, each at its position."""
    place = form.place(point, position)
    if form.follows:
        place = place + form.follows * carried(path=path)[:, position]
    return place


def _moving(
    path: WheelPath, place: Array, position: Places, normal: Array, drift: Drift
) -> tuple[Array, Array]:
    """Return each contact's normal in the car's axes, and how it goes along it by the path."""
    spin = path.spin[:, position]
    apart = place - path.centre[:, position]
    s = (apart * spin).sum(axis=0)
    radial = apart - s * spin
    rho = np.linalg.norm(radial, axis=0)
    radial = radial / np.where(rho > 0.0, rho, 1.0)
    centre, turn = drift.centre[:, :, position], drift.spin[:, :, position]
    # ds = -dc.e + a.de; d(rho) = -dc.r - s r.de, as a = s e + rho r.
    along = (apart * turn - centre * spin).sum(axis=1)
    out = -(centre * radial).sum(axis=1) - s * (radial * turn).sum(axis=1)
    way = normal[:, 0] * spin + normal[:, 1] * radial
    return way, normal[:, 0] * along + normal[:, 1] * out


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
