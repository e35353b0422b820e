"""Constraints between the car's body and a moved body: what each lets and forbids.

A constraint gives how far it is from closing, in metres, and how the unknowns change that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

import numpy as np

from drybuild.physics.linkage.crank import carried_round, crank_angle
from drybuild.physics.linkage.pose import BODY, GROUND, Pose
from drybuild.physics.linkage.vectors import Array, cross, dot, rotation, turned, unit

Inputs = Mapping[str, Array]
"""What moves the mechanism: travel and roll [m], [rad]; steer [m] of a rack or [rad] of an arm."""
TRAVEL, ROLL, STEER = "travel", "roll", "steer"


class Constraint(Protocol):
    """One equation."""

    @property
    def name(self) -> str:
        """What the trade calls the part that it stands for."""

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return how far it is from closing [m]."""

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the derivative of the gap by the unknowns."""


class Drive(Protocol):
    """What a steering gear does to a joint on the car's body."""

    def shifted(self, point: Array, inputs: Inputs) -> Array:
        """Return where the joint stands."""


@dataclass(frozen=True, kw_only=True)
class Rack:
    """A rack slides its joints along itself; steer is its travel to the left [m]."""

    direction: Array

    def shifted(self, point: Array, inputs: Inputs) -> Array:
        """Slide the joint."""
        return np.asarray(point + self.direction * inputs[STEER])


@dataclass(frozen=True, kw_only=True)
class Pitman:
    """A steering box's arm carries its joint round; steer is the arm's angle [rad].

    With `relay` the joint sits on a relay rod between parallel arms: it moves as the arm's end.
    """

    pivot: Array
    axis: Array
    end: Array | None = None
    """End of the arm where it carries a relay rod; None where it carries the joint itself."""

    def shifted(self, point: Array, inputs: Inputs) -> Array:
        """Carry the joint round."""
        spin = rotation(vector=unit(vector=self.axis) * inputs[STEER])
        end = point if self.end is None else self.end
        moved = self.pivot + turned(matrix=spin, vector=end - self.pivot)
        return np.asarray(point + moved - end)


@dataclass(frozen=True, kw_only=True)
class Relay:
    """A relay rod between the box's arm and an idler arm that need not be parallel to it.

    The joint is fixed to the rod. The rod turns with the line of its ends, and no more: how it
    rolls about itself is left to its own balls.
    """

    pivot: Array
    axis: Array
    end: Array
    """The box's arm: a point of its axis, the axis' direction, and its joint with the rod."""
    idler_pivot: Array
    idler_axis: Array
    idler_end: Array

    def shifted(self, point: Array, inputs: Inputs) -> Array:
        """Carry the joint along."""
        near = carried_round(pivot=self.pivot, axis=self.axis, angle=inputs[STEER], point=self.end)
        angle = crank_angle(
            pivot=self.idler_pivot,
            axis=self.idler_axis,
            end=self.idler_end,
            before=self.end,
            now=near,
        )
        far = carried_round(
            pivot=self.idler_pivot, axis=self.idler_axis, angle=angle, point=self.idler_end
        )
        old, new = unit(vector=self.idler_end - self.end), unit(vector=far - near)
        turn, reach = cross(a=old, b=new), point - self.end
        swung = reach + cross(a=turn, b=reach)
        swung = swung + cross(a=turn, b=cross(a=turn, b=reach)) / (1.0 + dot(a=old, b=new))
        return np.asarray(near + swung)


