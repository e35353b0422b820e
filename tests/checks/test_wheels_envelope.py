"""The arch as tape and scan tell it: verdicts, places, and what a wrong entry says."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import trimesh
from click.testing import CliRunner
from tests.building import evaluate

from drybuild.cli import main
from drybuild.present.verdict_texts import failing_words
from drybuild.project.load import load
from drybuild.quantities.all import graph
from drybuild.quantities.graph import Evaluation

CAR = """
build: an invented car
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1360 mm, rear_track: 1360 mm}
  mass: {front_axle: 500 kg, rear_axle: 480 kg}
  arches:
    offset: 30 mm
    section_width: 165 mm
    outside_diameter: 594 mm
ARCH
options:
  wheels: {own: {as_is: true, diameter: 13 in, width: 4.5 in, offset: 30 mm}}
  tyres: {own: {as_is: true, size: 165/80R13 83S}}
  rear_suspension: {own: {as_is: true, layout: trailing arm, bump_travel: 80 mm,
                          droop_travel: 80 mm, camber_gain: 0 deg/m, camber: 0 deg,
                          roll_centre_height: 0 mm}}
"""
REAR = """
    rear:
      stations:
        ahead: {angle: 20 deg, lip: 400 mm, outer: OUT mm, inner: 540 mm}
        top: {angle: 90 deg, lip: 400 mm, outer: OUT mm, inner: 540 mm}
        behind: {angle: 160 deg, lip: 400 mm, outer: OUT mm, inner: 540 mm}
"""


def car(arch: str) -> str:
    return CAR.replace("ARCH", arch)


def test_a_wall_beside_the_tyre_is_as_far_as_the_tape_says() -> None:
    # 1360/2 + 165/2 = 762.5 mm is the tyre's outer side; straight travel keeps it there.
    build = evaluate(car(REAR.replace("OUT", "780").replace("lip: 400", "lip: 300")))
    assert not build.problems
    assert build.value("rear_tyre_clearance", "wing") == pytest.approx(0.0175, abs=2e-4)
    assert build.value("rear_tyre_clearance", "guard") == pytest.approx(0.0575, abs=2e-4)
    assert str(build.verdict("wheels.rear-envelope").state) in ("good", "tight")


def test_a_lip_that_the_tyre_meets_fails() -> None:
    build = evaluate(car(REAR.replace("OUT", "755").replace("lip: 400", "lip: 330")))
    assert str(build.verdict("wheels.rear-envelope").state) == "fails"
    gaps = {one.name: one for one in build.result("rear_envelope").value["rear"]}
    assert gaps["lip"].travel > 0.0


def test_the_front_is_not_asked_where_its_arch_is_not_measured() -> None:
    build = evaluate(car(REAR.replace("OUT", "780")))
    assert build.verdict("wheels.front-envelope").senseless
    assert build.value("wheel_inner_clearance", "front") > 0.0


def test_a_bare_build_is_not_asked_and_still_finds_a_tyre() -> None:
    build = evaluate()
    assert build.verdict("wheels.rear-envelope").senseless
    found = build.result("widest_tyres").value
    assert found.plain.clear["front"]


def test_a_longer_travel_brings_the_tyre_nearer_to_the_ceiling() -> None:
    text = car(REAR.replace("OUT", "800").replace("inner: 540", "inner: 560 mm, ceiling: 420"))
    near = evaluate(text).value("rear_tyre_clearance", "ceiling")
    lower = evaluate(text.replace("bump_travel: 80", "bump_travel: 60"))
    # The tread's edge under a round ceiling: nearly all of the 20 mm.
    assert lower.value("rear_tyre_clearance", "ceiling") - near == pytest.approx(0.02, abs=2e-3)


def test_what_moves_with_the_wheel_keeps_its_distance() -> None:
    beside = """
    rear:
      beside:
        strut: {follows: wheel, start: [0 mm, 560 mm, 100 mm], end: [0 mm, 560 mm, 260 mm],
                diameter: 40 mm}
"""
    found = evaluate(car(beside)).value("rear_tyre_clearance", "strut")
    assert found == pytest.approx(0.680 - 0.0825 - 0.580, abs=2e-3)


def test_a_scan_gives_what_the_same_wall_gives_by_tape(tmp_path: Path) -> None:
    wall = trimesh.creation.box(extents=(900.0, 2.0, 500.0))
    # The scan's own axes: x backward, z up, in millimetres, its origin at the wheel's centre.
    wall.apply_translation((0.0, -(780.0 - 680.0) - 1.0, 100.0))
    wall.export(tmp_path / "arch.stl")
    scan = """
    rear:
      scan: {file: arch.stl, unit: mm, centre: [0 mm, 0 mm, 0 mm], ahead: -x, up: +z,
             error: 0 ± 1 mm}
