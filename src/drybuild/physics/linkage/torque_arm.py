"""Live axle with a torque arm: lower links, an arm that takes the torque, a rod sideways.

The arm is rigid with the axle. Its front end slides in a bush on the body, or hangs on a shackle.
"""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.linkage.axle import LATERAL, axle, both_links, lateral_guide
from drybuild.physics.linkage.joints import Constraint, Link, Slider
from drybuild.physics.linkage.layout import Layout, Points, Setting, shaped
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.vectors import Array, unit

NAME = "live axle on torque arm"


def arm_front(*, front: Array, wheel: Array, shackle: Array | None) -> Constraint:
    """Return what holds the front end of a torque arm.

    Parameters
    ----------
    front : array
        Front end of the arm: the middle of its bush, or its joint with the shackle. [m]
    wheel : array
        Centre of the left wheel. [m]
    shackle : array or None
        Upper end of the shackle on the body; None for a bush that the arm slides in. [m]

    Returns
    -------
    Constraint
        One: the arm's line passes the bush at its height, or the shackle keeps its length.

    Notes
    -----
    Both leave the axle free along the car and to roll; the links hold the rest.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, rigid axles with torque arms.

    """
    if shackle is not None:
        return Link(name="torque arm's shackle", start=shackle, end=front)
    back = np.stack(
        (wheel[0] + 0.0 * front[0], front[1] + 0.0 * wheel[0], wheel[2] + 0.0 * front[2])
    )
    along = unit(vector=front - back)
    square = unit(vector=np.stack((-along[2], 0.0 * along[1], along[0])))
    return Slider(name="torque arm's bush", top=front, point=back, normal=square)


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    sideways, hinges = lateral_guide(points=at)
    require(bool(sideways), "points", "without", "", "given a Panhard rod or Watt's linkage")
    return axle(
        layout=NAME,
        wheel_centre=at["wheel_centre"],
        setting=setting,
        constraints=(
            *both_links(name="lower link", start=at["lower_body"], end=at["lower_axle"]),
            arm_front(
                front=at["arm_front_end"], wheel=at["wheel_centre"], shackle=at.get("arm_shackle")
            ),
            *sideways,
        ),
        hinges=hinges,
        kingpin=None,
        steers="",
    )


LAYOUT = Layout(
    name=NAME,
    points={
        "wheel_centre": "Centre of the wheel",
        "lower_body": "Lower link's end on the body",
        "lower_axle": "Lower link's end on the axle",
        "arm_front_end": "Front end of the torque arm: its bush's middle, or its shackle's joint",
    },
    optional={"arm_shackle": "The shackle's end on the body, where there is one", **LATERAL},
    build=_build,
)
