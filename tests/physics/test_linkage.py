from __future__ import annotations

import numpy as np
import pytest
from tests.linkages import (
    ALL,
    BEAM,
    BOOK,
    BOOK_SETTING,
    LEAF,
    NONE,
    SWING,
    TWIN_BEAM,
    WATT,
    made,
    moved,
    points_of,
)

from drybuild.errors import InputError
from drybuild.physics.linkage.body_roll import rolled
from drybuild.physics.linkage.layouts import LAYOUTS, linkage
from drybuild.present.linkage import linkage_drawing

TRAVEL = np.linspace(-0.05, 0.05, 5)


@pytest.mark.parametrize("layout", ALL)
def test_every_layout_closes_over_its_travel(layout: str) -> None:
    swept = moved(layout, ALL[layout], travel=TRAVEL)
    assert swept.motion.stop is None
    assert swept.motion.residual.max() < 1e-9
    # Where there is a kingpin, the axle's end is driven, and bump steer swings the wheel about it.
    swing = 1e-4 if "beam" in layout else 1e-12
    assert swept.left.travel[:, 0, 0, 0] == pytest.approx(TRAVEL, abs=swing)


@pytest.mark.parametrize("layout", ALL)
def test_every_layout_has_its_derivative_right(layout: str) -> None:
    mechanism = made(layout, ALL[layout]).mechanism
    pose = moved(layout, ALL[layout], travel=np.array([0.03])).motion.pose
    inputs = {name: np.zeros((1, 1)) for name in ("travel", "roll", "steer")}
    rows = mechanism.matrix(pose, inputs)[:, :, 0, 0]
    for unknown in range(pose.size):
        step = np.zeros((pose.size, 1, 1))
        step[unknown] = 1e-6
        ahead, behind = (mechanism.gaps(pose.moved(s * step), inputs) for s in (1.0, -1.0))
        slope = (ahead - behind)[:, 0, 0] / 2e-6
        assert rows[:, unknown] == pytest.approx(slope, abs=1e-7)


def test_every_layout_is_tried() -> None:
    assert set(ALL) == set(LAYOUTS)


@pytest.mark.parametrize("layout", ["live axle on links", "live axle on leaf springs"])
def test_both_wheels_of_an_axle_speak_alike(layout: str) -> None:
    # These are their own mirror; one with a Panhard rod, Watt's rods or a drag link is not.
    swept = moved(layout, ALL[layout], roll=np.array([-0.03, 0.03]))
    assert swept.right is not None
    for name in ("camber", "toe_in", "contact_offset", "wheelbase_change"):
        left, right = getattr(swept.left, name), getattr(swept.right, name)
        assert left[0, 0, 0] == pytest.approx(right[0, 0, 1], abs=1e-9)


def test_samples_are_what_they_are_alone() -> None:
    rng = np.random.default_rng(3)
    points = {k: one[:, None] + rng.normal(0, 1e-3, (3, 4)) for k, one in points_of(BOOK).items()}
    together = linkage(
        layout="double wishbone", points=points, setting=BOOK_SETTING, spring_arm=""
    ).motion(travel=TRAVEL, steer=np.array([-0.02, 0.02]), roll=NONE)
    alone = linkage(
        layout="double wishbone",
        points={k: one[:, 2] for k, one in points.items()},
        setting=BOOK_SETTING,
        spring_arm="",
    ).motion(travel=TRAVEL, steer=np.array([-0.02, 0.02]), roll=NONE)
    assert together.left.camber[..., 2] == pytest.approx(alone.left.camber[..., 0], abs=1e-10)


SPRUNG = {
    **BOOK,
    "spring_top": (0.0, 0.50, 0.35),
    "spring_bottom": (0.0, 0.60, -0.11),
    "bar_end": (0.20, 0.62, -0.02),
    "bar_link": (0.02, 0.62, -0.12),
    "bar_axis": (0.40, 0.30, -0.02),
}


