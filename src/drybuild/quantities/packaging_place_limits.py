"""What a place of the engine has to keep beside clearances: mounts, road, propshaft, axle load."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from drybuild.physics.placement.question import Array, Limit, carried
from drybuild.physics.placement.shaft_line import direction, shaft_joint_angles
from drybuild.physics.solids.scene import Pose
from drybuild.physics.solids.shapes import Piece, Solid
from drybuild.project.samples import Values
from drybuild.quantities.packaging_shapes import lowest

MOUNT = "mount bracket"
"""Pieces of the usual shapes that stand where the mounts are."""
MIDDLE_SHARE = 0.5
"""Where else the mounts are taken to be: at this share of the length from the rear face."""
SIDES = ("fore and aft", "sideways", "up and down")
MOUNTS, SUPPORT = "mounts", "support"
JOINT_LEAST = np.radians(0.5)
"""A joint bent less does not roll its needles (common practice)."""
JOINT_DIFFERENCE = np.radians(1.0)
"""Two joints whose angles differ by more do not undo each other (common practice)."""
RUNNING = 0.25
"""Share of the bump travel that the axle moves by on an ordinary road (common practice)."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Held:
    """A limit, and what is left of it over the samples."""

    limit: Limit
    over: Callable[[Array, Pose], Values]
    """By the place and by the pose with its spread."""


def reach_limits(
    *, name: str, alters: str, points: Array, reach: float, start: Array, roll: float
) -> list[Limit]:
    """Return how far some points may go from where they are, along each axis."""
    was = carried(points=points, at=start[:, None], roll=roll)

    def left(axis: int) -> Callable[[Array], Array]:
        def spare(at: Array) -> Array:
            gone = carried(points=points, at=at, roll=roll)[:, axis] - was[:, axis]
            return np.asarray(reach - np.abs(gone).max(axis=0))

        return spare

    return [
        Limit(name=f"{name}, {SIDES[axis]}", spare=left(axis), alters=alters)
        for axis in range(3)
        if axis != 1 or alters == MOUNTS
    ]


def mount_points(solids: Iterable[Solid]) -> Array:
    """Return where the mounts are, in the engine's own axes; else the middle of the block."""
    pieces = [piece for solid in solids for piece in solid.pieces]
    mounts = [one.nominal.mean(axis=0) for one in pieces if MOUNT in one.name]
    if mounts:
        return np.array(mounts)
    length = max(float(one.nominal[:, 0].max()) for one in pieces)
    return np.array([[MIDDLE_SHARE * length, 0.0, 0.0]])


def road_limit(*, sump: list[Piece], ride_height: Values, need: float, roll: float) -> Held:
    """Return what the sump keeps off the road, standing."""
    points = np.concatenate([one.nominal for one in sump])
    height = float(ride_height[0])

    def spare(at: Array) -> Array:
        low = carried(points=points, at=at, roll=roll)[:, 2].min(axis=0)
        return np.asarray(height + low - need)

    def over(_: Array, pose: Pose) -> Values:
        return ride_height + lowest(sump, pose) - need

    return Held(limit=Limit(name="sump over the road", spare=spare), over=over)


@dataclass(frozen=True, kw_only=True, eq=False)
class ShaftLine:
    """The propshaft's ends: the front one goes with the gearbox, the rear one with the axle."""

    behind: float
    """Front joint behind the rear face of the block, along the crankshaft. [m]"""
    rear_joint: Array
    """At ride height, in body axes, shape (3, samples + 1). [m]"""
    pinion: Array
    """Direction of the pinion's shaft to the rear, shape (3, samples + 1). [-]"""
    largest: Array
    """Largest joint angle at the shaft's highest speed; over samples. [rad]"""
    travel: float
    """Bump travel of the axle. [m]"""
    taken: bool
    """Whether the pinion's place was given; else the angles in the file stand for it."""

    def angles(self, pose: Pose, *, sample: int | None = None, risen: float = 0.0) -> Array:
        """Return the front and rear joint's angle, shape (2, ...); the axle risen by so much."""
        turn, shift = pose.turn.reshape(3, 3, -1), pose.shift.reshape(3, -1)
        axis = -turn[:, 0]
        which = slice(None) if sample is None else slice(sample, sample + 1)
        rear = self.rear_joint[:, which] + np.array([[0.0], [0.0], [risen]])
        return np.stack(
            shaft_joint_angles(
                gearbox_axis=axis,
                front_joint=shift + self.behind * axis,
                rear_joint=rear,
                pinion_axis=self.pinion[:, which],
            )
        )

    def spares(self, pose: Pose, *, sample: int | None = None) -> dict[str, Array]:
        """Return what is left of each rule of the joints."""
        largest = self.largest if sample is None else self.largest[sample : sample + 1]
        ways = [way * RUNNING * self.travel for way in (0.0, -1.0, 1.0)]
        moving = np.stack([self.angles(pose, sample=sample, risen=way) for way in ways])
        at_rest = moving[0]
        apart = np.abs(moving[:, 0] - moving[:, 1]).max(axis=0)
        return {
            "front joint, bent enough": at_rest[0] - JOINT_LEAST,
            "rear joint, bent enough": at_rest[1] - JOINT_LEAST,
            "joints alike through the axle's travel": JOINT_DIFFERENCE - apart,
            "front joint at its speed": largest - at_rest[0],
            "rear joint at its speed": largest - at_rest[1],
        }