@dataclass(frozen=True, kw_only=True)
class Link:
    """A rigid rod with a ball at each end."""

    name: str
    start: Array
    """End on the car's body, or on `start_frame`, in design position [m]."""
    end: Array
    """End on the moved body, in design position [m]."""
    frame: int = BODY
    start_frame: int = GROUND
    drive: Drive | None = None
    """The steering gear that moves the start."""

    def ends(self, pose: Pose, inputs: Inputs) -> tuple[Array, Array]:
        """Return where both balls stand [m]."""
        start = pose.place(self.start_frame, self.start)
        if self.drive is not None:
            start = self.drive.shifted(start, inputs)
        return start, pose.place(self.frame, self.end)

    @cached_property
    def length(self) -> Array:
        """Length between the balls [m]."""
        apart = self.end - self.start
        return np.sqrt(dot(a=apart, b=apart))

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return (|P − A|² − L²) / 2L."""
        start, end = self.ends(pose, inputs)
        apart = end - start
        return np.asarray((dot(a=apart, b=apart) / self.length - self.length) * 0.5)

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the derivative: the rod's direction, at its ends."""
        start, end = self.ends(pose, inputs)
        along = (end - start) / self.length
        found = pose.row(self.frame, end, along)
        if self.start_frame != GROUND:
            found -= pose.row(self.start_frame, start, along)
        return found


@dataclass(frozen=True, kw_only=True)
class Plane:
    """A point of the moved body stays in a plane of the car's body, or a given way from it."""

    name: str
    point: Array
    normal: Array
    frame: int = BODY
    lift: Mapping[str, Array | float] = field(default_factory=dict)
    """How far the inputs carry the plane along its normal, per unit."""

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return n·(P − P₀) less the lift."""
        place = pose.place(self.frame, self.point)
        found = dot(a=np.asarray(self.normal), b=place - self.point)
        for name, factor in self.lift.items():
            found = found - factor * inputs[name]
        return found

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the derivative: the normal, at the point."""
        del inputs
        return pose.row(self.frame, pose.place(self.frame, self.point), self.normal)


@dataclass(frozen=True, kw_only=True)
class Slider:
    """A strut: the top mount stays on an axis that is fixed in the moved body."""

    name: str
    top: Array
    """Mount on the car's body [m]."""
    point: Array
    """A point of the axis, on the moved body [m]."""
    normal: Array
    """A direction square to the axis; a strut has two of these constraints [-]."""

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return n·(T − Q), n turning with the body."""
        del inputs
        normal = pose.aim(BODY, self.normal)
        return dot(a=normal, b=self.top - pose.place(BODY, self.point))

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return −n for the place and n × (T − W) for the rotation."""
        del inputs
        normal = pose.aim(BODY, self.normal)
        found = np.zeros((pose.size, *pose.centre.shape[1:]))
        found[:3] = -normal
        found[3:6] = cross(a=normal, b=self.top - pose.centre)
        return found


@dataclass(frozen=True, kw_only=True)
class Shared:
    """Rods that do one rod's work between them: their mean closes, their bushes take the rest."""

    name: str
    parts: tuple[Constraint, ...]

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the mean gap."""
        return np.asarray(sum(one.gap(pose, inputs) for one in self.parts) / len(self.parts))

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the mean derivative."""
        return np.asarray(sum(one.row(pose, inputs) for one in self.parts) / len(self.parts))


@dataclass(frozen=True, kw_only=True)
class Windup:
    """A leaf spring's seat turns as its halves bend: an angle about y per rise of the seat."""

    name: str
    rate: Array
    """Rotation about y, nose down positive, per rise [rad/m]."""
    seat: Array
    reach: float = 0.3
    """Lever that makes metres of radians [m]."""

    def gap(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the lever times (pitch − rate × rise)."""
        del inputs
        nose = pose.aim(BODY, _X)
        rise = pose.place(BODY, self.seat)[2] - self.seat[2]
        return np.asarray(self.reach * (-nose[2] - self.rate * rise))

    def row(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the derivative."""
        del inputs
        nose = pose.aim(BODY, _X)
        found = -self.reach * self.rate * pose.row(BODY, pose.place(BODY, self.seat), _UP)
        found[3] += self.reach * -nose[1]
        found[4] += self.reach * nose[0]
        return found


_X = np.array([[[1.0]], [[0.0]], [[0.0]]])
_UP = np.array([[[0.0]], [[0.0]], [[1.0]]])
