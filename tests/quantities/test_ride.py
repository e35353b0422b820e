from __future__ import annotations

import numpy as np
import pytest
from tests.building import evaluate

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg}
"""


def test_one_road_is_the_whole_ride() -> None:
    build = evaluate(CAR + "brief: {use: {town: 100 %}}\n")
    assert build.value("ride_comfort") == pytest.approx(build.value("seat_acceleration", "town"))


def test_the_mix_lies_between_its_roads() -> None:
    build = evaluate(CAR + "brief: {use: {town: 50 %, motorway: 50 %}}\n")
    roads = [build.value("seat_acceleration", road) for road in ("town", "motorway")]
    assert min(roads) < build.value("ride_comfort") < max(roads)


def test_fast_roads_are_driven_at_the_speed_of_the_brief() -> None:
    slow, fast = (
        evaluate(f"{CAR}brief: {{use: {{motorway: 100 %}}, cruise_speed: {speed} km/h}}\n")
        for speed in (80, 140)
    )
    assert fast.value("ride_comfort") > slow.value("ride_comfort")


def test_stiffer_springs_shake_more() -> None:
    option = "options: {front_suspension: {it: {wheel_rate: RATE N/mm}}}\n"
    soft, stiff = (evaluate(CAR + option.replace("RATE", rate)) for rate in ("15", "45"))
    assert stiff.value("ride_comfort") > soft.value("ride_comfort")


def test_a_road_that_nobody_knows_is_said_to_be_missing() -> None:
    build = evaluate(CAR + "brief: {use: {moon dust: 100 %}}\n")
    result = build.result("ride_comfort")
    assert result.open
    assert result.missing[0].path == "brief.use.moon dust"
    assert "town" in result.missing[0].why


def test_travel_in_hand_is_what_is_left_less_what_is_used() -> None:
    build = evaluate()
    for axle in ("front", "rear"):
        assert build.value("travel_in_hand", axle) == pytest.approx(
            build.value("bump_travel_left", axle) - build.value("travel_in_use", axle)
        )
        assert np.isfinite(build.samples_of("dynamic_wheel_load_share", axle)).all()
