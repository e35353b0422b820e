from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

from drybuild.checks.verdicts import State
from drybuild.quantities.condition_repair import LIKELY, RepairList

ROTTEN = """build: a
car: {body: {kind: unitary}}
survey: {zones: {inner sill left: {found: replace, judged: probed}, inner sill right:
  {found: replace, judged: probed}, front floor left: {found: patch, judged: blasted}}}
"""


def listed(text: str) -> RepairList:
    found = evaluate(text).result("repair_list").value
    assert isinstance(found, RepairList)
    return found


def test_the_list_holds_what_is_found_or_likely_with_its_metal() -> None:
    found = listed(ROTTEN)
    sill = found.repairs["inner sill left"]
    assert sill.grade == "replace"
    assert sill.mass == pytest.approx(0.5 * 1.2e-3 * 7850.0)
    assert sill.weld == pytest.approx(2.0 * 0.5**0.5 * (6.0**0.5 + 6.0**-0.5))
    assert sill.hours[0] < sill.hours[1] < sill.hours[2]
    assert all(one.chance >= LIKELY for one in found.repairs.values())
    floor = found.repairs["front floor left"]
    assert "inner sill left" in floor.after
    assert any("door opening" in brace for brace in found.braces)


def test_a_sound_body_has_nothing_to_cut() -> None:
    from drybuild.tables.condition import zones  # noqa: PLC0415

    lines = "".join(f"    {z}: {{found: sound, judged: blasted}}\n" for z in zones("unitary"))
    assert listed("build: a\nsurvey:\n  zones:\n" + lines).repairs == {}


def test_the_shell_is_softer_while_it_is_open_and_both_sides_worse_than_one() -> None:
    found = {one.what: one for one in evaluate(ROTTEN).result("open_stiffness").value}
    both = found["both sills"]
    one_side = next(one for one in found.values() if one.zones == ("inner sill left",))
    assert both.bending < one_side.bending < 1.0
    assert one_side.allowed
    assert not both.allowed


def test_jobs_that_cut_together_are_named_with_their_line() -> None:
    jobs = (
        "jobs:\n  strip: {hours: 5 h}\n"
        "  left sill: {hours: 5 h, opens: [inner sill left]%s}\n"
        "  right sill: {hours: 5 h, opens: [inner sill right]%s}\n"
    )
    loose = evaluate(BARE + jobs % ("", ""))
    verdict = loose.verdict("condition.cut-together")
    assert verdict.state is State.FAILS
    told = next(iter(loose.result("rust_cut_together").labelled()))
    assert told == (
        'inner sill left with inner sill right: "left sill" (build.yaml:5) and '
        '"right sill" (build.yaml:6)'
    )
    ordered = evaluate(BARE + jobs % ("", ", after: [left sill]"))
    assert ordered.verdict("condition.cut-together").state is State.GOOD
    assert evaluate(BARE).verdict("condition.cut-together").senseless


def test_a_zone_misspelt_in_a_job_is_a_problem_with_a_hint() -> None:
    found = evaluate(BARE + "jobs:\n  cut: {hours: 5 h, opens: [inner sil left]}\n")
    assert "inner sill left" in found.problems[0].mend


def test_the_plan_closes_one_side_before_it_opens_the_other() -> None:
    plan = evaluate(ROTTEN).result("work_plan").value.plan
    found = {one.name: one for one in plan.discoveries}
    pair = [found[f"repair inner sill {side}"].after for side in ("left", "right")]
    waits = ["repair inner sill right" in pair[0], "repair inner sill left" in pair[1]]
    assert sorted(waits) == [False, True]
