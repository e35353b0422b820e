"""The linkage room against a textbook's geometry, closed forms and constructions on paper."""

from __future__ import annotations

import csv
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from drybuild.physics.linkage.joints import TRAVEL, Plane
from drybuild.physics.linkage.solver import sweep
from drybuild.physics.linkage.vectors import rotation
from drybuild.physics.linkage.wheels import WheelMotion
from drybuild.physics.roll_centres import panhard_sideways_shift
from drybuild.physics.steering import ackermann_outer_angle
from tests.linkages import (
    BOOK,
    FOUR_LINK,
    PANHARD,
    STRUT,
    made,
    moved,
)
from tests.truth.data import truth_data

TRAVEL_GRID = np.linspace(-0.06, 0.06, 13)
PLACES = {"mm": 6e-5, "deg": 6e-6, "coarse mm": 6e-4}
"""Half of the last printed digit, and a rounding of ours."""


def rows(case: str) -> list[dict[str, float]]:
    """Return the recomputed results for the book's geometry; two methods agree to 2e-15."""
    path = truth_data("rill_double_wishbone_results.csv")
    lines = [one for one in path.read_text().splitlines() if not one.startswith("#")]
    return [
        {name: float(text) for name, text in row.items() if name != "case" and text}
        for row in csv.DictReader(lines)
        if row["case"] == case
    ]


def compare(wheel: WheelMotion, place: tuple[int, int], row: dict[str, float]) -> None:
    """Compare one position with a row of the results."""
    at = (*place, 0, 0)
    start = wheel.motion.mechanism.wheels[0].centre[:, 0, 0]
    now = wheel.motion.grid(wheel.motion.pose.centre)[(slice(None), *at)]
    for name, value in zip("xyz", (now - start) * 1e3, strict=True):
        assert value == pytest.approx(row[f"wheel_d{name}_mm"], abs=PLACES["mm"])
    # The listing takes the camber in the front view: its tangent is larger by 1/cos of the steer.
    in_front_view = np.arctan(np.tan(wheel.camber) / np.cos(wheel.toe_in))
    degrees = {
        "toe_deg": -wheel.toe_in,
        "camber_vehicle_deg": in_front_view,
        "kpi_deg": wheel.kingpin_inclination,
        "caster_deg": wheel.caster,
    }
    for name, values in degrees.items():
        assert np.degrees(values[at]) == pytest.approx(row[name], abs=PLACES["deg"])
    assert wheel.trail[at] * 1e3 == pytest.approx(row["trail_mm"], abs=PLACES["coarse mm"])
    assert wheel.scrub_radius[at] * 1e3 == pytest.approx(row["scrub_mm"], abs=PLACES["coarse mm"])
    if "rc_h_mm" in row:
        height = wheel.roll_centre_height[at] * 1e3
        assert height == pytest.approx(row["rc_h_mm"], abs=PLACES["coarse mm"])


def test_double_wishbone_over_travel_of_the_book_geometry() -> None:
    found = rows("bump")
    travel = np.array([row["wheel_dz_mm"] for row in found]) / 1e3
    wheel = moved("double wishbone", BOOK, travel=travel).left
    for place, row in enumerate(found):
        compare(wheel, (place, 0), row)


def _held_by_arm(travel: float, rack: float) -> WheelMotion:
    """Return the book's suspension with the lower ball joint's height in place of the wheel's."""
    base = made("double wishbone", BOOK).mechanism
    up = np.array([0.0, 0.0, 1.0])[:, np.newaxis, np.newaxis]
    point = base.arms["lower arm"].joint.point
    drive = Plane(name="lower arm's angle", point=point, normal=up, lift={TRAVEL: 1.0})
    mechanism = replace(base, constraints=(*base.constraints[:-1], drive))
    motion = sweep(
        mechanism=mechanism,
        travel=np.array([travel]),
        steer=np.array([rack]),
        roll=np.zeros(1),
    )
    return WheelMotion(motion=motion, wheel=mechanism.wheels[0])


