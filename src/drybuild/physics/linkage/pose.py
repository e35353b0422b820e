"""Where a body and what is hinged to it stand, and how their points move."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from drybuild.physics.linkage.vectors import Array, cross, dot, rotation, turned, unit

GROUND, BODY = -1, 0
"""Frames: the car's body, which stands still, and the body that is moved. Hinges count from 1."""


@dataclass(frozen=True, kw_only=True)
class Hinge:
    """An axis about which something turns: a kingpin, the crank of Watt's linkage."""

    point: Array
    """A point of the axis, in design position [m]."""
    axis: Array
    """Its direction, unit length [-]."""
    on: int = BODY
    """The frame that carries it: the moved body, or the car's."""


@dataclass(frozen=True, kw_only=True)
class Pose:
    """Positions of the moved body against its design position, and of its hinges.

    Points are (3, 1, samples), what belongs to the positions (3, positions, samples).
    """

    origin: Array
    """Its reference point in design position [m]."""
    hinges: tuple[Hinge, ...]
    centre: Array
    """The reference point now [m]."""
    turn: Array
    """Rotation matrix [-]."""
    angles: Array
    """Of the hinges [rad]."""

    @property
    def size(self) -> int:
        """Number of unknowns: three of place, three of rotation, one each hinge."""
        return 6 + len(self.hinges)

    def place(self, frame: int, point: Array) -> Array:
        """Return where a point, given in design position, stands now."""
        if frame == GROUND:
            return point
        if frame == BODY:
            return self.centre + turned(matrix=self.turn, vector=point - self.origin)
        hinge = self.hinges[frame - 1]
        spin = rotation(vector=hinge.axis * self.angles[frame - 1])
        return self.place(hinge.on, hinge.point + turned(matrix=spin, vector=point - hinge.point))

    def aim(self, frame: int, direction: Array) -> Array:
        """Return a direction, given in design position, as it points now."""
        if frame == GROUND:
            return direction
        if frame == BODY:
            return turned(matrix=self.turn, vector=direction)
        hinge = self.hinges[frame - 1]
        spin = rotation(vector=hinge.axis * self.angles[frame - 1])
        return self.aim(hinge.on, turned(matrix=spin, vector=direction))

    def row(self, frame: int, place: Array, direction: Array) -> Array:
        """Return how the unknowns move a placed point along a direction."""
        if frame > BODY:
            found = self.row(self.hinges[frame - 1].on, place, direction)
            found[5 + frame] = dot(a=self._swing(frame, place), b=direction)
            return found
        found = np.zeros((self.size, *self.centre.shape[1:]))
        if frame == BODY:
            found[:3] = direction
            found[3:6] = cross(a=place - self.centre, b=direction)
        return found

    def spin(self, frame: int, rates: Array) -> Array:
        """Return the angular velocity of a frame for rates of the unknowns."""
        if frame == GROUND:
            return np.zeros_like(rates[3:6])
        if frame == BODY:
            return rates[3:6]
        hinge = self.hinges[frame - 1]
        axis = self.aim(hinge.on, hinge.axis)
        return np.asarray(self.spin(hinge.on, rates) + axis * rates[5 + frame])

    def velocity(self, frame: int, place: Array, rates: Array) -> Array:
        """Return the velocity of a placed point for rates of the unknowns."""
        if frame == GROUND:
            return np.zeros_like(rates[:3])
        if frame == BODY:
            return np.asarray(rates[:3] + cross(a=rates[3:6], b=place - self.centre))
        carried = self.velocity(self.hinges[frame - 1].on, place, rates)
        return np.asarray(carried + self._swing(frame, place) * rates[5 + frame])

    def _swing(self, frame: int, place: Array) -> Array:
        """Return how a placed point moves per turn of its hinge."""
        hinge = self.hinges[frame - 1]
        arm = place - self.place(hinge.on, hinge.point)
        return cross(a=self.aim(hinge.on, hinge.axis), b=arm)

    def moved(self, step: Array) -> Pose:
        """Return the pose after a step of the unknowns."""
        spin = rotation(vector=step[3:6])
        turn = np.einsum("ij...,jk...->ik...", spin, self.turn)
        angles = self.angles + step[6:]
        return replace(self, centre=self.centre + step[:3], turn=turn, angles=angles)

    def at(self, index: npt.NDArray[np.intp]) -> Pose:
        """Return the poses at an index into the positions."""
        return replace(
            self,
            centre=self.centre[:, index],
            turn=self.turn[:, :, index],
            angles=self.angles[:, index],
        )

    @staticmethod
    def design(origin: Array, hinges: tuple[Hinge, ...], samples: int) -> Pose:
        """Return the design position."""
        eye = np.zeros((3, 3, 1, samples))
        eye[range(3), range(3)] = 1.0
        return Pose(
            origin=origin,
            hinges=tuple(replace(one, axis=unit(vector=one.axis)) for one in hinges),
            centre=np.broadcast_to(origin, (3, 1, samples)).copy(),
            turn=eye,
            angles=np.zeros((len(hinges), 1, samples)),
        )
