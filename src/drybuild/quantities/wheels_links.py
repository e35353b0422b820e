"""A suspension's own links beside its wheel: solved over travel and lock, with the points' spread.

The points are moved one reading at a time from the nominal, so that path and links carry the
spread of the tape to first order; the tests compare with moving all of them for each sample.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.keeping import Known, content_name
from drybuild.physics.envelope.gaps import Drift
from drybuild.physics.envelope.obstacles import Bars, moving_rods
from drybuild.physics.envelope.path import WheelPath, linkage_columns, linkage_path, slope_along
from drybuild.project.samples import Values
from drybuild.project.suspension import Suspension
from drybuild.quantities.steering_linkage import way_to_lock
from drybuild.quantities.suspension_linkage import hardpoints_of, linkage_of

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Linkage, Swept

DAMPER, SPRING = 0.028, 0.055
"""Radius of a damper, and of a spring that is not given; common practice, no source. [m]"""
RACK, ARM = 0.1, np.radians(50.0)
"""Widest travel of a rack and of a steering box's arm that is tried. [m], [rad]"""
TRAVELS, STEERS, ROLLS = 7, 7, 5
"""Positions that a wheel is looked at in."""
STEP = 1e-3
"""Of a reading, for its slope: a tape's spread. [m], [rad]"""
LINKS, LEAF = "own links", "own leaf spring"
BARS = ("bar_end", "bar_link", "bar_axis")
"""Points that neither move the wheel nor stand beside it as a link."""


@dataclass(frozen=True, kw_only=True)
class Sway:
    """How the wheel stands elsewhere, or goes farther, per unit of a measure."""

    shift: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """How it moves wheel and links together, per unit."""
    along: int | None = None
    """Or: which of travel (0) and steer (1) it stretches."""
    part: Values | None = None
    """By how much at each position."""

    def moved(self, values: Values, path: WheelPath) -> Values:
        """Return how places (..., 3, positions) move per unit."""
        if self.along is None or self.part is None:
            return np.asarray(np.array(self.shift)[:, np.newaxis] + 0.0 * values)
        if path.shape[self.along] == 1:
            return np.zeros_like(values)
        way = np.moveaxis((path.travel, path.steer)[self.along].reshape(path.shape), self.along, 0)
        grid = values.reshape(*values.shape[:-1], *path.shape)
        axis = self.along - len(path.shape)
        slope = slope_along(values=grid, way=way[:, 0, 0], axis=axis)
        return np.asarray(slope.reshape(values.shape) * self.part)

    def aimed(self, spin: Values, path: WheelPath) -> Values:
        """Return how the axle moves per unit: what shifts the wheel does not turn it."""
        return replace(self, shift=(0.0, 0.0, 0.0)).moved(spin, path)


_DRIFTS: Known[Drift] = Known(64)
_FORMS: Known[tuple[tuple[str, Bars], ...]] = Known(8)
"""What options and samples share that are alike in their nominal measures."""


def drift_of(path: WheelPath, sways: list[Sway], found: Guided | None) -> Drift:
    """Return what the readings of a linkage, and the measures, do to a wheel's path."""
    name = found.content if found is not None else b""
    return _DRIFTS.of(content_name(path, sways, name), lambda: _drift(path, sways, found))


def _drift(path: WheelPath, sways: list[Sway], found: Guided | None) -> Drift:
    centres = [one.moved(path.centre, path) for one in sways]
    spins = [one.aimed(path.spin, path) for one in sways]
    both = [np.array(one).reshape(len(sways), *path.centre.shape) for one in (centres, spins)]
    if found is not None:
        own = found.drift()
        both = [
            np.concatenate((by_points, by_measures))
            for by_points, by_measures in zip((own.centre, own.spin), both, strict=True)
        ]
    return Drift(centre=both[0], spin=both[1])


