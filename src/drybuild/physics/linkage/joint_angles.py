"""How far the joints of a suspension tilt from design position: balls, bushes, drive shafts.

A ball joint's stud lies along the steering axis, so steering turns it about itself and does not
tilt it. A bush has its pin level and square to its link: swinging about the pin is free, tilting
is not. A tie rod's ball on a rack tilts by all of its rod's swing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.physics.linkage.joints import Constraint, Link, Shared, Slider
from drybuild.physics.linkage.mechanism import Arm, Mechanism
from drybuild.physics.linkage.motion import Motion
from drybuild.physics.linkage.pose import BODY, Pose
from drybuild.physics.linkage.vectors import Array, cross, dot, rotation, turned, unit

UP = np.array([0.0, 0.0, 1.0])[:, np.newaxis, np.newaxis]
BALL, BUSH = "ball", "bush"


@dataclass(frozen=True, kw_only=True)
class JointTilt:
    """One joint over some positions."""

    name: str
    kind: str
    """``ball`` or ``bush``."""
    tilt: Array
    """From design position, (positions, samples). [rad]"""


def joint_tilts(*, motion: Motion, places: npt.NDArray[np.intp]) -> tuple[JointTilt, ...]:
    """Return the tilt of every ball and bush at some positions of a motion.

    Parameters
    ----------
    motion : Motion
        A motion over travel, steer and roll. [-]
    places : array
        The positions, counted along the grid. [-]

    Returns
    -------
    tuple of JointTilt
        Each joint once; nan where a position has no solution. [rad]

    Notes
    -----
    Ball with its stud s fixed to the upright and its housing h to an arm: arccos(s·h). Pin s,
    link d: |arcsin(s·d)|. Joint without a preferred axis: arccos(d·d₀).

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 1.2
       (ball joints and bushes).

    """
    mechanism = motion.mechanism
    lost = 0.0 * motion.residual[places]
    pose = motion.pose.at(places)
    steer = np.tile(np.repeat(motion.steer, motion.roll.size), motion.travel.size)[places]
    inputs = {"steer": steer[:, np.newaxis]}
    wheel, found = mechanism.wheels[0], []
    if wheel.kingpin is not None and wheel.frame == BODY:
        found += [_arm_ball(name, arm, mechanism, pose) for name, arm in mechanism.arms.items()]
    legs = [one.joint.point for one in mechanism.arms.values()]
    for one in _links(mechanism.constraints[: -mechanism.drives]):
        if isinstance(one, Slider):
            if one.normal is _first(mechanism, one.name).normal:
                found.append(_slider(one, pose))
        elif not any(one.end is leg for leg in legs):
            found += _ends(one, mechanism, pose, inputs)
    return tuple(JointTilt(name=one.name, kind=one.kind, tilt=one.tilt + lost) for one in found)


def shaft_angles(
    *, motion: Motion, inner: Array, outer: Array, places: npt.NDArray[np.intp]
) -> tuple[Array, Array, Array]:
    """Return how far the joints of a half-shaft bend, and how far it lengthens.

    Parameters
    ----------
    motion : Motion
        A motion of independent wheels, or of a de Dion axle. [-]
    inner : array
        Middle of the joint at the final drive, which stands on the body. [m]
    outer : array
        Middle of the joint at the hub, in design position. [m]
    places : array
        The positions, counted along the grid. [-]

    Returns
    -------
    tuple of array
        Angle of the inner joint, of the outer joint [rad], and change of length. [m]

    Notes
    -----
    The final drive's output lies across the car; the hub turns about the wheel's own axis.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, drive shafts.

    """
    wheel = motion.mechanism.wheels[0]
    pose = motion.pose.at(places)
    place = pose.place(wheel.frame, outer)
    along = unit(vector=place - inner)
    across = np.array([0.0, 1.0, 0.0])[:, np.newaxis, np.newaxis]
    spin = pose.aim(wheel.frame, wheel.spin)
    before, now = outer - inner, place - inner
    stretch = np.sqrt(dot(a=now, b=now)) - np.sqrt(dot(a=before, b=before))
    lost = 0.0 * motion.residual[places]
    return _between(along, across) + lost, _between(along, spin) + lost, stretch + lost


def _between(a: Array, b: Array) -> Array:
    """Return the angle between two directions by its sine and cosine: true near zero as well."""
    square = cross(a=a, b=b)
    return np.asarray(np.arctan2(np.sqrt(dot(a=square, b=square)), dot(a=a, b=b)))


def _links(held: tuple[Constraint, ...]) -> list[Link | Slider]:
    found: list[Link | Slider] = []
    for one in held:
        if isinstance(one, Shared):
            found += _links(one.parts)
        elif isinstance(one, Link | Slider):
            found.append(one)
    return found


def _first(mechanism: Mechanism, name: str) -> Slider:
    return next(
        one for one in mechanism.constraints if isinstance(one, Slider) and one.name == name
    )


def _arm_ball(name: str, arm: Arm, mechanism: Mechanism, pose: Pose) -> JointTilt:
    """Return the tilt of the ball at an arm's end: its housing turns with the arm."""
    kingpin = mechanism.wheels[0].kingpin
    if kingpin is None:
        raise ValueError(name)
    stud = unit(vector=kingpin[1].point - kingpin[0].point)
    axis = unit(vector=arm.axis)
    before = arm.joint.point - arm.pivot
    after = pose.place(arm.joint.frame, arm.joint.point) - arm.pivot
    before, after = (one - axis * dot(a=axis, b=one) for one in (before, after))
    angle = np.arctan2(dot(a=axis, b=cross(a=before, b=after)), dot(a=before, b=after))
    housing = turned(matrix=rotation(vector=axis * angle), vector=stud)
    tilt = _between(pose.aim(arm.joint.frame, stud), housing)
    return JointTilt(name=f"{name}'s ball joint", kind=BALL, tilt=tilt)


