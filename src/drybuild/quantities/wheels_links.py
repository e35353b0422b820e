"""A suspension's own links beside its wheel: solved over travel and lock, with the points' spread.

The points are moved one reading at a time from the nominal, so that path and links carry the
spread of the tape to first order; the tests compare with moving all of them for each sample.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from hashlib import blake2b
from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.envelope.gaps import Wander
from drybuild.physics.envelope.obstacles import Obstacle, moving_rods
from drybuild.physics.envelope.path import WheelPath, linkage_columns, linkage_path, slope_along
from drybuild.project.samples import Values
from drybuild.project.suspension import Suspension
from drybuild.quantities.steering_linkage import way_to_lock
from drybuild.quantities.suspension_linkage import hardpoints_of, linkage_of

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept
    from drybuild.physics.linkage.springs import Strut

DAMPER, SPRING = 0.028, 0.055
"""Radius of a damper, and of a spring that is not given; common practice, no source. [m]"""
RACK, ARM = 0.1, np.radians(50.0)
"""Widest travel of a rack and of a steering box's arm that is tried. [m], [rad]"""
TRAVELS, STEERS, ROLLS = 7, 7, 5
"""Positions that a wheel is looked at in."""
STEP = 1e-3
"""Of a reading, for its slope: a tape's spread. [m], [rad]"""
BARS = ("bar_end", "bar_link", "bar_axis")
"""Points that neither move the wheel nor stand beside it as a link."""


@dataclass(frozen=True, kw_only=True)
class Sway:
    """A measure of where or how far the wheel goes that is not surely known."""

    error: Values
    """Less nominal, (samples,)."""
    shift: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """How it moves wheel and links together, per unit."""
    along: int | None = None
    """Or: which of travel (0) and steer (1) it stretches."""
    part: Values | None = None
    """By how much at each position."""

    def moved(self, values: Values, path: WheelPath) -> Values:
        """Return how places (3, positions) move per unit."""
        if self.along is None or self.part is None:
            return np.asarray(np.array(self.shift)[:, np.newaxis] + 0.0 * values)
        if path.shape[self.along] == 1:
            return np.zeros_like(values)
        way = np.moveaxis((path.travel, path.steer)[self.along].reshape(path.shape), self.along, 0)
        grid = values.reshape(3, *path.shape)
        slope = slope_along(values=grid, way=way[:, 0, 0], axis=1 + self.along)
        return np.asarray(slope.reshape(3, -1) * self.part)

    def wander(self, path: WheelPath) -> Wander:
        """Return what it does to the wheel."""
        aside = Sway(error=self.error, along=self.along, part=self.part)
        return Wander(
            centre=self.moved(path.centre, path),
            spin=aside.moved(path.spin, path),
            error=self.error,
        )


@dataclass(frozen=True, kw_only=True)
class Guided:
    """A wheel's own linkage over travel, lock and roll."""

    swept: Swept
    """The nominal first, then each reading larger by a step."""
    errors: Values
    """Readings in those steps, less nominal, (readings, samples). [-]"""

    def path(self, half_track: float, standing: float) -> WheelPath:
        """Return the wheel's path, as far as the links follow."""
        return linkage_path(wheel=self.swept.left, half_track=half_track, standing=standing)

    def wanders(self) -> list[Wander]:
        """Return what each reading does to the path."""
        centres, spins = (
            np.moveaxis(np.nan_to_num(one[..., 1:] - one[..., :1]), -1, 0)
            for one in map(self.at_lock, linkage_columns(wheel=self.swept.left))
        )
        return [
            Wander(centre=centre, spin=spin, error=error)
            for centre, spin, error in zip(centres, spins, self.errors, strict=True)
        ]

    @cached_property
    def _turned(self) -> tuple[Values, Values]:
        """Steer angle over the gear's travel, standing; and how each reading turns it there."""
        motion = self.swept.motion
        level, middle = (int(np.argmin(np.abs(one))) for one in (motion.travel, motion.roll))
        angle = np.asarray(self.swept.left.steer_angle)[level, :, middle]
        return angle[:, 0], np.nan_to_num(angle[:, 1:] - angle[:, :1])

    def at_lock(self, values: Values) -> Values:
        """Return places (3, positions, 1 + readings) at the nominal's angle of lock.

        Lock is measured as the wheel's angle; another steering arm turns the gear's travel, not it.
        """
        sizes = self.swept.motion.shape[:3]
        if sizes[1] == 1:
            return values
        way, turned = self._turned
        grid = values[..., 0].reshape(3, *sizes)
        slope = slope_along(values=grid, way=way, axis=2)[..., np.newaxis]
        held = (slope * turned[:, np.newaxis]).reshape(3, -1, turned.shape[1])
        return np.concatenate((values[..., :1], values[..., 1:] - held), axis=2)

    def parts(
        self, suspension: Suspension, path: WheelPath, home: Values, link: float, sways: list[Sway]
    ) -> list[Obstacle]:
        """Return links, damper and spring as they stand at every position.

        `home` is where the wheel's centre stands; `sways` move links and wheel alike.
        """
        known = [one for one in sways if one.error.size > 1 and one.error.any()]
        beside = _Beside(guided=self, path=path, sways=known)
        centre = np.asarray(self.swept.left.wheel.centre)
        home = home[:, np.newaxis, np.newaxis] - centre
        found = []
        groups: dict[str, tuple[list[Values], list[Values]]] = {"own links": ([], [])}
        leaf = suspension.has("leaf") and suspension.leaf.has("leaf_width")
        for one in self.swept.links():
            name = "own leaf spring" if leaf and "leaf" in one.name else "own links"
            starts, ends = groups.setdefault(name, ([], []))
            starts.append(one.start + home)
            ends.append(one.end + home)
        for name, (starts, ends) in groups.items():
            if starts:
                wide = name != "own links"
                radius = float(suspension.leaf.leaf_width[0]) / 2.0 if wide else link
                found.append(beside.rods(name, starts, ends, radius))
        swept = self.swept
        damper = swept.strut("damper") if swept.placed("damper") else swept.tube()
        spring = swept.strut("spring") if swept.placed("spring") else None
        for name, strut, radius in (
            ("own damper", damper, DAMPER),
            ("own spring", spring, _spring_radius(suspension)),
        ):
            if strut is not None:
                top, bottom = _ends(strut)
                found.append(beside.rods(name, [top + home], [bottom + home], radius))
        return found


