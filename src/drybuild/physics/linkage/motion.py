"""A mechanism's motion: its poses over a grid, their derivative, and what stops it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.physics.linkage.joints import ROLL, STEER, TRAVEL, Link
from drybuild.physics.linkage.matrices import inverted, squared
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.pose import BODY, Pose
from drybuild.physics.linkage.vectors import Array


class Derivative:
    """The inverse of the derivative at every position, made when it is first asked for."""

    def __init__(
        self,
        mechanism: Mechanism,
        pose: Pose,
        inputs: Mapping[str, Array],
        good: npt.NDArray[np.bool_],
    ) -> None:
        self._mechanism, self._pose = mechanism, pose
        self._inputs, self._good = inputs, good
        self._parts: dict[bytes, Derivative] = {}

    @cached_property
    def inverse(self) -> Array:
        """(unknowns, constraints, positions, samples); nan where there is no solution."""
        matrix = self._mechanism.matrix(self._pose, self._inputs)
        square = squared(matrix=matrix, good=self._good)
        found = np.moveaxis(inverted(matrices=square), (-2, -1), (0, 1))
        return np.where(self._good, found, np.nan)

    def at(self, places: npt.NDArray[np.intp]) -> Derivative:
        """Return that of some of the positions alone: to invert few costs little."""
        name = places.tobytes()
        if name not in self._parts:
            inputs = {
                key: one[places] if one.shape[0] > 1 else one for key, one in self._inputs.items()
            }
            self._parts[name] = Derivative(
                self._mechanism, self._pose.at(places), inputs, self._good[places]
            )
        return self._parts[name]


@dataclass(frozen=True, kw_only=True)
class Stop:
    """Why a mechanism cannot take a position."""

    mechanism: Mechanism
    near: Pose
    """The last position before it."""
    travel: float
    steer: float
    roll: float
    steering: bool
    """Whether the steering was moved towards it."""

    @cached_property
    def part(self) -> str:
        """The link or joint that does not close; looked for when it is first asked for."""
        inputs = {TRAVEL: self.travel, STEER: self.steer, ROLL: self.roll}
        here = {name: np.array([[value]]) for name, value in inputs.items()}
        return _furthest(self.mechanism, self.near, here, steering=self.steering)

    def __str__(self) -> str:
        where = [f"{self.travel * 1e3:+.0f} mm travel"]
        if self.steer:
            where.append(f"{self.steer:+.3g} steer")
        if self.roll:
            where.append(f"{np.degrees(self.roll):+.1f} deg roll")
        return f"the {self.part} does not reach at {', '.join(where)}"


@dataclass(frozen=True, kw_only=True)
class Motion:
    """Poses of a mechanism over a grid: position = (travel, steer, roll) in that order, flat."""

    mechanism: Mechanism
    travel: Array
    steer: Array
    roll: Array
    pose: Pose
    derivative: Derivative
    """Of the gaps by the unknowns."""
    residual: Array
    """Greatest gap, (positions, samples); nan where there is no solution [m]."""
    stop: Stop | None
    """The first position that the nominal cannot take, nearest to design; None when all are."""

    @property
    def inverse(self) -> Array:
        """Of the derivative, (unknowns, constraints, positions, samples)."""
        return self.derivative.inverse

    @property
    def shape(self) -> tuple[int, int, int, int]:
        """Travel, steer, roll, samples."""
        sizes = (self.travel.size, self.steer.size, self.roll.size)
        return (sizes[0], sizes[1], sizes[2], self.residual.shape[-1])

    def at(self, travels: npt.NDArray[np.intp]) -> Motion:
        """Return the motion over some of its travels, by their places."""
        each = self.steer.size * self.roll.size
        places = (travels[:, np.newaxis] * each + np.arange(each)).ravel()
        return replace(
            self,
            travel=self.travel[travels],
            pose=self.pose.at(places),
            derivative=self.derivative.at(places),
            residual=self.residual[places],
        )

    def grid(self, values: Array) -> Array:
        """Return values by position as (..., travel, steer, roll, samples)."""
        return values.reshape(*values.shape[:-2], *self.shape[:3], values.shape[-1])

    def rates(self, name: str) -> Array:
        """Return the rates of the unknowns while one constraint's gap opens by one a second."""
        place = [one.name for one in self.mechanism.constraints].index(name)
        return self.inverse[:, place]

    def drive_rates(self) -> Array:
        """Return the rates per drive, (unknowns, drives, positions, samples)."""
        return self.inverse[:, -self.mechanism.drives :]


def _furthest(
    mechanism: Mechanism, start: Pose, inputs: Mapping[str, Array], *, steering: bool
) -> str:
    """Name the constraint that stays furthest from closing in the best that can be done.

    While steering, only rods that the steering moves are named.
    """
    pose, held = start, len(mechanism.constraints) - mechanism.drives
    for _ in range(60):
        gaps = mechanism.gaps(pose, inputs)[:, 0, 0]
        matrix = mechanism.matrix(pose, inputs)[:, :, 0, 0]
        matrix[held:] *= 100.0  # the drive is what is asked; the links are what gives
        gaps[held:] *= 100.0
        damped = matrix.T @ matrix + 1e-4 * np.eye(matrix.shape[1])
        step = -np.linalg.solve(damped, matrix.T @ gaps)
        longest = np.abs(step).max()
        pose = pose.moved(step[:, np.newaxis, np.newaxis] * min(1.0, 0.02 / max(longest, 1e-12)))
    gaps = np.abs(mechanism.gaps(pose, inputs)[:held, 0, 0])
    parts = mechanism.constraints[:held]
    rods = [isinstance(one, Link) and (one.drive is not None or one.frame > BODY) for one in parts]
    if steering and any(rods):
        gaps = np.where(rods, gaps, -1.0)
    return parts[int(np.argmax(gaps))].name
