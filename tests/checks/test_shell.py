from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

SHELL = "build: a\noptions: {shell: {done: {%s}}}\n"


def test_cutting_the_roof_off_fails_unless_made_good() -> None:
    check = "shell.stiffness-kept"
    assert evaluate(SHELL % "gain: -60 %").verdict(check).state is State.FAILS
    assert evaluate(SHELL % "gain: 20 %").verdict(check).state is State.GOOD


def test_too_few_bolts_fail_and_enough_hold() -> None:
    joint = "gain: 5 %%, joint_force: 60 kN, bolt_thread: M8, bolt_class: '8.8', bolts: %d"
    assert evaluate(SHELL % (joint % 2)).verdict("shell.bolts").state is State.FAILS
    assert evaluate(SHELL % (joint % 8)).verdict("shell.bolts").state is State.GOOD


def test_a_short_weld_fails_and_the_sheet_is_asked_too() -> None:
    joint = "gain: 5 %%, weld_force: 30 kN, weld_leg: 2 mm, sheet_thickness: 1 mm, weld_length: %s"
    short, long = evaluate(SHELL % (joint % "60 mm")), evaluate(SHELL % (joint % "400 mm"))
    for check in ("shell.weld", "shell.weld-sheet"):
        assert short.verdict(check).state is State.FAILS
        assert long.verdict(check).state is State.GOOD


def test_a_weld_worked_hard_does_not_last() -> None:
    assert evaluate(SHELL % "stress_range: 120 MPa").verdict("shell.weld-life").state is State.FAILS
    assert evaluate(SHELL % "stress_range: 30 MPa").verdict("shell.weld-life").state is State.GOOD


def test_a_dark_windscreen_fails() -> None:
    glass = "build: a\noptions: {glass: {new: {light_transmission: %s}}}\n"
    check = "shell.windscreen-light"
    assert evaluate(glass % "50 %").verdict(check).state is State.FAILS
    assert evaluate(glass % "78 %").verdict(check).state is State.GOOD


def test_joints_that_no_option_names_are_not_asked_about() -> None:
    found = evaluate(SHELL % "gain: 5 %")
    for check in ("bolts", "weld", "weld-sheet", "weld-life"):
        assert found.verdict(f"shell.{check}").senseless


def test_structure_carries_its_caution() -> None:
    found = evaluate(SHELL % "gain: 5 %")
    for check in found.checks.values():
        if check.matter == "shell" and "windscreen" not in check.id:
            assert "licensed practice" in check.caution


def test_a_cut_towers_body_fails_until_it_is_tied() -> None:
    cut = "measures: {cut towers: {mass: 0 kg}%s}"
    check = "shell.stiffness-kept"
    assert evaluate(SHELL % (cut % "")).verdict(check).state is State.FAILS
    tied = ", tower and cowl tie: {mass: 4 kg}, connectors: {mass: 14 kg}"
    assert evaluate(SHELL % (cut % tied)).verdict(check).state is not State.FAILS


def test_bending_is_asked_only_where_the_frame_answers() -> None:
    check = "shell.bending-kept"
    assert evaluate(SHELL % "work: connectors").verdict(check).state is State.GOOD
    assert evaluate(SHELL % "gain: 20 %").verdict(check).senseless


def test_thin_walls_are_stressed_more() -> None:
    check = "shell.bump-stress"
    walls = "build: a\ncar: {structure: {frame_model: {gauge_share: %s}}}\n"
    thick, thin = (evaluate(walls % share).verdict(check) for share in ("1.3", "0.3"))
    assert thick.state is not State.FAILS
    assert thin.state is State.FAILS
