"""Limits, symmetry and refused input of clutch, gearing, joints and shafts."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.conversion import energy_per_distance, least_isolation_resistance
from drybuild.physics.driveline import (
    axle_pitch_torque,
    biased_torque_share,
    clutch_capacity_uniform_pressure,
    clutch_capacity_uniform_wear,
    clutch_launch_work,
    clutch_lining_pressure,
    half_shaft_torque,
    highest_mount_frequency,
    mount_pair_force,
)
from drybuild.physics.gearing import (
    engine_speed_at,
    gearbox_steps,
    geometric_ratios,
    grade_for_force,
    lowest_ratio_for_grade,
    progressive_ratios,
    road_speed_at,
)
from drybuild.physics.joints import (
    compound_joint_angle,
    joint_speed_fluctuation,
    residual_joint_angle,
    shaft_critical_speed,
    shaft_shear_stress,
)
from drybuild.tables.driveline import clutch_lining, largest_joint_angle


def test_engine_speed_and_road_speed_are_inverse() -> None:
    speed = engine_speed_at(road_speed=30.0, overall_ratio=3.5, rolling_radius=0.3)
    back = road_speed_at(engine_speed=speed, overall_ratio=3.5, rolling_radius=0.3)
    assert back == pytest.approx(30.0)


def test_geometric_steps_are_alike_and_progressive_ones_shrink() -> None:
    even = gearbox_steps(ratios=geometric_ratios(lowest_gear=3.6, highest_gear=0.9, gears=5))
    assert even == pytest.approx([even[0]] * 4)
    ratios = progressive_ratios(lowest_gear=3.6, highest_gear=0.9, gears=5, progression=1.1)
    assert (ratios[0], ratios[-1]) == pytest.approx((3.6, 0.9))
    steps = gearbox_steps(ratios=ratios)
    assert steps[:-1] / steps[1:] == pytest.approx([1.1] * 3)


def test_a_start_on_the_least_ratio_leaves_nothing() -> None:
    grade = np.arctan(0.25)
    ratio = lowest_ratio_for_grade(
        weight=12e3,
        grade_angle=grade,
        rolling_coefficient=0.0,
        rolling_radius=0.3,
        torque=150.0,
        efficiency=0.9,
    )
    force = 150.0 * ratio * 0.9 / 0.3
    assert grade_for_force(surplus_force=force, weight=12e3) == pytest.approx(0.25)


def test_no_grade_is_steeper_than_upright() -> None:
    assert np.isnan(grade_for_force(surplus_force=13e3, weight=12e3))


def test_new_lining_holds_no_less_than_a_worn_one() -> None:
    for inner in (0.0, 0.05, 0.1, 0.119):
        plate = {"friction": 0.3, "clamp_force": 6e3, "outer_radius": 0.12, "faces": 2}
        worn = clutch_capacity_uniform_wear(inner_radius=inner, **plate)
        new = clutch_capacity_uniform_pressure(inner_radius=inner, **plate)
        assert worn <= new <= 4.0 / 3.0 * worn * (1 + 1e-12)


def test_lining_pressure_is_force_over_ring() -> None:
    found = clutch_lining_pressure(clamp_force=6e3, outer_radius=0.12, inner_radius=0.08)
    assert found == pytest.approx(6e3 / (np.pi * (0.0144 - 0.0064)))


def test_a_clutch_that_cannot_pull_away_has_no_launch() -> None:
    found = clutch_launch_work(
        mass=1500.0,
        rolling_radius=0.3,
        overall_ratio=14.0,
        launch_speed=200.0,
        clutch_torque=np.array([200.0, 100.0]),
        resisting_torque=150.0,
    )
    assert np.isfinite(found[0])
    assert np.isnan(found[1])


def test_half_shaft_carries_the_lesser_of_torque_and_grip() -> None:
    wheel = {"wheel_weight": 3500.0, "friction": 0.9, "rolling_radius": 0.3}
    assert half_shaft_torque(axle_torque=1000.0, torque_share=0.5, **wheel) == 500.0
    assert half_shaft_torque(axle_torque=4000.0, torque_share=1.0, **wheel) == pytest.approx(945.0)
    assert biased_torque_share(bias_ratio=1.0) == 0.5
    with pytest.raises(InputError, match="torque_share"):
        half_shaft_torque(axle_torque=1000.0, torque_share=0.3, **wheel)


def test_mounts() -> None:
    assert mount_pair_force(engine_torque=200.0, gear_ratio=3.5, mount_spacing=0.5) == 1400.0
    assert highest_mount_frequency(firing_frequency=25.0) == pytest.approx(17.68, abs=0.01)
    assert axle_pitch_torque(drive_force=4000.0, rolling_radius=0.3) == pytest.approx(1200.0)


def test_straight_joints_are_even() -> None:
    assert joint_speed_fluctuation(joint_angle=0.0) == 0.0
    angle = np.radians(4.0)
    assert residual_joint_angle(first=angle, second=angle, in_phase=True) == 0.0
    crossed = residual_joint_angle(first=angle, second=angle, in_phase=False)
    assert crossed == pytest.approx(angle * np.sqrt(2.0))
    assert compound_joint_angle(side_angle=angle, plan_angle=0.0) == pytest.approx(angle)
    with pytest.raises(InputError, match="joint_angle"):
        joint_speed_fluctuation(joint_angle=-0.1)


def test_critical_speed_falls_with_the_square_of_length() -> None:
    tube = {
        "outside_diameter": 0.07,
        "inside_diameter": 0.066,
        "elastic_modulus": 207e9,
        "density": 7850.0,
    }
    short, long = (shaft_critical_speed(length=one, **tube) for one in (1.0, 2.0))
    assert short / long == pytest.approx(4.0)
    with pytest.raises(InputError, match="inside_diameter"):
        shaft_shear_stress(torque=100.0, outside_diameter=0.05, inside_diameter=0.05)


def test_joint_angle_table_is_not_carried_on() -> None:
    found = np.degrees(largest_joint_angle(np.array([1000.0, 4000.0, 5500.0]) * np.pi / 30.0))
    assert np.isnan(found[0])
    assert found[1] == pytest.approx(4.2)
    assert np.isnan(found[2])


def test_linings() -> None:
    assert clutch_lining("organic").design_friction < clutch_lining("sintered").design_friction


def test_conversion() -> None:
    # 1300 kg, drag area 0.855 m², 0.013, 90 km/h, 0.85: 159 Wh/km, recomputed by hand.
    load = 0.013 * 1300 * 9.81 + 0.5 * 1.2 * 0.855 * 25.0**2
    assert energy_per_distance(road_load=load, efficiency=0.85) / 3.6 == pytest.approx(159, abs=0.5)
    # UN R100, 5.1.3 (reprint): 100 Ω/V, 500 Ω/V with alternating current.
    assert least_isolation_resistance(voltage=400.0, alternating_parts=False) == 40e3
    assert least_isolation_resistance(voltage=400.0, alternating_parts=True) == 200e3
