"""The mass of an option that does not say what it weighs."""

from __future__ import annotations

import pytest
from tests.building import evaluate

BUILD = """
build: an invented car
car: {body: {kind: unitary, wheelbase: 2500 mm}, mass: {front_axle: 500 kg, rear_axle: 500 kg}}
options:
"""


@pytest.mark.parametrize("first", ["connectors", "bolt-on chassis"])
def test_a_shell_as_found_weighs_nothing_whatever_is_compared_first(first: str) -> None:
    car = evaluate(
        BUILD
        + "  shell:\n    as found: {as_is: true, work: none}\n"
        + "    connectors: {work: connectors, mass: 14 kg}\n"
        + "    bolt-on chassis: {work: bolt-on chassis, mass: 175 kg}\n"
    )
    car.evaluation.result("mass_change", {"shell": first})
    found = car.evaluation.result("mass_change", {"shell": "connectors"}).labelled()
    assert found["shell"][0] == pytest.approx(14.0)


@pytest.mark.parametrize("first", ["narrow", "wide"])
def test_an_unsaid_mass_is_like_that_of_each_that_it_stands_against(first: str) -> None:
    car = evaluate(
        BUILD
        + "  exhaust:\n    original: {as_is: true}\n"
        + "    narrow: {mass: 14 kg}\n    wide: {mass: 28 kg}\n"
    )
    car.evaluation.result("mass_change", {"exhaust": first})
    for picked in ("narrow", "wide"):
        found = car.evaluation.result("mass_change", {"exhaust": picked}).labelled()
        assert found["exhaust"][0] == pytest.approx(0.0)
