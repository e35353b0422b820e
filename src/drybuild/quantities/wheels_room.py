"""The room round each wheel: the arch as measured, seen from the wheel over all its motion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.envelope import obstacles as standing
from drybuild.physics.envelope.gaps import Wander
from drybuild.physics.envelope.path import (
    SteeringAxis,
    WheelPath,
    axle_path,
    guided_path,
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
from drybuild.quantities.suspension_alignment import rear_camber, rear_toe_in
from drybuild.quantities.wheels_links import (
    ROLLS,
    STEERS,
    TRAVELS,
    Guided,
    Sway,
    drift_of,
    guided,
    travels,
)
from drybuild.tables.suspension import layout_of

RADIUS_SHARE = 0.4538
"""Standing radius over outside diameter: 265 mm of 584 mm (Reimpell, from memory)."""
MIDDLE_SHARE = 0.39
"""Section's middle over outside diameter; any place inside every tyre does."""
SKIN = 0.090
"""How far wing and guard reach beyond the lip where no ceiling is measured. [m]"""
GUARD_FROM = 0.5
"""The guard begins at this share of the lip's distance; nearer in is the suspension's place."""
LEAST_BUMP = 0.005
"""Travel up that is left however low the car stands. [m]"""


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
    wander: Wander
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
    front_adjusted: Values,
) -> Rooms:
    """See the arch from the wheel, through travel, lock and roll."""
    return front_room(
        front_suspension, steering, arches, body, front_track, front_adjusted, AS_IT_IS
    )


@step("Room round the rear wheels", source="the-build-file")
def rear_wheel_room(
    rear_suspension: RearSuspension, arches: Arches, rear_track: Values, rear_adjusted: Values
) -> Rooms:
    """See the arch from the wheel, through travel and roll."""
    return rear_room(rear_suspension, arches, rear_track, rear_adjusted, AS_IT_IS)


def front_room(
    suspension: FrontSuspension,
    steering: Steering,
    arches: Arches,
    body: Body,
    track: Values,
    adjusted: Values,
    change: Change,
) -> Rooms:
    """Return the room of the front wheels with a change tried."""
    if not arches.front.known:
        return {}
    inner, outer = _locks(suspension, steering, body, track)
    axle = _Axle(FRONT, suspension, arches, track, adjusted, change)
    axle.steer(inner, outer, suspension)
    return {FRONT: axle.room()}


