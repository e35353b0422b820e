from __future__ import annotations

import numpy as np
import pytest
from tests.building import evaluate

SCALES = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 ± 1 mm, front_track: 1350 mm, rear_track: 1350 mm,
         ride_height: 200 ± 1 mm}
  mass: {front_axle: 540 ± 1 kg, rear_axle: 460 ± 1 kg, fuel_aboard: 40 ± 0.1 kg,
         fuel_when_full: 40 ± 0.1 kg, cg_height: 550 ± 1 mm}
"""
ENGINES = """options:
  engine:
    old: {as_is: true, mass: 150 kg, position: [100 mm, 0 mm, 300 mm]}
    light: {mass: 100 kg, position: [100 mm, 0 mm, 300 mm]}
    moved: {mass: 150 kg, position: [-400 mm, 0 mm, 300 mm]}
picks: {engine: PICK}
"""


def test_scales_alone_give_the_car_that_stood_on_them() -> None:
    build = evaluate(SCALES)
    assert not build.problems
    assert build.value("kerb_mass") == pytest.approx(1000.0)
    assert build.value("front_axle_share") == pytest.approx(0.54)
    assert build.value("axle_load", "rear") == pytest.approx(460.0)
    assert build.value("cg_behind_front_axle") == pytest.approx(2.5 * 0.46)
    assert build.value("cg_height") == pytest.approx(0.55)
    assert build.value("cg_position", "z") == pytest.approx(0.35)


def test_a_lighter_engine_takes_its_mass_off_where_it_sat() -> None:
    build = evaluate(SCALES + ENGINES.replace("PICK", "light"))
    assert build.value("kerb_mass") == pytest.approx(950.0)
    assert build.value("mass_change", "engine") == pytest.approx(-50.0)
    # It sat 100 mm ahead of the front axle: the rear carries 50 kg · 0.1/2.5 = 2 kg more without.
    assert build.value("axle_load", "rear") == pytest.approx(462.0)
    assert build.value("axle_load", "front") == pytest.approx(488.0)


def test_an_engine_set_back_moves_mass_to_the_rear_and_changes_no_total() -> None:
    build = evaluate(SCALES + ENGINES.replace("PICK", "moved"))
    assert build.value("kerb_mass") == pytest.approx(1000.0)
    assert build.value("axle_load", "rear") == pytest.approx(460.0 + 150.0 * 0.5 / 2.5)
    standing = evaluate(SCALES)
    assert build.value("yaw_inertia") < standing.value("yaw_inertia")


def test_the_old_engine_left_in_changes_nothing() -> None:
    build = evaluate(SCALES + ENGINES.replace("PICK", "old"))
    assert build.value("kerb_mass") == pytest.approx(1000.0)
    assert "engine" not in build.result("mass_change").labelled()


def test_a_system_that_was_off_the_scales_is_added() -> None:
    text = SCALES.replace("cg_height", "off_the_car: [engine], cg_height")
    assert evaluate(text + ENGINES.replace("PICK", "old")).value("kerb_mass") == 1150.0
    assert evaluate(text + ENGINES.replace("PICK", "light")).value("kerb_mass") == 1100.0


def test_fuel_and_people_on_the_scales_are_put_right() -> None:
    text = SCALES.replace("fuel_aboard: 40 ± 0.1 kg", "fuel_aboard: 10 kg, people_aboard: 80 kg")
    assert evaluate(text).value("kerb_mass") == pytest.approx(1000.0 + 30.0 - 80.0)


def test_corner_scales_give_the_side_that_is_heavier() -> None:
    text = SCALES.replace(
        "front_axle: 540 ± 1 kg, rear_axle: 460 ± 1 kg",
        "front_left: 280 kg, front_right: 260 kg, rear_left: 230 kg, rear_right: 230 kg",
    )
    build = evaluate(text)
    assert build.value("cg_position", "y") == pytest.approx(1.35 * 20.0 / 2000.0)
    left, right = (build.value("wheel_load", f"front {side}") for side in ("left", "right"))
    assert left > right
    assert left + right == pytest.approx(build.value("axle_load", "front"))
    assert build.value("cross_weight") == pytest.approx(0.49)


def test_an_axle_lift_gives_the_height() -> None:
    # The synthetic car of tests/truth/test_mass.py: 1250 kg, 52 % front, 0.53 m.
    build = evaluate(
        "build: an invented saloon\n"
        "car:\n"
        "  body: {kind: unitary, wheelbase: 2500 mm}\n"
        "  mass: {front_axle: 650 kg, rear_axle: 600 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg,"
        " lifted_front_axle: 677.063 kg, lift_height: 550 mm, wheel_centre_height: 290 mm}\n"
    )
    assert build.value("cg_height") == pytest.approx(0.53, abs=1e-5)


def test_people_and_luggage_come_on_top() -> None:
    build = evaluate(SCALES + "brief: {occupants: 4, occupant_mass: 70 kg, luggage: 40 kg}\n")
    assert build.value("laden_mass") == pytest.approx(1000.0 + 4 * 70.0 + 40.0)
    laden = build.value("laden_axle_load", "front") + build.value("laden_axle_load", "rear")
    assert laden == pytest.approx(1320.0)
    assert build.value("laden_axle_load", "rear") - 460.0 > 160.0


def test_a_part_of_unknown_mass_is_taken_to_weigh_what_it_replaces() -> None:
    own = (
        "options: {picnic box: {old: {as_is: true, mass: 30 kg}, new: {}}}\n"
        "picks: {picnic box: new}\n"
    )
    build = evaluate(SCALES + own)
    assert build.value("kerb_mass") == pytest.approx(1000.0)
    assert np.ptp(build.samples_of("mass_change", "picnic box")) > 5.0
    assert "options.picnic box.new.mass" in build.result("kerb_mass").inputs


def test_a_bare_car_computes_from_its_kind() -> None:
    build = evaluate()
    for name in ("kerb_mass", "cg_height", "yaw_inertia", "front_axle_share"):
        values = build.samples_of(name)
        assert np.isfinite(values).all()
        assert np.ptp(values) > 0.0
    assert build.result("axle_load_limit").open


def test_an_independent_rear_leaves_the_final_drive_on_the_body() -> None:
    option = (
        "options:\n"
        "  rear_suspension: {it: {layout: LAYOUT, unsprung_mass: 100 kg}}\n"
        "  axle: {old: {as_is: true, mass: 60 kg}, heavy: {mass: 80 kg}}\n"
        "picks: {axle: heavy}\n"
    )
    live = evaluate(SCALES + option.replace("LAYOUT", "live axle on links"))
    free = evaluate(SCALES + option.replace("LAYOUT", "semi-trailing arm"))
    assert live.value("unsprung_mass", "rear") == pytest.approx(120.0)
    assert free.value("unsprung_mass", "rear") == pytest.approx(100.0)


def test_taller_tyres_raise_the_car_where_the_old_ones_are_known() -> None:
    arches = SCALES + "  arches: {outside_diameter: 580 ± 1 mm}\n"
    tall = arches + "options: {tyres: {it: {outside_diameter: 620 ± 1 mm}}}\n"
    assert evaluate(tall).value("ride_height", "front") == pytest.approx(0.22)
    assert evaluate(tall).value("cg_height") == pytest.approx(0.57)
    unknown = SCALES + "options: {tyres: {it: {outside_diameter: 620 ± 1 mm}}}\n"
    assert evaluate(unknown).value("cg_height") == pytest.approx(0.55)


def test_a_system_that_every_car_has_takes_the_place_of_one_and_a_roll_bar_comes_on_top() -> None:
    axle = evaluate(SCALES + "options: {axle: {it: {mass: 70 kg}}}\n")
    # Nothing is said of the old one: live axles weigh 50 kg to 85 kg, so the change is small.
    assert abs(axle.value("mass_change", "axle")) < 30.0
    inputs = axle.result("kerb_mass").inputs
    assert any(path.startswith("options.axle.as it stands") for path in inputs)
    bar = evaluate(SCALES + "options: {roll_bar: {it: {mass: 25 kg}}}\n")
    assert bar.value("kerb_mass") == pytest.approx(1025.0)
