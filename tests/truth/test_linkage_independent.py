"""Every layout against an independent formulation: a general optimiser on full rigid bodies.

Each upright, arm, axle, half, crank and relay rod is a body of its own with six unknowns; its
joints are written here anew as coincidences of points and directions, and solved by scipy's
least_squares with finite differences. Nothing of the linkage room is used for it.

Source of the method: general multibody constraint equations, e.g. J. C. Dixon, "Suspension Geometry
and Computation", 2009, ch. 16 (from memory), with SciPy's optimiser as the reference library.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

from tests.linkages import (
    ALL,
    FOUR_LINK,
    LEAF,
    PANHARD,
    TORQUE_ARM,
    WATT,
    moved,
)

Array = NDArray[np.float64]
Raw = dict[str, tuple[float, float, float]]
X, Y, Z = np.eye(3)
CLOSE = 1e-9
"""The two ways agree to this. [m]"""


class Bodies:
    """Rigid bodies about their design position; each has three shifts and a rotation vector."""

    def __init__(self, unknowns: Array) -> None:
        self.poses = unknowns.reshape(-1, 6)

    def at(self, body: int, point: Array) -> Array:
        """Return where a point of a body stands; body -1 is the car."""
        if body < 0:
            return point
        pose = self.poses[body]
        return Rotation.from_rotvec(pose[3:]).apply(point) + pose[:3]

    def aim(self, body: int, direction: Array) -> Array:
        """Return how a direction of a body points."""
        if body < 0:
            return direction
        return Rotation.from_rotvec(self.poses[body][3:]).apply(direction)


Closing = Callable[[Bodies], Array]


def same(one: int, other: int, point: Array) -> Closing:
    """Two bodies share a ball."""
    return lambda now: now.at(one, point) - now.at(other, point)


def pinned(one: int, other: int, first: Array, second: Array) -> Closing:
    """Two bodies share an axis: a ball, and a second point that stays on the line."""

    def gap(now: Bodies) -> Array:
        line = now.aim(other, second - first)
        lies = np.cross(line, now.at(one, second) - now.at(one, first))
        return np.concatenate((now.at(one, first) - now.at(other, first), lies))

    return gap


def rod(one: int, other: int, start: Array, end: Array, shift: Array | None = None) -> Closing:
    """A rod keeps its length; the start may be carried by a steering gear."""
    carried = np.zeros(3) if shift is None else shift
    length = float(np.linalg.norm(end - start))
    return lambda now: np.array(
        [np.linalg.norm(now.at(other, end) - now.at(one, start) - carried) - length]
    )


def raised(body: int, point: Array, rise: float) -> Closing:
    """A point of a body rises by so much."""
    return lambda now: np.array([now.at(body, point)[2] - point[2] - rise])


def solved(bodies: int, closings: list[Closing]) -> Bodies:
    """Close every joint."""

    def gaps(unknowns: Array) -> Array:
        now = Bodies(unknowns)
        return np.concatenate([one(now) for one in closings])

    found = least_squares(
        gaps, np.zeros(6 * bodies), xtol=1e-15, ftol=1e-15, gtol=1e-15, method="trf"
    )
    assert np.abs(found.fun).max() < 1e-11
    return Bodies(found.x)


def mirror(point: Array) -> Array:
    """Return the right side's point."""
    return point * np.array([1.0, -1.0, 1.0])


def points(raw: Raw) -> dict[str, Array]:
    """Return points as arrays."""
    return {name: np.array(one) for name, one in raw.items()}


def compare(
    layout: str, raw: Raw, rise: float, now: Bodies, body: int = 0, **inputs: float
) -> None:
    """Compare the wheel's centre and two more of its points with the linkage room's."""
    given = {name: np.array([value]) for name, value in inputs.items()}
    swept = moved(layout, raw, travel=np.array([rise]), **given)
    assert swept.motion.stop is None
    wheel = swept.linkage.mechanism.wheels[0]
    centre = np.array(raw["wheel_centre"])
    for away in (np.zeros(3), 0.2 * X, 0.2 * Z):
        point = (centre + away)[:, None, None]
        theirs = swept.motion.pose.place(wheel.frame, point)[:, 0, 0]
        assert theirs == pytest.approx(now.at(body, centre + away), abs=CLOSE)


RISES = (-0.05, 0.06)


@pytest.mark.parametrize("rise", RISES)
@pytest.mark.parametrize("rack", [0.0, 0.03])
def test_double_wishbone_of_three_bodies(rise: float, rack: float) -> None:
    at = points(ALL["double wishbone"])
    now = solved(3, [
        pinned(1, -1, at["lower_front"], at["lower_rear"]),
        pinned(2, -1, at["upper_front"], at["upper_rear"]),
        same(0, 1, at["lower_outer"]),
        same(0, 2, at["upper_outer"]),
        rod(-1, 0, at["tie_inner"], at["tie_outer"], rack * Y),
        raised(0, at["wheel_centre"], rise),
    ])  # fmt: skip
    compare("double wishbone", ALL["double wishbone"], rise, now, steer=rack)