@pytest.mark.parametrize("place", range(8))
def test_double_wishbone_over_steer_of_the_book_geometry(place: int) -> None:
    row = rows("steer")[place]
    compare(_held_by_arm(0.0, row["rack_m"]), (0, 0), row)


@pytest.mark.parametrize("place", range(4))
def test_double_wishbone_over_arm_angle_of_the_book_geometry(place: int) -> None:
    row = rows("arm")[place]
    pivot, front, ball = (np.array(BOOK[n]) for n in ("lower_rear", "lower_front", "lower_outer"))
    axis = (front - pivot) / np.linalg.norm(front - pivot)
    turn = rotation(vector=(axis * np.radians(row["lower_arm_deg"]))[:, np.newaxis])[:, :, 0]
    rise = (pivot + turn @ (ball - pivot) - ball)[2]
    compare(_held_by_arm(float(rise), 0.0), (0, 0), row)


def test_double_wishbone_at_design_by_twist() -> None:
    # Chassis reference, K1: two own algorithms on the book's points; printed to these digits.
    wheel = moved("double wishbone", BOOK).left
    turn = wheel.turn_rate[:, 0, 0, 0, 0]
    # Its second component is given as -0.596847; a difference of poses 10 um apart says -0.596846,
    # as the twist here does, so the last digit given is off by one.
    assert turn == pytest.approx([-0.165720, -0.596846, -0.035748], abs=6e-7)
    assert wheel.front_view_centre[:, 0, 0, 0, 0] == pytest.approx([6.80227, -0.96475], abs=6e-6)
    assert np.degrees(wheel.caster_rate[0, 0, 0, 0]) == pytest.approx(34.197, abs=6e-4)
    assert wheel.contact_path_slope[0, 0, 0, 0] == pytest.approx(0.1200, abs=6e-5)
    assert wheel.centre_path_slope[0, 0, 0, 0] == pytest.approx(-0.0499, abs=6e-5)
    assert wheel.roll_centre_height[0, 0, 0, 0] * 1e3 == pytest.approx(86.013, abs=6e-4)


def test_the_book_linkage_against_free_rolling() -> None:
    # K1: inner 39.936 deg; free rolling (wheelbase 2.7, track 1.536) asks 29.558 of the outer.
    inner = float(_held_by_arm(0.0, -0.0745).steer_angle[0, 0, 0, 0])
    outer = -float(_held_by_arm(0.0, 0.0745).steer_angle[0, 0, 0, 0])
    assert np.degrees(outer) == pytest.approx(30.306, abs=1e-3)
    ideal = ackermann_outer_angle(inner_angle=inner, wheelbase=2.7, kingpin_track=1.536)
    assert np.degrees(ideal) == pytest.approx(29.558, abs=1e-3)


def test_planar_strut_by_construction() -> None:
    # K2: top (0.56, 0.85), arm (0.35, 0.20) to (0.70, 0.18), contact (0.74, 0): closed form.
    wheel = moved("strut", STRUT).left
    assert wheel.roll_centre_height[0, 0, 0, 0] == pytest.approx(0.0915804, abs=6e-8)
    assert wheel.front_view_centre[:, 0, 0, 0, 0] == pytest.approx([-1.92780, 0.33016], abs=6e-6)
    assert np.degrees(wheel.kingpin_inclination[0, 0, 0, 0]) == pytest.approx(11.8024, abs=6e-5)
    assert np.degrees(wheel.camber_rate[0, 0, 0, 0]) == pytest.approx(-21.4768, abs=6e-5)


PLANAR = {
    "wheel_centre": (0.0, 0.74, 0.30),
    "lower_front": (0.20, 0.34, 0.22),
    "lower_rear": (-0.20, 0.34, 0.22),
    "lower_outer": (0.0, 0.70, 0.19),
    "upper_front": (0.15, 0.42, 0.50),
    "upper_rear": (-0.15, 0.42, 0.50),
    "upper_outer": (0.0, 0.66, 0.47),
    "tie_inner": (0.12, 0.34, 0.22),
    "tie_outer": (0.12, 0.70, 0.19),
}


