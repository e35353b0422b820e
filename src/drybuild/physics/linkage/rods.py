"""The rods, arms and struts of a motion as lines in space, for drawings and clearances."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.linkage.joints import Constraint, Link, Plane, Shared, Slider
from drybuild.physics.linkage.pose import BODY, Pose
from drybuild.physics.linkage.solver import Motion
from drybuild.physics.linkage.vectors import Array


@dataclass(frozen=True, kw_only=True)
class Rod:
    """A straight part between two points, at one position, nominal."""

    name: str
    start: Array
    """(3,). [m]"""
    end: Array
    """(3,). [m]"""


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
    found: list[Rod] = []
    for one in held:
        found += _lines(one, pose)
    found += _bushes(held, pose)
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


def _lines(one: Constraint, pose: Pose) -> list[Rod]:
    if isinstance(one, Shared):
        return [line for part in one.parts for line in _lines(part, pose)]
    if isinstance(one, Link):
        start, end = pose.place(one.start_frame, one.start), pose.place(one.frame, one.end)
        return [Rod(name=one.name, start=start[:, 0, 0], end=end[:, 0, 0])]
    if isinstance(one, Slider):
        low = pose.place(BODY, one.point)
        return [Rod(name=one.name, start=one.top[:, 0, 0], end=low[:, 0, 0])]
    return []


def _bushes(held: tuple[Constraint, ...], pose: Pose) -> list[Rod]:
    """Return a line from each ball or bush to the body's middle: it is held by several planes."""
    planes = [one for one in held if isinstance(one, Plane)]
    names = dict.fromkeys(one.name for one in planes)
    found = []
    for name in names:
        same = [one for one in planes if one.name == name]
        if len(same) > 1:
            start = pose.place(same[0].frame, same[0].point)[:, 0, 0]
            found.append(Rod(name=name, start=start, end=pose.centre[:, 0, 0]))
    return found
