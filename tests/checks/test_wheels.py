"""Verdicts on wheels, each on a small build file."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State


def verdict(check: str, options: str, arches: str = "") -> State:
    text = (
        "build: an invented car\n"
        "car: {body: {kind: unitary}, mass: {front_axle: 600 kg, rear_axle: 500 kg},"
        f" arches: {{{arches}}}}}\noptions: {{{options}}}\n"
    )
    found = evaluate(text)
    assert found.problems == ()
    return found.verdict(check).state


SMALL = "wheels: {w: {diameter: 15 in, width: 6 in, offset: 20 mm}}"
LARGE = "wheels: {w: {diameter: 17 in, width: 7 in, offset: 20 mm}}"


@pytest.mark.parametrize(
    ("system", "check"),
    [
        ("front_brakes", "wheels.least-diameter-front-brakes"),
        ("rear_brakes", "wheels.least-diameter-rear-brakes"),
        ("front_suspension", "wheels.least-diameter-front-suspension"),
        ("rear_suspension", "wheels.least-diameter-rear-suspension"),
    ],
)
def test_a_kit_that_needs_larger_wheels_is_refused_by_small_ones(system: str, check: str) -> None:
    kit = f"{system}: {{kit: {{least_wheel_diameter: 17 in}}}}"
    assert verdict(check, f"{SMALL}, {kit}") is State.FAILS
    assert verdict(check, f"{LARGE}, {kit}") is State.GOOD
    assert verdict(check, SMALL) is State.GOOD


def test_a_330_mm_disc_goes_inside_17_but_not_inside_15_inches() -> None:
    # common practice, no source.
    disc = "front_brakes: {kit: {rotor_diameter: 330 mm, caliper_bridge: 25 mm}}"
    assert verdict("wheels.rotor-practice", f"{LARGE}, {disc}") is State.GOOD
    assert verdict("wheels.rotor-practice", f"{SMALL}, {disc}") is State.FAILS
    assert verdict("wheels.rotor-clearance", f"{SMALL}, {disc}") is State.FAILS


def test_a_wide_tyre_meets_the_strut_or_the_wing() -> None:
    arches = (
        "offset: 20 mm, section_width: 175 mm, outside_diameter: 600 mm,"
        " front_inner_clearance: 20 mm, front_outer_clearance: 20 mm,"
        " rear_inner_clearance: 20 mm, rear_outer_clearance: 20 mm"
    )
    narrow = "tyres: {t: {size: 175/65R15 84H}}"
    wide = "tyres: {t: {size: 225/50R15 91V}}"
    for side in ("inner", "outer"):
        check = f"wheels.{side}-clearance"
        assert verdict(check, f"{SMALL}, {narrow}", arches) is State.GOOD
        assert verdict(check, f"{SMALL}, {wide}", arches) is State.FAILS


def test_a_tall_tyre_meets_the_arch() -> None:
    arches = "outside_diameter: 600 mm, front_radial_clearance: 40 mm, rear_radial_clearance: 40 mm"
    low, tall = "tyres: {t: {size: 175/65R15}}", "tyres: {t: {size: 205/80R15}}"
    assert verdict("wheels.radial-clearance", f"{SMALL}, {low}", arches) is State.GOOD
    assert verdict("wheels.radial-clearance", f"{SMALL}, {tall}", arches) is State.FAILS


def test_a_wheel_rated_for_half_the_axle() -> None:
    strong, weak = (f"wheels: {{w: {{load_rating: {kg} kg}}}}" for kg in (560, 200))
    assert verdict("wheels.load", strong) is State.GOOD
    assert verdict("wheels.load", weak) is State.FAILS
    assert verdict("wheels.load", SMALL) is State.OPEN


def test_an_overtightened_stud() -> None:
    usual = "wheels: {w: {fastener_torque: 100 N·m}}"
    brutal = "wheels: {w: {fastener_torque: 200 N·m}}"
    assert verdict("wheels.fastener-strength", usual) is State.GOOD
    assert verdict("wheels.fastener-strength", brutal) is State.FAILS


def test_too_few_turns() -> None:
    enough, few = (f"wheels: {{w: {{fastener_engagement: {mm} mm}}}}" for mm in (15, 7))
    assert verdict("wheels.fastener-turns", enough) is State.GOOD
    assert verdict("wheels.fastener-turns", few) is State.FAILS
    assert verdict("wheels.fastener-turns", SMALL) is State.OPEN