@pytest.mark.parametrize("rise", RISES)
def test_strut_of_an_upright_and_an_arm(rise: float) -> None:
    at = points(ALL["strut"])
    top, ball = at["strut_top"], at["lower_outer"]

    def slides(now: Bodies) -> Array:
        return np.cross(now.aim(0, top - ball), top - now.at(0, ball))

    now = solved(2, [
        pinned(1, -1, at["lower_front"], at["lower_rear"]),
        same(0, 1, ball),
        slides,
        rod(-1, 0, at["tie_inner"], at["tie_outer"], 0.02 * Y),
        raised(0, at["wheel_centre"], rise),
    ])  # fmt: skip
    compare("strut", ALL["strut"], rise, now, steer=0.02)


@pytest.mark.parametrize("rise", RISES)
def test_sliding_pillar(rise: float) -> None:
    at = points(ALL["sliding pillar"])
    low, high = at["pillar_lower"], at["pillar_upper"]

    def slides(now: Bodies) -> Array:
        return np.concatenate([np.cross(high - low, now.at(0, one) - low) for one in (low, high)])

    now = solved(1, [
        slides,
        rod(-1, 0, at["tie_inner"], at["tie_outer"], 0.02 * Y),
        raised(0, at["wheel_centre"], rise),
    ])  # fmt: skip
    compare("sliding pillar", ALL["sliding pillar"], rise, now, steer=0.02)


@pytest.mark.parametrize("rise", RISES)
def test_multi_link_of_five_rods(rise: float) -> None:
    at = points(ALL["multi-link"])
    rods = ("lower_front", "lower_rear", "upper_front", "upper_rear", "toe")
    now = solved(1, [
        *(rod(-1, 0, at[f"{one}_inner"], at[f"{one}_outer"]) for one in rods),
        raised(0, at["wheel_centre"], rise),
    ])  # fmt: skip
    compare("multi-link", ALL["multi-link"], rise, now)


@pytest.mark.parametrize("rise", RISES)
@pytest.mark.parametrize(
    ("layout", "first", "second"),
    [
        ("trailing arm", "arm_inner", "arm_outer"),
        ("semi-trailing arm", "arm_inner", "arm_outer"),
        ("swing axle", "arm_front", "arm_rear"),
    ],
)
def test_an_arm_on_its_pin(layout: str, first: str, second: str, rise: float) -> None:
    at = points(ALL[layout])
    now = solved(1, [pinned(0, -1, at[first], at[second]), raised(0, at["wheel_centre"], rise)])
    compare(layout, ALL[layout], rise, now)


@pytest.mark.parametrize("rise", RISES)
def test_twin_beam_of_a_beam_and_an_upright(rise: float) -> None:
    at = points(ALL["twin beam"])
    now = solved(2, [
        pinned(1, -1, at["beam_pivot"], at["radius_arm_body"]),
        pinned(0, 1, at["kingpin_lower"], at["kingpin_upper"]),
        rod(-1, 0, at["tie_inner"], at["tie_outer"], 0.01 * Y),
        # The beam's own hub is driven there; the wheel swings about the kingpin with the tie rod.
        raised(1, at["wheel_centre"], rise),
    ])  # fmt: skip
    compare("twin beam", ALL["twin beam"], rise, now, steer=0.01)


def axle_rises(
    at: dict[str, Array], rise: float, roll: float, ends: tuple[int, int] = (0, 0)
) -> list[Closing]:
    """Both hubs rise by the travel and apart by the roll."""
    hub = at["wheel_centre"]
    return [
        raised(ends[0], hub, rise + roll * hub[1]),
        raised(ends[1], mirror(hub), rise - roll * hub[1]),
    ]


def both(at: dict[str, Array], start: str, end: str) -> list[Closing]:
    """A rod each side."""
    return [rod(-1, 0, at[start], at[end]), rod(-1, 0, mirror(at[start]), mirror(at[end]))]


GRID = [(-0.05, 0.0), (0.04, 0.04), (0.02, -0.05)]


@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_live_axle_on_four_leaning_links(rise: float, roll: float) -> None:
    at = points(FOUR_LINK)
    links = both(at, "lower_body", "lower_axle") + both(at, "upper_body", "upper_axle")
    now = solved(1, [*links, *axle_rises(at, rise, roll)])
    compare("live axle on links", FOUR_LINK, rise, now, roll=roll)


