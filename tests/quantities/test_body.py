"""The car's size as it will stand: what suspension, wheels and tyres change of it."""

from __future__ import annotations

import pytest
from tests.building import evaluate

MM = 0.001
CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 ± 0 mm, front_track: 1350 ± 0 mm, rear_track: 1340 ± 0 mm,
         ride_height: 200 ± 0 mm, ground_clearance: 150 ± 0 mm}
  arches: {outside_diameter: 600 ± 0 mm, offset: 20 ± 0 mm}
options:
"""
LOW = "  front_suspension: {low: {ride_height_change: -30 ± 0 mm, track_change: 10 ± 0 mm}}\n"
WHEELS = "  wheels: {wide: {width: 6 in, offset: 15 ± 0 mm}}\n"
TYRES = "  tyres: {tall: {outside_diameter: 620 ± 0 mm}}\n"


def test_tracks_add_what_the_suspension_and_the_wheels_change() -> None:
    car = evaluate(CAR + LOW + WHEELS)
    assert car.problems == ()
    assert car.value("front_track") == pytest.approx(1360 * MM)
    assert car.value("track", "front") == pytest.approx(1370 * MM)  # 2 · 5 mm of offset
    assert car.value("track", "rear") == pytest.approx(1350 * MM)


def test_taller_tyres_lift_both_ends_by_half_of_their_growth() -> None:
    car = evaluate(CAR + LOW + TYRES)
    assert car.value("ride_height_change", "front") == pytest.approx(-20 * MM)
    assert car.value("ride_height_change", "rear") == pytest.approx(10 * MM)
    assert car.value("ride_height", "front") == pytest.approx(180 * MM)
    assert car.value("ground_clearance") == pytest.approx(145 * MM)


def test_a_car_left_alone_stands_as_measured() -> None:
    car = evaluate(CAR.removesuffix("options:\n"))
    assert car.value("track", "rear") == pytest.approx(1340 * MM)
    assert car.value("ground_clearance") == pytest.approx(150 * MM)
