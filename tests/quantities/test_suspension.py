from __future__ import annotations

import math

import numpy as np
import pytest
from tests.building import evaluate

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1400 mm, rear_track: 1400 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg}
"""


def with_front(entries: str) -> str:
    return f"{CAR}options: {{front_suspension: {{it: {{{entries}}}}}}}\n"


def with_rear(entries: str) -> str:
    return f"{CAR}options: {{rear_suspension: {{it: {{{entries}}}}}}}\n"


def test_a_wheel_rate_is_taken_as_given() -> None:
    build = evaluate(with_front("wheel_rate: 20 N/mm"))
    assert build.value("wheel_rate", "front") == pytest.approx(20e3)


def test_a_spring_works_through_its_motion_ratio() -> None:
    build = evaluate(with_front("spring_rate: 50 N/mm, motion_ratio: 0.6"))
    assert build.value("wheel_rate", "front") == pytest.approx(18e3)
    assert build.value("spring_rate", "front") == pytest.approx(50e3)


def test_a_coil_by_its_dimensions() -> None:
    coil = (
        "motion_ratio: 1, coil: {wire_diameter: 13 mm, mean_diameter: 120 mm, active_coils: 6, "
        "shear_modulus: 79.3 GPa}"
    )
    whole = evaluate(with_front(coil)).value("wheel_rate", "front")
    assert whole == pytest.approx(27_306.0, rel=1e-4)
    cut = coil.replace("active_coils: 6", "active_coils: 6, coils_removed: 1")
    assert evaluate(with_front(cut)).value("wheel_rate", "front") == pytest.approx(
        whole * 6.0 / 5.0
    )


def test_a_leaf_spring_by_its_dimensions() -> None:
    leaf = (
        "motion_ratio: 1, leaf: {leaves: 5, leaf_width: 50 mm, leaf_thickness: 6 mm, "
        "front_length: 0.6 m, rear_length: 0.6 m, stiffening: 1.1, youngs_modulus: 200 GPa}"
    )
    rate = evaluate(with_rear(leaf)).value("wheel_rate", "rear")
    assert rate == pytest.approx(18_333.0, rel=1e-4)


def test_a_torsion_bar_works_at_the_wheel() -> None:
    bar = "torsion_bar: {diameter: 24 mm, length: 1 m, arm_length: 0.35 m, shear_modulus: 79.3 GPa}"
    rate = evaluate(with_front(bar)).value("wheel_rate", "front")
    assert rate == pytest.approx(21_085.0, rel=1e-4)


def test_an_anti_roll_bar_by_its_dimensions_stiffens_roll_and_not_the_ride() -> None:
    spring = "wheel_rate: 20 N/mm"
    bar = (
        f"{spring}, anti_roll_bar: {{motion_ratio: 0.6, diameter: 20 mm, arm_length: 250 mm, "
        "lever: 220 mm, centre_length: 900 mm, bush_spacing: 700 mm, bush_rate: 1000 kN/mm, "
        "youngs_modulus: 206 GPa, shear_modulus: 77.25 GPa}"
    )
    found = evaluate(with_front(bar))
    # 13 349 N·m/rad on rigid bushes, as tests/truth/test_springs.py has the bar.
    assert found.value("anti_roll_bar_stiffness", "front") == pytest.approx(13_349.0, rel=1e-3)
    assert found.value("wheel_rate", "front") == pytest.approx(20e3)
    none = evaluate(with_front(f"{spring}, bar_roll_stiffness: 0 N·m/rad"))
    assert none.value("front_roll_stiffness_share") < found.value("front_roll_stiffness_share")
    assert none.result("anti_roll_bar_rate").open


def test_nothing_given_lands_on_the_usual_frequency() -> None:
    build = evaluate(CAR)
    sprung = build.value("standing_mass") * 0.54 * 0.85 / 2.0
    wheel_only = math.sqrt(build.value("wheel_rate", "front") / sprung) / (2.0 * math.pi)
    assert wheel_only == pytest.approx(1.30, rel=1e-3)


def test_frequencies_fall_when_the_car_is_loaded() -> None:
    build = evaluate(CAR)
    for axle in ("front", "rear"):
        assert build.value("ride_frequency", axle) < build.value("empty_ride_frequency", axle)
    assert build.value("flat_ride_ratio") == pytest.approx(
        build.value("ride_frequency", "rear") / build.value("ride_frequency", "front")
    )


def test_a_rigid_axle_rolls_on_its_own_spacing() -> None:
    entries = "wheel_rate: 20 N/mm, bar_roll_stiffness: 0 N·m/rad, layout: LAYOUT"
    rigid = with_rear(entries.replace("LAYOUT", "live axle on links, spring_spacing: 1 m"))
    free = with_rear(entries.replace("LAYOUT", "semi-trailing arm"))
    assert evaluate(rigid).value("suspension_roll_stiffness", "rear") == pytest.approx(10e3)
    track = evaluate(free).value("track", "rear")
    assert evaluate(free).value("suspension_roll_stiffness", "rear") == pytest.approx(
        10e3 * track**2
    )


def test_dampers_work_through_their_motion_ratio() -> None:
    text = CAR + "options: {dampers: {it: {front_damping: 2 kN·s/m, front_motion_ratio: 0.7}}}\n"
    assert evaluate(text).value("wheel_damping", "front") == pytest.approx(980.0)


def test_lowering_costs_height_travel_and_clearance() -> None:
    low = evaluate(with_front("ride_height_change: -40 mm"))
    stock = evaluate(CAR)
    assert low.value("ride_height", "front") == pytest.approx(
        stock.value("ride_height", "front") - 0.04
    )
    assert low.value("ground_clearance") == pytest.approx(stock.value("ground_clearance") - 0.02)
    assert low.value("bump_travel_left", "front") == pytest.approx(
        stock.value("bump_travel_left", "front") - 0.04
    )
    assert low.value("cg_height") < stock.value("cg_height")


def test_a_bare_car_has_every_rate() -> None:
    build = evaluate()
    for name in (
        "wheel_rate",
        "ride_rate",
        "ride_frequency",
        "damping_ratio",
        "wheel_hop_frequency",
        "roll_stiffness",
        "roll_centre_height",
        "bump_travel_left",
    ):
        for axle in ("front", "rear"):
            assert np.isfinite(build.samples_of(name, axle)).all()
