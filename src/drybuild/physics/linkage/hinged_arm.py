"""A wheel fixed to one arm on two bushes: trailing arm, semi-trailing arm and swing axle.

They differ only in where the line of the bushes points: across the car, askew, or along it.
"""

from __future__ import annotations

import numpy as np

from drybuild.physics.linkage.joints import Constraint, Plane
from drybuild.physics.linkage.layout import (
    Layout,
    Points,
    Setting,
    axis,
    mount,
    shaped,
    wheel_drive,
)
from drybuild.physics.linkage.mechanism import Arm, Joint, Mechanism
from drybuild.physics.linkage.pose import BODY
from drybuild.physics.linkage.vectors import Array, cross, unit


def hinge(*, first: Array, second: Array, names: tuple[str, str]) -> tuple[Constraint, ...]:
    """Return the constraints of a body that turns about the line of two bushes.

    Parameters
    ----------
    first : array
        Bush that is held in all directions. [m]
    second : array
        Bush that is held square to the line between them. [m]
    names : pair of str
        What the bushes are called. [-]

    Returns
    -------
    tuple of Constraint
        Five.

    Notes
    -----
    Three planes through the first bush and two through the second.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, single-arm suspensions.

    """
    along = unit(vector=second - first)
    # The square direction is taken from whichever of two axes lies further from the line.
    steep = np.abs(along[2]) > 0.9
    other = np.where(steep, axis(x=1.0, y=0.0, z=0.0), axis(x=0.0, y=0.0, z=1.0))
    square = unit(vector=cross(a=along, b=other))
    third = cross(a=along, b=square)
    sides = (axis(x=1.0, y=0.0, z=0.0), axis(x=0.0, y=1.0, z=0.0), axis(x=0.0, y=0.0, z=1.0))
    return (
        *(Plane(name=names[0], point=first, normal=one) for one in sides),
        *(Plane(name=names[1], point=second, normal=one) for one in (square, third)),
    )


def _build(name: str, first: str, second: str, points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    words = (f"{first.replace('_', ' ')} bush", f"{second.replace('_', ' ')} bush")
    return Mechanism(
        layout=name,
        origin=at["wheel_centre"],
        constraints=(
            *hinge(first=at[first], second=at[second], names=words),
            *wheel_drive(centre=at["wheel_centre"]),
        ),
        drives=1,
        wheels=(
            mount(centre=at["wheel_centre"], setting=setting, side=1, frame=BODY, kingpin=None),
        ),
        arms={
            "arm": Arm(
                pivot=at[first], axis=at[second] - at[first], joint=Joint(point=at["wheel_centre"])
            )
        },
    )


def _layout(name: str, first: str, second: str, places: tuple[str, str]) -> Layout:
    return Layout(
        name=name,
        points={"wheel_centre": "Centre of the wheel", first: places[0], second: places[1]},
        optional={},
        arms=("arm",),
        build=lambda points, setting: _build(name, first, second, points, setting),
    )


LAYOUTS = (
    _layout(
        "trailing arm",
        "arm_inner",
        "arm_outer",
        ("Arm's bush nearer to the car's middle", "Arm's bush nearer to the wheel"),
    ),
    _layout(
        "semi-trailing arm",
        "arm_inner",
        "arm_outer",
        ("Arm's bush nearer to the car's middle", "Arm's bush nearer to the wheel"),
    ),
    _layout(
        "swing axle",
        "arm_front",
        "arm_rear",
        ("Front pivot: the radius arm's, on the axle joint's line", "Joint of the half-axle"),
    ),
)
