from __future__ import annotations

import pytest
from tests.building import BARE, evaluate
from tests.quantities.test_cabin import BELTS, GOOD

from drybuild.checks.verdicts import State


def belts(old: str = "", new: str = "", extra: str = "") -> str:
    return BELTS % (GOOD.replace(old, new) + extra)


# What is moved, to where, and the check that notices.
WRONG = [
    ("outer_back: 150 mm", "outer_back: 420 mm", "cabin.lap-belt-flat"),
    ("outer_back: 150 mm", "outer_back: 10 mm", "cabin.lap-belt-steep"),
    ("buckle_aside: 190 mm", "buckle_aside: 90 mm", "cabin.belt-spacing"),
    ("buckle_aside: 190 mm", "buckle_aside: 90 mm", "cabin.belt-aside"),
    ("shoulder_aside: 240 mm", "shoulder_aside: 110 mm", "cabin.shoulder-aside"),
    ("shoulder_up: 560 mm", "shoulder_up: 380 mm", "cabin.shoulder-height"),
    ("shoulder_back: 330 mm", "shoulder_back: 50 mm", "cabin.shoulder-behind"),
]


@pytest.mark.parametrize(("old", "new", "check"), WRONG)
def test_each_misplaced_anchorage_is_noticed(old: str, new: str, check: str) -> None:
    assert evaluate(belts()).verdict(check).state is State.GOOD
    assert evaluate(belts(old, new)).verdict(check).state is State.FAILS


def test_a_steep_belt_passes_one_rule_and_fails_the_other() -> None:
    # 60 mm back and 260 mm down is 77°: above FMVSS 210's 75°, below UN R14's 80°.
    steep = ("outer_back: 150 mm, outer_down: 200 mm", "outer_back: 60 mm, outer_down: 260 mm")
    r14 = evaluate(belts(*steep)).verdict("cabin.lap-belt-steep")
    fmvss = evaluate(belts(*steep, ", rule: fmvss")).verdict("cabin.lap-belt-steep")
    assert r14.worst is not None
    assert r14.worst.margin > 0.0
    assert fmvss.state is State.FAILS


def test_belts_without_places_are_open_not_good() -> None:
    new_belts = evaluate(BELTS % "torso_angle: 25 deg")
    new_seats = evaluate("build: a\noptions: {seats: {new: {mass_each: 15 kg}}}\n")
    for verdict in (
        new_belts.verdict("cabin.lap-belt-flat"),
        new_seats.verdict("cabin.lap-belt-flat"),
        new_seats.verdict("cabin.seat-bolts"),
    ):
        assert verdict.state is State.OPEN
        assert not verdict.senseless


def test_nothing_is_asked_of_what_stays_or_is_not_there() -> None:
    bare = evaluate(BARE)
    for check in ("lap-belt-flat", "shoulder-behind", "seat-bolts", "roll-bar-tube"):
        assert bare.verdict(f"cabin.{check}").senseless


def test_a_harness_anchored_at_the_floor_fails() -> None:
    text = BELTS % "strap_back: 300 mm, strap_down: 500 mm"
    found = evaluate(text.replace("three-point", "harness"))
    assert found.verdict("cabin.harness-straps").state is State.FAILS


def test_a_thin_hoop_on_small_feet_fails() -> None:
    bar = (
        "build: a\noptions: {roll_bar: {hoop: {outside_diameter: 38 mm, wall: 2 mm, "
        "foot_area: 60 cm², foot_thickness: 2 mm, foot_bolts: 2}}}\n"
    )
    found = evaluate(bar)
    for check in ("tube", "plate", "plate-thickness", "bolts"):
        assert found.verdict(f"cabin.roll-bar-{check}").state is State.FAILS


def test_a_tall_seat_costs_headroom() -> None:
    seats = "build: a\noptions: {seats: {new: {hip_height: %s}}}\n"
    assert evaluate(seats % "450 mm").verdict("cabin.headroom").state is State.FAILS


def test_belts_seats_and_bars_carry_their_caution() -> None:
    for check in evaluate(BARE).checks.values():
        if check.matter == "cabin" and check.id != "cabin.headroom":
            assert "licensed practice" in check.caution
