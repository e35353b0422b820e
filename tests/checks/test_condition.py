from __future__ import annotations

from tests.building import BARE, evaluate

from drybuild.checks.verdicts import State
from drybuild.tables.condition import zones

SURVEY = "build: a\nsurvey:\n  zones:\n"


def all_zones(found: str, judged: str) -> str:
    lines = [f"    {zone}: {{found: {found}, judged: {judged}}}\n" for zone in zones("unitary")]
    return SURVEY + "".join(lines)


def test_damage_is_not_known_before_the_shell_is_blasted() -> None:
    # common practice, no source
    assert evaluate(BARE).verdict("condition.known").state is State.FAILS
    looked = evaluate(all_zones("sound", "looked")).verdict("condition.known")
    assert looked.state is State.FAILS
    assert not looked.rules_out  # advice
    assert evaluate(all_zones("sound", "blasted")).verdict("condition.known").state is State.GOOD


def test_a_rotten_structure_is_said() -> None:
    good = evaluate(all_zones("sound", "probed")).verdict("condition.structure")
    assert good.state is State.GOOD
    bad = evaluate(SURVEY + "    front rail left: {found: replace, judged: probed}\n")
    verdict = bad.verdict("condition.structure")
    assert verdict.state is State.FAILS
    assert "front rail left" in [one.label for one in verdict.judged if one.state is State.FAILS]


def test_a_misspelt_zone_is_a_problem_with_a_hint() -> None:
    found = evaluate(SURVEY + "    fornt rail left: {found: sound}\n")
    assert [problem.code for problem in found.problems] == ["unknown-key"]
    assert "front rail left" in found.problems[0].mend


def test_the_caution_defers() -> None:
    for check in evaluate(BARE).checks.values():
        if check.matter == "condition":
            assert "licensed practice" in check.caution
