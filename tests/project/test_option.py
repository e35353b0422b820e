"""Options: questions that nobody asks of a car that stays as it is, and that a change brings up."""

from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

ELECTRIC = (
    "options: {engine: {motor: {kind: electric, power: 90 kW at 4000 rpm, torque: 220 N·m,"
    " limit_speed: 9000 rpm}}}\n"
)


@pytest.mark.parametrize(
    ("check", "change"),
    [
        ("driveline.gearbox-torque", "engine: {other: {power: 120 kW at 5500 rpm}}"),
        ("driveline.axle-torque", "gearbox: {other: {}}"),
        ("driveline.propshaft-joints", "engine: {other: {power: 120 kW at 5500 rpm}}"),
        ("engine.mount-frequency", "engine: {other: {power: 120 kW at 5500 rpm}}"),
        ("tyres.rim-diameter", "tyres: {other: {size: 185/70R14 88H}}"),
        ("wheels.fastener-turns", "wheels: {other: {width: 6 in}}"),
        ("wheels.fastener-turns", "wheels: {same: {as_is: true, spacer: 5 mm}}"),
        ("shell.windscreen-light", "glass: {tinted: {}}"),
    ],
)
def test_what_stays_is_not_asked_for_and_what_changes_is(check: str, change: str) -> None:
    assert evaluate(BARE, samples=10).verdict(check).senseless
    changed = evaluate(f"{BARE}options: {{{change}}}\n", samples=10)
    assert changed.problems == ()
    assert not changed.verdict(check).senseless


def test_an_answer_that_is_given_anyway_is_judged() -> None:
    rated = evaluate(
        f"{BARE}options: {{gearbox: {{own: {{as_is: true, torque_rating: 900 N·m}}}}}}\n"
    )
    assert rated.verdict("driveline.gearbox-torque").worst is not None


@pytest.mark.parametrize(
    "check",
    [
        "cooling.oil-warming",
        "driveline.clutch-pressure",
        "electrics.cranking",
        "electrics.starter-cable",
        "exhaust.back-pressure",
        "exhaust.intake-air",
        "fuel.pump-flow",
        "fuel.injectors",
        "engine.piston-speed",
    ],
)
def test_an_electric_car_is_not_asked_for_what_only_a_piston_engine_has(check: str) -> None:
    car = evaluate(BARE + ELECTRIC, samples=10)
    assert car.problems == ()
    assert car.verdict(check).senseless


@pytest.mark.parametrize(
    ("check", "without"),
    [
        ("brakes.servo-failed", BARE),
        ("engine.high-voltage", BARE),
        ("cabin.harness-straps", f"{BARE}options: {{belts: {{new: {{kind: three-point}}}}}}\n"),
        ("cabin.roll-bar-tube", BARE),
        ("shell.bolts", f"{BARE}options: {{shell: {{braces: {{weld_length: 80 mm}}}}}}\n"),
        ("shell.weld", f"{BARE}options: {{shell: {{braces: {{bolts: 4}}}}}}\n"),
    ],
)
def test_what_is_not_there_is_not_asked_for(check: str, without: str) -> None:
    assert evaluate(without, samples=10).verdict(check).senseless


def test_a_single_circuit_is_asked_what_is_left_when_it_fails() -> None:
    car = evaluate(f"{BARE}options: {{brake_hydraulics: {{old: {{circuits: single}}}}}}\n")
    verdict = car.verdict("brakes.circuit-failed")
    assert not verdict.senseless
    assert verdict.rules_out
