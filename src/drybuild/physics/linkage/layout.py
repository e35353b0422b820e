"""What every layout says of itself: its points by the names of the trade, and how it is built."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.errors import require
from drybuild.physics.linkage.joints import ROLL, TRAVEL, Constraint, Pitman, Plane, Rack, Relay
from drybuild.physics.linkage.mechanism import Joint, Mechanism, Mount
from drybuild.physics.linkage.pose import BODY
from drybuild.physics.linkage.vectors import Array, rotation, turned

Points = Mapping[str, Array]
"""Design position of each point by name, (3, samples), left side. [m]"""


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How the wheel stands on its carrier, in the trade's signs."""

    camber: Array
    """[rad]"""
    toe_in: Array
    """Of one wheel [rad]."""
    radius: Array
    """From the wheel's centre to the road [m]."""


@dataclass(frozen=True, kw_only=True)
class Layout:
    """One way of guiding wheels."""

    name: str
    """As the build file names it."""
    points: Mapping[str, str]
    """The points that it needs, by name, with where each is."""
    build: Callable[[Points, Setting], Mechanism]
    optional: Mapping[str, str]
    """Points that it can use; those of springs and bars belong to every layout."""
    arms: tuple[str, ...] = ()
    """Arms that a spring may stand on."""
    springs_on: str = ""
    """The arm that it usually stands on; empty for the wheel's carrier or the axle."""
    spring_ends: tuple[str, str] | None = None
    """Points that are the ends of spring and damper where nothing else is given."""
    tube: tuple[str, str] | None = None
    """Points on the axis of the damper that guides the wheel, where they are given."""

    def missing(self, given: Mapping[str, object]) -> tuple[str, ...]:
        """Return the points that are needed and not given."""
        return tuple(name for name in self.points if name not in given)


def shaped(*, points: Points) -> dict[str, Array]:
    """Return points with a place for positions between components and samples.

    Parameters
    ----------
    points : mapping
        Points by name. [m]

    Returns
    -------
    dict
        Each (3, 1, samples). [m]

    Notes
    -----
    A point without samples gets one.

    References
    ----------
    .. [1] Definition.

    """
    found = {}
    for name, point in points.items():
        array = np.asarray(point, dtype=np.float64).reshape(3, -1)
        require(np.isfinite(array), name, array, "m", "three finite numbers")
        found[name] = array[:, np.newaxis]
    return found


def mount(
    *,
    centre: Array,
    setting: Setting,
    side: int,
    frame: int,
    kingpin: tuple[Joint, Joint] | None,
) -> Mount:
    """Return a wheel as it stands in design position.

    Parameters
    ----------
    centre : array
        Its centre. [m]
    setting : Setting
        Camber, toe and radius. [rad], [m]
    side : int
        1 left, -1 right. [-]
    frame : int
        What carries it. [-]
    kingpin : pair of Joint or None
        Lower and upper point of the steering axis. [m]

    Returns
    -------
    Mount
        The wheel, its axis pointing outward.

    Notes
    -----
    Left wheel: e = R_z(−toe-in) R_x(−camber) (0, 1, 0).

    References
    ----------
    .. [1] ISO 8855:2011, wheel angles.

    """
    camber, toe_in, radius = (
        np.asarray(one, dtype=np.float64).reshape(1, -1)
        for one in (setting.camber, setting.toe_in, setting.radius)
    )
    zero = np.zeros_like(camber)
    lean = rotation(vector=np.stack((-camber, zero, zero)))
    zero = np.zeros_like(toe_in)
    aim = rotation(vector=np.stack((zero, zero, -toe_in)))
    spin = turned(matrix=aim, vector=lean[:, 1])
    spin = np.stack((spin[0], side * spin[1], spin[2]))
    return Mount(centre=centre, spin=spin, radius=radius, side=side, frame=frame, kingpin=kingpin)


def mirrored(*, point: Array) -> Array:
    """Return the point of the right side that answers a point of the left.

    Parameters
    ----------
    point : array
        Point of the left side. [m]

    Returns
    -------
    array
        With y turned round. [m]

    Notes
    -----
    The car's centre plane is y = 0.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    return np.stack((point[0], -point[1], point[2]))


def axis(*, x: float, y: float, z: float) -> Array:
    """Return a direction that is the same in every sample.

    Parameters
    ----------
    x : float
        Forward. [-]
    y : float
        Left. [-]
    z : float
        Up. [-]

    Returns
    -------
    array
        (3, 1, 1). [-]

    Notes
    -----
    Not made of unit length.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    return np.array([x, y, z], dtype=np.float64)[:, np.newaxis, np.newaxis]


