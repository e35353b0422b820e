"""The room round each wheel: the arch as measured, seen from the wheel over all its motion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.envelope import obstacles as standing
from drybuild.physics.envelope.gaps import Wander
from drybuild.physics.envelope.path import (
    SteeringAxis,
    WheelPath,
    axle_path,
    guided_path,
    linkage_path,
    steered_path,
)
from drybuild.physics.envelope.room import Room, room
from drybuild.physics.steering import ackermann_outer_angle
from drybuild.project.arches import Arches, ArchStation, AxleArch, BesideWheel
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.scans import scan_points
from drybuild.project.steering import Steering
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR
from drybuild.quantities.body import signed
from drybuild.quantities.quantity import step
from drybuild.quantities.steering_linkage import way_to_lock
from drybuild.quantities.suspension_linkage import linkage_of
from drybuild.tables.suspension import layout_of

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept

RADIUS_SHARE = 0.4538
"""Standing radius over outside diameter: 265 mm of 584 mm (Reimpell, from memory)."""
MIDDLE_SHARE = 0.39
"""Section's middle over outside diameter; any place inside every tyre does."""
SKIN = 0.090
"""How far wing and guard reach beyond the lip where no ceiling is measured. [m]"""
GUARD_FROM = 0.5
"""The guard begins at this share of the lip's distance; nearer in is the suspension's place."""
DAMPER, SPRING = 0.028, 0.055
"""Radius of a damper, and of a spring that is not given; common practice, no source. [m]"""
TRAVELS, STEERS, ROLLS = 7, 7, 5


@dataclass(frozen=True, kw_only=True)
class Change:
    """What is tried on the arch or the motion. [m], [rad]."""

    rolled: bool = False
    """The lip's fold is rolled flat against the skin."""
    bump: float = 0.0
    """Taken off the travel up by a longer stop."""
    lock: float = 0.0
    """Taken off both locks by stops."""


@dataclass(frozen=True, kw_only=True)
class WheelRoom:
    """The room of one axle's wheels, and what is not surely known of their motion."""

    room: Room
    wanders: tuple[Wander, ...]
    rolls_back: float
    """How much of a fold the lip has; zero for none. [m]"""


Rooms = dict[str, WheelRoom]
"""By axle; empty where the arch itself was not measured."""
AS_IT_IS = Change()


@step("Room round the front wheels", source="the-build-file")
def front_wheel_room(
    front_suspension: FrontSuspension,
    steering: Steering,
    arches: Arches,
    body: Body,
    front_track: Values,
) -> Rooms:
    """See the arch from the wheel, through travel, lock and roll."""
    return front_room(front_suspension, steering, arches, body, front_track, AS_IT_IS)


@step("Room round the rear wheels", source="the-build-file")
def rear_wheel_room(rear_suspension: RearSuspension, arches: Arches, rear_track: Values) -> Rooms:
    """See the arch from the wheel, through travel and roll."""
    return rear_room(rear_suspension, arches, rear_track, AS_IT_IS)


def front_room(
    suspension: FrontSuspension,
    steering: Steering,
    arches: Arches,
    body: Body,
    track: Values,
    change: Change,
) -> Rooms:
    """Return the room of the front wheels with a change tried."""
    if not arches.front.known:
        return {}
    inner, outer = _locks(suspension, steering, body, track)
    axle = _Axle(FRONT, suspension, arches, arches.front, track, change)
    axle.steer(inner, outer, suspension)
    return {FRONT: axle.room()}


def rear_room(suspension: RearSuspension, arches: Arches, track: Values, change: Change) -> Rooms:
    """Return the room of the rear wheels with a change tried."""
    if not arches.rear.known:
        return {}
    return {REAR: _Axle(REAR, suspension, arches, arches.rear, track, change).room()}


def _locks(
    suspension: FrontSuspension, steering: Steering, body: Body, track: Values
) -> tuple[Values, Values]:
    """Return inner and outer lock on the car's own wheels: another offset turns no farther."""
    inner = steering.inner_lock
    if steering.has("outer_lock"):
        return inner, steering.outer_lock
    ideal = ackermann_outer_angle(
        inner_angle=inner,
        wheelbase=body.wheelbase,
        kingpin_track=track - 2.0 * suspension.scrub_radius,
    )
    return inner, inner - steering.ackermann * (inner - ideal)


