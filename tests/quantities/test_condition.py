from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.physics.condition import Discovery
from drybuild.project.body import KINDS

SURVEY = "build: a test car\ncar: {body: {kind: unitary}}\nsurvey:\n  %s\n"


@pytest.mark.parametrize("kind", KINDS)
def test_a_bare_build_of_any_kind_has_odds_and_hours(kind: str) -> None:
    found = evaluate(BARE.replace("unitary", kind))
    assert found.value("rust_repair_hours") > 0.0
    assert found.value("rust_repair_cost") > 0.0
    assert found.value("rust_sheet_area") > 0.0
    zones = found.result("rust_replace_odds").labelled()
    assert len(zones) >= 30
    for name in zones:
        total = sum(found.value(f"rust_{grade}_odds", name) for grade in ("sound", "patch"))
        assert total + found.value("rust_replace_odds", name) == pytest.approx(1.0)


def test_a_worse_life_costs_more_hours() -> None:
    kind = evaluate(SURVEY % "climate: dry\n  storage: garage\n  repairs: known good")
    usual = evaluate(BARE)
    hard = evaluate(SURVEY % "climate: salted roads\n  storage: field\n  repairs: covered up")
    hours = [one.value("rust_repair_hours") for one in (kind, usual, hard)]
    assert hours[0] < 0.5 * hours[1] < hours[1] < 0.7 * hours[2]


def test_a_rotten_sill_darkens_its_neighbours_and_the_whole_body() -> None:
    usual = evaluate(BARE)
    seen = evaluate(SURVEY % "zones: {inner sill left: {found: replace, judged: probed}}")
    assert seen.value("rust_replace_odds", "inner sill left") > 0.6
    for zone in ("inner sill right", "outer sill left", "roof skin"):
        assert seen.value("rust_replace_odds", zone) > usual.value("rust_replace_odds", zone)
    near = seen.value("rust_replace_odds", "inner sill right") - usual.value(
        "rust_replace_odds", "inner sill right"
    )
    far = seen.value("rust_replace_odds", "inner rear arch right") - usual.value(
        "rust_replace_odds", "inner rear arch right"
    )
    assert near > far > 0.0
    assert seen.value("rust_factor") > 0.0


def test_a_wet_scuttle_means_wet_floors() -> None:
    usual = evaluate(BARE)
    wet = evaluate(SURVEY % "zones: {scuttle: {found: replace, judged: blasted}}")
    floor = "front floor left"
    assert wet.value("rust_replace_odds", floor) > 1.3 * usual.value("rust_replace_odds", floor)


def test_blasting_settles_what_a_look_leaves_open() -> None:
    text = SURVEY % "zones: {outer sill left: {found: sound, judged: %s}}"
    looked, blasted = evaluate(text % "looked"), evaluate(text % "blasted")
    zone = "outer sill left"
    assert blasted.value("rust_sound_odds", zone) > 0.95
    assert looked.value("rust_sound_odds", zone) < 0.7
    assert blasted.value("rust_doubt", zone) < looked.value("rust_doubt", zone)


def test_looking_without_a_finding_changes_nothing() -> None:
    silent = evaluate(SURVEY % "zones: {outer sill left: {judged: blasted}}")
    zone = "outer sill left"
    assert silent.value("rust_sound_odds", zone) == evaluate(BARE).value("rust_sound_odds", zone)


def test_samples_are_whole_bodies_round_the_expectation() -> None:
    found = evaluate(BARE, samples=4000)
    hours = found.samples_of("rust_repair_hours")
    pace = found.value("rust_repair_hours") / 1.7
    drawn = hours[1:].mean()
    assert drawn == pytest.approx(pace * 1.74, rel=0.1)
    replaced = found.samples_of("rust_zones_replaced")
    assert replaced[1:].mean() == pytest.approx(replaced[0], rel=0.05)
    assert replaced[1:].std() > 2 * np.sqrt(replaced[0])  # common causes: far wider than chance


