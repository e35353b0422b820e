from __future__ import annotations

import pytest
from tests.building import BARE, Evaluated, evaluate

from drybuild.checks.verdicts import State
from drybuild.project.datum import Datum

SET = """build: a
car: {body: {kind: unitary}}
datum:
  lengths:
    2 left to 2 right: 800 mm
    2 left to 6 left: 2400 mm
    2 right to 6 right: %s
    6 left to 6 right: 800 mm
    2 left to 6 right: 2530 mm
    2 right to 6 left: 2530 mm
  heights: {2 left: 200 mm, 2 right: 200 mm, 3 left: 150 mm, 3 right: 150 mm, 4 left: %s,
            4 right: 150 mm, 5 left: 150 mm, 5 right: 150 mm, 6 left: 200 mm, 6 right: 200 mm}
  wheelbase_left: 2540 mm
  wheelbase_right: 2534 mm
  openings: {front door left: {rising: 1240 mm, falling: 1232 mm}}
"""


def measured(side: str = "2400 mm", middle: str = "150 mm") -> Evaluated:
    return evaluate(SET % (side, middle))


def test_a_true_shell_is_true() -> None:
    found = measured()
    assert found.problems == ()
    for name in ("datum_square", "datum_diagonals", "datum_sag", "datum_misfit"):
        for label in found.result(name).labelled():
            assert abs(found.value(name, label)) < 1e-3 or name == "datum_misfit"
    assert found.value("datum_twist") == pytest.approx(0.0, abs=1e-9)
    assert found.verdict("datum.diagonals").state is State.GOOD


def test_a_sagging_sill_an_odd_door_and_a_crooked_wheelbase_fail() -> None:
    found = measured(middle="143 mm")
    assert found.value("datum_sag", "left") == pytest.approx(7e-3)
    assert found.verdict("datum.sag").state is State.FAILS
    assert found.verdict("datum.openings").state is State.FAILS
    assert found.value("datum_wheelbase") == pytest.approx(6e-3)


def test_a_reading_that_does_not_fit_is_told() -> None:
    good, bad = measured(), measured("2420 mm")
    assert good.verdict("datum.readings").state is State.GOOD
    assert bad.verdict("datum.readings").state is State.FAILS
    assert "licensed practice" in bad.checks["datum.readings"].caution


def test_nobody_is_asked_who_has_not_measured() -> None:
    bare = evaluate(BARE)
    for name in bare.checks:
        if name.startswith("datum."):
            assert bare.verdict(name).senseless, name


def test_too_few_lengths_are_told_and_a_slip_of_a_name() -> None:
    few = evaluate(
        "build: a\ndatum: {lengths: {2 left to 2 right: 800 mm, 2 left to 3 left: 500 mm}}\n"
    )
    missing = few.result("datum_square").missing
    assert missing[0].path == "datum.lengths"
    assert "both diagonals" in missing[0].why
    slip = evaluate("build: a\ndatum: {lengths: {2 left to 9 left: 800 mm}}\n")
    assert [one.code for one in slip.problems] == ["unknown-key"]
    assert "1 left to 2 right" in slip.problems[0].mend
    door = evaluate("build: a\ndatum: {openings: {front dor left: {rising: 1 m}}}\n")
    assert "front door left" in door.problems[0].mend


def test_a_length_without_spread_has_that_of_a_tape() -> None:
    for typed, spread in (("2400 mm", 1.5e-3), ("2400 ± 20 mm", 20e-3)):
        given = Datum.lengths.given(measured(typed).build.tops["datum"])
        assert given["2 right to 6 right"].spread == pytest.approx(spread)


def test_a_works_tolerance_counts_to_either_side() -> None:
    for left, right in (("2546 mm", "2534 mm"), ("2534 mm", "2546 mm")):
        text = f"build: a\ndatum: {{wheelbase_left: {left}, wheelbase_right: {right}}}\n"
        assert evaluate(text).verdict("datum.wheelbase").state is State.FAILS
        wide = evaluate(text + "limits: {datum.wheelbase: 20 mm}\n")
        assert wide.verdict("datum.wheelbase").state is State.GOOD
