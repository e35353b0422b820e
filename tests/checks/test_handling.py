from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1400 mm, rear_track: 1400 mm}
  mass: {front_axle: FRONT kg, rear_axle: REAR kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg,
         cg_height: 540 ± 5 mm}
options:
  front_suspension: {it: {wheel_rate: 18 N/mm, bar_roll_stiffness: BAR N·m/rad, roll_steer: STEER,
                          camber_gain: 0 rad/m}}
  rear_suspension: {it: {wheel_rate: 18 N/mm, bar_roll_stiffness: TAIL N·m/rad, roll_steer: STEER}}
"""


def car(front: str, rear: str, bar: str, tail: str, steer: str) -> str:
    text = CAR.replace("FRONT", front).replace("REAR", rear).replace("STEER", steer)
    return text.replace("BAR", bar).replace("TAIL", tail)


FRONT_HEAVY = car("600", "400", "15000", "0", "0.05")
TAIL_HEAVY = car("350", "650", "0", "30000", "-0.3")


def test_understeer() -> None:
    assert evaluate(FRONT_HEAVY).verdict("handling.understeer").state is State.GOOD
    verdict = evaluate(TAIL_HEAVY).verdict("handling.understeer")
    assert verdict.state is State.FAILS
    assert verdict.check.caution


def test_limit_balance_is_advice() -> None:
    assert evaluate(FRONT_HEAVY).verdict("handling.limit-balance").state is State.GOOD
    verdict = evaluate(TAIL_HEAVY).verdict("handling.limit-balance")
    assert verdict.state is State.FAILS
    assert not verdict.rules_out


def test_roll_gradient() -> None:
    stiff = car("540", "460", "30000", "15000", "0")
    assert evaluate(stiff).verdict("handling.roll-gradient").state is State.GOOD
    soft = car("540", "460", "0", "0", "0").replace("18 N/mm", "11 N/mm")
    assert evaluate(soft).verdict("handling.roll-gradient").state is State.FAILS


def test_tipping() -> None:
    tall = FRONT_HEAVY.replace("540 ± 5 mm", "900 ± 5 mm")
    assert evaluate(tall).verdict("handling.tipping").state is State.FAILS
    assert evaluate(FRONT_HEAVY).verdict("handling.tipping").state is State.GOOD
