from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

CAR = """
build: a test car
car:
  body: {kind: unitary, ride_height: 210 mm}
  bay:
    bulkhead: -520 ± 5 mm
    radiator: 430 ± 5 mm
    tower_width: 840 ± 5 mm
    rail_width: 700 ± 5 mm
    rail_top: 140 ± 5 mm
    crossmember_front: 80 ± 5 mm
    crossmember_rear: -80 ± 5 mm
    crossmember_top: 10 ± 5 mm
    tunnel_width: 440 ± 5 mm
    tunnel_top: 380 ± 5 mm
    bonnet: {front: {x: 430 mm, height: 600 mm}, rear: {x: -520 mm, height: 700 mm}}
    %s
    engines:
      four:
        {length: 580 mm, width: 560 mm, offset: 0 mm, height: 400 mm, depth: 90 mm,
         sump_depth: 210 mm, sump_width: 280 mm, sump_front: 330 mm, sump_rear: 540 mm,
         bell_length: 350 mm, bell_width: 360 mm, bell_height: 180 mm, nose: 120 mm,
         crank_height: 170 mm, crank_offset: 0 mm, nose_up: %s, rock: %s}
options:
  engine:
    old: {as_is: true}
    four: {mass: 130 kg}
picks: {engine: four}
"""


def build(*, boxes: str = "boxes: {}", nose_up: str = "0 deg", rock: str = "0 mm") -> str:
    return CAR % (boxes, nose_up, rock)


def test_clearances_of_a_level_engine_are_plain_differences() -> None:
    found = evaluate(build())
    assert found.value("bay_clearance", "radiator") == pytest.approx(0.430 - 0.120)
    assert found.value("bay_clearance", "bulkhead") == pytest.approx(0.520 - 0.460)
    assert found.value("bay_clearance", "tunnel") == pytest.approx(0.380 - 0.350)
    assert found.value("bay_clearance", "left tower") == pytest.approx(0.420 - 0.280)
    assert found.value("bay_clearance", "left tower") == pytest.approx(
        found.value("bay_clearance", "right tower")
    )
    # the lower block hangs 70 mm over the cross-member
    assert found.value("bay_clearance", "cross-member") == pytest.approx(0.170 - 0.090 - 0.010)
    # straight line of the bonnet at the nose: 700 − 100 · 640/950 mm, and square to its slope
    upright = 0.7 - 0.1 * 0.64 / 0.95 - 0.570
    assert found.value("bonnet_clearance") == pytest.approx(upright * np.cos(np.arctan(0.1 / 0.95)))
    assert found.value("sump_ground_clearance") == pytest.approx(0.210 + 0.170 - 0.210)
    assert found.value("bay_length") == pytest.approx(0.950)
    assert found.value("engine_length") == pytest.approx(0.580)


def test_rock_takes_room_at_the_sides_and_lifts_a_corner() -> None:
    still, rocking = evaluate(build()), evaluate(build(rock="15 mm"))
    for name, label in (("bay_clearance", "left tower"), ("bonnet_clearance", "")):
        assert rocking.value(name, label) < still.value(name, label)
    assert still.value("bay_clearance", "left tower") - rocking.value(
        "bay_clearance", "left tower"
    ) == pytest.approx(0.015, abs=0.001)
    assert rocking.value("engine_width_rocking") > 0.585
    assert rocking.value("engine_rock") == pytest.approx(np.arcsin(0.015 / 0.4))


def test_nose_up_drops_the_sump() -> None:
    level, tilted = evaluate(build()), evaluate(build(nose_up="4 deg"))
    drop = level.value("sump_ground_clearance") - tilted.value("sump_ground_clearance")
    assert drop == pytest.approx(0.54 * np.sin(np.deg2rad(4.0)), abs=0.001)


def test_a_tilt_lowers_the_rear_of_the_block_only() -> None:
    # the block passes the cross-member at most 200 mm behind the nose: sin 4° · 200 mm = 14 mm,
    # and a slice's length (97 mm) more for the box round it
    level, tilted = evaluate(build()), evaluate(build(nose_up="4 deg"))
    drop = level.value("bay_clearance", "cross-member") - tilted.value(
        "bay_clearance", "cross-member"
    )
    assert 0.2 * np.sin(np.deg2rad(4.0)) <= drop <= 0.3 * np.sin(np.deg2rad(4.0))


def test_a_lower_front_part_clears_a_sloping_bonnet() -> None:
    whole = evaluate(build())
    stepped = evaluate(
        build().replace(
            "height: 400 mm,", "height: 400 mm, front_height: 300 mm, high_behind: 250 mm,"
        )
    )
    # now the step at x = -130 mm decides: 700 − 100 · 390/950 − 570 mm
    upright = 0.7 - 0.1 * 0.39 / 0.95 - 0.570
    square = upright * np.cos(np.arctan(0.1 / 0.95))
    assert stepped.value("bonnet_clearance") == pytest.approx(square)
    assert whole.value("bonnet_clearance") < stepped.value("bonnet_clearance")


def test_a_clash_is_negative() -> None:
    box = (
        "boxes: {steering column: {kind: steering, rear: -400 mm, front: -100 mm, right: 250 mm, "
        "left: 300 mm, bottom: 200 mm, top: 400 mm}}"
    )
    found = evaluate(build(boxes=box))
    assert found.value("bay_clearance", "steering column") == pytest.approx(-0.030)
    assert found.value("smallest_bay_clearance") == pytest.approx(-0.030)
    assert found.value("bay_margin") == pytest.approx(-0.045)
    assert found.value("bay_fit_chance") < 0.05


def test_an_engine_that_fits_has_a_good_chance() -> None:
    assert evaluate(build(rock="10 mm")).value("bay_fit_chance") > 0.95


def test_needs_go_by_what_stands_there() -> None:
    box = (
        "boxes: {column: {kind: steering, rear: 0 mm, front: 1 m, right: 1 m, left: 2 m, "
        "bottom: 0 m, top: 1 m}}"
    )
    found = evaluate(build(boxes=box))
    assert found.value("bay_clearance_needed", "radiator") == pytest.approx(0.025)
    assert found.value("bay_clearance_needed", "column") == pytest.approx(0.015)
    assert found.value("bay_clearance_needed", "bulkhead") == pytest.approx(0.015)


def test_the_engine_in_the_car_is_not_guessed_at() -> None:
    missing = evaluate(BARE).result("bay_clearance").missing
    assert "not measured" in missing[0].why


def test_a_new_engine_without_measures_takes_the_typical_outline() -> None:
    text = (
        "build: a\noptions: {engine: {old: {as_is: true}, new: {mass: 150 kg}}}\n"
        "picks: {engine: new}\n"
    )
    gap = evaluate(text).samples_of("bay_clearance", "bulkhead")
    assert np.ptp(gap[1:]) > 0.1