class _Axle:
    """One axle while its room is made."""

    def __init__(
        self,
        name: str,
        suspension: Suspension,
        arches: Arches,
        arch: AxleArch,
        track: Values,
        change: Change,
    ) -> None:
        self.name, self.suspension, self.arch = name, suspension, arch
        self.arches, self.track, self.change = arches, track, change
        self.half = float(track[0]) / 2.0
        self.tyre = float(arches.outside_diameter[0])
        self.radius = RADIUS_SHARE * self.tyre
        self.bump = suspension.bump_travel - change.bump
        self.lift = -signed(suspension, "ride_height_change", track)
        self.camber = 0.0
        self.axis: SteeringAxis | None = None
        self.locks: tuple[Values, Values] | None = None
        self.swept: Swept | None = None

    def steer(self, inner: Values, outer: Values, suspension: FrontSuspension) -> None:
        """Let the wheels be steered as well."""
        self.camber = float(suspension.camber[0])
        self.locks = (inner - self.change.lock, outer - self.change.lock)
        self.axis = SteeringAxis(
            caster=float(suspension.caster[0]),
            inclination=float(suspension.kingpin_inclination[0]),
            scrub=float(suspension.scrub_radius[0]),
            trail=float(suspension.mechanical_trail[0]),
        )

    def room(self) -> WheelRoom:
        """Return it."""
        path = self._path()
        found = room(path=path, obstacles=self._obstacles(), middle=MIDDLE_SHARE * self.tyre)
        fold = 0.0
        if self.arch.has("stations"):
            stations = self.arch.stations.values()
            fold = max((float(one.fold[0]) for one in stations if one.has("fold")), default=0.0)
        return WheelRoom(room=found, wanders=self._wanders(path), rolls_back=fold)

    def _path(self) -> WheelPath:
        made = linkage_of(self.suspension, np.array([self.camber]), np.zeros(1), nominal=True)
        if made is not None:
            return self._linked(made)
        layout = layout_of(self.suspension.layout)
        roll_centre = layout.roll_centre.value
        if self.suspension.has("roll_centre_height"):
            roll_centre = float(self.suspension.roll_centre_height[0])
        common = {
            "half_track": self.half,
            "radius": self.radius,
            "standing": float(self.lift[0]),
            "bump": float(self.bump[0]),
            "droop": float(self.suspension.droop_travel[0]),
            "camber": self.camber,
            "roll_centre_height": roll_centre,
        }
        if layout.rigid:
            path = axle_path(**common, places=TRAVELS, rolls=ROLLS)
        else:
            gain = (1.0 - layout.lean.value) / self.half
            if self.suspension.has("camber_gain"):
                gain = float(self.suspension.camber_gain[0])
            path = guided_path(**common, camber_gain=gain, places=TRAVELS)
        if self.axis is None or self.locks is None:
            return path
        return steered_path(
            path=path, radius=self.radius, camber=self.camber, axis=self.axis, steer=self._steers()
        )

    def _steers(self) -> Values:
        inner, outer = (float(one[0]) for one in self.locks or ())
        half = STEERS // 2 + 1
        return np.concatenate((np.linspace(-outer, 0.0, half), np.linspace(0.0, inner, half)[1:]))

    def _linked(self, made: object) -> WheelPath:
        from drybuild.physics.linkage.layouts import Linkage  # noqa: PLC0415  kept for need

        if not isinstance(made, Linkage):
            raise TypeError(made)
        half = TRAVELS // 2 + 1
        droop, bump = float(self.suspension.droop_travel[0]), float(self.bump[0])
        travel = np.concatenate((np.linspace(-droop, 0.0, half), np.linspace(0.0, bump, half)[1:]))
        steer, roll = np.zeros(1), np.zeros(1)
        if made.steered and self.locks is not None:
            widest = np.radians(50.0) if made.steered == "arm" else 0.1
            way = way_to_lock(made, widest, float(self.locks[0][0]))
            steer = np.linspace(-way, way, STEERS)
        if made.mechanism.drives > 1:
            most = (bump + droop) / (2.0 * self.half)
            roll = np.linspace(-most, most, ROLLS)
        self.swept = made.motion(travel=travel, steer=steer, roll=roll)
        path = linkage_path(
            wheel=self.swept.left, half_track=self.half, standing=float(self.lift[0])
        )
        return _within(path, float(self.lift[0]) - droop, float(self.lift[0]) + bump)

    def _wanders(self, path: WheelPath) -> tuple[Wander, ...]:
        """Return track, height, bump and droop travel, and lock, as far as they have a spread."""
        ones = np.ones(path.travel.size)
        aside, up = np.zeros_like(path.centre), np.zeros_like(path.centre)
        aside[1], up[2] = ones, ones
        none = np.zeros_like(path.spin)
        found = [
            Wander(centre=aside, spin=none, error=_error(self.track) / 2.0),
            Wander(centre=up, spin=none, error=_error(self.lift)),
        ]
        moved = path.rates(path.travel, 0)
        for travel, sign in ((self.bump, 1.0), (self.suspension.droop_travel, -1.0)):
            part = np.clip(sign * path.travel / float(travel[0]), 0.0, 1.0) * sign
            found.append(_wander(moved, part, _error(travel)))
        if self.locks is not None:
            turned = path.rates(path.steer, 1)
            for lock, sign in zip(self.locks, (1.0, -1.0), strict=True):
                part = np.clip(sign * path.steer / float(lock[0]), 0.0, 1.0) * sign
                found.append(_wander(turned, part, _error(lock)))
        return tuple(found)

    def _obstacles(self) -> list[standing.Obstacle]:
        found = []
        if self.arch.has("stations"):
            found += arch_obstacles(list(self.arch.stations.values()), self.change.rolled)
        for name, one in self.arch.beside.items() if self.arch.has("beside") else ():
            found.append(_beside(name, one))
        if self.arch.scan.has("file"):
            scan, where = self.arch.scan, self.arches.where
            if where is None:
                raise MissingInput(scan.path_of("file"), "it is not known where the scan lies")
            points = scan_points(scan, where.file.parent, self.half)
            found.append(standing.cloud(name="scan", points=points, error=scan.error))
        if self.swept is not None:
            found += self._own(self.swept)
        return found

    def _own(self, swept: Swept) -> list[standing.Obstacle]:
        """Return the axle's own links, damper and spring, straight ahead and level."""
        motion = swept.motion
        steers, rolls = motion.shape[1], motion.shape[2]
        places = [(k * steers + steers // 2) * rolls + rolls // 2 for k in range(motion.shape[0])]
        design = np.asarray(swept.left.wheel.centre)[:, 0, 0]
        home = np.array([0.0, self.half, float(self.lift[0])]) - design
        bars = [
            {
                one.name: one
                for one in swept.rods(place)
                if one.name not in ("steering axis", "axle")
            }
            for place in places
        ]
        names = [name for name in bars[0] if all(name in one for one in bars)]
        found = []
        if names:
            starts = [np.stack([one[n].start + home for one in bars], axis=1) for n in names]
            ends = [np.stack([one[n].end + home for one in bars], axis=1) for n in names]
            radius = float(self.arch.link_diameter[0]) / 2.0
            found.append(
                standing.moving_rods(name="own links", starts=starts, ends=ends, radius=radius)
            )
        for kind, radius in (("damper", DAMPER), ("spring", self._spring_radius())):
            strut = swept.strut(kind)
            if strut is not None:
                bottom = strut.bottom_motion()[0][:, places, 0] + home[:, np.newaxis]
                top = np.asarray(strut.top)[:, 0, :1] + home[:, np.newaxis] + 0.0 * bottom
                found.append(
                    standing.moving_rods(
                        name=f"own {kind}", starts=[top], ends=[bottom], radius=radius
                    )
                )
        return found

    def _spring_radius(self) -> float:
        coil = self.suspension.coil
        if self.suspension.has("coil") and coil.has("mean_diameter"):
            wire = float(coil.wire_diameter[0]) if coil.has("wire_diameter") else 0.0
            return (float(coil.mean_diameter[0]) + wire) / 2.0
        return SPRING


def arch_obstacles(stations: list[ArchStation], rolled: bool) -> list[standing.Obstacle]:
    """Return lip, wing, guard and ceiling as far as stations tell of them."""
    placed = sorted((_Placed(one) for one in stations), key=lambda one: float(one.angle))
    lips = [one for one in placed if one.station.has("outer")]
    guards = [one for one in placed if one.station.has("inner")]
    found = []
    if len(lips) > 1:
        angles = np.array([one.angle for one in lips])
        lip = _stack(lips, lambda one: one.radius)
        skin = _stack(lips, lambda one: one.station.outer + one.fold)
        edge = skin if rolled else _stack(lips, lambda one: one.station.outer)
        far = _stack(lips, lambda one: one.ceiling)
        sheet = standing.polar_sheet
        found.append(sheet(name="lip", angles=angles, inner=(lip, edge), outer=(lip, edge)))
        found.append(sheet(name="wing", angles=angles, inner=(lip, skin), outer=(far, skin)))
    if len(guards) > 1:
        angles = np.array([one.angle for one in guards])
        wall = _stack(guards, lambda one: one.station.inner)
        near = _stack(guards, lambda one: GUARD_FROM * one.radius)
        far = _stack(guards, lambda one: one.ceiling)
        found.append(
            standing.polar_sheet(name="guard", angles=angles, inner=(near, wall), outer=(far, wall))
        )
    roofs = [one for one in guards if one in lips and one.station.has("ceiling")]
    if len(roofs) > 1:
        angles = np.array([one.angle for one in roofs])
        roof = _stack(roofs, lambda one: one.station.ceiling)
        inside = _stack(roofs, lambda one: one.station.inner)
        outside = _stack(roofs, lambda one: one.station.outer + one.fold)
        found.append(
            standing.polar_sheet(
                name="ceiling", angles=angles, inner=(roof, inside), outer=(roof, outside)
            )
        )
    return found


class _Placed:
    """A station with its place worked out."""

    def __init__(self, station: ArchStation) -> None:
        self.station = station
        if station.has("x") and station.has("height"):
            self.angle = float(np.arctan2(station.height[0], station.x[0]))
            self.radius: Values = np.hypot(station.x, station.height)
        else:
            self.angle, self.radius = float(station.angle[0]), station.lip
        self.fold: Values | float = station.fold if station.has("fold") else 0.0
        self.ceiling: Values = station.ceiling if station.has("ceiling") else self.radius + SKIN


def _stack(placed: list[_Placed], work: Callable[[_Placed], Values]) -> Values:
    return np.array(np.broadcast_arrays(*(np.asarray(work(one)) for one in placed)))


def _beside(name: str, one: BesideWheel) -> standing.Obstacle:
    follows = {
        "body": standing.WITH_BODY,
        "wheel": standing.WITH_WHEEL,
        "half way": standing.HALF_WAY,
    }[one.follows]
    if one.has("start") or one.has("end"):
        return standing.rod(
            name=name,
            start=one.start,
            end=one.end,
            radius=float(one.diameter[0]) / 2.0,
            follows=follows,
        )
    low, high = (
        np.array(np.broadcast_arrays(*corners))
        for corners in ((one.rear, one.inner, one.bottom), (one.front, one.outer, one.top))
    )
    return standing.block(name=name, low=low, high=high, follows=follows)


def _wander(rates: tuple[Values, Values], part: Values, error: Values) -> Wander:
    return Wander(centre=rates[0] * part, spin=rates[1] * part, error=error)


def _error(values: Values) -> Values:
    return np.asarray(values - values[:1])


def _within(path: WheelPath, low: float, high: float) -> WheelPath:
    """Leave out where an axle's roll would take this wheel past its stops."""
    beyond = (path.centre[2] < low - 1e-4) | (path.centre[2] > high + 1e-4)
    centre = np.where(beyond, np.nan, path.centre)
    return WheelPath(**{**vars(path), "centre": centre})
