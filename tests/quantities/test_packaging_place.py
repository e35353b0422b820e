"""Places of the engine through the build file: found, refused, altered, told with their doubt."""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np
import pytest
from tests.building import BARE, Evaluated, evaluate
from tests.quantities.test_packaging import build

from drybuild.checks.verdicts import State
from drybuild.next_steps.placing import to_measure, where_to_measure
from drybuild.options.chooser import Chooser
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Question
from drybuild.physics.placement.search import Found
from drybuild.present.verdict_texts import failing_words
from drybuild.project.load import load
from drybuild.project.packaging_moved import moved_entries
from drybuild.quantities import packaging_place
from drybuild.quantities.packaging_place import EnginePlace, file_place
from drybuild.quantities.packaging_place_search import Placement, placement_of


def cramped(*, keep: str = "", alters: str = "", more: str = "") -> str:
    """Return the test car under a bonnet that is far too low."""
    low = build(rock="10 mm").replace("height: 600 mm", "height: 430 mm")
    low = low.replace("height: 700 mm", "height: 470 mm")
    low = low.replace("    engines:\n", f"    {more}\n    engines:\n") if more else low
    brief = f"brief: {{keep: [{keep}]}}\n" if keep else ""
    changes = f", alters: [{alters}]" if alters else ""
    return brief + low.replace("four: {mass: 130 kg}", f"four: {{mass: 130 kg{changes}}}")


def placed(found: Evaluated) -> Placement:
    placement = placement_of(found.evaluation, maps=False)
    assert not isinstance(placement, str), placement
    return placement


def test_only_a_measured_engine_is_asked_about() -> None:
    assert evaluate(BARE).verdict("packaging.place").senseless
    unmeasured = build().replace("options:\n  engine:\n", "options:\n  engine:\n    other: {}\n")
    other = unmeasured.replace("picks: {engine: four}", "picks: {engine: other}")
    assert evaluate(other).verdict("packaging.place").senseless


def test_an_engine_with_room_stays_in_its_place() -> None:
    found = evaluate(build(rock="10 mm"))
    place: EnginePlace = found.result("best_engine_place").value
    assert found.verdict("packaging.place").state is State.GOOD
    assert not place.moved


def test_an_engine_that_was_put_wrongly_finds_its_place() -> None:
    wrong = build(rock="10 mm").replace("nose: 120 mm", "nose: 40 mm")
    found = evaluate(wrong)
    assert found.verdict("packaging.bay").state is State.FAILS
    assert found.verdict("packaging.place").state is State.GOOD
    place: EnginePlace = found.result("best_engine_place").value
    assert place.found.spot.at[0] > place.found.question.start[0] + 0.02


def test_without_any_place_the_reason_is_told_in_words() -> None:
    found = evaluate(cramped(keep="bonnet, tunnel"))
    verdict = found.verdict("packaging.place")
    assert verdict.state is State.FAILS
    words = failing_words(verdict, found.evaluation)
    assert words.startswith("wherever it sits, room is lacking: ")
    assert " to bonnet: −" in words
    assert "the brief keeps bonnet and tunnel" in words


def test_what_the_option_alters_itself_is_made_to_suit() -> None:
    found = evaluate(cramped(alters="bonnet"))
    assert found.verdict("packaging.place").state is State.GOOD
    assert placed(found).made_to_suit == ("bonnet",)


def test_the_least_to_alter_is_told_and_proven() -> None:
    placement = placed(evaluate(cramped()))
    assert placement.ways is not None
    assert placement.ways_against is None
    way = placement.ways.ways[0]
    assert way.found.fits
    assert "bonnet bulge" in {one.name for one in way.alterations}
    costs = [one.cost for one in placement.ways.ways]
    assert costs == sorted(costs)


def test_what_the_brief_keeps_is_only_altered_against_it() -> None:
    placement = placed(evaluate(cramped(keep="bonnet")))
    assert placement.ways is not None
    assert not placement.ways.ways
    assert placement.ways_against is not None
    names = {one.name for one in placement.ways_against.ways[0].alterations}
    assert "bonnet bulge" in names


def test_own_prices_and_refusals_count() -> None:
    own = "placing: {alterations: {bonnet bulge: {never: true}}}"
    placement = placed(evaluate(cramped(more=own)))
    assert placement.ways is not None
    named = {one.name for way in placement.ways.ways for one in way.alterations}
    assert "bonnet bulge" not in named