def test_planar_double_wishbone_by_construction() -> None:
    # K3: upper (0.42, 0.50) to (0.66, 0.47), lower (0.34, 0.22) to (0.70, 0.19), contact (0.74, 0).
    wheel = moved("double wishbone", PLANAR).left
    assert wheel.front_view_centre[:, 0, 0, 0, 0] == pytest.approx([7.30, -0.36], abs=1e-9)
    assert wheel.roll_centre_height[0, 0, 0, 0] == pytest.approx(0.0406098, abs=6e-8)


# K4: swept angle, arm angle -> camber and toe change [deg], from the closed form of the rotation.
SEMI_TRAILING = [(20.0, 5.0, 1.70819, 0.070104), (15.0, 4.0, 1.03449, 0.034898), (0.0, 5.0, 0, 0)]


def _arm(sweep_angle: float, angle: float) -> WheelMotion:
    swept, turned = np.radians([sweep_angle, angle])
    axis = np.array([np.sin(swept), np.cos(swept), 0.0])
    reach = np.array([-0.4, 0.2, 0.0])
    turn = rotation(vector=(-axis * turned)[:, np.newaxis])[:, :, 0]
    centre = np.array([0.0, 0.7, 0.3])
    inner = centre - reach
    points = {
        "wheel_centre": tuple(centre),
        "arm_inner": tuple(inner),
        "arm_outer": tuple(inner + 0.3 * axis),
    }
    travel = np.array([(turn @ reach - reach)[2]])
    return moved("semi-trailing arm", points, travel=travel).left


@pytest.mark.parametrize(("swept", "angle", "camber", "toe"), SEMI_TRAILING)
def test_semi_trailing_arm_by_closed_form(
    swept: float, angle: float, camber: float, toe: float
) -> None:
    wheel = _arm(swept, angle)
    # The printed camber is the arctangent in the front view, smaller by the cosine of the toe.
    front_view = np.arctan(np.tan(wheel.camber) / np.cos(wheel.toe_in))[0, 0, 0, 0]
    assert abs(np.degrees(front_view)) == pytest.approx(camber, abs=6e-6)
    assert abs(np.degrees(wheel.toe_in[0, 0, 0, 0])) == pytest.approx(toe, abs=6e-7)


def test_swing_axle_leans_by_its_own_angle() -> None:
    # K4, swept 90 deg: camber 5.000, toe 0.
    points = {
        "wheel_centre": (0.0, 0.7, 0.3),
        "arm_front": (0.4, 0.1, 0.3),
        "arm_rear": (0.0, 0.1, 0.3),
    }
    travel = np.array([0.6 * np.sin(np.radians(5.0))])
    wheel = moved("swing axle", points, travel=travel).left
    assert np.degrees(wheel.camber[0, 0, 0, 0]) == pytest.approx(-5.0, abs=1e-9)
    assert wheel.toe_in[0, 0, 0, 0] == pytest.approx(0.0, abs=1e-12)
    # Its instantaneous centre is the pivot: h = y z / (y - y_I).
    assert moved("swing axle", points).left.roll_centre_height[0, 0, 0, 0] == pytest.approx(
        0.7 * 0.3 / 0.6
    )


