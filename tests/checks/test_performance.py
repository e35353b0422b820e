"""Verdicts on performance, from small build files."""

from __future__ import annotations

import pytest
from tests.building import evaluate
from tests.quantities.test_driveline import CAR

from drybuild.checks.verdicts import State


def verdict(check: str, text: str) -> State:
    return evaluate(text).verdict(f"performance.{check}").state


def test_a_usual_car_climbs_and_cruises() -> None:
    tall = CAR.replace("final_drive: 3.9", "final_drive: 3.5")
    assert verdict("hill-start", tall) is State.GOOD
    assert verdict("cruise-engine-speed", tall) is State.GOOD


@pytest.mark.parametrize(
    ("check", "old", "new"),
    [
        ("hill-start", "[3.5, 2.1, 1.4, 1.0, 0.8]", "[1.2, 1.1, 1.0, 0.9, 0.8]"),
        ("cruise-climb", "power: 85 kW at 5500 rpm, torque: 170 N·m at 3000 rpm", "power: 25 kW"),
        ("cruise-engine-speed", "final_drive: 3.9", "final_drive: 6.5"),
        ("launch-grip", "torque: 170 N·m", "torque: 420 N·m"),
        ("gearing", "[3.5, 2.1, 1.4, 1.0, 0.8]", "[5.0, 4.0, 3.0, 2.2, 1.9]"),
    ],
)
def test_a_worse_choice_fails(check: str, old: str, new: str) -> None:
    assert old in CAR
    text = CAR.replace(old, new)
    if check == "launch-grip":
        text = text.replace("power: 85 kW", "power: 200 kW")
    assert verdict(check, text) is State.FAILS


def test_a_small_tank_is_said() -> None:
    small = CAR + "  fuel_system: {cell: {tank_volume: 20 l}}\n"
    assert verdict("range", small) is State.FAILS


def test_must_lines_on_times() -> None:
    car = evaluate(CAR + "brief: {must: [zero_to_100_kmh <= 25 s, quarter_mile_time <= 9 s]}\n")
    assert car.problems == ()
    assert car.verdict("must.1").state is State.GOOD
    assert car.verdict("must.2").state is State.FAILS
