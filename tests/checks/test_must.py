"""A person's must lines as checks, and the ones that lead nowhere as problems."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.all import standing_checks
from drybuild.checks.must import must_checks, must_problems
from drybuild.checks.verdicts import State
from drybuild.quantities.all import graph

CAR = """build: an invented saloon
brief: {must: [MUST]}
car:
  body: {kind: unitary, wheelbase: 2500 ± 1 mm}
  mass: {front_axle: 540 ± 1 kg, rear_axle: 460 ± 1 kg, fuel_aboard: 40 ± 0.1 kg,
         fuel_when_full: 40 ± 0.1 kg}
"""


def codes(text: str) -> list[str]:
    build = evaluate(text)
    found = must_problems(build.build, graph(), standing_checks())
    return [one.code for one in (*build.problems, *found)]


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("kerb_mass <= 1010 kg", State.GOOD),
        ("kerb_mass >= 1010 kg", State.FAILS),
        ("kerb_mass at 80 % <= 1010 kg", State.GOOD),
        ("axle_load.front <= 500 kg", State.FAILS),
        ("axle_load.rear <= 500 kg", State.GOOD),
        ("kerb_mass <= laden_mass", State.GOOD),
    ],
)
def test_a_must_line_is_judged_like_any_check(line: str, state: State) -> None:
    build = evaluate(CAR.replace("MUST", line))
    assert codes(CAR.replace("MUST", line)) == []
    assert build.verdict("must.1").state is state


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("kerb_mas <= 1010 kg", "quantity-unknown"),
        ("kerb_mass <= 1010 mm", "limit-unreadable"),
        ("kerb_mass <= 1010", "limit-unreadable"),
        ("make it light", "must-unreadable"),
    ],
)
def test_a_line_that_leads_nowhere_is_told_and_not_judged(line: str, code: str) -> None:
    assert codes(CAR.replace("MUST", line)) == [code]
    assert must_checks(evaluate(CAR.replace("MUST", line)).build, graph()) == ()


@pytest.mark.parametrize(
    ("limits", "expected"),
    [
        ("{brakes.pedal-force: 400 N}", []),
        ("{brakes.pedal-force: 400 mm}", ["limit-unreadable"]),
        ("{brakes.pedal-farce: 400 N}", ["limit-unreadable"]),
    ],
)
def test_a_limit_of_ones_own_needs_a_check_and_its_unit(limits: str, expected: list[str]) -> None:
    text = CAR.replace("brief: {must: [MUST]}", f"limits: {limits}")
    assert codes(text) == expected
