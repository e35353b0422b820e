from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg,
         front_axle_limit: 700 kg, rear_axle_limit: REAR kg, gross_limit: 1400 kg}
brief: {occupants: 4, occupant_mass: 75 ± 1 kg, luggage: 60 ± 1 kg}
"""


@pytest.mark.parametrize(("limit", "state"), [("850", State.GOOD), ("600", State.FAILS)])
def test_axle_load(limit: str, state: State) -> None:
    verdict = evaluate(CAR.replace("REAR", limit)).verdict("mass.axle-load")
    assert verdict.state is state
    if state is State.FAILS:
        assert verdict.worst
        assert verdict.worst.label == "rear"


def test_axle_load_without_a_limit_is_open_and_says_so() -> None:
    verdict = evaluate().verdict("mass.axle-load")
    assert verdict.state is State.OPEN
    assert verdict.missing[0].path == "car.mass.front_axle_limit"


def test_gross_mass() -> None:
    heavy = "options: {engine: {old: {as_is: true, mass: 150 kg}, iron: {mass: 300 kg}}}\n"
    build = evaluate(CAR.replace("REAR", "850") + heavy + "picks: {engine: iron}\n")
    assert build.verdict("mass.gross").state is State.FAILS
    assert evaluate(CAR.replace("REAR", "850")).verdict("mass.gross").state is State.GOOD
