"""What is asked of a placement search: a scene, how far things may go, what has to be kept."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.solids.nearest import Clearance
from drybuild.physics.solids.scene import Pose, Scene

Array = npt.NDArray[np.float64]
Spare: TypeAlias = Callable[[Array], Array]
"""What is left of a limit at places (5, places): zero or more where it is kept. [m, rad, -]"""

DIRECTIONS = ("x", "y", "z", "pitch", "yaw")
"""A place: forward, left, up [m], nose down, nose left [rad]; of the moving solids' own origin."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Limit:
    """Something that a place has to keep beside clearances."""

    name: str
    spare: Spare
    unit: str = "m"
    """Of what is left: m, rad, or - for a share."""
    alters: str = ""
    """What would have to be made anew to widen it: mounts, support; empty for nothing."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Question:
    """Where the moving solids of a scene are best put."""

    scene: Scene
    low: Array
    """Least place, shape (5,). [m, rad]"""
    high: Array
    """Greatest place, shape (5,). [m, rad]"""
    start: Array
    """Where they are put now, shape (5,). [m, rad]"""
    roll: float = 0.0
    """Lean about x, which is kept. [rad]"""
    limits: tuple[Limit, ...] = ()

    def pose(self, at: Array) -> Pose:
        """Return a place as a pose."""
        x, y, z, pitch, yaw = (float(one) for one in at)
        return Pose(x=x, y=y, z=z, roll=self.roll, pitch=pitch, yaw=yaw)

    def spares(self, at: Array) -> Array:
        """Return what is left of each limit at places, shape (limits, places)."""
        if not self.limits:
            return np.zeros((0, at.shape[1]))
        return np.stack([np.broadcast_to(one.spare(at), at.shape[1:]) for one in self.limits])


def margin_gradients(*, contacts: Sequence[Clearance], at: Array) -> Array:
    """Return how the margins of contacts grow with the place of the moving solids.

    Parameters
    ----------
    contacts : sequence of Clearance
        Contacts at this place, with normals and points on the moving solids. [m]
    at : array
        The place, shape (5,). [m]

    Returns
    -------
    array
        By x, y, z [-], by pitch and yaw [m/rad]; shape (contacts, 5).

    Notes
    -----
    With the unit normal n from the fixed to the moving point and r from the moving origin to its
    point: n by a shift, n·(ω × r) by a turn about the unit axis ω; pitch turns about the yawed
    y axis, yaw about z. The distance of convex bodies has this gradient where the closest points
    are unique; where they are not it is one of the one-sided ones.

    References
    ----------
    .. [1] S. Boyd, L. Vandenberghe, "Convex Optimization", 2004, sec. 8.2: distance of convex sets
       by separating hyperplanes (from memory).

    """
    require(np.shape(at) == (5,), "at", np.shape(at), "m", "one place")
    x, y, z = (np.array([one.at_moving for one in contacts]) - at[:3]).T
    n = np.array([one.normal for one in contacts]).T
    sine, cosine = np.sin(at[4]), np.cos(at[4])
    by_pitch = n[0] * cosine * z + n[1] * sine * z - n[2] * (sine * y + cosine * x)
    return np.stack([*n, by_pitch, n[1] * x - n[0] * y], axis=1)


def limit_gradients(*, question: Question, at: Array) -> tuple[Array, Array]:
    """Return what is left of each limit at a place, and its slopes by central differences.

    Parameters
    ----------
    question : Question
        The limits. [-]
    at : array
        The place, shape (5,). [m]

    Returns
    -------
    tuple
        Left over, shape (limits,); slopes, shape (limits, 5).

    Notes
    -----
    (f(q + h) − f(q − h)) / 2h with h of a tenth of a millimetre or of a milliradian.

    References
    ----------
    .. [1] Numerical differentiation, definition.

    """
    step = 1e-4
    around = at[:, None] + step * np.concatenate((np.eye(5), -np.eye(5), np.zeros((5, 1))), axis=1)
    spare = question.spares(around)
    return spare[:, 10], (spare[:, :5] - spare[:, 5:10]) / (2.0 * step)


def carried(*, points: Array, at: Array, roll: float) -> Array:
    """Return points of the moving solids in body axes at many places.

    Parameters
    ----------
    points : array
        In their own axes, shape (points, 3). [m]
    at : array
        Places, shape (5, places). [m]
    roll : float
        Lean about x. [rad]

    Returns
    -------
    array
        Shape (points, 3, places). [m]

    Notes
    -----
    p' = R p + t with R as `Pose` has it.

    References
    ----------
    .. [1] Rotation in space, definition.

    """
    pose = Pose(x=at[0], y=at[1], z=at[2], roll=roll, pitch=at[3], yaw=at[4])
    turn = np.broadcast_to(pose.turn.reshape(3, 3, -1), (3, 3, at.shape[1]))
    return np.asarray(np.einsum("ijn,pj->pin", turn, points) + pose.shift[None])