def test_panhard_rod_pulls_the_axle_by_its_circle() -> None:
    # K5: l 0.9 m, level at design, 60 mm: 2.00223 mm.
    # Parallel links keep the axle upright; they pass level half-way, so it goes straight up.
    level = {
        **PANHARD,
        "lower_axle": (0.0, 0.5, 0.30),
        "lower_body": (0.5, 0.5, 0.33),
        "top_axle": (0.0, 0.0, 0.42),
        "top_body": (0.5, 0.0, 0.45),
        "panhard_body": (0.0, -0.45, 0.30),
        "panhard_axle": (0.0, 0.45, 0.30),
    }
    swept = moved("live axle on links", level, travel=np.array([0.06]))
    shift = swept.motion.pose.centre[1, 0, 0]
    assert abs(shift) == pytest.approx(2.00223e-3, abs=1e-8)
    assert abs(shift) == pytest.approx(panhard_sideways_shift(rod_length=0.9, travel=0.06))


def test_triangulated_four_link_axle_by_its_virtual_point() -> None:
    # K8: roll axis through the virtual points A and B; side view through the links' meeting.
    wheel = moved("live axle on links", FOUR_LINK).left
    assert wheel.roll_centre_height[0, 0, 0, 0] == pytest.approx(0.435667, abs=6e-7)
    assert wheel.roll_axis_slope[0, 0, 0, 0] == pytest.approx(0.06, abs=1e-9)
    assert wheel.contact_path_slope[0, 0, 0, 0] == pytest.approx(-0.174889, abs=6e-7)
    assert wheel.side_view_centre[:, 0, 0, 0, 0] == pytest.approx([1.91489, 0.33489], abs=6e-6)


def test_three_link_axle_with_a_panhard_rod() -> None:
    # K9: 0.269474 m in the rod's own plane, 0.275474 m in the axle's; slope 0.06.
    wheel = moved("live axle on links", PANHARD).left
    assert wheel.roll_centre_height[0, 0, 0, 0] == pytest.approx(0.275474, abs=6e-7)
    rod_plane = wheel.roll_axis_height(np.array(-0.10))[0, 0, 0, 0]
    assert rod_plane == pytest.approx(0.269474, abs=6e-7)
    rod = [np.array(PANHARD[f"panhard_{end}"]) for end in ("body", "axle")]
    share = rod[0][1] / (rod[0][1] - rod[1][1])
    assert rod_plane == pytest.approx(rod[0][2] + share * (rod[1][2] - rod[0][2]))


def test_torque_tube_axle_rolls_about_ball_and_rod() -> None:
    # Construction: the roll axis joins the ball with the rod's point in the centre plane
    # (common practice, no source; the same construction as K9's, whose rod point it shares).
    points = {
        "wheel_centre": (0.0, 0.7, 0.3),
        "tube_ball": (1.2, 0.0, 0.33),
        "panhard_body": (-0.10, -0.50, 0.28),
        "panhard_axle": (-0.10, 0.45, 0.26),
    }
    wheel = moved("live axle on torque tube", points).left
    rod = 0.28 - 0.02 * 0.50 / 0.95
    slope = (0.33 - rod) / 1.30
    assert wheel.roll_axis_slope[0, 0, 0, 0] == pytest.approx(slope)
    assert wheel.roll_centre_height[0, 0, 0, 0] == pytest.approx(rod + 0.10 * slope)
    # A body on one ball: its middle moves square to the line from the ball to the road below the
    # axle. The inclined rod yaws the axle in bump, one contact forward and the other back.
    right = moved("live axle on torque tube", points).right
    assert right is not None
    slopes = [one.contact_path_slope[0, 0, 0, 0] for one in (wheel, right)]
    assert sum(slopes) / 2.0 == pytest.approx(-0.33 / 1.2)


def test_leaf_axle_rolls_about_the_line_of_its_eyes() -> None:
    # Gillespie, ch. 7 (from memory): the roll centre of a Hotchkiss axle lies on the line from the
    # front eye to the shackle's body end, in the axle's plane.
    points = {
        "wheel_centre": (0.0, 0.70, 0.30),
        "front_eye": (0.60, 0.50, 0.30),
        "rear_eye": (-0.60, 0.50, 0.33),
        "seat": (0.0, 0.50, 0.25),
        "shackle_body": (-0.60, 0.50, 0.42),
    }
    height = moved("live axle on leaf springs", points).left.roll_centre_height[0, 0, 0, 0]
    assert height == pytest.approx(0.30 + 0.12 * 0.5)