@dataclass(frozen=True, kw_only=True)
class Guided:
    """A wheel's own linkage over travel, lock and roll."""

    content: bytes
    """A name of all that decides its motion."""
    swept: Swept
    """The nominal first, then each reading larger by a step."""
    errors: Values
    """Readings in those steps, less nominal, (readings, samples). [-]"""

    def path(self, half_track: float, standing: float) -> WheelPath:
        """Return the wheel's path, as far as the links follow."""
        return linkage_path(wheel=self.swept.left, half_track=half_track, standing=standing)

    def drift(self) -> Drift:
        """Return what each reading does to the path."""
        centres, spins = (
            np.moveaxis(np.nan_to_num(one[..., 1:] - one[..., :1]), -1, 0)
            for one in map(self.at_lock, linkage_columns(wheel=self.swept.left))
        )
        return Drift(centre=centres, spin=spins)

    @cached_property
    def _turned(self) -> tuple[Values, Values]:
        """Steer angle over the gear's travel, standing; and how each reading turns it there."""
        motion = self.swept.motion
        level, middle = (int(np.argmin(np.abs(one))) for one in (motion.travel, motion.roll))
        angle = np.asarray(self.swept.left.steer_angle)[level, :, middle]
        return angle[:, 0], np.nan_to_num(angle[:, 1:] - angle[:, :1])

    def at_lock(self, values: Values) -> Values:
        """Return places (..., 3, positions, 1 + readings) at the nominal's angle of lock.

        Lock is measured as the wheel's angle; another steering arm turns the gear's travel, not it.
        """
        sizes = self.swept.motion.shape[:3]
        if sizes[1] == 1:
            return values
        way, turned = self._turned
        ahead = values.shape[:-2]
        grid = values[..., 0].reshape(*ahead, *sizes)
        slope = slope_along(values=grid, way=way, axis=-2)[..., np.newaxis]
        held = (slope * turned[:, np.newaxis]).reshape(*ahead, -1, turned.shape[1])
        return np.concatenate((values[..., :1], values[..., 1:] - held), axis=-1)

    def parts(
        self, suspension: Suspension, path: WheelPath, home: Values, link: float, sways: list[Sway]
    ) -> tuple[tuple[str, Bars], ...]:
        """Return links, damper and spring as they stand at every position.

        `home` is where the wheel's centre stands; `sways` move links and wheel alike.
        """
        leaf = suspension.has("leaf") and suspension.leaf.has("leaf_width")
        wide = float(suspension.leaf.leaf_width[0]) / 2.0 if leaf else link
        radii = {
            LINKS: link, LEAF: wide, "own damper": DAMPER, "own spring": _spring_radius(suspension)
        }  # fmt: skip
        name = content_name(self.content, path, home, sways, radii)
        return _FORMS.of(name, lambda: tuple(self._forms(name, path, home, sways, leaf, radii)))

    def _forms(
        self,
        content: bytes,
        path: WheelPath,
        home: Values,
        sways: list[Sway],
        leaf: bool,
        radii: dict[str, float],
    ) -> Iterator[tuple[str, Bars]]:
        for name, starts, ends in self._lines(leaf):
            places = [self._columns(one, path, home, sways) for one in (starts, ends)]
            yield (
                name,
                moving_rods(
                    content=content_name(content, name),
                    starts=places[0],
                    ends=places[1],
                    radius=radii[name],
                ),
            )

    def _lines(self, leaf: bool) -> Iterator[tuple[str, list[Values], list[Values]]]:
        """Return the bars of each kind by their ends, each (3, positions, 1 + readings)."""
        swept = self.swept
        links = [(leaf and "leaf" in one.name, one) for one in swept.links()]
        for name, kind in ((LINKS, False), (LEAF, True)):
            some = [one for is_leaf, one in links if is_leaf == kind]
            if some:
                yield name, [one.start for one in some], [one.end for one in some]
        damper = swept.strut("damper") if swept.placed("damper") else swept.tube()
        spring = swept.strut("spring") if swept.placed("spring") else None
        for name, strut in (("own damper", damper), ("own spring", spring)):
            if strut is not None:
                yield name, [strut.top], [strut.bottom_motion()[0]]

    def _columns(
        self, values: list[Values], path: WheelPath, home: Values, sways: list[Sway]
    ) -> Values:
        """Return places (bars, 3, positions, ...): nominal, by the readings, by the measures."""
        whole = (3, *self.swept.motion.residual.shape)
        away = home[:, np.newaxis, np.newaxis] - np.asarray(self.swept.left.wheel.centre)
        found = self.at_lock(np.stack([np.broadcast_to(one + away, whole) for one in values]))
        nominal = found[..., 0]
        more = [nominal + one.moved(nominal, path) for one in sways]
        return np.concatenate((found, *(one[..., np.newaxis] for one in more)), axis=-1)


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
    setting = columns.pop("camber")[0], columns.pop("toe")[0]
    first = {key: one[:, :1] for key, one in columns.items()}
    nominal = linkage_of(suspension, *(one[:1] for one in setting), points=first)
    if nominal is None:
        raise DoesNotApply(suspension.path_of("points"), "no hardpoints are given")
    if nominal.mechanism.drives == 1:
        roll = np.zeros(1)
    asked = nominal.spring_arm, travel, lock, steers, roll
    name = content_name(suspension.layout, columns, setting, asked)
    swept = _KNOWN.of(
        name, lambda: _swept(suspension, nominal, columns, setting, travel, lock, steers, roll)
    )
    return Guided(content=name, swept=swept, errors=errors)


def travels(droop: Values, bump: Values) -> Values:
    """Return positions from droop to bump with the standing one among them, nominal."""
    half = TRAVELS // 2 + 1
    down = np.linspace(-float(droop[0]), 0.0, half)
    return np.concatenate((down, np.linspace(0.0, float(bump[0]), half)[1:]))


_KNOWN: Known[Swept] = Known(8)
"""Motions by all that decides them: options that move alike share theirs."""


def _swept(
    suspension: Suspension,
    nominal: Linkage,
    columns: dict[str, Values],
    setting: tuple[Values, Values],
    travel: Values,
    lock: float | None,
    steers: int,
    roll: Values,
) -> Swept:
    steer = np.zeros(1)
    if nominal.steered and lock is not None:
        way = way_to_lock(nominal, ARM if nominal.steered == "arm" else RACK, lock)
        steer = np.linspace(-way, way, steers)
    made = linkage_of(suspension, *setting, points=columns) or nominal
    return made.motion(travel=travel, steer=steer, roll=roll)


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


def _spring_radius(suspension: Suspension) -> float:
    coil = suspension.coil
    if suspension.has("coil") and coil.has("mean_diameter"):
        wire = float(coil.wire_diameter[0]) if coil.has("wire_diameter") else 0.0
        return (float(coil.mean_diameter[0]) + wire) / 2.0
    return SPRING
