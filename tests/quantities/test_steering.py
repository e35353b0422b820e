from __future__ import annotations

import math

import pytest
from tests.building import evaluate

CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1400 mm, rear_track: 1400 mm}
"""


def steered(entries: str) -> str:
    return f"{CAR}options: {{steering: {{it: {{{entries}}}}}}}\n"


def test_rack_and_arm_give_the_ratio() -> None:
    build = evaluate(steered("rack_travel_per_turn: 50 mm, steering_arm: 150 mm"))
    assert build.value("steering_ratio") == pytest.approx(6.0 * math.pi)


def test_turns_and_locks_give_the_ratio() -> None:
    build = evaluate(steered("turns: 4, inner_lock: 38 deg, outer_lock: 34 deg"))
    assert build.value("steering_ratio") == pytest.approx(4.0 * 360.0 / 72.0)
    assert build.value("steering_wheel_turns") == pytest.approx(4.0)


def test_a_true_linkage_draws_the_ideal_circle() -> None:
    build = evaluate(steered("inner_lock: 38 deg, ackermann: 100 %"))
    assert build.value("lock_angles", "outer") == pytest.approx(build.value("ideal_outer_lock"))
    assert build.value("ackermann_share") == pytest.approx(1.0)


def test_assistance_helps_until_it_fails() -> None:
    plain = evaluate(steered("ratio: 16"))
    helped = evaluate(steered("ratio: 16, assistance: electric, assistance_share: 75 %"))
    assert helped.value("parking_effort", "as fitted") == pytest.approx(
        plain.value("parking_effort", "as fitted") / 4.0
    )
    assert helped.value("parking_effort", "assistance failed") == pytest.approx(
        plain.value("parking_effort", "as fitted")
    )


def test_a_quicker_box_is_heavier() -> None:
    quick, slow = evaluate(steered("ratio: 14")), evaluate(steered("ratio: 20"))
    assert quick.value("cornering_effort", "as fitted") > slow.value(
        "cornering_effort", "as fitted"
    )


def test_efforts_come_in_the_order_of_the_work() -> None:
    build = evaluate()
    walking = build.value("turning_effort", "as fitted")
    assert walking < build.value("parking_effort", "as fitted")
    assert build.value("turning_effort_limit", "as fitted") == 150.0