def rear_room(
    suspension: RearSuspension, arches: Arches, track: Values, adjusted: Values, change: Change
) -> Rooms:
    """Return the room of the rear wheels with a change tried."""
    if not arches.rear.known:
        return {}
    axle = _Axle(REAR, suspension, arches, track, adjusted, change)
    axle.setting = rear_camber(suspension), rear_toe_in(suspension) / 2.0
    return {REAR: axle.room()}


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
        track: Values,
        adjusted: Values,
        change: Change,
    ) -> None:
        self.name, self.suspension = name, suspension
        self.arch: AxleArch = getattr(arches, name)
        self.arches, self.track, self.change = arches, track, change
        self.half = float(track[0]) / 2.0
        self.tyre = float(arches.outside_diameter[0])
        self.radius = RADIUS_SHARE * self.tyre
        rise = signed(suspension, "ride_height_change", track) + adjusted
        self.lift = -rise
        bump, self.droop = suspension.bump_travel, suspension.droop_travel
        if not suspension.has("bump_travel"):  # the stop stays with the body
            bump = np.maximum(bump + np.minimum(rise, 0.0), LEAST_BUMP)
        self.bump = bump - change.bump
        self.setting: tuple[Values, Values] = (np.zeros(1), np.zeros(1))
        self.axis: SteeringAxis | None = None
        self.locks: tuple[Values, Values] | None = None
        self.guided: Guided | None = None

    def steer(self, inner: Values, outer: Values, suspension: FrontSuspension) -> None:
        """Let the wheels be steered as well."""
        self.setting = suspension.camber, suspension.toe_in / 2.0
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
        sways = [(sway, error) for sway, error in self._sways(path) if error.any()]
        own = [] if self.guided is None else [self.guided.errors]
        wander = Wander(
            drift=drift_of(path, [sway for sway, _ in sways], self.guided),
            error=_stacked([*own, *(error[np.newaxis] for _, error in sways)]),
        )
        obstacles = self._obstacles()
        if self.guided is not None:
            obstacles += self._links(self.guided, path, [sway for sway, _ in sways], wander.error)
        found = room(path=path, obstacles=obstacles, middle=MIDDLE_SHARE * self.tyre)
        fold = 0.0
        if self.arch.has("stations"):
            stations = self.arch.stations.values()
            fold = max((float(one.fold[0]) for one in stations if one.has("fold")), default=0.0)
        return WheelRoom(room=found, wander=wander, rolls_back=fold)

    def _path(self) -> WheelPath:
        self.guided = self._guided()
        if self.guided is not None:
            return self._linked(self.guided)
        camber = float(self.setting[0][0])
        layout = layout_of(self.suspension.layout)
        roll_centre = layout.roll_centre.value
        if self.suspension.has("roll_centre_height"):
            roll_centre = float(self.suspension.roll_centre_height[0])
        common = {
            "half_track": self.half,
            "radius": self.radius,
            "standing": float(self.lift[0]),
            "bump": float(self.bump[0]),
            "droop": float(self.droop[0]),
            "camber": camber,
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
            path=path, radius=self.radius, camber=camber, axis=self.axis, steer=self._steers()
        )

    def _steers(self) -> Values:
        inner, outer = (float(one[0]) for one in self.locks or ())
        half = STEERS // 2 + 1
        return np.concatenate((np.linspace(-outer, 0.0, half), np.linspace(0.0, inner, half)[1:]))

    def _guided(self) -> Guided | None:
        """Return the option's own linkage over travel, lock and roll, if its points are given."""
        most = float(self.bump[0] + self.droop[0]) / (2.0 * self.half)
        return guided(
            suspension=self.suspension,
            camber=self.setting[0],
            toe_in=self.setting[1],
            travel=travels(self.droop, self.bump),
            lock=None if self.locks is None else float(self.locks[0][0]),
            steers=STEERS,
            roll=np.linspace(-most, most, ROLLS),
        )

    def _linked(self, found: Guided) -> WheelPath:
        lift = float(self.lift[0])
        path = found.path(self.half, lift)
        return _within(path, lift - float(self.droop[0]), lift + float(self.bump[0]))

    def _sways(self, path: WheelPath) -> list[tuple[Sway, Values]]:
        """Return track, height, bump and droop travel, and lock, each with what it errs by."""
        found = [
            (Sway(shift=(0.0, 1.0, 0.0)), _error(self.track) / 2.0),
            (Sway(shift=(0.0, 0.0, 1.0)), _error(self.lift)),
        ]
        for travel, sign in ((self.bump, 1.0), (self.droop, -1.0)):
            part = np.clip(sign * path.travel / float(travel[0]), 0.0, 1.0) * sign
            found.append((Sway(along=0, part=part), _error(travel)))
        for lock, sign in zip(self.locks or (), (1.0, -1.0), strict=False):
            part = np.clip(sign * path.steer / float(lock[0]), 0.0, 1.0) * sign
            found.append((Sway(along=1, part=part), _error(lock)))
        return found

    def _obstacles(self) -> list[standing.Obstacle]:
        found = []
        if self.arch.has("stations"):
            found += arch_obstacles(list(self.arch.stations.values()), self.change.rolled)
        for name, one in self.arch.beside.items() if self.arch.has("beside") else ():
            if not one.has("layout") or one.layout == self.suspension.layout:
                found.append(_beside(name, one))
        if self.arch.scan.has("file"):
            scan, where = self.arch.scan, self.arches.where
            if where is None:
                raise MissingInput(scan.path_of("file"), "it is not known where the scan lies")
            points = scan_points(scan, where.file.parent, self.half)
            found.append(standing.cloud(name="scan", points=points, error=scan.error))
        return found

    def _links(
        self, found: Guided, path: WheelPath, sways: list[Sway], errors: Values
    ) -> list[standing.Obstacle]:
        """Return the wheel's own links, damper and spring."""
        link = float(self.arch.link_diameter[0]) / 2.0
        home = np.array([0.0, self.half, float(self.lift[0])])
        return [
            standing.Obstacle(name=name, form=form, readings=errors)
            for name, form in found.parts(self.suspension, path, home, link, sways)
        ]


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


def _stacked(errors: list[Values]) -> Values:
    """Return rows of errors, (rows, samples); of one sample where nothing errs."""
    samples = max((one.shape[-1] for one in errors), default=1)
    rows = [np.broadcast_to(one, (one.shape[0], samples)) for one in errors]
    return np.concatenate(rows) if rows else np.zeros((0, 1))


def _error(values: Values) -> Values:
    return np.asarray(values - values[:1])


def _within(path: WheelPath, low: float, high: float) -> WheelPath:
    """Leave out where an axle's roll would take this wheel past its stops."""
    beyond = (path.centre[2] < low - 1e-4) | (path.centre[2] > high + 1e-4)
    centre = np.where(beyond, np.nan, path.centre)
    return WheelPath(**{**vars(path), "centre": centre})
