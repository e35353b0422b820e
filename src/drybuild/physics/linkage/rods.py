"""The rods, arms and struts of a motion as lines in space, for drawings and clearances."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.linkage.joints import (
    ROLL,
    STEER,
    TRAVEL,
    Constraint,
    Inputs,
    Link,
    Plane,
    Shared,
    Slider,
)
from drybuild.physics.linkage.motion import Motion
from drybuild.physics.linkage.pose import BODY, Pose
from drybuild.physics.linkage.vectors import Array


@dataclass(frozen=True, kw_only=True)
class Rod:
    """A straight part between two points."""

    name: str
    start: Array
    """(3,) at one position; (3, positions, samples) over a motion. [m]"""
    end: Array
    """The same of its other end. [m]"""


def rods_at(*, motion: Motion, place: int) -> tuple[Rod, ...]:
    """Return every rod, arm and strut at one position, with the steering straight ahead.

    Parameters
    ----------
    motion : Motion
        A motion over travel. [-]
    place : int
        The position, counted along the grid. [-]

    Returns
    -------
    tuple of Rod
        Lines in the car's axes; a body on bushes is drawn from each of them to its middle. [m]

    Notes
    -----
    nan where the position has no solution.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    pose = motion.pose.at(np.array([place]))
    lost = 0.0 * motion.residual[place, 0]
    held = motion.mechanism.constraints[: -motion.mechanism.drives]
    lines = [line for one in held for line in _lines(one, pose, _AHEAD)] + _bushes(held, pose)
    found = [Rod(name=one.name, start=one.start[:, 0, 0], end=one.end[:, 0, 0]) for one in lines]
    for wheel in motion.mechanism.wheels:
        if wheel.kingpin is not None:
            ends = [pose.place(joint.frame, joint.point)[:, 0, 0] for joint in wheel.kingpin]
            found.append(Rod(name="steering axis", start=ends[0], end=ends[1]))
    if motion.mechanism.twisting:
        for wheel in motion.mechanism.wheels:
            hub = pose.place(wheel.frame, wheel.centre)[:, 0, 0]
            found.append(Rod(name="beam's arm", start=pose.centre[:, 0, 0], end=hub))
    elif len(motion.mechanism.wheels) > 1:
        hubs = [pose.place(BODY, one.centre)[:, 0, 0] for one in motion.mechanism.wheels]
        found.append(Rod(name="axle", start=hubs[0], end=hubs[1]))
    return tuple(Rod(name=one.name, start=one.start + lost, end=one.end + lost) for one in found)


def moving_links(*, motion: Motion) -> tuple[Rod, ...]:
    """Return the rods and arms at every position and of every sample, steered as they are.

    Parameters
    ----------
    motion : Motion
        A motion. [-]

    Returns
    -------
    tuple of Rod
        Each end (3, positions, samples); sliding struts, axle and steering axis are left out. [m]

    Notes
    -----
    nan where the position has no solution.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    held = motion.mechanism.constraints[: -motion.mechanism.drives]
    grids = np.meshgrid(motion.travel, motion.steer, motion.roll, indexing="ij")
    inputs = {
        name: grid.reshape(-1, 1) for name, grid in zip((TRAVEL, STEER, ROLL), grids, strict=True)
    }
    lines = [
        line
        for one in held
        if not isinstance(one, Slider)
        for line in _lines(one, motion.pose, inputs)
    ]
    lost = 0.0 * motion.residual
    return tuple(
        Rod(name=one.name, start=one.start + lost, end=one.end + lost)
        for one in (*lines, *_bushes(held, motion.pose))
    )


_AHEAD = {name: np.zeros((1, 1)) for name in (TRAVEL, STEER, ROLL)}


def _lines(one: Constraint, pose: Pose, inputs: Inputs) -> list[Rod]:
    if isinstance(one, Shared):
        return [line for part in one.parts for line in _lines(part, pose, inputs)]
    if isinstance(one, Link):
        start, end = one.ends(pose, inputs)
        return [Rod(name=one.name, start=start, end=end)]
    if isinstance(one, Slider):
        return [Rod(name=one.name, start=one.top, end=pose.place(BODY, one.point))]
    return []


def _bushes(held: tuple[Constraint, ...], pose: Pose) -> list[Rod]:
    """Return a line from each ball or bush to the body's middle: it is held by several planes."""
    planes = [one for one in held if isinstance(one, Plane)]
    names = dict.fromkeys(one.name for one in planes)
    found = []
    for name in names:
        same = [one for one in planes if one.name == name]
        if len(same) > 1:
            start = pose.place(same[0].frame, same[0].point)
            found.append(Rod(name=name, start=start, end=pose.centre))
    return found