def test_places_are_kept_by_content(monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = build(rock="10 mm").replace("nose: 120 mm", "nose: 35 mm")
    first: EnginePlace = evaluate(wrong).result("best_engine_place").value

    def refuse(*, question: Question, near: Near) -> Found:
        raise AssertionError("searched again")

    monkeypatch.setattr(packaging_place, "best_place", refuse)
    again: EnginePlace = evaluate(wrong).result("best_engine_place").value
    assert again.found.spot.at == pytest.approx(first.found.spot.at)
    with pytest.raises(AssertionError, match="searched again"):
        evaluate(wrong.replace("bulkhead: -520", "bulkhead: -519")).result("best_engine_place")


def engine_with(package: str) -> str:
    text = build(rock="10 mm").replace("bell_height: 180 mm,", f"bell_height: 180 mm, {package},")
    return text.replace("{length: 580 mm", "{form: inline four, length: 580 mm")


def test_a_package_that_is_taken_brings_its_own_solids() -> None:
    box = "{form: box, centre: [300 mm, 0 mm, 800 mm], size: [50 mm, 50 mm, 50 mm]}"
    package = f"packages: {{tall filter: {{taken: true, parts: {{air filter: {box}}}}}}}"
    with_it = evaluate(engine_with(package))
    without = evaluate(engine_with(package.replace("true", "false")))
    assert not with_it.problems
    assert with_it.verdict("packaging.bonnet").state is State.FAILS
    assert without.value("bonnet_clearance") > with_it.value("bonnet_clearance")


def test_a_package_goes_for_the_pieces_that_it_replaces() -> None:
    package = "packages: {remote filter: {taken: true, instead_of: [oil filter]}}"
    found = evaluate(engine_with(package))
    names = {
        piece.name for one in found.result("placed_engine").value.solids for piece in one.pieces
    }
    assert "oil filter" not in names
    assert "alternator" in names


@pytest.mark.parametrize(
    ("entry", "field", "wrong"),
    [
        ("packages: {x: {instead_of: [oil filtre]}}", "packages.x.instead_of", "oil filtre"),
        ("packages: {x: {parts: {y: {form: box}}}}", "packages.x.parts.y", "centre and size"),
    ],
)
def test_errors_of_packages_are_located(entry: str, field: str, wrong: str) -> None:
    (problem,) = evaluate(engine_with(entry)).problems
    assert problem.field.endswith(field)
    assert wrong in problem.wrong
    assert problem.line > 0
    assert problem.mend


@pytest.mark.parametrize(
    ("entry", "field"),
    [
        ("placing: {drawn: {filter: {of: oil filtre, along: [0, 0, -1], way: 60 mm}}}", "of"),
        ("placing: {drawn: {filter: {of: oil filter}}}", "filter"),
        ("placing: {alterations: {bonnet blge: {never: true}}}", "bonnet blge"),
    ],
)
def test_errors_of_placing_are_located(entry: str, field: str) -> None:
    text = build().replace("    engines:\n", f"    {entry}\n    engines:\n")
    text = text.replace("{length: 580 mm", "{form: inline four, length: 580 mm")
    (problem,) = evaluate(text).problems
    assert problem.field.rpartition(".")[2] == field
    assert problem.line > 0


def test_room_to_draw_a_part_out_holds_the_place() -> None:
    room = "placing: {drawn: {starter: {of: starter motor, along: [1, 0, 0], way: 400 mm}}}"
    text = engine_with("lean: 0 deg").replace("    engines:\n", f"    {room}\n    engines:\n")
    found = evaluate(text)
    assert not found.problems
    placement = placed(found)
    assert any("starter" in name for name in placement.gaps)


def test_a_place_reads_back_from_the_file() -> None:
    text = build(rock="10 mm").replace("nose: 120 mm", "nose: 40 ± 4 mm")
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "build.yaml").write_text(text, encoding="utf-8")
        loaded = load(Path(folder))
    found = Evaluated(loaded, 100)
    placement = placed(found)
    length = float(found.result("engine_size").value[0])
    entries = moved_entries(loaded, "four", file_place(placement.found.spot.at, length))
    nose = str(entries["car.bay.engines.four.nose"])
    assert nose.endswith("± 4 mm")
    changed = text.replace("40 ± 4 mm", nose)
    for entry in ("crank_height", "crank_offset", "nose_up"):
        typed = entries.get(f"car.bay.engines.four.{entry}")
        old = {"crank_height": "170 mm", "crank_offset": "0 mm", "nose_up": "0 deg"}[entry]
        changed = changed.replace(f"{entry}: {old}", f"{entry}: {typed or old}")
    at = evaluate(changed).result("engine_question").value.start
    assert at[:4] == pytest.approx(placement.found.spot.at[:4], abs=2e-4)


def test_one_surer_measurement_settles_an_open_verdict() -> None:
    # The bonnet by eye: it may or may not do. By a card with 2 mm: it does.
    eye = build(rock="10 mm").replace("height: 600 mm", "height: 576 ± 25 mm")
    eye = eye.replace("height: 700 mm", "height: 662 ± 25 mm")
    eye = eye.replace("    engines:\n", "    placing: {up: 1 mm, along: 1 mm}\n    engines:\n")
    doubtful, card = evaluate(eye), evaluate(eye.replace("± 25 mm", "± 2 mm"))
    assert doubtful.verdict("packaging.place").state is State.OPEN
    placement = placed(doubtful)
    first = to_measure(placement, doubtful.evaluation)[0]
    assert first.path == "car.bay.bonnet.front.height"
    assert first.settles > 0.5
    assert "bonnet" in where_to_measure(placement)[0].pair
    assert card.verdict("packaging.place").state is State.GOOD


def test_the_surest_place_is_told_not_the_roomiest() -> None:
    text = build(rock="10 mm").replace("bulkhead: -520 ± 5 mm", "bulkhead: -520 ± 40 mm")
    placement = placed(evaluate(text))
    assert placement.chance >= placement.chance_now
    drawn = placement.margin[1:]
    assert placement.chance <= np.mean(drawn >= 0.0) + 1e-9


def test_an_engine_without_a_place_is_out_of_the_complete_builds_with_the_reason() -> None:
    text = cramped(keep="bonnet, tunnel").replace("picks: {engine: four}\n", "")
    found = evaluate(text)
    place = [found.checks["packaging.place"], found.checks["packaging.bonnet"]]
    chooser = Chooser(found.evaluation, place, failing_words)
    left = chooser.state({})
    assert left.possible["engine"] == ("old",)
    told = " ".join(left.reasons["engine", "four"].sentences())
    assert "wherever it sits, room is lacking" in told
    assert "the brief keeps bonnet and tunnel" in told
