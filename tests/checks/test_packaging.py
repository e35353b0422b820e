from __future__ import annotations

from tests.building import BARE, evaluate
from tests.quantities.test_packaging import build

from drybuild.checks.verdicts import State


def test_an_engine_with_room_is_good() -> None:
    found = evaluate(build(rock="10 mm"))
    assert found.verdict("packaging.bay").state is State.GOOD
    assert found.verdict("packaging.bonnet").state is State.GOOD
    assert found.verdict("packaging.sump").state is State.GOOD


def test_the_worst_pair_is_named() -> None:
    box = (
        "boxes: {servo: {rear: -450 mm, front: -200 mm, right: 285 mm, left: 500 mm, "
        "bottom: 300 mm, top: 550 mm}}"
    )
    verdict = evaluate(build(boxes=box, rock="12 mm")).verdict("packaging.bay")
    assert verdict.state is State.FAILS
    assert verdict.worst is not None
    assert verdict.worst.label == "servo"


def test_a_low_bonnet_fails() -> None:
    low = build(rock="10 mm").replace("height: 600 mm", "height: 520 mm")
    assert evaluate(low).verdict("packaging.bonnet").state is State.FAILS


def test_a_low_car_drags_its_sump() -> None:
    low = build().replace("ride_height: 210 mm", "ride_height: 150 mm")
    assert evaluate(low).verdict("packaging.sump").state is State.FAILS


def test_the_engine_that_stays_is_not_asked_about() -> None:
    assert evaluate(BARE).verdict("packaging.bay").senseless
