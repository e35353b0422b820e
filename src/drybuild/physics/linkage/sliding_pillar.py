"""Sliding pillar: the stub axle slides and turns on a pillar that is fixed to the car's body."""

from __future__ import annotations

from drybuild.physics.linkage.joints import Link, Plane
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
from drybuild.physics.linkage.mechanism import Joint, Mechanism
from drybuild.physics.linkage.pose import BODY, GROUND
from drybuild.physics.linkage.strut import square_to

NAME = "sliding pillar"
TIE = "tie rod"


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower, upper = at["pillar_lower"], at["pillar_upper"]
    normals = square_to(along=upper - lower)
    return Mechanism(
        layout=NAME,
        origin=at["wheel_centre"],
        constraints=(
            *(
                Plane(name=f"pillar's {place} bearing", point=end, normal=one)
                for place, end in (("lower", lower), ("upper", upper))
                for one in normals
            ),
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
                kingpin=(Joint(point=lower, frame=GROUND), Joint(point=upper, frame=GROUND)),
            ),
        ),
        steers=TIE,
    )


LAYOUT = Layout(
    name=NAME,
    points={
        "wheel_centre": "Centre of the wheel",
        "pillar_lower": "Lower end of the pillar",
        "pillar_upper": "Upper end of the pillar",
        "tie_inner": "Tie rod's inner joint",
        "tie_outer": "Tie rod's outer joint",
    },
    optional={
        **BOX,
    },
    spring_ends=("pillar_upper", "pillar_lower"),
    build=_build,
)