def test_a_twin_beam_gains_camber_by_its_own_length() -> None:
    # Dixon 2009: the camber rate is the inverse of the swing-arm length; the beam's pivot stands
    # 1.0 m inboard of the wheel, and its axis lies along the car.
    points = {
        "wheel_centre": (0.0, 0.70, 0.30),
        "beam_pivot": (0.0, -0.30, 0.30),
        "radius_arm_body": (-0.90, -0.30, 0.30),
        "kingpin_lower": (0.0, 0.60, 0.22),
        "kingpin_upper": (0.0, 0.60, 0.42),
        "tie_inner": (-0.12, -0.30, 0.30),
        "tie_outer": (-0.12, 0.60, 0.30),
    }
    wheel = moved("twin beam", points, travel=TRAVEL_GRID).left
    assert -wheel.camber_rate[6, 0, 0, 0] == pytest.approx(1.0)
    assert wheel.roll_centre_height[6, 0, 0, 0] == pytest.approx(0.30 * 0.70 / 1.0)
    # The tie rod swings about the beam's own line: no bump steer, as far as the gaps are closed.
    assert np.abs(wheel.toe_in).max() < 1e-9


def _trapezoid(angle: float, half: float, arm: float, inward: float) -> float:
    """Return the right wheel's angle of a plane steering trapezoid by circle meets circle."""
    start = np.array([-arm * np.cos(inward), -arm * np.sin(inward)])  # behind, inward of (0, half)
    rod = 2.0 * (half + start[1])
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    left = np.array([0.0, half]) + turn @ start
    pin = np.array([0.0, -half])
    apart = left - pin
    span = float(np.hypot(*apart))
    along = (arm**2 - rod**2 + span**2) / (2.0 * span)
    off = np.sqrt(arm**2 - along**2)
    square = np.array([-apart[1], apart[0]]) / span
    ends = [pin + along * apart / span + sign * off * square for sign in (1.0, -1.0)]
    right = min(ends, key=lambda end: float(end[0]))  # the arm points rearward
    now, design = right - pin, np.array([start[0], -start[1]])
    cross = design[0] * now[1] - design[1] * now[0]
    return float(np.arctan2(cross, design @ now))


def test_a_beams_track_rod_steers_as_the_plane_trapezoid() -> None:
    # Closed form of the plane four-bar (Reimpell 2001, sec. 4.3, steering trapezoid); kingpins
    # upright, arms 0.15 m at 18 deg inward.
    inward, arm, half = np.radians(18.0), 0.15, 0.56
    points = {
        "wheel_centre": (0.0, 0.65, 0.30),
        "front_eye": (0.50, 0.35, 0.35),
        "rear_eye": (-0.50, 0.35, 0.35),
        "seat": (0.0, 0.35, 0.30),
        "kingpin_lower": (0.0, half, 0.24),
        "kingpin_upper": (0.0, half, 0.36),
        "tie_outer": (-arm * np.cos(inward), half - arm * np.sin(inward), 0.30),
        "drag_inner": (-0.60, 0.42, 0.30),
        "drag_outer": (0.0, 0.42, 0.30),
        "pitman_pivot": (-0.60, 0.42, 0.45),
        "pitman_axis": (-0.60, 0.30, 0.45),
    }
    swept = moved(
        "beam axle on leaf springs", points, steer=np.radians(np.linspace(-30.0, 30.0, 7))
    )
    assert swept.right is not None
    pairs = zip(
        swept.left.steer_angle[0, :, 0, 0], swept.right.steer_angle[0, :, 0, 0], strict=True
    )
    for left, right in pairs:
        assert right == pytest.approx(_trapezoid(float(left), half, arm, inward), abs=1e-9)


