from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

CAR = """build: an invented saloon
car: {body: {kind: unitary, wheelbase: 2500 mm}}
options: {steering: {it: {ENTRIES}}}
"""


def test_effort_of_a_usual_box_is_allowed_and_of_a_kart_is_not() -> None:
    usual = evaluate(CAR.replace("ENTRIES", "ratio: 18"))
    assert usual.verdict("steering.effort").state is State.GOOD
    direct = evaluate(CAR.replace("ENTRIES", "ratio: 3, wheel_diameter: 280 mm"))
    assert direct.verdict("steering.effort").state is State.FAILS


def test_parking_looks_at_the_car_as_fitted() -> None:
    text = "ratio: 4, assistance: hydraulic, assistance_share: 85 ± 1 %"
    helped = evaluate(CAR.replace("ENTRIES", text)).verdict("steering.parking-effort")
    assert helped.state is State.GOOD
    alone = evaluate(CAR.replace("ENTRIES", "ratio: 4")).verdict("steering.parking-effort")
    assert alone.state is State.FAILS
    assert not alone.rules_out


def test_turning_circle_and_turns() -> None:
    lazy = evaluate(CAR.replace("ENTRIES", "inner_lock: 22 deg, ratio: 50"))
    assert lazy.verdict("steering.turning-circle").state is State.FAILS
    assert lazy.verdict("steering.turns").state is State.FAILS