@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_live_axle_on_three_links_and_a_panhard_rod(rise: float, roll: float) -> None:
    at = points(PANHARD)
    links = [
        *both(at, "lower_body", "lower_axle"),
        rod(-1, 0, at["top_body"], at["top_axle"]),
        rod(-1, 0, at["panhard_body"], at["panhard_axle"]),
    ]
    now = solved(1, [*links, *axle_rises(at, rise, roll)])
    compare("live axle on links", PANHARD, rise, now, roll=roll)


@pytest.mark.parametrize("rise", RISES)
def test_de_dion_axle_with_watts_linkage_in_bump(rise: float) -> None:
    # In level bump the parallel links of both sides close exactly, so nothing is shared there.
    at = points(WATT)
    now = solved(2, [
        *both(at, "lower_body", "lower_axle"),
        *both(at, "upper_body", "upper_axle"),
        pinned(1, 0, at["watt_pivot"], at["watt_pivot"] + X),
        rod(-1, 1, at["watt_upper_body"], at["watt_upper"]),
        rod(-1, 1, at["watt_lower_body"], at["watt_lower"]),
        *axle_rises(at, rise, 0.0),
    ])  # fmt: skip
    compare("de Dion axle", WATT, rise, now)


@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_live_axle_on_a_torque_tube(rise: float, roll: float) -> None:
    raw = ALL["live axle on torque tube"]
    at = points(raw)
    now = solved(1, [
        same(0, -1, at["tube_ball"]),
        rod(-1, 0, at["panhard_body"], at["panhard_axle"]),
        *axle_rises(at, rise, roll),
    ])  # fmt: skip
    compare("live axle on torque tube", raw, rise, now, roll=roll)


@pytest.mark.parametrize("shackle", [False, True])
@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_live_axle_on_a_torque_arm(rise: float, roll: float, shackle: bool) -> None:
    raw = {**TORQUE_ARM, "arm_shackle": (1.10, 0.0, 0.48)} if shackle else TORQUE_ARM
    at = points(raw)
    front = at["arm_front_end"]
    middle = np.array([0.0, 0.0, at["wheel_centre"][2]])

    def slides(now: Bodies) -> Array:
        # The bush lies in the plane through the arm's line and the axle's own direction.
        normal = np.cross(now.aim(0, front - middle), now.aim(0, Y))
        return np.array([normal @ (front - now.at(0, middle))])

    end = rod(-1, 0, at["arm_shackle"], front) if shackle else slides
    now = solved(1, [
        *both(at, "lower_body", "lower_axle"),
        end,
        rod(-1, 0, at["panhard_body"], at["panhard_axle"]),
        *axle_rises(at, rise, roll),
    ])  # fmt: skip
    compare("live axle on torque arm", raw, rise, now, roll=roll)


@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_twist_beam_of_two_halves(rise: float, roll: float) -> None:
    raw = ALL["twist beam"]
    at = points(raw)
    bush, centre = at["beam_bush"], at["beam_centre"]

    def bushes(now: Bodies) -> Array:
        left, right = now.at(0, bush) - bush, now.at(1, mirror(bush)) - mirror(bush)
        return np.array([left[0], left[2], right[0], right[2], left[1] + right[1]])

    hub = at["wheel_centre"]
    now = solved(2, [
        bushes,
        pinned(0, 1, centre, centre + 0.3 * Y),
        raised(0, hub, rise + roll * hub[1]),
        raised(1, mirror(hub), rise - roll * hub[1]),
    ])  # fmt: skip
    compare("twist beam", raw, rise, now, roll=roll)


def leaf_guides(at: dict[str, Array]) -> list[Closing]:
    """Rods of three quarters, the seat's turn and the hold sideways, as the layout states them."""
    front, rear, seat = at["front_eye"], at["rear_eye"], at["seat"]
    a, b = front[0] - seat[0], seat[0] - rear[0]
    joint = seat + 0.25 * (front - seat)
    share = front[0] / (front[0] - rear[0])
    hold = np.array([0.0, 0.0, front[2] + share * (rear[2] - front[2])])
    middle = seat * np.array([1.0, 0.0, 1.0])

    def turns(now: Bodies) -> Array:
        pitch = -now.aim(0, X)[2]
        rise = now.at(0, middle)[2] - middle[2]
        return np.array([pitch - (b - a) / (a * b) * rise, now.at(0, hold)[1]])

    return [
        rod(-1, 0, front, joint),
        rod(-1, 0, mirror(front), mirror(joint)),
        turns,
    ]


@pytest.mark.parametrize(("rise", "roll"), GRID)
def test_live_axle_on_leaf_springs(rise: float, roll: float) -> None:
    at = points(LEAF)
    now = solved(1, [*leaf_guides(at), *axle_rises(at, rise, roll)])
    compare("live axle on leaf springs", LEAF, rise, now, roll=roll)