@dataclass(frozen=True, kw_only=True)
class _Beside:
    """What makes obstacles of a linkage's lines."""

    guided: Guided
    path: WheelPath
    sways: list[Sway]

    def rods(self, name: str, starts: list[Values], ends: list[Values], radius: float) -> Obstacle:
        errors = [self.guided.errors, *(one.error[np.newaxis] for one in self.sways)]
        return moving_rods(
            name=name,
            starts=[self._columns(one) for one in starts],
            ends=[self._columns(one) for one in ends],
            radius=radius,
            errors=np.concatenate(errors),
        )

    def _columns(self, values: Values) -> Values:
        whole = (3, *self.guided.swept.motion.residual.shape)
        found = self.guided.at_lock(np.broadcast_to(values, whole))
        nominal = found[..., 0]
        more = [nominal + one.moved(nominal, self.path) for one in self.sways]
        return np.concatenate((found, *(one[..., np.newaxis] for one in more)), axis=2)


def guided(
    *,
    suspension: Suspension,
    camber: Values,
    toe_in: Values,
    travel: Values,
    lock: float | None,
    steers: int,
    roll: Values,
) -> Guided | None:
    """Return an option's linkage over the grid; None where its points are not given."""
    points = hardpoints_of(suspension)
    if points is None:
        return None
    kept = {name: one for name, one in points.items() if name not in BARS}
    columns, errors = _columns({**kept, "camber": camber[np.newaxis], "toe": toe_in[np.newaxis]})
    key = _name_of(suspension, columns, travel, lock, steers, roll)
    swept = _KNOWN.get(key)
    if swept is None:
        camber, toe_in = columns.pop("camber")[0], columns.pop("toe")[0]
        swept = _swept(suspension, columns, camber, toe_in, travel, lock, steers, roll)
        if len(_KNOWN) >= MOST_KNOWN:
            _KNOWN.clear()
        _KNOWN[key] = swept
    return Guided(swept=swept, errors=errors)


def travels(droop: Values, bump: Values) -> Values:
    """Return positions from droop to bump with the standing one among them, nominal."""
    half = TRAVELS // 2 + 1
    down = np.linspace(-float(droop[0]), 0.0, half)
    return np.concatenate((down, np.linspace(0.0, float(bump[0]), half)[1:]))


MOST_KNOWN = 16
_KNOWN: dict[bytes, Swept] = {}
"""Motions by all that decides them: options that move alike share theirs."""


def _name_of(
    suspension: Suspension,
    columns: dict[str, Values],
    travel: Values,
    lock: float | None,
    steers: int,
    roll: Values,
) -> bytes:
    arm = suspension.spring_on if suspension.has("spring_on") else ""
    found = blake2b(repr((suspension.layout, arm, lock, steers, sorted(columns))).encode())
    for array in (travel, roll, *(columns[name] for name in sorted(columns))):
        found.update(np.ascontiguousarray(array).data)
    return found.digest()


def _swept(
    suspension: Suspension,
    columns: dict[str, Values],
    camber: Values,
    toe_in: Values,
    travel: Values,
    lock: float | None,
    steers: int,
    roll: Values,
) -> Swept:
    made = linkage_of(suspension, camber, toe_in, points=columns)
    if made is None:
        raise DoesNotApply(suspension.path_of("points"), "no hardpoints are given")
    steer = np.zeros(1)
    if made.steered and lock is not None:
        first = {name: one[:, :1] for name, one in columns.items()}
        nominal = linkage_of(suspension, camber[:1], toe_in[:1], points=first)
        way = way_to_lock(nominal or made, ARM if made.steered == "arm" else RACK, lock)
        steer = np.linspace(-way, way, steers)
    single = made.mechanism.drives == 1
    return made.motion(travel=travel, steer=steer, roll=np.zeros(1) if single else roll)


def _columns(values: dict[str, Values]) -> tuple[dict[str, Values], Values]:
    """Return values as nominal and one column per reading that has a spread, larger by a step."""
    known = {name: np.flatnonzero(np.ptp(one, axis=-1)) for name, one in values.items()}
    count = 1 + sum(one.size for one in known.values())
    columns, errors, column = {}, [], 1
    for name, value in values.items():
        found = np.repeat(value[:, :1], count, axis=1)
        for row in known[name]:
            found[row, column] += STEP
            errors.append((value[row] - value[row, 0]) / STEP)
            column += 1
        columns[name] = found
    return columns, np.array(errors).reshape(count - 1, -1)


def _ends(strut: Strut) -> tuple[Values, Values]:
    return strut.top, strut.bottom_motion()[0]


def _spring_radius(suspension: Suspension) -> float:
    coil = suspension.coil
    if suspension.has("coil") and coil.has("mean_diameter"):
        wire = float(coil.wire_diameter[0]) if coil.has("wire_diameter") else 0.0
        return (float(coil.mean_diameter[0]) + wire) / 2.0
    return SPRING