"""
    (tmp_path / "build.yaml").write_text(car(scan), encoding="utf-8")
    build = load(tmp_path)
    assert not build.problems
    result = Evaluation(graph(), build, 50).result("rear_tyre_clearance")
    assert not result.open, result.missing
    assert result.labelled()["scan"][0] == pytest.approx(0.0175, abs=5e-4)


def test_a_scan_that_is_not_there_leaves_the_question_open() -> None:
    scan = "    rear: {scan: {file: no.stl, centre: [0 mm, 0 mm, 0 mm]}}"
    verdict = evaluate(car(scan)).verdict("wheels.rear-envelope")
    assert verdict.missing
    assert "no.stl" in verdict.missing[0].why


def test_outlines_of_barrel_and_caliper_replace_the_drop_centre() -> None:
    text = car("").replace(
        "offset: 30 mm}}",
        "offset: 30 mm, barrel: [[0 mm, 150 mm], [30 mm, 160 mm], [90 mm, 160 mm]]}}\n"
        "  front_brakes: {own: {kind: disc, rotor_diameter: 230 mm, "
        "caliper_outline: [[35 mm, 150 mm], [70 mm, 150 mm]]}}",
    )
    build = evaluate(text)
    assert not build.problems
    assert build.value("rotor_clearance", "front") == pytest.approx(0.010, abs=1e-4)
    assert np.isfinite(build.value("rotor_outline_gain", "front"))


def test_an_outline_that_goes_back_is_refused_with_the_way_to_write_it() -> None:
    text = car("").replace(
        "offset: 30 mm}}", "offset: 30 mm, barrel: [[9 mm, 1 mm], [3 mm, 1 mm]]}}"
    )
    problem = evaluate(text).problems[0]
    assert problem.field.endswith("barrel")
    assert "rising" in problem.mend


def test_the_command_tells_sizes_in_words_and_in_json(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(car(REAR.replace("OUT", "780")), encoding="utf-8")
    run = CliRunner().invoke(main, ["widest", str(tmp_path), "--samples", "60"])
    assert run.exit_code == 0, run.output
    assert "any rim" in run.output
    told = CliRunner().invoke(main, ["widest", str(tmp_path), "--samples", "60", "--json"])
    assert '"change": "any rim and offset"' in told.output


def test_a_kit_that_needs_larger_wheels_says_so_as_a_person_would() -> None:
    text = car("").replace(
        "  rear_suspension:",
        "  front_suspension: {kit: {layout: double wishbone, least_wheel_diameter: 17 in}}\n"
        "  rear_suspension:",
    )
    build = evaluate("brief: {must: [wheel_diameter <= 12 in]}\n" + text)
    kit = failing_words(build.verdict("wheels.least-diameter-front-suspension"), build.evaluation)
    assert kit.startswith("the front suspension needs wheels of ≥ 17 in, these are front: 13 in")
    brief = failing_words(build.verdict("must.1"), build.evaluation)
    assert brief.startswith("the brief keeps nominal diameter of the wheel at ≤ 12 in")


def test_gaps_by_tape_alone_still_tell_what_a_longer_stop_buys() -> None:
    # The gap above was taken at full bump, so a stop 10 mm longer is 10 mm more of it.
    found = evaluate(car("")).result("widest_tyres").value
    row = found.row("bump stop 10 mm longer")
    assert row is not None
    assert 0.0 <= max(row.air.values()) <= 0.010 + 1e-9
    assert found.row("lip rolled") is None  # how deep its fold is nobody measured


def test_what_stood_there_with_another_layout_is_gone() -> None:
    beside = """
    rear:
      beside:
        rod: {follows: body, start: [0 mm, 560 mm, 100 mm], end: [0 mm, 560 mm, 260 mm],
              diameter: 40 mm}
        leaf: {follows: half way, layout: live axle on leaf springs, start: [0 mm, 560 mm, 100 mm],
               end: [0 mm, 560 mm, 260 mm], diameter: 40 mm}
"""
    found = evaluate(car(beside)).result("rear_tyre_clearance")
    assert set(found.labelled()) == {"rod"}


def test_packing_moves_the_wheel_against_its_arch() -> None:
    text = car(REAR.replace("OUT", "800").replace("inner: 540", "inner: 560 mm, ceiling: 420"))
    packed = text.replace("bump_travel: 80 mm", "bump_travel: 80 mm, packing: 20 mm")
    near = evaluate(text).value("rear_tyre_clearance", "ceiling")
    away = evaluate(packed)
    assert not away.problems
    rise = away.value("adjusted_height", "rear")
    assert rise > 0.015  # the spring's seat over the motion ratio
    assert away.value("rear_tyre_clearance", "ceiling") - near == pytest.approx(rise, abs=3e-3)


def test_spokes_stand_clear_of_the_caliper_by_their_own_outline() -> None:
    text = car("").replace(
        "offset: 30 mm}}",
        "offset: 30 mm, spokes: [[80 mm, 0 mm], [160 mm, 16 mm]]}}\n"
        "  front_brakes: {own: {kind: disc, rotor_diameter: 230 mm, "
        "caliper_outline: [[-2 mm, 120 mm], [60 mm, 120 mm]]}}",
    )
    build = evaluate(text)
    assert not build.problems
    assert build.value("spoke_clearance", "front") == pytest.approx(0.006, abs=1e-4)  # 8 - 2
    assert str(build.verdict("wheels.spoke-clearance").state) == "good"
    assert evaluate(car("")).verdict("wheels.spoke-clearance").senseless
