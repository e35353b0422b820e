"""Multi-link: five rods with a ball at each end."""

from __future__ import annotations

from drybuild.physics.linkage.joints import Link
from drybuild.physics.linkage.layout import Layout, Points, Setting, mount, shaped, wheel_drive
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.pose import BODY

RODS = {
    "lower_front": "lower front link",
    "lower_rear": "lower rear link",
    "upper_front": "upper front link",
    "upper_rear": "upper rear link",
    "toe": "toe link",
}


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    return Mechanism(
        layout="multi-link",
        origin=at["wheel_centre"],
        constraints=(
            *(
                Link(name=words, start=at[f"{rod}_inner"], end=at[f"{rod}_outer"])
                for rod, words in RODS.items()
            ),
            *wheel_drive(centre=at["wheel_centre"]),
        ),
        drives=1,
        wheels=(
            mount(centre=at["wheel_centre"], setting=setting, side=1, frame=BODY, kingpin=None),
        ),
        steers="toe link",
    )


LAYOUT = Layout(
    name="multi-link",
    points={
        "wheel_centre": "Centre of the wheel",
        **{
            f"{rod}_{end}": f"{words[0].upper()}{words[1:]}'s end on the {on}"
            for rod, words in RODS.items()
            for end, on in (("inner", "body"), ("outer", "upright"))
        },
    },
    optional={},
    build=_build,
)
