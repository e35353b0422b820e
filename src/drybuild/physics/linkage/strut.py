"""Strut: a lower arm with a ball joint, a strut that slides in its mount, and a tie rod."""

from __future__ import annotations

import numpy as np

from drybuild.physics.linkage.joints import Link, Slider
from drybuild.physics.linkage.layout import (
    BOX,
    Layout,
    Points,
    Setting,
    mount,
    shaped,
    steering_drive,
    wheel_drive,
)
from drybuild.physics.linkage.mechanism import Arm, Joint, Mechanism
from drybuild.physics.linkage.pose import BODY, GROUND
from drybuild.physics.linkage.vectors import Array, cross, unit

TIE = "tie rod"


def square_to(*, along: Array) -> tuple[Array, Array]:
    """Return two directions square to a strut or pillar and to each other.

    Parameters
    ----------
    along : array
        Its direction, not along the car. [m]

    Returns
    -------
    pair of array
        Unit vectors, the first across the car. [-]

    Notes
    -----
    n₁ = a × x, n₂ = a × n₁.

    References
    ----------
    .. [1] Definition.

    """
    ahead = np.zeros_like(along)
    ahead[0] = 1.0
    first = unit(vector=cross(a=along, b=ahead))
    return first, unit(vector=cross(a=along, b=first))


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower, top = at["lower_outer"], at["strut_top"]
    base = at.get("strut_lower", lower)
    normals = square_to(along=top - base)
    return Mechanism(
        layout="strut",
        origin=at["wheel_centre"],
        constraints=(
            Link(name="lower arm's front leg", start=at["lower_front"], end=lower),
            Link(name="lower arm's rear leg", start=at["lower_rear"], end=lower),
            *(Slider(name="strut", top=top, point=base, normal=one) for one in normals),
            Link(
                name=TIE,
                start=at["tie_inner"],
                end=at["tie_outer"],
                drive=steering_drive(points=at),
            ),
            *wheel_drive(centre=at["wheel_centre"]),
        ),
        drives=1,
        wheels=(
            mount(
                centre=at["wheel_centre"],
                setting=setting,
                side=1,
                frame=BODY,
                kingpin=(Joint(point=lower), Joint(point=top, frame=GROUND)),
            ),
        ),
        arms={
            "lower arm": Arm(
                pivot=at["lower_rear"],
                axis=at["lower_front"] - at["lower_rear"],
                joint=Joint(point=lower),
            )
        },
        steers=TIE,
    )


LAYOUT = Layout(
    name="strut",
    points={
        "wheel_centre": "Centre of the wheel",
        "lower_front": "Lower arm's front bush",
        "lower_rear": "Lower arm's rear bush",
        "lower_outer": "Lower ball joint",
        "strut_top": "Strut's upper mount",
        "tie_inner": "Tie rod's inner joint",
        "tie_outer": "Tie rod's outer joint",
    },
    optional={
        "strut_lower": "A point of the strut's axis on the upright; else the lower ball joint",
        **BOX,
    },
    arms=("lower arm",),
    spring_ends=("strut_top", "lower_outer"),
    tube=("strut_top", "strut_lower"),
    build=_build,
)
