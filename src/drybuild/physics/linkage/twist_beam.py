"""Twist beam: two trailing arms and an open cross-member that twists about its shear centre."""

from __future__ import annotations

import numpy as np

from drybuild.physics.linkage.joints import ROLL, TRAVEL, Constraint, Plane, Shared
from drybuild.physics.linkage.layout import (
    Layout,
    Points,
    Setting,
    axis,
    mirrored,
    mount,
    shaped,
)
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.pose import BODY, Hinge
from drybuild.physics.linkage.vectors import Array

NAME = "twist beam"


def beam_constraints(*, bush: Array, wheel: Array) -> tuple[Constraint, ...]:
    """Return what holds two halves that turn against each other about the shear centre's line.

    Parameters
    ----------
    bush : array
        Left bush on the body. [m]
    wheel : array
        Centre of the left wheel. [m]

    Returns
    -------
    tuple of Constraint
        Two bushes, the hold sideways that they share, and both drives.

    Notes
    -----
    The moved body is the left half, the first hinge carries the right half: seven unknowns, five
    holds. Together the halves turn about the line of the bushes; apart, each about the line from
    its bush to the shear centre in the car's middle.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 1.6.4
       (twist-beam suspensions).

    """
    across, up, ahead = axis(x=0, y=1, z=0), axis(x=0, y=0, z=1), axis(x=1, y=0, z=0)
    ends = ((BODY, "left", bush, wheel, 1.0), (1, "right", mirrored(point=bush),
                                               mirrored(point=wheel), -1.0))  # fmt: skip
    holds: list[Constraint] = [
        Plane(name=f"{side} bush", point=at, normal=one, frame=frame)
        for frame, side, at, _, _ in ends
        for one in (ahead, up)
    ]
    sideways = tuple(
        Plane(name=f"{side} bush, sideways", point=at, normal=across, frame=frame)
        for frame, side, at, _, _ in ends
    )
    holds.append(Shared(name="pair of bushes, sideways", parts=sideways))
    drives = tuple(
        Plane(name=f"{side} travel", point=hub, normal=up, frame=frame,
              lift={TRAVEL: 1.0, ROLL: sign * wheel[1]})
        for frame, side, _, hub, sign in ends
    )  # fmt: skip
    return (*holds, *drives)


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    wheel, centre = at["wheel_centre"], at["beam_centre"]
    middle = np.stack((centre[0], 0.0 * centre[1], centre[2]))
    right = mirrored(point=wheel)
    return Mechanism(
        layout=NAME,
        origin=middle,
        constraints=beam_constraints(bush=at["beam_bush"], wheel=wheel),
        drives=2,
        wheels=(
            mount(centre=wheel, setting=setting, side=1, frame=BODY, kingpin=None),
            mount(centre=right, setting=setting, side=-1, frame=1, kingpin=None),
        ),
        hinges=(Hinge(point=middle, axis=axis(x=0.0, y=1.0, z=0.0)),),
        twisting=True,
    )


LAYOUT = Layout(
    name=NAME,
    points={
        "wheel_centre": "Centre of the wheel",
        "beam_bush": "Bush of the trailing arm on the body",
        "beam_centre": "Shear centre of the cross-member, in the car's middle",
    },
    optional={},
    build=_build,
)