@pytest.mark.parametrize("arm", ["", "lower arm", "upper arm"])
def test_motion_ratio_is_the_slope_of_the_springs_length(arm: str) -> None:
    step = 1e-4
    swept = moved("double wishbone", SPRUNG, travel=np.array([-step, 0.0, step]) + 0.02, arm=arm)
    spring = swept.strut("spring")
    assert spring is not None
    slope = (spring.length[0] - spring.length[2]) / (2.0 * step)
    assert spring.motion_ratio[1] == pytest.approx(slope, rel=1e-6)


def test_a_spring_at_the_wheel_moves_with_it() -> None:
    points = {**SWING, "spring_top": (0.0, 0.7, 0.6), "spring_bottom": (0.0, 0.7, 0.3)}
    spring = moved("swing axle", points).strut("spring")
    assert spring is not None
    assert spring.motion_ratio[0, 0, 0, 0] == pytest.approx(1.0)


def test_a_bar_end_straight_above_its_link_moves_with_the_link() -> None:
    points = {
        **SWING,
        "bar_end": (0.0, 0.40, 0.50),
        "bar_link": (0.0, 0.40, 0.30),
        "bar_axis": (0.25, 0.0, 0.50),
    }
    bar = moved("swing axle", points).bar
    assert bar is not None
    # Half-way along the swinging axle from the pivot at y = 0.10 to the wheel at y = 0.70.
    assert bar.motion_ratio[0, 0, 0, 0] == pytest.approx(0.5)


def test_a_leaf_of_equal_halves_does_not_wind_up() -> None:
    even = {**LEAF, "rear_eye": (-0.60, 0.50, 0.33)}
    wheel = moved("live axle on leaf springs", even, travel=TRAVEL).left
    assert np.abs(wheel.caster_rate).max() < 1e-12


def test_a_shorter_front_half_turns_the_nose_down_in_bump() -> None:
    wheel = moved("live axle on leaf springs", LEAF).left
    # (b - a)/(a b), a 0.60, b 0.70: nose down positive, which is the top of the axle forward.
    assert -wheel.caster_rate[0, 0, 0, 0] == pytest.approx(0.1 / 0.42)


def test_the_seat_of_a_level_leaf_moves_on_three_quarters_of_its_half() -> None:
    level = {**LEAF, "front_eye": (0.6, 0.5, 0.25), "rear_eye": (-0.6, 0.5, 0.25)}
    swept = moved("live axle on leaf springs", level, travel=np.array([0.05]))
    back = -float(swept.motion.pose.centre[0, 0, 0])
    assert -back == pytest.approx(0.45 - np.sqrt(0.45**2 - 0.05**2))


def test_watts_crank_keeps_the_axle_in_the_middle() -> None:
    swept = moved("de Dion axle", WATT, travel=np.array([-0.06, -0.02, 0.02, 0.06]))
    assert np.abs(swept.motion.pose.centre[1]).max() < 3e-5


WATT_ON_BODY = {
    **{
        name: one for name, one in WATT.items() if not name.endswith("r_body") or "watt" not in name
    },
    "watt_upper_axle": (-0.10, 0.50, 0.35),
    "watt_lower_axle": (-0.10, -0.50, 0.19),
}


def test_watts_crank_on_the_body_fixes_the_roll_centre_to_it() -> None:
    swept = moved("live axle on links", WATT_ON_BODY, travel=np.array([-0.05, 0.0, 0.05]))
    assert np.abs(swept.motion.pose.centre[1]).max() < 3e-5
    over_road = swept.left.roll_axis_height(np.array(-0.10))[:, 0, 0, 0]
    in_body = over_road + swept.left.contact_height[:, 0, 0, 0]
    assert in_body == pytest.approx(0.27, abs=5e-3)
    on_axle = moved("live axle on links", WATT, travel=np.array([-0.05, 0.0, 0.05])).left
    with_axle = on_axle.roll_axis_height(np.array(-0.10))[:, 0, 0, 0]
    assert with_axle == pytest.approx(0.27, abs=5e-3)


