"""Twin beams: each wheel's kingpin stands on a beam that swings from the far side of the car."""

from __future__ import annotations

from drybuild.physics.linkage.hinged_arm import hinge
from drybuild.physics.linkage.joints import Link
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
from drybuild.physics.linkage.pose import Hinge

NAME = "twin beam"
TIE = "tie rod"


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower, upper = at["kingpin_lower"], at["kingpin_upper"]
    return Mechanism(
        layout=NAME,
        origin=at["wheel_centre"],
        constraints=(
            *hinge(
                first=at["beam_pivot"],
                second=at["radius_arm_body"],
                names=("beam's pivot", "radius arm's bush"),
            ),
            Link(
                name=TIE,
                start=at["tie_inner"],
                end=at["tie_outer"],
                frame=1,
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
                frame=1,
                kingpin=(Joint(point=lower), Joint(point=upper)),
            ),
        ),
        hinges=(Hinge(point=lower, axis=upper - lower),),
        arms={
            "beam": Arm(
                pivot=at["beam_pivot"],
                axis=at["radius_arm_body"] - at["beam_pivot"],
                joint=Joint(point=lower),
            )
        },
        steers=TIE,
    )


LAYOUT = Layout(
    name=NAME,
    points={
        "wheel_centre": "Centre of the wheel",
        "beam_pivot": "Pivot of this wheel's beam, on the far side of the car",
        "radius_arm_body": "Radius arm's bush on the body; arm and beam are one piece",
        "kingpin_lower": "Lower end of the kingpin",
        "kingpin_upper": "Upper end of the kingpin",
        "tie_inner": "Tie rod's inner joint",
        "tie_outer": "Tie rod's outer joint",
    },
    optional={
        **BOX,
    },
    arms=("beam",),
    build=_build,
)
