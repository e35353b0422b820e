"""Brakes of a build: worked by hand on an invented car, and what follows from what."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from tests.building import Evaluated, evaluate

# An invented car of round numbers: 1400 kg, 2.6 m, 52 % in front, 0.52 m high, nobody aboard.
CAR = """
build: an invented saloon
brief: {occupants: 0, luggage: 0 kg}
car:
  body: {kind: unitary, wheelbase: 2600 mm}
  mass: {front_axle: 726.923 kg, rear_axle: 673.077 kg, cg_height: 520 mm,
         fuel_aboard: 30 kg, fuel_when_full: 30 kg}
options:
  tyres: {fitted: {as_is: true, outside_diameter: 610 mm, height_share: 1, adhesion: 0.8}}
  front_brakes:
    fitted: {as_is: true, rotor_diameter: 276 mm, pad_height: 46 mm, piston_diameter: 54 mm,
             friction: 0.38, threshold_pressure: 0 bar, take_up: 0.3 mm, compliance: 0 mm}
  rear_brakes:
    fitted: {as_is: true, kind: simplex, rotor_diameter: 228.6 mm, piston_diameter: 19.05 mm,
             brake_factor: 2, threshold_pressure: 0 bar, take_up: 0.8 mm, compliance: 0 mm}
  brake_hydraulics:
    fitted: {as_is: true, pedal_ratio: 6, master_cylinder_bore: 22.22 mm, efficiency: 1,
             free_play: 0 mm,
             hose_length: 0 m, filling: 150 cm³, bulk_modulus: 1.8 GPa EXTRA}
