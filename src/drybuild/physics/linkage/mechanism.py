"""A mechanism: a moved body, its constraints, and the wheels that it carries."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from drybuild.physics.linkage.joints import Constraint, Inputs
from drybuild.physics.linkage.pose import BODY, Hinge, Pose
from drybuild.physics.linkage.vectors import Array


@dataclass(frozen=True, kw_only=True)
class Mount:
    """A wheel on its frame, in design position."""

    centre: Array
    """[m]"""
    spin: Array
    """Axis of its rotation, outward [-]."""
    radius: Array
    """From the centre to the road, in the wheel's plane [m]."""
    frame: int = BODY
    side: int = 1
    """1 left, -1 right."""
    kingpin: tuple[Joint, Joint] | None = None
    """Lower and upper point of the steering axis; None where it is found from the motion."""


@dataclass(frozen=True, kw_only=True)
class Joint:
    """A point on a frame, in design position."""

    point: Array
    frame: int = BODY


@dataclass(frozen=True, kw_only=True)
class Arm:
    """An arm that turns about an axis on the car's body and follows a point of a moved frame."""

    pivot: Array
    axis: Array
    """Not of unit length; from one bush to the other [m]."""
    joint: Joint


@dataclass(frozen=True, kw_only=True)
class Mechanism:
    """Everything that moves one wheel, or the two wheels of an axle."""

    layout: str
    origin: Array
    """Reference point of the moved body [m]."""
    constraints: tuple[Constraint, ...]
    """Links and joints first; the drives, which carry the inputs, last."""
    drives: int
    """How many of the constraints are drives: 1 of a wheel, 2 of an axle."""
    wheels: tuple[Mount, ...]
    hinges: tuple[Hinge, ...] = ()
    arms: dict[str, Arm] = field(default_factory=dict)
    """Arms that a spring may stand on, by the trade's name."""
    steers: str = ""
    """Name of the constraint that the steering, or a toe link, holds; empty where none does."""
    twisting: bool = False
    """Whether two driven wheels stand on halves that turn against each other, not on one axle."""

    @cached_property
    def samples(self) -> int:
        """Number of samples of its points."""
        pose = Pose.design(self.origin, self.hinges, self.origin.shape[-1])
        found = [one.gap(pose, _AT_DESIGN) for one in self.constraints]
        for wheel in self.wheels:
            found += [wheel.centre, wheel.spin, wheel.radius]
        return max(int(one.shape[-1]) for one in (self.origin, *found))

    def gaps(self, pose: Pose, inputs: Inputs) -> Array:
        """Return every constraint's gap, (constraints, positions, samples) [m]."""
        found = np.empty((len(self.constraints), *pose.centre.shape[1:]))
        for place, one in enumerate(self.constraints):
            found[place] = one.gap(pose, inputs)
        return found

    def matrix(self, pose: Pose, inputs: Inputs) -> Array:
        """Return the derivative of the gaps, (constraints, unknowns, positions, samples)."""
        found = np.empty((len(self.constraints), pose.size, *pose.centre.shape[1:]))
        for place, one in enumerate(self.constraints):
            found[place] = one.row(pose, inputs)
        return found


_AT_DESIGN: dict[str, Array] = {name: np.zeros((1, 1)) for name in ("travel", "roll", "steer")}
