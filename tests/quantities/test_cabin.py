from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

BELTS = """
build: a test car
options:
  belts:
    new: {kind: three-point, %s}
"""
GOOD = (
    "buckle_back: 120 mm, buckle_down: 220 mm, outer_back: 150 mm, outer_down: 200 mm, "
    "buckle_aside: 190 mm, outer_aside: 200 mm, shoulder_back: 330 mm, shoulder_up: 560 mm, "
    "shoulder_aside: 240 mm, torso_angle: 25 deg"
)


def test_belts_are_never_assumed() -> None:
    found = evaluate(BARE)
    for name in ("lap_belt_angle", "belt_anchorage_spacing", "shoulder_anchorage_behind"):
        assert found.result(name).open


def test_angles_and_distances_of_a_belt() -> None:
    found = evaluate(BELTS % GOOD)
    assert np.rad2deg(found.value("lap_belt_angle", "outer")) == pytest.approx(53.1, abs=0.05)
    assert found.value("belt_anchorage_spacing") == pytest.approx(0.390)
    assert found.value("belt_anchorage_aside", "buckle") == pytest.approx(0.190)
    assert found.value("shoulder_anchorage_height") == pytest.approx(0.110)
    assert found.value("shoulder_anchorage_behind") > 0.0
    assert found.value("shoulder_anchorage_aside") == pytest.approx(0.240)


def test_the_rule_sets_the_bounds() -> None:
    r14, fmvss = evaluate(BELTS % GOOD), evaluate(BELTS % f"{GOOD}, rule: fmvss")
    assert np.rad2deg(r14.value("lap_belt_angle_least", "buckle")) == pytest.approx(45)
    assert np.rad2deg(fmvss.value("lap_belt_angle_least", "buckle")) == pytest.approx(30)
    assert np.rad2deg(fmvss.value("lap_belt_angle_most", "outer")) == pytest.approx(75)
    assert fmvss.value("belt_anchorage_spacing_least") == pytest.approx(0.165)
    assert fmvss.value("belt_test_force", "shoulder") == pytest.approx(13345)


def test_a_lap_belt_has_no_shoulder() -> None:
    found = evaluate((BELTS % GOOD).replace("three-point", "lap"))
    assert found.result("shoulder_anchorage_height").open
    assert found.value("belt_test_force", "lap") == pytest.approx(22250)


def test_harness_straps() -> None:
    text = BELTS % "strap_back: 400 mm, strap_down: 100 mm"
    found = evaluate(text.replace("three-point", "harness"))
    assert np.rad2deg(found.value("harness_strap_angle")) == pytest.approx(14.0, abs=0.05)


def test_belts_on_the_seat_load_its_mounts() -> None:
    seats = "build: a\noptions:\n  seats:\n    new: {mass_each: 15 kg, carries_belts: %s}\n"
    body, seat = evaluate(seats % "false"), evaluate(seats % "true")
    assert body.value("seat_mount_force") == pytest.approx(15 * 20 * 9.80665)
    more = seat.value("seat_mount_force") - body.value("seat_mount_force")
    assert more == pytest.approx(13_500)
    assert seat.value("seat_mount_pull") > 3 * body.value("seat_mount_pull")


def test_a_seat_bolt_must_be_named() -> None:
    seats = "build: a\noptions:\n  seats:\n    new: {mass_each: 15 kg%s}\n"
    assert evaluate(seats % "").result("seat_bolt_use").open
    named = evaluate(seats % ", bolt_thread: M8, bolt_class: '8.8'")
    assert 0.0 < named.value("seat_bolt_use") < 1.0


def test_headroom_of_a_bare_build() -> None:
    found = evaluate(BARE)
    assert 0.85 < found.value("effective_headroom") < 1.15
    assert found.value("hip_height") > 0.1


def test_roll_bar_sections() -> None:
    bar = "build: a\noptions:\n  roll_bar:\n    hoop: {outside_diameter: 45 mm, wall: 2.5 mm}\n"
    found = evaluate(bar)
    assert found.value("roll_bar_tube_share") == pytest.approx(1.0)
    assert found.value("roll_bar_tube_weight") == pytest.approx(2.62, abs=0.006)
    assert found.value("roll_bar_tube_area") * 1e6 == pytest.approx(333.8, abs=0.06)
    assert found.value("roll_hoop_test_load") > 40e3


def test_damping_sheet_weighs() -> None:
    trim = "build: a\noptions: {trim: {new: {damping_area: 4 m², damping_weight: 3 kg/m²}}}\n"
    assert evaluate(trim).value("damping_mass") == pytest.approx(12.0)
