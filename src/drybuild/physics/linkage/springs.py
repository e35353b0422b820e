"""How springs, dampers and bars that stand on a mechanism move over its motion."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.linkage.crank import carried_round, crank_angle
from drybuild.physics.linkage.mechanism import Arm
from drybuild.physics.linkage.motion import Motion
from drybuild.physics.linkage.pose import BODY
from drybuild.physics.linkage.vectors import Array, cross, dot, unit


@dataclass(frozen=True, kw_only=True)
class Rocker:
    """A rocker on the car's body that a pushrod or pullrod turns."""

    pivot: Array
    axis: Array
    """Not of unit length [m]."""
    end: Array
    """The rod's ball on the rocker [m]."""
    foot: Array
    """The rod's ball on the arm or the moved body [m]."""


@dataclass(frozen=True, kw_only=True)
class Strut:
    """A spring or damper between the car's body and an arm, the moved body, or a rocker."""

    motion: Motion
    top: Array
    """Its end on the car's body [m]."""
    bottom: Array
    """Its other end, in design position [m]."""
    arm: Arm | None
    """The arm that the bottom stands on; None for the moved body itself."""
    rates: Array
    """Rates of the unknowns per bump of the wheel."""
    rocker: Rocker | None = None

    def bottom_motion(self) -> tuple[Array, Array]:
        """Return place and velocity per bump of the bottom."""
        if self.rocker is not None:
            return self._on_rocker(self.rocker)
        return self._carried(self.bottom)

    def _carried(self, point: Array) -> tuple[Array, Array]:
        pose = self.motion.pose
        if self.arm is None:
            place = pose.place(BODY, point)
            return place, pose.velocity(BODY, place, self.rates)
        return carried(arm=self.arm, motion=self.motion, point=point, rates=self.rates)

    def _on_rocker(self, rocker: Rocker) -> tuple[Array, Array]:
        """Turn the rocker by its rod; nan where the rod does not reach."""
        foot, speed = self._carried(rocker.foot)
        angle = crank_angle(
            pivot=rocker.pivot, axis=rocker.axis, end=rocker.end, before=rocker.foot, now=foot
        )
        end, place = (
            carried_round(pivot=rocker.pivot, axis=rocker.axis, angle=angle, point=one)
            for one in (rocker.end, self.bottom)
        )
        axis, rod = unit(vector=rocker.axis), end - foot
        rate = dot(a=rod, b=speed) / dot(a=rod, b=cross(a=axis, b=end - rocker.pivot))
        return place, cross(a=axis, b=place - rocker.pivot) * rate

    @property
    def length(self) -> Array:
        """Length between its ends [m]."""
        apart = self.top - self.bottom_motion()[0]
        return self.motion.grid(np.sqrt(dot(a=apart, b=apart)))

    @property
    def motion_ratio(self) -> Array:
        """Shortening per bump of the wheel [-]."""
        place, velocity = self.bottom_motion()
        return self.motion.grid(dot(a=unit(vector=self.top - place), b=velocity))


@dataclass(frozen=True, kw_only=True)
class BarEnd:
    """An anti-roll bar's end, a drop link below it, and the arm or body that the link moves."""

    strut: Strut
    """The drop link: its top is the bar's end."""
    axis_point: Array
    """A point of the bar's middle piece, which turns about a transverse axis [m]."""

    @property
    def motion_ratio(self) -> Array:
        """Travel of the bar's end per bump of the wheel, both small, in design position [-]."""
        motion = self.strut.motion
        place, velocity = self.strut.bottom_motion()
        link = unit(vector=self.strut.top - place)
        arm = self.strut.top - self.axis_point
        turning = cross(a=np.array([0.0, 1.0, 0.0])[:, np.newaxis, np.newaxis], b=arm)
        tangent = unit(vector=turning)
        return motion.grid(np.abs(dot(a=link, b=velocity) / dot(a=link, b=tangent)))


def carried(*, arm: Arm, motion: Motion, point: Array, rates: Array) -> tuple[Array, Array]:
    """Return where a point of an arm stands and how fast it moves.

    Parameters
    ----------
    arm : Arm
        The arm, with the joint that it follows. [m]
    motion : Motion
        Poses of what it follows. [-]
    point : array
        The point in design position. [m]
    rates : array
        Rates of the motion's unknowns. [1/s]

    Returns
    -------
    pair of array
        Place [m] and velocity. [m/s]

    Notes
    -----
    The arm turns by the angle that its joint turned about its axis: exact, as the joint cannot
    leave its circle.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, arms.

    """
    axis = unit(vector=arm.axis)
    joint = motion.pose.place(arm.joint.frame, arm.joint.point)
    before, after = arm.joint.point - arm.pivot, joint - arm.pivot
    before, after = (one - axis * dot(a=axis, b=one) for one in (before, after))
    sine = dot(a=axis, b=cross(a=before, b=after))
    angle = np.arctan2(sine, dot(a=before, b=after))
    first = point - arm.pivot
    flat = first - axis * dot(a=axis, b=first)
    place = (
        arm.pivot
        + axis * dot(a=axis, b=first)
        + flat * np.cos(angle)
        + cross(a=axis, b=flat) * np.sin(angle)
    )
    speed = motion.pose.velocity(arm.joint.frame, joint, rates)
    swing = cross(a=axis, b=after)
    rate = dot(a=speed, b=swing) / dot(a=swing, b=swing)
    return place, cross(a=axis, b=place - arm.pivot) * rate
