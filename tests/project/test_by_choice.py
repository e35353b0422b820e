"""Readings whose typical range goes by a choice of the same section."""

from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

from drybuild.tables.typical import typical_range


@pytest.mark.parametrize("kind", ["disc", "simplex", "duplex", "duo-servo"])
def test_the_range_is_that_of_the_choice(kind: str) -> None:
    car = evaluate(f"{BARE}options: {{front_brakes: {{some: {{kind: {kind}}}}}}}\n")
    known = typical_range(f"front_brakes.rotor_diameter.{kind}", "unitary")
    assert known is not None
    assert car.value("rotor_diameter", "front") == pytest.approx(known.value / 1000.0)


def test_the_usual_choice_counts_where_none_is_made() -> None:
    car = evaluate(f"{BARE}options: {{rear_brakes: {{some: {{}}}}}}\n")
    known = typical_range("rear_brakes.rotor_diameter.simplex", "unitary")
    assert known is not None
    assert car.value("rotor_diameter", "rear") == pytest.approx(known.value / 1000.0)


def test_what_is_given_goes_before_every_range() -> None:
    text = f"{BARE}options: {{front_brakes: {{some: {{kind: disc, rotor_diameter: 311 mm}}}}}}\n"
    assert evaluate(text).value("rotor_diameter", "front") == pytest.approx(0.311)