def test_watts_crank_on_the_body_has_its_derivative_right() -> None:
    mechanism = made("live axle on links", WATT_ON_BODY).mechanism
    inputs = {name: np.zeros((1, 1)) for name in ("travel", "roll", "steer")}
    motion = moved("live axle on links", WATT_ON_BODY, np.array([0.04]), roll=np.array([0.05]))
    pose = motion.motion.pose
    rows = mechanism.matrix(pose, inputs)[:, :, 0, 0]
    for unknown in range(pose.size):
        step = np.zeros((pose.size, 1, 1))
        step[unknown] = 1e-6
        ahead, behind = (mechanism.gaps(pose.moved(s * step), inputs) for s in (1.0, -1.0))
        slope = (ahead - behind)[:, 0, 0] / 2e-6
        assert rows[:, unknown] == pytest.approx(slope, abs=1e-7)


def test_a_steered_beam_turns_both_wheels() -> None:
    swept = moved("beam axle on leaf springs", BEAM, steer=np.radians([-15.0, 0.0, 15.0]))
    assert swept.right is not None
    left, right = swept.left.steer_angle[0, :, 0, 0], swept.right.steer_angle[0, :, 0, 0]
    assert np.all(left * right >= 0.0)
    assert left[0] * left[2] < 0.0
    # Steering arms that point inward behind the axle turn the inner wheel further.
    inner, outer = max(abs(left[2]), abs(right[2])), min(abs(left[2]), abs(right[2]))
    assert inner > outer
    assert swept.left.scrub_radius[0, 1, 0, 0] == pytest.approx(
        swept.right.scrub_radius[0, 1, 0, 0]
    )


def test_a_twin_beam_steers_about_its_own_kingpin() -> None:
    wheel = moved("twin beam", TWIN_BEAM, steer=np.array([-0.04, 0.0, 0.04])).left
    angles = wheel.steer_angle[0, :, 0, 0]
    assert angles[0] * angles[2] < 0.0
    assert np.ptp(wheel.kingpin_inclination[0, :, 0, 0]) < 2e-3


def test_an_arm_that_is_too_short_is_named() -> None:
    short = {**BOOK, "upper_front": (0.122, 0.60, 0.230), "upper_rear": (-0.105, 0.60, 0.196)}
    motion = moved("double wishbone", short, travel=np.linspace(-0.06, 0.06, 13)).motion
    assert motion.stop is not None
    assert "upper arm" in str(motion.stop)
    assert -0.06 <= motion.stop.travel <= -0.02
    assert np.isnan(motion.residual).any()
    assert np.isfinite(motion.grid(motion.residual)[6]).all()


def test_a_tie_rod_that_does_not_follow_the_rack_is_named() -> None:
    motion = moved("double wishbone", BOOK, steer=np.linspace(-0.2, 0.2, 9)).motion
    assert motion.stop is not None
    assert motion.stop.part == "tie rod"
    assert "steer" in str(motion.stop)


def test_two_links_in_one_line_are_refused() -> None:
    same = {**BOOK, "tie_inner": BOOK["lower_front"], "tie_outer": BOOK["lower_outer"]}
    with pytest.raises(InputError, match="does not hold the double wishbone"):
        moved("double wishbone", same)


def test_missing_points_and_arms_are_named() -> None:
    less = {name: one for name, one in BOOK.items() if name != "tie_outer"}
    with pytest.raises(InputError, match="tie_outer"):
        moved("double wishbone", less)
    with pytest.raises(InputError, match="trailing link"):
        moved("double wishbone", BOOK, arm="trailing link")
    with pytest.raises(InputError, match="no links"):
        moved("three wheels", BOOK)


ROLL_TRAVEL = np.array([0.01, 0.02, 0.04])