def test_discoveries_are_ready_for_the_plan() -> None:
    text = SURVEY % "strip_job: take it apart\n  blast_job: blast the shell"
    found = evaluate(text).result("discoveries").value
    assert all(isinstance(one, Discovery) for one in found)
    by_name = {one.name: one for one in found}
    assert by_name["front rail left"].revealed_by == "blast the shell"
    assert by_name["outer sill left"].revealed_by == "take it apart"
    sill = by_name["outer sill left"]
    assert sill.hours["sound"] == (0.0, 0.0, 0.0)
    assert sill.hours["replace"] == pytest.approx((12 * 1.7, 16 * 1.7, 24 * 1.7))
    assert sill.cost["replace"][1] == pytest.approx(0.6 * 160 + 7 * 16 * 1.7)
    assert "Licensed practice" in sill.caution


def test_what_was_seen_loosens_the_common_causes() -> None:
    seen = (
        "zones: {scuttle: {found: replace, judged: blasted}, "
        "roof skin: {found: sound, judged: blasted}}"
    )
    before = {one.name: one for one in evaluate(BARE).result("discoveries").value}
    after = {one.name: one for one in evaluate(SURVEY % seen).result("discoveries").value}
    zone = "front floor left"
    assert after[zone].loading < before[zone].loading
    assert after[zone].link_loading < before[zone].link_loading


def test_probing_counts_as_known() -> None:
    assert evaluate(BARE).value("unprobed_share") == 1.0
    one = evaluate(SURVEY % "zones: {scuttle: {found: sound, judged: probed}}")
    assert one.value("unprobed_share") == pytest.approx(1.0 - 1.0 / 60.0)


def test_only_carrying_zones_are_structural() -> None:
    names = evaluate(BARE).result("rust_structural_odds").labelled()
    assert "front rail left" in names
    assert "roof skin" not in names


def test_a_gauge_settles_a_zone_and_darkens_its_link() -> None:
    text = SURVEY % "zones: {inner sill left: {thickness: %s}}"
    thin, whole = evaluate(text % "0.55 ± 0.05 mm"), evaluate(text % "1.18 ± 0.05 mm")
    usual = evaluate(BARE)
    zone, near = "inner sill left", "inner sill right"
    assert thin.value("rust_replace_odds", zone) > 0.8
    assert whole.value("rust_sound_odds", zone) > 0.8
    assert thin.value("rust_replace_odds", near) > usual.value("rust_replace_odds", near)
    assert thin.value("unprobed_share") == pytest.approx(1.0 - 1.0 / 60.0)


def test_a_gauge_and_its_owners_word_count_once() -> None:
    gauge = "zones: {inner sill left: {thickness: 0.55 mm%s}}"
    alone = evaluate(SURVEY % (gauge % ""))
    worded = evaluate(SURVEY % (gauge % ", found: replace, judged: measured"))
    zone = "inner sill left"
    assert worded.value("rust_replace_odds", zone) == alone.value("rust_replace_odds", zone)


def test_an_open_body_has_a_hood_and_no_roof() -> None:
    text = "build: a\ncar: {body: {kind: %s, shape: roadster}}\n"
    for kind in ("unitary", "ladder"):
        names = evaluate(text % kind).result("rust_replace_odds").labelled()
        assert "hood well" in names
        assert "roof skin" not in names


def test_sheet_and_weld_go_with_the_zones() -> None:
    found = evaluate(SURVEY % "zones: {front floor left: {found: replace, judged: blasted}}")
    usual = evaluate(BARE)
    for name in ("rust_sheet_mass", "rust_weld_length"):
        assert found.value(name) > usual.value(name) > 0.0


def test_a_zone_that_this_body_has_not_is_a_problem_with_its_line() -> None:
    text = "build: a\ncar: {body: {kind: unitary, shape: roadster}}\nsurvey:\n  zones:\n"
    found = evaluate(text + "    roof skin: {found: patch}\n    hood well: {found: patch}\n")
    (problem,) = found.problems
    assert problem.code == "reference-unknown"
    assert problem.line == 5
    assert "a unitary roadster body has no zone" in problem.wrong
    opens = evaluate(BARE + "jobs: {cut: {hours: 1 h, opens: [frame rail front left]}}\n")
    assert [one.code for one in opens.problems] == ["reference-unknown"]