def steering_drive(*, points: Mapping[str, Array]) -> Rack | Pitman | Relay:
    """Return what moves the tie rod's inner joint: the box's arm if it is given, else a rack.

    Parameters
    ----------
    points : mapping
        Points by name; `pitman_pivot`, `pitman_end` and `pitman_axis` make a steering box. [m]

    Returns
    -------
    Rack, Pitman or Relay
        A rack lies across the car; a box's arm turns about the vertical, or about the line from
        `pitman_pivot` to `pitman_axis`.

    Notes
    -----
    With `pitman_end` the joint sits on a relay rod between the arm and a parallel idler; with
    `idler_pivot` and `idler_end` the idler stands as it does.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 4.3.

    """
    if "pitman_pivot" not in points:
        return Rack(direction=axis(x=0.0, y=1.0, z=0.0))
    pivot = points["pitman_pivot"]
    about = points["pitman_axis"] - pivot if "pitman_axis" in points else axis(x=0.0, y=0.0, z=1.0)
    if "idler_pivot" not in points:
        return Pitman(pivot=pivot, axis=about, end=points.get("pitman_end"))
    given = "pitman_end" in points and "idler_end" in points
    require(given, "points", "idler_pivot alone", "", "given with idler_end and pitman_end")
    idler = points["idler_pivot"]
    return Relay(
        pivot=pivot,
        axis=about,
        end=points["pitman_end"],
        idler_pivot=idler,
        idler_axis=points["idler_axis"] - idler if "idler_axis" in points else about,
        idler_end=points["idler_end"],
    )


def box_mirrored(*, points: Points) -> dict[str, Array]:
    """Return the points for the right wheel, seen in the mirror: the box stands on the other side.

    Parameters
    ----------
    points : mapping
        Points of the left side by name. [m]

    Returns
    -------
    dict
        The same, but for the box's and the idler's, which are not mirrored in the car. [m]

    Notes
    -----
    In the mirror the box's arm turns the other way: steer changes its sign.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    sides = ("pitman_", "idler_")
    return {
        name: np.asarray(mirrored(point=one)) if name.startswith(sides) else one
        for name, one in points.items()
    }


def wheel_drive(*, centre: Array) -> tuple[Constraint, ...]:
    """Return the drive of a single wheel: its centre rises by the travel.

    Parameters
    ----------
    centre : array
        Centre of the wheel. [m]

    Returns
    -------
    tuple of Constraint
        One drive. [m]

    Notes
    -----
    The drive stands last among the constraints.

    References
    ----------
    .. [1] Definition of travel.

    """
    up = axis(x=0.0, y=0.0, z=1.0)
    return (Plane(name="wheel travel", point=centre, normal=up, lift={TRAVEL: 1.0}, frame=BODY),)


def axle_drives(*, left: Array, right: Array) -> tuple[Constraint, ...]:
    """Return the drives of an axle: both hubs rise by the travel, and apart by the roll.

    Parameters
    ----------
    left : array
        Point of the axle on the left. [m]
    right : array
        Point of the axle on the right. [m]

    Returns
    -------
    tuple of Constraint
        Left and right drive. [m]

    Notes
    -----
    z = travel ± roll t/2; the roll is its sine as long as the axle stays level at first.

    References
    ----------
    .. [1] Definition of travel and roll.

    """
    up = axis(x=0.0, y=0.0, z=1.0)
    half = (left[1] - right[1]) / 2.0
    return (
        Plane(name="left travel", point=left, normal=up, lift={TRAVEL: 1.0, ROLL: half}),
        Plane(name="right travel", point=right, normal=up, lift={TRAVEL: 1.0, ROLL: -half}),
    )


BOX = {
    "pitman_pivot": "Where the steering box's arm turns",
    "pitman_axis": "Another point of that axis",
    "pitman_end": "The arm's joint with the relay rod",
    "idler_pivot": "Where the idler arm turns, if it is not parallel to the box's",
    "idler_end": "The idler arm's joint with the relay rod",
    "idler_axis": "Another point of the idler's axis; else it is parallel to the box's",
}
"""Points of a steering box with its relay rod; none of them makes a rack."""

SPRINGS = {
    "spring_top": "Upper end of the spring, on the body",
    "spring_bottom": "Lower end of the spring",
    "damper_top": "Upper end of the damper, on the body",
    "damper_bottom": "Lower end of the damper",
    "bar_end": "End of the anti-roll bar, where its drop link begins",
    "bar_link": "Other end of the drop link",
    "bar_axis": "A point of the bar's middle piece",
    "rocker_pivot": "A point of the rocker's axis, where a pushrod works spring and damper",
    "rocker_axis": "Another point of that axis",
    "pushrod_rocker": "The pushrod's end on the rocker",
    "pushrod_wheel": "The pushrod's end on the arm, upright or axle",
    "shaft_inner": "Middle of the half-shaft's inner joint",
    "shaft_outer": "Middle of the half-shaft's outer joint",
}
"""Points of springs and bars, the same in every layout."""