@pytest.mark.parametrize(("rise", "turn"), [(-0.04, 0.0), (0.03, 0.2), (0.02, -0.25)])
def test_beam_axle_of_an_axle_and_two_uprights(rise: float, turn: float) -> None:
    raw = ALL["beam axle on leaf springs"]
    at = points(raw)
    low, high = at["kingpin_lower"], at["kingpin_upper"]
    pivot, axis = at["pitman_pivot"], at["pitman_axis"] - at["pitman_pivot"]
    swing = Rotation.from_rotvec(turn * axis / np.linalg.norm(axis))
    shift = pivot + swing.apply(at["drag_inner"] - pivot) - at["drag_inner"]
    now = solved(3, [
        *leaf_guides(at),
        pinned(1, 0, low, high),
        pinned(2, 0, mirror(low), mirror(high)),
        rod(-1, 1, at["drag_inner"], at["drag_outer"], shift),
        rod(1, 2, at["tie_outer"], mirror(at["tie_outer"])),
        *axle_rises(at, rise, 0.0),
    ])  # fmt: skip
    compare("beam axle on leaf springs", raw, rise, now, body=1, steer=turn)


BOX: Raw = {
    **ALL["double wishbone"],
    "tie_inner": (-0.150, 0.300, -0.038),
    "pitman_pivot": (0.02, 0.34, 0.05),
    "pitman_axis": (0.03, 0.35, 0.25),
    "pitman_end": (-0.13, 0.33, -0.03),
    "idler_pivot": (0.01, -0.35, 0.04),
    "idler_axis": (0.01, -0.37, 0.30),
    "idler_end": (-0.12, -0.33, -0.02),
}


@pytest.mark.parametrize("turn", [-0.4, 0.25, 0.5])
def test_relay_rod_between_arms_that_are_not_parallel(turn: float) -> None:
    at = points(BOX)
    axis = at["pitman_axis"] - at["pitman_pivot"]
    swing = Rotation.from_rotvec(turn * axis / np.linalg.norm(axis))
    near = at["pitman_pivot"] + swing.apply(at["pitman_end"] - at["pitman_pivot"])
    first = at["idler_end"] - at["pitman_end"]
    idler = solved(1, [
        pinned(0, -1, at["idler_pivot"], at["idler_axis"]),
        lambda now: np.array(
            [np.linalg.norm(now.at(0, at["idler_end"]) - near) - np.linalg.norm(first)]
        ),
    ])  # fmt: skip
    second = idler.at(0, at["idler_end"]) - near
    # The least rotation that takes one direction to another, by scipy's own alignment.
    square = np.cross(first, second)
    angle = np.arctan2(np.linalg.norm(square), first @ second)
    least = Rotation.from_rotvec(angle * square / np.linalg.norm(square))
    inner = near + least.apply(at["tie_inner"] - at["pitman_end"])
    now = solved(3, [
        pinned(1, -1, at["lower_front"], at["lower_rear"]),
        pinned(2, -1, at["upper_front"], at["upper_rear"]),
        same(0, 1, at["lower_outer"]),
        same(0, 2, at["upper_outer"]),
        rod(-1, 0, at["tie_inner"], at["tie_outer"], inner - at["tie_inner"]),
        raised(0, at["wheel_centre"], 0.02),
    ])  # fmt: skip
    compare("double wishbone", BOX, 0.02, now, steer=turn)


@pytest.mark.parametrize("rise", RISES)
def test_a_pushrod_turns_its_rocker(rise: float) -> None:
    raw: Raw = {
        **ALL["double wishbone"],
        "spring_top": (0.02, 0.10, 0.32),
        "spring_bottom": (0.01, 0.36, 0.36),
        "rocker_pivot": (0.00, 0.38, 0.26),
        "rocker_axis": (0.30, 0.37, 0.28),
        "pushrod_rocker": (0.00, 0.44, 0.30),
        "pushrod_wheel": (0.01, 0.68, -0.10),
    }
    at = points(raw)
    now = solved(4, [
        pinned(1, -1, at["lower_front"], at["lower_rear"]),
        pinned(2, -1, at["upper_front"], at["upper_rear"]),
        same(0, 1, at["lower_outer"]),
        same(0, 2, at["upper_outer"]),
        rod(-1, 0, at["tie_inner"], at["tie_outer"]),
        raised(0, at["wheel_centre"], rise),
        pinned(3, -1, at["rocker_pivot"], at["rocker_axis"]),
        rod(1, 3, at["pushrod_wheel"], at["pushrod_rocker"]),
    ])  # fmt: skip
    length = float(np.linalg.norm(now.at(3, at["spring_bottom"]) - at["spring_top"]))
    spring = moved("double wishbone", raw, travel=np.array([rise]), arm="lower arm").strut("spring")
    assert spring is not None
    assert spring.length[0, 0, 0, 0] == pytest.approx(length, abs=CLOSE)
