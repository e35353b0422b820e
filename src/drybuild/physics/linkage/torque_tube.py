"""Live axle on a torque tube: a ball at the gearbox, and a rod that holds it sideways."""

from __future__ import annotations

from drybuild.errors import require
from drybuild.physics.linkage.axle import LATERAL, axle, lateral_guide
from drybuild.physics.linkage.joints import Plane
from drybuild.physics.linkage.layout import Layout, Points, Setting, axis, shaped
from drybuild.physics.linkage.mechanism import Mechanism

NAME = "live axle on torque tube"


def _build(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    sideways, hinges = lateral_guide(points=at)
    require(bool(sideways), "points", "without", "", "given a Panhard rod or Watt's linkage")
    sides = (axis(x=1.0, y=0.0, z=0.0), axis(x=0.0, y=1.0, z=0.0), axis(x=0.0, y=0.0, z=1.0))
    return axle(
        layout=NAME,
        wheel_centre=at["wheel_centre"],
        setting=setting,
        constraints=(
            *(Plane(name="torque tube's ball", point=at["tube_ball"], normal=n) for n in sides),
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
        "tube_ball": "Ball at the front of the torque tube",
    },
    optional=dict(LATERAL),
    build=_build,
)
