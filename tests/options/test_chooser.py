"""Choosing on an invented car of five systems, against listing every build by hand."""

from __future__ import annotations

from itertools import product

import pytest
from tests.options.small_car import FILE, chooser, its_systems

from drybuild.options.chooser import Chooser
from drybuild.options.network import Table


@pytest.fixture(scope="module")
def made() -> Chooser:
    return chooser()


def by_hand() -> list[dict[str, str]]:
    """Every build of the file that its own words and the two checks allow, written out again."""
    found = []
    for rims, discs, motor, box in product(
        ("old", "big"),
        ("old", "middle", "large"),
        ("old", "strong", "huge"),
        ("old", "five", "six"),
    ):
        fits = rims == "big" or discs == "old"
        bells = {"old": "A", "strong": "B", "huge": "B"}
        joins = bells[motor] in {"old": "A", "five": "AB", "six": "B"}[box]
        kept = motor != "huge"
        fast = motor != "old"
        needs = motor != "strong" or discs != "old"
        rules = box != "six" or rims != "old"
        if fits and joins and kept and fast and needs and rules:
            found.append({"rims": rims, "discs": discs, "motor": motor, "box": box})
    return found


def test_the_count_is_that_by_hand(made: Chooser) -> None:
    # Only the strong motor is left; it needs discs that need the big rims: 2 discs, 2 boxes.
    builds = by_hand()
    assert len(builds) == 4
    assert made.state({}).total == 4
    assert made.state({"box": "six"}).total == 2


def test_possible_options_and_forced_ones(made: Chooser) -> None:
    state = made.state({})
    assert state.possible == {
        "rims": ("big",),
        "discs": ("middle", "large"),
        "motor": ("strong",),
        "box": ("five", "six"),
    }
    assert state.forced == {"rims": "big", "motor": "strong"}


def test_each_option_that_is_not_possible_has_its_reason(made: Chooser) -> None:
    state = made.state({})
    assert set(state.reasons) == {
        ("rims", "old"),
        ("discs", "old"),
        ("motor", "old"),
        ("motor", "huge"),
        ("box", "old"),
    }
    assert state.reasons["motor", "huge"].sentences() == (
        "huge (motor) alters tunnel, which the brief keeps",
    )


def test_a_conflict_names_picks_rules_and_ways_out(made: Chooser) -> None:
    conflict = made.conflict({"motor": "strong", "rims": "old"})
    assert conflict is not None
    assert conflict.explanation.picks == (("rims", "old"),)
    ways = [
        tuple(one.id if isinstance(one, Table) else one for one in way) for way in conflict.ways_out
    ]
    assert ways[0] == (("rims", "old"),)
    assert made.conflict({"motor": "strong"}) is None


def test_a_must_line_can_be_the_way_out(made: Chooser) -> None:
    conflict = made.conflict({"motor": "old"})
    assert conflict is not None
    ways = [
        tuple(one.id if isinstance(one, Table) else one for one in way) for way in conflict.ways_out
    ]
    assert ways == [(("motor", "old"),), ("must.1",)]


def test_the_cheapest_lightest_and_soonest(made: Chooser) -> None:
    cheapest = made.completion({}, "price")
    assert cheapest is not None
    assert cheapest.build == {
        "rims": "big",
        "discs": "middle",
        "motor": "strong",
        "box": "five",
        "horn": "loud",
    }
    assert cheapest.total == pytest.approx(900 + 500 + 5000 + 1500)
    lightest = made.completion({"box": "six"}, "mass")
    assert lightest is not None
    assert lightest.total == pytest.approx(24 + 14 + 140 + 45 + 1)
    soonest = made.completion({}, "lead_time")
    assert soonest is not None
    assert soonest.total == pytest.approx(6 * 7 * 86400)
    assert soonest.build["box"] == "five"  # as soon as the other, and cheaper


def test_what_does_not_say_is_named(made: Chooser) -> None:
    found = made.completion({"box": "six"}, "lead_time")
    assert found is not None
    assert ("box", "six") in found.unknown


def test_the_least_with_each_option(made: Chooser) -> None:
    assert made.least_with({}, "price")["discs"] == {"middle": 7900.0, "large": 8200.0}


def test_the_shortlist_is_unbeaten_and_proven() -> None:
    made = chooser(FILE.replace("pull >= 0.4 kW/kg", "all_price <= 8500 EUR"))
    with its_systems():
        found = made.shortlist({"pull": 2.0, "all_price": 1.0, "?": 1.0}, {"rims": "big"})
    # With the big rims: the old motor with 3 discs and 2 boxes, the strong one with 2 and 2.
    assert found.tried == 10
    assert found.open == ("?",)
    # The strong motor with the six-speed box costs 8900 or 9200.
    assert found.failing == {"must.1": 2}
    builds = [(one.build["motor"], one.build["discs"], one.build["box"]) for one in found.listed]
    assert builds[0] == ("strong", "middle", "five")
    for one in found.listed:
        assert one.values["all_price"][0] <= 8500
        assert not any(verdict.rules_out for verdict in one.verdicts)
    values = [(-one.values["pull"][0], one.values["all_price"][0]) for one in found.listed]
    for value in values:
        assert not any(
            other != value and other[0] <= value[0] and other[1] <= value[1] for other in values
        )


def test_a_car_without_any_choice_is_one_build() -> None:
    text = FILE.partition("options:")[0].replace("pull >= 0.4 kW/kg", "all_mass <= 2 t")
    made = chooser(text + "options: {horn: {loud: {mass: 1 kg, as_is: true}}}")
    state = made.state({"horn": "loud"})
    assert state.total == 1
    assert state.reasons == {}
    assert made.conflict({}) is None
    found = made.completion({}, "mass")
    assert found is not None
    assert found.build["horn"] == "loud"
    with its_systems():
        assert made.shortlist({"all_mass": 1.0}, {}).tried == 1


def test_picks_that_clash_have_no_shortlist(made: Chooser) -> None:
    with its_systems():
        assert made.shortlist({"all_mass": 1.0}, {"motor": "old"}).listed == ()


def test_a_network_too_large_to_compile_still_answers(monkeypatch: pytest.MonkeyPatch) -> None:
    exact = chooser().state({"box": "six"})
    made = chooser()
    monkeypatch.setitem(made.__dict__, "diagram", None)
    state = made.state({"box": "six"})
    assert state.total is None
    assert state.possible == exact.possible
    assert set(state.reasons) == set(exact.reasons)
    assert made.completion({}, "price") is None
    assert made.conflict({"rims": "old", "box": "six"}) is not None
