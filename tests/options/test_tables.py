"""Checks and rules as tables, on an invented car of five systems."""

from __future__ import annotations

import pytest
from tests.options.small_car import FILE, chooser

from drybuild.options.network import Table


def table(text: str, name: str) -> Table:
    return next(one for one in chooser(text).network.tables if one.id == name)


def test_only_systems_with_a_choice_are_in_the_network() -> None:
    made = chooser()
    assert made.network.systems == ("rims", "discs", "motor", "box")
    assert made.tabulated.fixed == {"horn": "loud"}


def test_a_check_excludes_what_it_fails() -> None:
    # Room is half the difference: 350-240 gives 55 mm, 350-280 35 mm; 45 mm is wanted.
    found = table(FILE, "rims.room")
    assert found.scope == ("rims", "discs")
    assert found.allowed.tolist() == [[True, False, False], [True, True, True]]


def test_the_reason_is_that_of_the_nearest_combination() -> None:
    found = table(FILE, "rims.room")
    assert found.why({"rims": "old", "discs": "large"}) == "rims.room at 0.01"
    assert found.why({"rims": "old"}) == "rims.room at 0.035"


def test_advice_excludes_nothing() -> None:
    assert "rims.advice" not in {one.id for one in chooser().network.tables}


def test_a_must_line_excludes_only_what_fails_beside_every_build() -> None:
    # The lightest build without a motor has 63 kg, with the old one 163 kg: 40 kW is 245 W/kg.
    # The aggregate is held at whole builds, so the strong motor's 120 kW are judged at 163 kg
    # (736 W/kg, good) even though its own mass makes it less.
    found = table(FILE, "must.1")
    assert found.scope == ("motor",)
    assert found.allowed.tolist() == [False, True, True]


def test_an_area_to_keep_excludes_what_alters_it() -> None:
    found = table(FILE, "keep.motor")
    assert found.allowed.tolist() == [True, True, False]
    assert found.why({"motor": "huge"}) == "huge (motor) alters tunnel, which the brief keeps"


def test_joints_must_match() -> None:
    found = table(FILE, "joint.bell.motor.box")
    assert found.allowed.tolist() == [[True, True, False], [False, True, True], [False, True, True]]
    words = found.why({"motor": "strong", "box": "old"})
    assert words == "strong (motor) has bell B, old (box) has bell A"


def test_needs_and_excludes() -> None:
    needs = table(FILE, "needs.motor.discs")
    assert needs.allowed[1].tolist() == [False, True, True]
    assert needs.why({"motor": "strong"}) == "strong (motor) needs middle or large (discs)"
    excludes = table(FILE, "excludes.box.rims")
    assert excludes.allowed.tolist() == [[True, True], [True, True], [False, True]]
    assert excludes.why({"box": "six", "rims": "old"}) == "six (box) rules out old (rims)"


def test_every_reason_has_words_whatever_is_picked() -> None:
    made = chooser()
    for one in made.network.tables:
        for system in one.scope:
            for place, option in enumerate(made.network.options[system]):
                if not one.allowed.take(place, axis=one.scope.index(system)).all():
                    assert one.why({system: option})
        assert one.why({})


def test_a_check_that_nothing_passes_is_told_apart() -> None:
    made = chooser(FILE.replace("0.4 kW/kg", "9 kW/kg"))
    assert [one.id for one in made.tabulated.hopeless] == ["must.1"]
    assert "must.1" not in {one.id for one in made.network.tables}


def test_a_sum_over_the_whole_build_is_left_to_full_evaluation() -> None:
    made = chooser(FILE.replace("pull >= 0.4 kW/kg", "all_price <= 4000 EUR"))
    assert {one.id for one in made.network.tables}.isdisjoint({"must.1"})
    assert [one.id for one in made.tabulated.wide] == ["must.1"]


@pytest.mark.parametrize("samples", [0, 50, 1000])
def test_the_tables_do_not_hang_on_the_samples_when_nothing_is_doubtful(samples: int) -> None:
    made = chooser(samples=samples)
    assert [one.allowed.tolist() for one in made.network.tables] == [
        one.allowed.tolist() for one in chooser().network.tables
    ]