def _slider(one: Slider, pose: Pose) -> JointTilt:
    before = unit(vector=one.top - one.point)
    tilt = _between(pose.aim(BODY, before), before)
    name = "strut's upper mount" if one.name == "strut" else one.name
    return JointTilt(name=name, kind=BUSH, tilt=tilt)


def _ends(
    link: Link, mechanism: Mechanism, pose: Pose, inputs: dict[str, Array]
) -> list[JointTilt]:
    before = unit(vector=link.end - link.start)
    start = pose.place(link.start_frame, link.start)
    if link.drive is not None:
        start = link.drive.shifted(start, inputs)
    now = unit(vector=pose.place(link.frame, link.end) - start)
    if link.drive is not None:
        inner = JointTilt(name=f"{link.name}'s inner ball", kind=BALL, tilt=_between(now, before))
    else:
        inner = _pinned(f"{link.name}'s end on the body", link.start_frame, before, now, pose, None)
    kingpin = mechanism.wheels[0].kingpin
    stud = None
    if kingpin is not None and (link.drive is not None or link.frame > BODY):
        stud = unit(vector=kingpin[1].point - kingpin[0].point)
    outer = "outer ball" if stud is not None else "other end"
    return [inner, _pinned(f"{link.name}'s {outer}", link.frame, before, now, pose, stud)]


def _pinned(
    name: str, frame: int, before: Array, now: Array, pose: Pose, stud: Array | None
) -> JointTilt:
    """Return the tilt about a stud or a level pin, both square to the link in design position."""
    if stud is None:
        pin = unit(vector=cross(a=before, b=UP))
    else:
        pin = unit(vector=stud - before * dot(a=before, b=stud))
    sine = np.clip(dot(a=pose.aim(frame, pin), b=now), -1.0, 1.0)
    kind = BALL if stud is not None else BUSH
    return JointTilt(name=name, kind=kind, tilt=np.abs(np.arcsin(sine)))
