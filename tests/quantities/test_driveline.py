"""Driveline entries become ratios, torques, speeds and reserves; figures worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest
from tests.building import evaluate

RPM = np.pi / 30.0
G = 9.80665

CAR = """
build: a saloon that nobody made
car:
  body: {kind: unitary, wheelbase: 2500 mm, rear_track: 1350 mm}
  mass: {front_axle: 560 kg, rear_axle: 490 kg, cg_height: 540 mm}
options:
  engine: {two litre: {power: 85 kW at 5500 rpm, torque: 170 N·m at 3000 rpm}}
  gearbox:
    five speed: {ratios: [3.5, 2.1, 1.4, 1.0, 0.8], torque_rating: 220 N·m, efficiency: 0.95}
  clutch:
    stock: {outer_diameter: 240 mm, inner_diameter: 160 mm, friction: 0.30, clamp_force: 6000 N}
  propshaft:
    tube: {outside_diameter: 70 mm, wall: 2 mm, length: 1400 mm, front_angle: 2 deg,
           rear_angle: 1.5 deg, joint_rating: 900 N·m}
  axle: {live: {final_drive: 3.9, efficiency: 0.95, torque_rating: 2500 N·m,
                half_shaft_diameter: 28 mm}}
  tyres: {radial: {outside_diameter: 632 mm, adhesion: 0.85}}
"""


def test_ratios() -> None:
    car = evaluate(CAR)
    assert car.problems == ()
    assert car.value("gearbox_ratio", "5") == 0.8
    assert car.value("overall_ratio", "1") == pytest.approx(13.65)
    assert car.value("gear_step", "1 to 2") == pytest.approx(3.5 / 2.1)
    assert car.value("driveline_efficiency") == pytest.approx(0.9025)


def test_road_speed_follows_the_tyre() -> None:
    car = evaluate(CAR)
    radius = 3.05 * 0.632 / (2 * np.pi)  # ETRTO's rolling circumference
    assert car.value("driven_radius") == pytest.approx(radius)
    assert car.value("speed_per_1000_rpm", "5") == pytest.approx(1000 * RPM * radius / 3.12)
    assert car.value("speed_in_gear", "1") == pytest.approx(6050 * RPM * radius / 13.65)


def test_clutch() -> None:
    car = evaluate(CAR)
    assert car.value("clutch_capacity") == pytest.approx(360.0)  # Shigley, uniform wear
    assert car.value("clutch_reserve") == pytest.approx(360.0 / 170.0)
    assert car.value("clutch_pressure") == pytest.approx(6000 / (np.pi * (0.12**2 - 0.08**2)))
    inertia = car.value("laden_mass") * (car.value("driven_radius") / 13.65) ** 2
    assert car.value("clutch_launch_heat") == pytest.approx(0.5 * inertia * (2000 * RPM) ** 2)
    quoted = evaluate(CAR.replace("friction: 0.30", "friction: 0.30, torque_rating: 250 N·m"))
    assert quoted.value("clutch_capacity") == pytest.approx(250.0)


def test_propshaft_design_torque_by_the_manuals_rules() -> None:
    car = evaluate(CAR)
    assert car.value("propshaft_torque_from_engine") == pytest.approx(170 * 3.5 * 0.85)
    load = car.value("laden_axle_load", "rear") * G
    slip = 0.71 * load * car.value("driven_radius") / (0.95 * 3.9)
    assert car.value("propshaft_torque_at_wheel_slip") == pytest.approx(slip)
    assert car.value("propshaft_design_torque") == pytest.approx(min(170 * 3.5 * 0.85, slip))
    assert car.value("propshaft_joint_margin") == pytest.approx(900 / min(505.75, slip))


def test_propshaft_speed() -> None:
    car = evaluate(CAR)
    # Timoshenko: 70 x 2 mm, 1.4 m: 5939 rpm, less 8 % for the ends.
    assert car.value("propshaft_critical_speed") == pytest.approx(0.92 * 5939 * RPM, rel=1e-3)
    geared = 6050 * RPM / 0.8
    road = 1.1 * car.value("top_speed") * 3.9 / car.value("driven_radius")
    assert car.value("propshaft_highest_speed") == pytest.approx(min(geared, road))


def test_joint_angles() -> None:
    car = evaluate(CAR)
    assert car.value("propshaft_joint_angle", "front") == pytest.approx(np.radians(2.0))
    assert car.value("propshaft_angle_difference") == pytest.approx(np.radians(0.5))
    speed = car.value("propshaft_highest_speed")
    front = car.value("propshaft_joint_excitation", "front")
    assert front == pytest.approx((speed * np.radians(2.0)) ** 2)
    residual = speed**2 * (np.radians(2.0) ** 2 - np.radians(1.5) ** 2)
    assert car.value("propshaft_residual_excitation") == pytest.approx(residual)
    crossed = evaluate(CAR.replace("wall: 2 mm", "wall: 2 mm, out_of_phase: true"))
    assert crossed.value("propshaft_residual_excitation") > residual


def test_wheel_and_axle_torque() -> None:
    car = evaluate(CAR)
    wheel = 170 * 13.65 * 0.9025
    assert car.value("wheel_torque_first_gear") == pytest.approx(wheel)
    grip = car.value("launch_traction_limit") * car.value("driven_radius")
    assert car.value("axle_design_torque") == pytest.approx(min(wheel, grip))
    assert car.value("axle_torque_margin") == pytest.approx(2500 / min(wheel, grip))
    assert car.value("gearbox_torque_margin") == pytest.approx(220 / 170)


def test_a_locked_differential_loads_one_half_shaft_more() -> None:
    open_axle = evaluate(CAR)
    locked = evaluate(CAR.replace("final_drive: 3.9", "final_drive: 3.9, differential: locked"))
    assert locked.value("half_shaft_stress") > open_axle.value("half_shaft_stress")


def test_mount_reaction() -> None:
    car = evaluate(CAR.replace("at 3000 rpm}", "at 3000 rpm, mount_spacing: 500 mm}"))
    assert car.value("mount_reaction") == pytest.approx(170 * 3.5 / 0.5)


def test_ratios_that_rise_are_refused() -> None:
    car = evaluate(CAR.replace("[3.5, 2.1, 1.4, 1.0, 0.8]", "[0.8, 1.0, 3.5]"))
    assert "falling" in car.result("overall_ratio").missing[0].why


def test_front_drive_has_no_propshaft_and_an_automatic_no_clutch() -> None:
    front = evaluate(CAR.replace("final_drive: 3.9", "final_drive: 3.9, driven: front"))
    missing = front.result("propshaft_design_torque").missing[0]
    assert "no propshaft" in missing.why
    assert missing.senseless
    automatic = evaluate(CAR.replace("efficiency: 0.95}", "efficiency: 0.95, kind: automatic}", 1))
    assert "no clutch" in automatic.result("clutch_reserve").missing[0].why
    # A converter at stall multiplies the torque about twice.
    more = automatic.value("wheel_torque_first_gear") / 1885.0 / 0.98
    assert 1.5 < more < 2.3
