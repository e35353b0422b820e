"""Double wishbone: two arms with a ball joint each, and a tie rod or toe link."""

from __future__ import annotations

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
from drybuild.physics.linkage.pose import BODY

TIE = "tie rod"


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower, upper = at["lower_outer"], at["upper_outer"]
    return Mechanism(
        layout="double wishbone",
        origin=at["wheel_centre"],
        constraints=(
            Link(name="lower arm's front leg", start=at["lower_front"], end=lower),
            Link(name="lower arm's rear leg", start=at["lower_rear"], end=lower),
            Link(name="upper arm's front leg", start=at["upper_front"], end=upper),
            Link(name="upper arm's rear leg", start=at["upper_rear"], end=upper),
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
                kingpin=(Joint(point=lower), Joint(point=upper)),
            ),
        ),
        arms={
            "lower arm": Arm(
                pivot=at["lower_rear"],
                axis=at["lower_front"] - at["lower_rear"],
                joint=Joint(point=lower),
            ),
            "upper arm": Arm(
                pivot=at["upper_rear"],
                axis=at["upper_front"] - at["upper_rear"],
                joint=Joint(point=upper),
            ),
        },
        steers=TIE,
    )


LAYOUT = Layout(
    name="double wishbone",
    points={
        "wheel_centre": "Centre of the wheel",
        "lower_front": "Lower arm's front bush",
        "lower_rear": "Lower arm's rear bush",
        "lower_outer": "Lower ball joint",
        "upper_front": "Upper arm's front bush",
        "upper_rear": "Upper arm's rear bush",
        "upper_outer": "Upper ball joint",
        "tie_inner": "Tie rod's inner joint, or the toe link's",
        "tie_outer": "Tie rod's outer joint",
    },
    optional={
        **BOX,
    },
    arms=("lower arm", "upper arm"),
    springs_on="lower arm",
    build=_build,
)