def test_a_relay_rod_moves_as_the_end_of_its_arm() -> None:
    # Parallel arms: the rod keeps its direction, so each of its joints goes round the same circle.
    points = {**PLANAR, "pitman_pivot": (0.30, 0.20, 0.24), "pitman_end": (0.12, 0.20, 0.24)}
    angle = np.radians(20.0)
    swept = moved("double wishbone", points, steer=np.array([-angle, 0.0, angle])).left
    boxed = swept.steer_angle[0, :, 0, 0]
    rod = np.linalg.norm(np.array(PLANAR["tie_outer"]) - np.array(PLANAR["tie_inner"]))
    assert boxed[0] * boxed[2] < 0.0
    for place, turned in enumerate((-angle, 0.0, angle)):
        inner = np.array(PLANAR["tie_inner"]) + 0.18 * np.array(
            [1.0 - np.cos(turned), -np.sin(turned), 0.0]
        )
        pose = swept.motion.pose.at(np.array([place]))
        outer = pose.place(0, np.array(PLANAR["tie_outer"])[:, None, None])[:, 0, 0]
        assert np.linalg.norm(outer - inner) == pytest.approx(rod, abs=1e-12)


def test_a_trailing_arm_keeps_camber_and_toe() -> None:
    points = {
        "wheel_centre": (0.0, 0.7, 0.3),
        "arm_inner": (0.4, 0.3, 0.28),
        "arm_outer": (0.4, 0.6, 0.28),
    }
    wheel = moved("trailing arm", points, travel=TRAVEL_GRID).left
    assert np.abs(wheel.camber).max() < 1e-12
    assert np.abs(wheel.toe_in).max() < 1e-12
    assert np.abs(wheel.roll_centre_height).max() < 1e-12


def test_parallel_equal_arms_keep_camber() -> None:
    points = {
        **PLANAR,
        "lower_front": (0.2, 0.34, 0.2),
        "lower_rear": (-0.2, 0.34, 0.2),
        "lower_outer": (0.0, 0.68, 0.2),
        "upper_front": (0.2, 0.34, 0.45),
        "upper_rear": (-0.2, 0.34, 0.45),
        "upper_outer": (0.0, 0.68, 0.45),
        "tie_inner": (0.12, 0.34, 0.2),
        "tie_outer": (0.12, 0.68, 0.2),
    }
    wheel = moved("double wishbone", points, travel=TRAVEL_GRID).left
    assert np.abs(wheel.camber).max() < 1e-12
    assert np.abs(wheel.toe_in).max() < 1e-12
    assert abs(wheel.roll_centre_height[6, 0, 0, 0]) < 1e-12  # level arms: on the road


def test_a_tie_rod_in_the_lower_arms_plane_steers_nothing() -> None:
    wheel = moved("double wishbone", PLANAR, travel=TRAVEL_GRID).left
    assert np.abs(wheel.toe_in).max() < 1e-12


def test_moving_every_point_together_changes_nothing() -> None:
    shift = np.array([0.7, 0.0, -0.2])
    away = {name: tuple(np.array(one) + shift) for name, one in BOOK.items()}
    here = moved("double wishbone", {**BOOK}, travel=TRAVEL_GRID).left
    there = moved("double wishbone", away, travel=TRAVEL_GRID).left
    for name in ("camber", "toe_in", "caster", "trail", "scrub_radius", "roll_centre_height"):
        assert getattr(there, name) == pytest.approx(getattr(here, name), abs=1e-12)


def test_rates_are_the_slopes_of_the_curves() -> None:
    step = 1e-4
    wheel = moved("double wishbone", BOOK, travel=np.array([-step, 0.0, step])).left
    for value, rate in ((wheel.camber, wheel.camber_rate), (wheel.toe_in, wheel.toe_in_rate)):
        slopes = [float((b - a)[0, 0, 0]) / step for a, b in pairwise(value)]
        assert float(rate[1, 0, 0, 0]) == pytest.approx(sum(slopes) / 2.0, rel=1e-6)
