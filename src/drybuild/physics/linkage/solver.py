"""Move a mechanism over travel, steer and roll: batched Newton, outward from design position.

Every position starts from its neighbour nearer to design, in steps of a few millimetres, so that
the body stays in the way it was assembled. Samples that cannot follow are nan from there on. Many
samples start from the nominal's positions instead (`near`); those that do not close are marched.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError
from drybuild.keeping import Known, content_name
from drybuild.physics.linkage.joints import ROLL, STEER, TRAVEL
from drybuild.physics.linkage.matrices import condition, inverted, squared
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.motion import Derivative, Motion, Stop
from drybuild.physics.linkage.near import picked, poses_near
from drybuild.physics.linkage.pose import Pose
from drybuild.physics.linkage.vectors import Array

CLOSED = 1e-11
"""A gap below this is closed. [m]"""
ALLOWED = 1e-9
"""No position is given out with a greater gap. [m]"""
SINGULAR = 1e-6
"""Inverse of the condition number below which the motion is not held."""
STEP = {TRAVEL: 0.008, STEER: 0.010, ROLL: 0.02}
"""Longest step of each input. [m], [rad]"""
STRAY = 0.05
"""A correction that is longer than this left its way of assembly. [m], [rad]"""
LEAP = 1.0
"""A first try that is longer than this is none: the motion is all but free there. [m], [rad]"""
TURNS = 12
"""Newton steps at most."""
FEW = 8
"""So many samples are marched outright."""


def sweep(*, mechanism: Mechanism, travel: Array, steer: Array, roll: Array) -> Motion:
    """Move a mechanism over a grid of travel, steer and roll.

    Parameters
    ----------
    mechanism : Mechanism
        The bodies and constraints. [-]
    travel : array
        Rise of the wheel, or of an axle's middle, against the car's body. [m]
    steer : array
        Travel of the rack to the left [m], or turn of the steering box's arm. [rad]
    roll : array
        Roll of an axle against the car's body; zero for a single wheel. [rad]

    Returns
    -------
    Motion
        Poses, derivatives and residuals.

    Raises
    ------
    InputError
        In design position the constraints do not hold the body; the part is named.

    Notes
    -----
    Newton's method on the constraints with their analytic derivative; the first try of each
    position extrapolates the last two. The last inverse serves while the gaps fall fast.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, ch. 16 (numerical solution).

    """
    grid = {
        name: np.atleast_1d(np.asarray(values, dtype=np.float64))
        for name, values in ((ROLL, roll), (STEER, steer), (TRAVEL, travel))
    }
    count = mechanism.samples
    if count <= FEW:
        return _marched(mechanism, grid)[0]
    nominal, inputs = _marched(picked(part=mechanism, samples=np.zeros(1, dtype=np.intp)), grid)
    if np.isnan(nominal.residual).any():
        return _marched(mechanism, grid)[0]
    return _near(mechanism, nominal, inputs, grid)


Marched: TypeAlias = tuple[Motion, dict[str, Array]]
"""A motion with the inputs of its positions."""
_KNOWN: Known[Marched] = Known(64)
"""Motions of single samples: a mechanism is asked for again with other spreads, or more samples."""


def _marched(mechanism: Mechanism, grid: dict[str, Array]) -> Marched:
    if mechanism.samples > 1:
        return _march(mechanism, grid)
    return _KNOWN.of(content_name(mechanism, grid), lambda: _march(mechanism, grid))


def _march(mechanism: Mechanism, grid: dict[str, Array]) -> Marched:
    march = _March(mechanism)
    for name, values in grid.items():
        march.spread(name, values)
    return march.motion(grid), march.inputs


def _near(
    mechanism: Mechanism, nominal: Motion, inputs: dict[str, Array], grid: dict[str, Array]
) -> Motion:
    """Return the motion of samples that stay near the nominal; the few others are marched."""
    pose, gone = poses_near(
        mechanism=mechanism,
        nominal=nominal.pose,
        inverse=nominal.inverse[..., 0],
        inputs=inputs,
        closed=CLOSED,
    )
    residual = np.abs(mechanism.gaps(pose, inputs)).max(axis=0)
    with np.errstate(invalid="ignore"):
        good = (residual < ALLOWED) & (gone < STRAY)
    lost = np.flatnonzero(~good.all(axis=0))
    if lost.size:
        other, _ = _marched(picked(part=mechanism, samples=lost), grid)
        pose = _joined(pose, other.pose, lost)
        found = other.residual
        residual = residual.copy()
        residual[:, lost] = found
        good[:, lost] = np.isfinite(found)
    return Motion(
        mechanism=mechanism,
        travel=grid[TRAVEL],
        steer=grid[STEER],
        roll=grid[ROLL],
        pose=pose,
        derivative=Derivative(mechanism, pose, inputs, good),
        residual=residual,
        stop=None,
    )


def _joined(pose: Pose, other: Pose, places: npt.NDArray[np.intp]) -> Pose:
    found = replace(
        pose,
        centre=np.array(pose.centre),
        turn=np.array(pose.turn),
        angles=np.array(pose.angles),
    )
    for name in ("centre", "turn", "angles"):
        getattr(found, name)[..., places] = getattr(other, name)
    return found


class _March:
    """Positions reached so far; each spreading adds one input and multiplies them."""

    def __init__(self, mechanism: Mechanism) -> None:
        self.mechanism = mechanism
        self.pose = Pose.design(mechanism.origin, mechanism.hinges, mechanism.samples)
        self.inputs: dict[str, Array] = {name: np.zeros((1, 1)) for name in (TRAVEL, ROLL, STEER)}
        self.alive = np.ones(self.pose.centre.shape[1:], dtype=bool)
        self.inverse = self._inverse(self.pose, self.inputs)
        self.stop: Stop | None = None
        self.spreading = ""
        matrix = mechanism.matrix(self.pose, self.inputs)
        if not condition(matrix=matrix, inverse=self.inverse)[0, 0] > SINGULAR:
            part = _weakest(mechanism, self.pose, self.inputs)
            raise InputError(
                f"the {part} does not hold the {mechanism.layout} in its design position: "
                "two of its links work as one, or a joint lies on its own axis"
            )

    def spread(self, name: str, values: Array) -> None:
        """Take every position reached so far to each of the values of one more input.

        A way out from zero to both sides is marched first; every value starts from the nearest
        place on it, all of them in one batch.
        """
        count = len(self.alive)
        if values.size == 1 and not values.any():
            return
        self.spreading = name
        path = _outward(values, STEP[name])
        self._take(np.tile(np.arange(count), 2))
        kept = [(self.pose, self.inverse, self.alive)]
        before: Array | None = None
        for place in range(1, len(path)):
            step = np.repeat(path[place], count)[:, np.newaxis]
            before = self._advance({**self.inputs, name: step}, before)
            kept.append((self.pose, self.inverse, self.alive))
        self._gather(kept, [_nearest(path, float(value)) for value in values], count)
        self.inputs[name] = np.repeat(values, count)[:, np.newaxis]
        self._advance(self.inputs, None)

    def _gather(
        self,
        kept: list[tuple[Pose, Array, npt.NDArray[np.bool_]]],
        picks: list[tuple[int, int]],
        count: int,
    ) -> None:
        chosen = [(kept[place], slice(side * count, (side + 1) * count)) for place, side in picks]
        self.pose = replace(
            self.pose,
            centre=np.concatenate([one[0].centre[:, rows] for one, rows in chosen], axis=1),
            turn=np.concatenate([one[0].turn[:, :, rows] for one, rows in chosen], axis=2),
            angles=np.concatenate([one[0].angles[:, rows] for one, rows in chosen], axis=1),
        )
        self.inverse = np.concatenate([one[1][:, :, rows] for one, rows in chosen], axis=2)
        self.alive = np.concatenate([one[2][rows] for one, rows in chosen])
        self.inputs = {
            key: np.tile(old[:count], (len(picks), 1)) if old.shape[0] > 1 else old
            for key, old in self.inputs.items()
        }

    def _take(self, index: npt.NDArray[np.intp]) -> None:
        self.pose = self.pose.at(index)
        self.inverse = self.inverse[:, :, index]
        self.alive = self.alive[index]
        self.inputs = {
            key: old[index] if old.shape[0] > 1 else old for key, old in self.inputs.items()
        }

    def _advance(self, inputs: dict[str, Array], before: Array | None) -> Array:
        """Move every position by one step of the inputs; return the tangent that was taken."""
        start = self.pose
        if not self.alive.any():
            return np.zeros((start.size, *self.alive.shape))
        tangent = self._correction(self.mechanism.gaps(start, inputs))
        step = tangent
        if before is not None:
            step = 1.5 * tangent - 0.5 * before  # equal steps: the second Adams-Bashforth rule
        pose = start.moved(_kept(step, np.abs(step).max(axis=0), LEAP))
        gaps = self.mechanism.gaps(pose, inputs)
        strayed = np.zeros(self.alive.shape)
        self.inverse = self._inverse(pose, inputs)
        worst = self._worst(gaps)
        for turn in range(TURNS):
            hopeful = self.alive & (strayed < STRAY)
            if np.all((worst < CLOSED) | ~hopeful):
                break
            step = self._correction(gaps)
            strayed += np.abs(step).max(axis=0)
            pose = pose.moved(_kept(step, strayed, STRAY))
            gaps = self.mechanism.gaps(pose, inputs)
            now = self._worst(gaps)
            slow = hopeful & (now > CLOSED) & (now > 1e-3 * worst)
            if turn >= 1 and np.any(slow):
                self._renew(slow, pose, inputs)
            worst = now
        with np.errstate(invalid="ignore"):
            good = self.alive & (worst < ALLOWED) & (strayed < STRAY)
        self._note_stop(start, inputs, good)
        self.alive = good
        self.pose = pose if np.all(good) else _where(good, pose, start)
        return tangent

    def _note_stop(
        self, start: Pose, inputs: dict[str, Array], good: npt.NDArray[np.bool_]
    ) -> None:
        lost = np.flatnonzero(self.alive[:, 0] & ~good[:, 0])
        if self.stop is not None or lost.size == 0:
            return
        place = lost[:1]
        here = {k: v[place] if v.shape[0] > 1 else v for k, v in inputs.items()}
        values = {name: float(np.ravel(one)[0]) for name, one in here.items()}
        first = np.zeros(1, dtype=np.intp)
        self.stop = Stop(
            mechanism=picked(part=self.mechanism, samples=first),
            near=picked(part=start.at(place), samples=first),
            travel=values[TRAVEL],
            steer=values[STEER],
            roll=values[ROLL],
            steering=self.spreading == STEER,
        )

    def _correction(self, gaps: Array) -> Array:
        return np.asarray(-np.einsum("ucps,cps->ups", self.inverse, gaps))

    def _worst(self, gaps: Array) -> Array:
        return np.asarray(np.abs(gaps).max(axis=0))

    def _inverse(self, pose: Pose, inputs: Mapping[str, Array]) -> Array:
        found = inverted(matrices=self._square(pose, inputs))
        return np.ascontiguousarray(np.moveaxis(found, (-2, -1), (0, 1)))

    def _renew(
        self, wanted: npt.NDArray[np.bool_], pose: Pose, inputs: Mapping[str, Array]
    ) -> None:
        """Make the inverse anew for the few that the last one does not serve."""
        found = inverted(matrices=self._square(pose, inputs)[wanted])
        self.inverse[:, :, wanted] = np.moveaxis(found, (-2, -1), (0, 1))

    def _square(self, pose: Pose, inputs: Mapping[str, Array]) -> Array:
        """Return the derivative as a stack of matrices; the unit matrix for what is lost."""
        return squared(matrix=self.mechanism.matrix(pose, inputs), good=self.alive)

    def motion(self, grid: dict[str, Array]) -> Motion:
        """Return the result, with the derivative made anew at every final position.

        Positions were spread roll first, travel last: travel is the slowest axis, roll the fastest.
        """
        self.inverse = self._inverse(self.pose, self.inputs)
        matrix = self.mechanism.matrix(self.pose, self.inputs)
        held = condition(matrix=matrix, inverse=self.inverse) > SINGULAR
        good = self.alive & held
        residual = self._worst(self.mechanism.gaps(self.pose, self.inputs))
        return Motion(
            mechanism=self.mechanism,
            travel=grid[TRAVEL],
            steer=grid[STEER],
            roll=grid[ROLL],
            pose=self.pose,
            derivative=Derivative(self.mechanism, self.pose, self.inputs, good),
            residual=np.where(good, residual, np.nan),
            stop=self.stop,
        )


def _kept(step: Array, strayed: Array, limit: float) -> Array:
    """Return a step without those that strayed: lost already, they would only run away."""
    with np.errstate(invalid="ignore"):
        good = strayed < limit
    return step if good.all() else np.where(good, step, 0.0)


def _where(good: npt.NDArray[np.bool_], new: Pose, old: Pose) -> Pose:
    return replace(
        new,
        centre=np.where(good, new.centre, old.centre),
        turn=np.where(good, new.turn, old.turn),
        angles=np.where(good, new.angles, old.angles),
    )


def _outward(values: Array, longest: float) -> Array:
    """Return a way from zero to both ends in even steps, (places, side)."""
    ends = np.array([max(values.max(), 0.0), min(values.min(), 0.0)])
    steps = max(1, int(np.ceil(np.abs(ends).max() / longest - 1e-9)))
    return np.asarray(np.linspace(0.0, 1.0, steps + 1)[:, np.newaxis] * ends)


def _nearest(path: Array, value: float) -> tuple[int, int]:
    """Return place and side of the way's nearest place to a value, on its own side."""
    side = int(value < 0.0)
    return int(np.argmin(np.abs(path[:, side] - value))), side


def _weakest(mechanism: Mechanism, pose: Pose, inputs: Mapping[str, Array]) -> str:
    """Name the constraint that has most to do with the motion that nothing holds."""
    matrix = mechanism.matrix(pose, inputs)[:, :, 0, 0]
    held = len(mechanism.constraints) - mechanism.drives
    shares = np.abs(np.linalg.svd(matrix)[0][:held, -1])
    return mechanism.constraints[int(np.argmax(shares))].name
