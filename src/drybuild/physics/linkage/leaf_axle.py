"""Axles on leaf springs: live, or a beam with kingpins.

Each leaf's front half is a rod of three quarters of its length: the end of a strip that bends to
an arc moves on a circle of 3/4 of its length, about a point a quarter along (SAE HS-788, from
memory; the radius follows from the arc). The shackle end guides nothing. The seat turns as the
halves bend unequally. Sideways, the eyes hold the axle at the height of the line between the
front eye and the shackle's body end.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from drybuild.physics.linkage.axle import axle, both_links
from drybuild.physics.linkage.joints import Constraint, Link, Plane, Windup
from drybuild.physics.linkage.layout import (
    Layout,
    Points,
    Setting,
    axis,
    mirrored,
    shaped,
    steering_drive,
)
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.pose import Hinge
from drybuild.physics.linkage.vectors import Array

ROD = 0.75
"""Rod's length over that of the half leaf."""


def leaf_guides(*, points: Mapping[str, Array]) -> tuple[Constraint, ...]:
    """Return what a pair of leaf springs does to an axle.

    Parameters
    ----------
    points : mapping
        `front_eye`, `rear_eye`, `seat`, `wheel_centre` and perhaps `shackle_body`. [m]

    Returns
    -------
    tuple of Constraint
        Two rods, the seat's turn, and the hold sideways.

    Notes
    -----
    Halves a (front) and b, rates as 1/a³ and 1/b³, end loads as b and a: the ends bend as a² and
    b², the seat rises as a b, and turns by (a − b)/(a b) per rise, front up positive.

    References
    ----------
    .. [1] SAE HS-788, "Leaf Springs"; the turn of the seat is derived here.

    """
    front, rear, seat = points["front_eye"], points["rear_eye"], points["seat"]
    a, b = front[0] - seat[0], seat[0] - rear[0]
    joint = seat + (front - seat) * (1.0 - ROD)
    end = points.get("shackle_body", rear)
    share = (front[0] - points["wheel_centre"][0]) / (front[0] - end[0])
    height = front[2] + (end[2] - front[2]) * share
    hold = np.stack((points["wheel_centre"][0] + 0.0 * height, 0.0 * height, height))
    middle = np.stack((seat[0], 0.0 * seat[1], seat[2]))
    return (
        *both_links(name="leaf's front half", start=front, end=joint),
        Windup(name="leaves' seats", rate=(b - a) / (a * b), seat=middle),
        Plane(name="leaves' eyes, sideways", point=hold, normal=axis(x=0.0, y=1.0, z=0.0)),
    )


def _live(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    return axle(
        layout="live axle on leaf springs",
        wheel_centre=at["wheel_centre"],
        setting=setting,
        constraints=leaf_guides(points=at),
        hinges=(),
        kingpin=None,
        steers="",
    )


def _beam(points: Points, setting: Setting) -> Mechanism:
    at = shaped(points=points)
    lower, upper = at["kingpin_lower"], at["kingpin_upper"]
    ends = (mirrored(point=lower), mirrored(point=upper))
    return axle(
        layout="beam axle on leaf springs",
        wheel_centre=at["wheel_centre"],
        setting=setting,
        constraints=(
            *leaf_guides(points=at),
            Link(
                name="drag link",
                start=at["drag_inner"],
                end=at["drag_outer"],
                frame=1,
                drive=steering_drive(points=at),
            ),
            Link(
                name="track rod",
                start=at["tie_outer"],
                end=mirrored(point=at["tie_outer"]),
                start_frame=1,
                frame=2,
            ),
        ),
        hinges=(
            Hinge(point=lower, axis=upper - lower),
            Hinge(point=ends[0], axis=ends[1] - ends[0]),
        ),
        kingpin=(lower, upper),
        steers="drag link",
    )


_LEAF = {
    "wheel_centre": "Centre of the wheel",
    "front_eye": "Centre of the leaf's front eye",
    "rear_eye": "Centre of the leaf's rear eye",
    "seat": "Where the leaf is clamped to the axle",
}
_SHACKLE = {"shackle_body": "Shackle's end on the body; else the rear eye serves"}

LAYOUTS = (
    Layout(name="live axle on leaf springs", points=_LEAF, optional=_SHACKLE, build=_live),
    Layout(
        name="beam axle on leaf springs",
        points={
            **_LEAF,
            "kingpin_lower": "Lower end of the kingpin",
            "kingpin_upper": "Upper end of the kingpin",
            "tie_outer": "Track rod's end on the left steering arm",
            "drag_inner": "Drag link's joint with the steering box's arm",
            "drag_outer": "Drag link's joint with the left steering arm",
        },
        optional={
            **_SHACKLE,
            "pitman_pivot": "Where the steering box's arm turns",
            "pitman_axis": "Another point of that axis",
        },
        build=_beam,
    ),
)