def shaft_limits(*, line: ShaftLine, roll: float) -> list[Held]:
    """Return the rules of the joints as limits of a place."""
    last: dict[bytes, dict[str, Array]] = {}

    def at_places(at: Array) -> dict[str, Array]:
        """All rules are asked at the same places one after another: each place is solved once."""
        key = at.tobytes()
        if key not in last:
            last.clear()
            pose = Pose(x=at[0], y=at[1], z=at[2], roll=roll, pitch=at[3], yaw=at[4])
            last[key] = line.spares(pose, sample=0)
        return last[key]

    def held(name: str) -> Held:
        def spare(at: Array) -> Array:
            return np.asarray(at_places(at)[name])

        def over(_: Array, pose: Pose) -> Values:
            return np.asarray(line.spares(pose)[name])

        return Held(limit=Limit(name=name, spare=spare, unit="rad"), over=over)

    return [held(name) for name in at_places(np.zeros((5, 1)))]


def line_from_angles(
    *,
    pose: Pose,
    behind: float,
    length: Values,
    front: tuple[Values, Values],
    rear: tuple[Values, Values],
    axle_height: float,
    largest: Values,
    travel: float,
) -> ShaftLine:
    """Return the line that gives the angles in the file where the engine stands now.

    The file's angles have no sign. In side view the shaft is taken to fall more than the gearbox
    where the axle's centre lies below the gearbox's line, and less where it does not; in plan to
    turn toward the car's middle. The pinion is taken to lie like the gearbox: angles of opposite
    sense, which undo each other.
    """
    at = pose.nominal
    slope = float(-at.pitch)  # nose up: the output shaft falls to the rear
    axis = at.turn @ np.array([-1.0, 0.0, 0.0])
    joint = at.shift + behind * axis
    flat = np.arctan2(joint[2] - axle_height, float(length[0]))
    down = 1.0 if flat >= slope else -1.0
    aside = float(np.arctan2(axis[1], -axis[0]))
    inward = -1.0 if joint[1] > 0.0 else 1.0
    falls, turns = slope + down * front[0], aside + inward * front[1]
    shaft = direction(slope=falls, aside=turns)
    along = shaft / np.sqrt((shaft**2).sum(axis=0)) * length
    return ShaftLine(
        behind=behind,
        rear_joint=joint.reshape(3, 1) + along.reshape(3, -1),
        pinion=direction(slope=falls - down * rear[0], aside=turns - inward * rear[1]).reshape(
            3, -1
        ),
        largest=np.atleast_1d(largest),
        travel=travel,
        taken=False,
    )


def load_limit(*, name: str, load: Values, most: Values, per_metre: Values, start: Array) -> Held:
    """Return what is left of an axle's allowed load or share, as the engine moves along.

    Parameters
    ----------
    name : str
        What is limited. [-]
    load : array
        What it is where the engine stands now. [kg, or a share]
    most : array
        What it may be. [kg, or a share]
    per_metre : array
        How much it grows as the engine goes forward. [kg/m, or 1/m]
    start : array
        Where the engine stands now. [m]

    """

    def over(at: Array, _: Pose) -> Values:
        return np.asarray((most - load - (at[0] - start[0]) * per_metre) / load)

    def spare(at: Array) -> Array:
        left = float(most[0]) - float(load[0]) - (at[0] - start[0]) * float(per_metre[0])
        return np.asarray(left / float(load[0]))

    return Held(limit=Limit(name=name, spare=spare, unit="-"), over=over)
