"""What axles that carry both wheels have in common: mirrored links, lateral guides, drives."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from drybuild.physics.linkage.joints import Constraint, Link
from drybuild.physics.linkage.layout import Setting, axis, axle_drives, mirrored, mount
from drybuild.physics.linkage.mechanism import Joint, Mechanism, Mount
from drybuild.physics.linkage.pose import BODY, GROUND, Hinge
from drybuild.physics.linkage.vectors import Array

LATERAL = {
    "panhard_body": "Panhard rod's end on the body",
    "panhard_axle": "Panhard rod's end on the axle",
    "watt_pivot": "Where the bell crank of Watt's linkage turns, on the axle or on the body",
    "watt_upper": "The crank's upper end",
    "watt_lower": "The crank's lower end",
    "watt_upper_body": "The upper rod's other end, on the body where the crank is on the axle",
    "watt_lower_body": "The lower rod's other end, likewise",
    "watt_upper_axle": "The upper rod's other end, on the axle where the crank is on the body",
    "watt_lower_axle": "The lower rod's other end, likewise",
}
"""Points of what holds an axle sideways, where the links do not."""


def both_links(*, name: str, start: Array, end: Array) -> tuple[Link, Link]:
    """Return a link of the left side and its fellow on the right.

    Parameters
    ----------
    name : str
        What it is called. [-]
    start : array
        End on the car's body, left. [m]
    end : array
        End on the axle, left. [m]

    Returns
    -------
    pair of Link
        Left and right. [m]

    Notes
    -----
    Mirrored in the car's centre plane.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    return (
        Link(name=f"left {name}", start=start, end=end),
        Link(name=f"right {name}", start=mirrored(point=start), end=mirrored(point=end)),
    )


def lateral_guide(
    *, points: Mapping[str, Array]
) -> tuple[tuple[Constraint, ...], tuple[Hinge, ...]]:
    """Return what holds an axle sideways: a Panhard rod, Watt's linkage, or nothing.

    Parameters
    ----------
    points : mapping
        Points by name. [m]

    Returns
    -------
    pair of tuple
        Constraints, and the hinge of Watt's crank.

    Notes
    -----
    Watt's crank is one more unknown and its two rods are two equations: one net constraint.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 1.4.

    """
    if "panhard_body" in points and "panhard_axle" in points:
        rod = Link(name="Panhard rod", start=points["panhard_body"], end=points["panhard_axle"])
        return (rod,), ()
    if "watt_pivot" not in points:
        return (), ()
    on_body = "watt_upper_axle" in points
    other = "axle" if on_body else "body"
    rods = tuple(
        Link(
            name=f"{end} Watt rod",
            start=points[f"watt_{end}_{other}"],
            end=points[f"watt_{end}"],
            frame=1,
            start_frame=BODY if on_body else GROUND,
        )
        for end in ("upper", "lower")
    )
    carrier = GROUND if on_body else BODY
    crank = Hinge(point=points["watt_pivot"], axis=axis(x=1.0, y=0.0, z=0.0), on=carrier)
    return rods, (crank,)


def axle(
    *,
    layout: str,
    wheel_centre: Array,
    setting: Setting,
    constraints: tuple[Constraint, ...],
    hinges: tuple[Hinge, ...],
    kingpin: tuple[Array, Array] | None,
    steers: str,
) -> Mechanism:
    """Return an axle with both its wheels.

    Parameters
    ----------
    layout : str
        Name of the layout. [-]
    wheel_centre : array
        Centre of the left wheel. [m]
    setting : Setting
        How the wheels stand. [rad], [m]
    constraints : tuple of Constraint
        What guides it. [-]
    hinges : tuple of Hinge
        Kingpins, left and right, or Watt's crank. [m]
    kingpin : pair of array or None
        Lower and upper point of the left kingpin; the hinges are then the kingpins. [m]
    steers : str
        The constraint that the steering holds. [-]

    Returns
    -------
    Mechanism
        The moved body is the axle, its reference point its middle.

    Notes
    -----
    Two motions are left: travel and roll.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    right = mirrored(point=wheel_centre)
    middle = np.stack((wheel_centre[0], 0.0 * wheel_centre[1], wheel_centre[2]))
    return Mechanism(
        layout=layout,
        origin=middle,
        constraints=(*constraints, *axle_drives(left=wheel_centre, right=right)),
        drives=2,
        wheels=(
            _wheel(wheel_centre, setting, 1, kingpin),
            _wheel(right, setting, -1, kingpin),
        ),
        hinges=hinges,
        steers=steers,
    )


def _wheel(
    centre: Array, setting: Setting, side: int, kingpin: tuple[Array, Array] | None
) -> Mount:
    if kingpin is None:
        return mount(centre=centre, setting=setting, side=side, frame=BODY, kingpin=None)
    ends = kingpin if side > 0 else tuple(mirrored(point=one) for one in kingpin)
    joints = (Joint(point=ends[0]), Joint(point=ends[1]))
    return mount(
        centre=centre, setting=setting, side=side, frame=1 if side > 0 else 2, kingpin=joints
    )
