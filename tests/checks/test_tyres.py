"""Verdicts on tyres, each on a small build file."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

RIGHT = "size: 185/70R14 88H"


def verdict(check: str, tyres: str, wheels: str = "diameter: 14 in, width: 5.5 in") -> State:
    text = (
        "build: an invented car\nbrief: {cruise_speed: 120 km/h, occupants: 2}\n"
        "car: {body: {kind: unitary}, mass: {front_axle: 600 kg, rear_axle: 500 kg}}\n"
        f"options:\n  tyres: {{fitted: {{{tyres}}}}}\n  wheels: {{fitted: {{{wheels}}}}}\n"
    )
    found = evaluate(text)
    assert found.problems == ()
    return found.verdict(check).state


@pytest.mark.parametrize(
    ("check", "tyres", "state"),
    [
        ("tyres.load", RIGHT, State.GOOD),
        ("tyres.load", "size: 125/80R14 62S", State.FAILS),
        ("tyres.speed", RIGHT, State.GOOD),
        ("tyres.speed", "speed_rating: 100 km/h", State.FAILS),
        ("tyres.pressure", f"{RIGHT}, pressure: 210 kPa, rear_pressure: 210 kPa", State.GOOD),
        ("tyres.pressure", "size: 185/70R14 88H, pressure: 90 kPa", State.FAILS),
        ("tyres.rim-diameter", RIGHT, State.GOOD),
        ("tyres.rim-diameter", "size: 195/65R15 91H", State.FAILS),
        ("tyres.rim-least", RIGHT, State.GOOD),
        ("tyres.rim-least", "size: 225/70R14 98H", State.FAILS),
        ("tyres.rim-largest", RIGHT, State.GOOD),
        ("tyres.rim-largest", "size: 135/80R14 70S", State.FAILS),
    ],
)  # fmt: skip
def test_verdict(check: str, tyres: str, state: State) -> None:
    assert verdict(check, tyres) is state


def test_whether_they_fit_is_open_without_a_size() -> None:
    assert verdict("tyres.rim-diameter", "outside_diameter: 610 mm") is State.OPEN


def test_a_must_line_bounds_the_wheels() -> None:
    text = (
        "build: an invented car\nbrief: {must: [wheel_diameter <= 16 in]}\n"
        "car: {body: {kind: unitary}}\noptions: {wheels: {large: {diameter: 17 in}}}\n"
    )
    found = evaluate(text, samples=10)
    (must,) = (one for one in found.checks if "wheel_diameter" in found.checks[one].quantity
               and one.startswith("must"))  # fmt: skip
    assert found.verdict(must).state is State.FAILS