def test_trailing_arms_lean_with_the_body() -> None:
    # Pure trailing arms: the wheel keeps its camber to the body, so it leans with it.
    found = rolled(linkage=made("trailing arm", ALL["trailing arm"]), travel=ROLL_TRAVEL)
    assert found.outer_camber == pytest.approx(found.roll)
    assert found.inner_camber == pytest.approx(-found.roll)
    assert found.roll[:, 0] == pytest.approx(np.arctan(ROLL_TRAVEL / 0.70))


@pytest.mark.parametrize("layout", ["live axle on links", "live axle on leaf springs"])
def test_an_axle_stays_upright_on_the_road(layout: str) -> None:
    found = rolled(linkage=made(layout, ALL[layout]), travel=ROLL_TRAVEL)
    assert np.abs(found.outer_camber).max() < 2e-4
    # Its front ends rise forward here: in a bend to the left it steers to the right.
    slope = moved(layout, ALL[layout]).left.roll_axis_slope[0, 0, 0, 0]
    assert slope > 0.0
    assert found.outer_toe_in[0] == pytest.approx(-slope * found.roll[0], rel=0.02)


def test_small_rolls_follow_the_camber_gain() -> None:
    linkage = made("double wishbone", BOOK)
    step = np.array([1e-4])
    wheel = moved("double wishbone", BOOK).left
    lean = 1.0 + wheel.camber_rate[0, 0, 0] * wheel.contact_offset[0, 0, 0]
    flat = rolled(linkage=linkage, travel=step)
    start = wheel.camber[0, 0, 0]
    # The contact's own rise differs from the wheel's centre by second-order terms only.
    assert (flat.outer_camber - start)[0] == pytest.approx(lean * flat.roll[0], rel=5e-3)


REACH = {
    "double wishbone": ("upper_front", (0.0, -0.16, 0.0)),
    "strut": ("lower_front", (0.0, 0.32, 0.0)),
    "multi-link": ("toe_inner", (0.0, 0.30, 0.0)),
    "trailing arm": ("wheel_centre", (0.29, 0.0, 0.0)),
    "semi-trailing arm": ("wheel_centre", (0.42, 0.0, 0.0)),
    "swing axle": ("arm_front", (-0.49, 0.55, 0.0)),
    "live axle on links": ("lower_body", (-0.45, 0.0, 0.0)),
    "de Dion axle": ("lower_body", (-0.45, 0.0, 0.0)),
    "live axle on leaf springs": ("front_eye", (-0.55, 0.0, 0.0)),
    "beam axle on leaf springs": ("drag_inner", (0.55, 0.0, 0.0)),
    "live axle on torque tube": ("panhard_body", (0.0, 0.90, 0.0)),
    "live axle on torque arm": ("lower_body", (-0.45, 0.0, 0.0)),
    "twin beam": ("tie_inner", (0.0, 0.75, 0.0)),
    "twist beam": ("beam_bush", (-0.38, 0.0, 0.0)),
    "sliding pillar": ("tie_inner", (0.0, 0.22, 0.0)),
}
"""What is shortened or moved so that the wheel cannot follow."""


@pytest.mark.parametrize("layout", ALL)
def test_every_layout_names_what_cannot_follow_and_where(layout: str) -> None:
    point, shift = REACH[layout]
    raw = {**ALL[layout], point: tuple(np.add(ALL[layout][point], shift))}
    swept = moved(layout, raw, travel=np.linspace(-0.20, 0.20, 21))
    stop = swept.motion.stop
    assert stop is not None
    held = swept.linkage.mechanism.constraints[: -swept.linkage.mechanism.drives]
    assert stop.part in {one.name for one in held}
    assert 0.0 < abs(stop.travel) <= 0.2
    assert "mm travel" in str(stop)


@pytest.mark.parametrize("layout", ALL)
def test_every_layout_has_a_drawing(layout: str) -> None:
    swept = moved(layout, ALL[layout], travel=TRAVEL)
    svg = linkage_drawing(swept, lambda metres: f"{metres * 1e3:.0f} mm")
    assert svg.startswith("<svg")
    assert "nan" not in svg
    assert len(swept.rods(2)) >= 2
