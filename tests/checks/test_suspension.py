from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm, ground_clearance: 150 ± 5 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg}
options:
  front_suspension: {it: {wheel_rate: FRONT N/mm, bump_travel: 90 ± 3 mm,
                          ride_height_change: LOW mm}}
  rear_suspension: {it: {wheel_rate: REAR N/mm, bump_travel: 110 ± 3 mm,
                          ride_height_change: LOW mm}}
  dampers: {it: {front_damping_ratio: ZETA ± 0.01, rear_damping_ratio: ZETA ± 0.01}}
"""


def car(front: str = "18", rear: str = "20", zeta: str = "0.33", low: str = "0") -> str:
    text = CAR.replace("FRONT", front).replace("REAR", rear)
    return text.replace("ZETA", zeta).replace("LOW", low)


@pytest.mark.parametrize(("rate", "state"), [("18", State.GOOD), ("90", State.FAILS)])
def test_ride_frequency(rate: str, state: State) -> None:
    assert evaluate(car(front=rate)).verdict("suspension.ride-frequency").state is state


def test_flat_ride_is_advice() -> None:
    verdict = evaluate(car(front="30", rear="15")).verdict("suspension.flat-ride")
    assert verdict.state is State.FAILS
    assert not verdict.rules_out
    assert evaluate(car(rear="22")).verdict("suspension.flat-ride").state is not State.FAILS


@pytest.mark.parametrize(
    ("zeta", "state"), [("0.33", State.GOOD), ("0.08", State.FAILS), ("0.8", State.FAILS)]
)
def test_damping(zeta: str, state: State) -> None:
    assert evaluate(car(zeta=zeta)).verdict("suspension.damping").state is state


def test_lowering_far_costs_the_clearance() -> None:
    assert evaluate(car(low="-80")).verdict("suspension.ground-clearance").state is State.FAILS
    assert evaluate(car()).verdict("suspension.ground-clearance").state is State.GOOD


def test_bump_travel() -> None:
    short = car().replace("bump_travel: 90 ± 3 mm", "bump_travel: 25 ± 2 mm")
    assert evaluate(short).verdict("suspension.bump-travel").state is State.FAILS
    assert evaluate(car()).verdict("suspension.bump-travel").state is State.GOOD