"""


def car(hydraulics: str = "", **entries: str) -> Evaluated:
    """Add entries to the hydraulics, and set others anew by their name."""
    text = CAR.replace(" EXTRA", f", {hydraulics}" if hydraulics else "")
    for name, value in entries.items():
        text = re.sub(rf"\b{name}: [^,}}]*", f"{name}: {value}", text, count=1)
    return evaluate(text, samples=20)


def test_the_invented_car_reads_without_problems() -> None:
    assert car().problems == ()


def test_foot_to_road_by_hand() -> None:
    # By hand: 300 N at 6:1 on 22.22 mm give 46.42 bar, 929.1 N·m a front and 302.4 N·m a rear
    # brake, 8076 N at 0.305 m and 0.588 g; a share of 0.7544. All goes in proportion.
    found = car()
    rate = 8076 / (1400 * 9.80665)
    assert found.value("line_pressure_at_0_9g") / 1e5 == pytest.approx(46.42 * 0.9 / rate, rel=1e-3)
    assert found.value("pedal_force_at_0_9g") == pytest.approx(300 * 0.9 / rate, rel=1e-3)
    assert found.value("front_brake_share") == pytest.approx(0.7544, abs=2e-4)
    assert found.value("brake_torque", "front") == pytest.approx(929.1 * 0.9 / rate, rel=1e-3)
    assert found.value("critical_deceleration") == pytest.approx(1.176 * 9.80665, rel=2e-3)


def test_ideal_share_by_hand() -> None:
    # 0.51923 of the weight and 0.9 · 0.52/2.6 on top.
    assert car().value("ideal_front_brake_share") == pytest.approx(0.51923 + 0.18, abs=1e-4)


def test_which_axle_locks_when_by_hand() -> None:
    # Φ = 0.7544, μ = 0.8, χ = 0.2: z_f = 0.8 · 0.51923/(0.7544 − 0.16) = 0.6988,
    # z_r = 0.8 · 0.48077/(0.2456 + 0.16) = 0.9483; efficiency 0.6988/0.8.
    found = car()
    assert found.value("lock_deceleration", "front") / 9.80665 == pytest.approx(0.6988, abs=1e-3)
    assert found.value("lock_deceleration", "rear") / 9.80665 == pytest.approx(0.9483, abs=1e-3)
    assert found.value("braking_efficiency") == pytest.approx(0.6988 / 0.8, abs=1e-3)


def test_the_stop_is_limited_by_tyres_or_by_the_foot() -> None:
    # 500 N would give 0.98 g, more than the tyres hold before the front locks.
    tyres = car()
    assert tyres.value("stopping_deceleration") == pytest.approx(0.6988 * 9.80665, rel=2e-3)
    # With half the leverage 500 N gives 0.49 g.
    foot = car(pedal_ratio="3")
    assert foot.value("stopping_deceleration") == pytest.approx(
        foot.value("pedal_limited_deceleration")
    )
    assert foot.value("stopping_deceleration") / 9.80665 == pytest.approx(0.49, abs=0.002)


def test_stopping_distance_by_hand() -> None:
    # v²/2a and 0.36 s of travel, 27.78 m/s.
    found = car("delay: 0.36 s")
    a = found.value("stopping_deceleration")
    v = 100 / 3.6
    assert found.value("stopping_distance_100_kmh") == pytest.approx(0.36 * v + v * v / (2 * a))
    assert found.value("mean_fully_developed_deceleration") == pytest.approx(a)


def test_a_valve_moves_braking_forward() -> None:
    free, held = car(), car("valve_knee: 30 bar, valve_slope: 0.3")
    assert held.value("front_brake_share") > free.value("front_brake_share")
    assert held.value("line_pressure_at_0_9g") > free.value("line_pressure_at_0_9g")
    # Below the knee nothing changes: 0.2 g needs 16 bar.
    low = "0.2 g"
    assert held.value("rear_adhesion_used", low) == free.value("rear_adhesion_used", low)
    assert held.value("rear_adhesion_used", "0.8 g") < free.value("rear_adhesion_used", "0.8 g")


def test_a_servo_by_hand() -> None:
    # By hand: 8 in at 20 inHg (67.7 kPa), gain 4, 4:1: 2086 N of help, knee at 173.8 N.
    servo = (
        "booster: vacuum, booster_diameter: 8 in, booster_rod: 0 mm, vacuum: 67.73 kPa,"
        " booster_efficiency: 0.95, booster_gain: 4"
    )
    found = car(servo, pedal_ratio="4")
    assert found.value("booster_assist") == pytest.approx(2086, rel=1e-3)
    assert found.value("booster_knee_pedal_force") == pytest.approx(173.8, rel=1e-3)
    assert found.value("pedal_force_at_0_9g") < found.value("pedal_force_without_booster")


def test_without_a_servo_its_failure_changes_nothing() -> None:
    found = car()
    assert found.value("pedal_force_without_booster") == found.value("pedal_force_at_0_9g")
    assert found.result("booster_knee_pedal_force").open


def test_pedal_travel_by_hand() -> None:
    # 2 · 2290.2 mm² · 0.3 mm, 4 · 285.0 mm² · 0.8 mm, and 150 cm³ at the pressure over 1.8 GPa.
    found = car()
    pressure = found.value("line_pressure_at_0_9g")
    volume = 2 * 2290.2e-6 * 0.3e-3 + 4 * 285.02e-6 * 0.8e-3 + 150e-6 * pressure / 1.8e9
    stroke = volume / (math.pi / 4 * 0.02222**2)
    assert found.value("pedal_travel_at_0_9g") == pytest.approx(6 * stroke, rel=1e-3)


def test_a_failed_circuit_by_its_split() -> None:
    split = car()
    front, rear = (
        split.value("secondary_deceleration", one) for one in ("rear circuit", "front circuit")
    )
    assert front > rear > 0.0
    # Half of everything is left; on level road one front and one rear wheel still hold.
    diagonal = car("circuits: diagonal")
    half = diagonal.value("pedal_limited_deceleration") / 2
    found = diagonal.value("secondary_deceleration", "either diagonal")
    assert found <= half
    assert car("circuits: single").value("secondary_deceleration", "the only circuit") == 0.0


def test_one_stop_heats_by_hand() -> None:
    # 540.1 kJ from 100 km/h; half the front share, 95 % to a 7 kg disc of 500 J/(kg·K).
    found = car(friction="0.38, rotor_mass: 7 kg, specific_heat: 500 J/(kg·K), heat_share: 0.95")
    assert found.value("stop_heat") == pytest.approx(540.1e3, rel=1e-3)
    share = 0.7544 / 2 * 0.95
    assert found.value("rotor_heat_share", "front") == pytest.approx(share, rel=1e-3)
    rise = 540.1e3 * share / 3500
    assert found.value("rotor_rise_one_stop", "front") == pytest.approx(rise, rel=2e-3)


def test_ten_stops_are_hotter_than_one_and_colder_than_ten_times_one() -> None:
    found = car()
    one = found.value("rotor_rise_one_stop", "front")
    air = found.value("rotor_temperature_one_stop", "front") - one
    ten = found.value("rotor_temperature_ten_stops", "front") - air
    assert one < ten < 10 * one


def test_parking_by_hand() -> None:
    # tan θ/(ψ ± χ tan θ) at 18 %: 0.18/(0.48077 + 0.036) and 0.18/(0.48077 − 0.036).
    found = car()
    assert found.value("parking_adhesion_needed", "nose up") == pytest.approx(0.3483, abs=3e-4)
    assert found.value("parking_adhesion_needed", "nose down") == pytest.approx(0.4047, abs=3e-4)


def test_a_weaker_hand_holds_a_gentler_grade() -> None:
    weak = evaluate(
        CAR.replace(" EXTRA", "") + "  parking_brake: {fitted: {hand_force: 100 N}}\n", samples=20
    )
    assert weak.value("parking_brake_hold_grade", "nose up") < car().value(
        "parking_brake_hold_grade", "nose up"
    )


def test_typical_friction_reaches_the_pedal_force() -> None:
    # What a section gives inside a quantity is among its inputs, so doubt can be traced.
    bare = evaluate(samples=50)
    inputs = bare.result("pedal_force_at_0_9g").inputs
    assert "options.front_brakes.as it stands.friction" in inputs
    assert "options.brake_hydraulics.as it stands.pedal_ratio" in inputs


SENSELESS = {
    "booster_knee_pedal_force",
    "deceleration_without_booster",
    "stopping_distance_without_booster",
    "secondary_pedal_force_without_booster",
    "trapped_air_displaced",
    "residual_pressure_margin",
}
"""What nobody asks of a car without servo, known air and residual valve."""


def test_a_sparse_build_knows_every_brake_quantity_that_has_sense() -> None:
    bare = evaluate(samples=50)
    for name, one in bare.evaluation.graph.quantities.items():
        if one.function.__module__.rpartition(".")[2].startswith("brakes"):
            result = bare.result(name)
            assert result.open == (name in SENSELESS), name
            for values in {} if result.open or one.step else result.labelled().values():
                assert np.isfinite(values[0]), name


def test_drum_sensitivity_lies_above_a_discs() -> None:
    found = car()
    assert found.value("brake_factor_sensitivity", "front") == pytest.approx(1.0)
    assert found.value("brake_factor_sensitivity", "rear") > 1.2
