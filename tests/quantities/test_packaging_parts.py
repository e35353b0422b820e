"""Usual shapes of single parts, pipes along points, radiators that bring a solid of their own."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from tests.building import evaluate
from tests.quantities.test_packaging import build

from drybuild.checks.verdicts import State
from drybuild.physics.solids.parts import pipe_run
from drybuild.project.load import load
from drybuild.project.packaging_solids import USUAL_PARTS
from drybuild.tables.packaging import part_rows, part_size

RADIATORS = """
  radiator:
    old: {as_is: true}
    thick:
      solid:
        {form: radiator, centre: [260 mm, 0 mm, 300 mm], size: [100 mm, 600 mm, 440 mm],
         doubt: 0 mm}
picks: {engine: four, radiator: thick}
"""


def with_solid(text: str) -> str:
    return build(boxes=f"boxes: {{}}\n    solids: {{part: {text}}}")


@pytest.mark.parametrize("form", USUAL_PARTS)
def test_a_usual_part_fills_its_box_and_no_more(form: str) -> None:
    found = evaluate(
        with_solid(
            f"{{form: {form}, centre: [900 mm, 100 mm, 50 mm], size: [200 mm, 160 mm, 120 mm]}}"
        )
    )
    assert not found.problems
    solid = next(one for one in found.result("bay_scene").value.fixed if one.name == "part")
    assert solid.typical
    points = np.concatenate([one.nominal for one in solid.pieces])
    middle, half = np.array((0.9, 0.1, 0.05)), np.array((0.2, 0.16, 0.12)) / 2.0
    low, high = (points.min(axis=0) - middle) / half, (points.max(axis=0) - middle) / half
    # prisms of twelve corners stand out of their circles by 3.5 % of a radius at most
    assert (low <= -1.0 + 1e-9).all()
    assert (high >= 1.0 - 1e-9).all()
    assert (low >= -1.036).all()
    assert (high <= 1.036).all()


@pytest.mark.parametrize("form", USUAL_PARTS)
def test_every_usual_part_has_pieces_and_a_typical_size(form: str) -> None:
    assert part_rows(form)
    for side in ("length", "width", "height"):
        size = part_size(form, side)
        assert 0.0 < size.low < size.value < size.high


def test_a_part_without_a_size_has_a_typical_one_with_its_spread() -> None:
    found = evaluate(with_solid("{form: battery, centre: [0 mm, 500 mm, 350 mm]}"))
    gap = found.samples_of("bay_clearance", "part")
    # typical battery: 175 mm wide; the engine's left side at 280 mm
    assert gap[0] == pytest.approx(0.500 - 0.0875 - 0.280)
    assert np.std(gap[1:]) > 0.002
    assert "car.bay.solids.part.size[1]" in found.evaluation.readings


def test_a_turned_part_turns_about_its_middle() -> None:
    text = "{form: servo, centre: [0 mm, 600 mm, 400 mm], size: [300 mm, 200 mm, 200 mm], %s}"
    straight = evaluate(with_solid(text % "yaw: 0 deg")).value("bay_clearance", "part")
    across = evaluate(with_solid(text % "yaw: 90 deg")).value("bay_clearance", "part")
    # its shell's face stands half its length from the middle
    assert across == pytest.approx(0.600 - 0.150 - 0.280, abs=1e-6)
    assert straight == pytest.approx(
        0.600 - 0.100 / np.cos(np.pi / 12) * np.cos(np.pi / 12) - 0.280
    )


# Closed form: a straight pipe's volume; prism of 12 corners round the circle: 12 tan(pi/12) r².
def test_a_pipe_run_follows_its_points() -> None:
    points = np.array([(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 0.5, 0.0)])
    first, second = pipe_run(name="pipe", points=points, diameter=0.06)
    assert first.nominal[:, 0].min() == pytest.approx(-0.03)
    assert first.nominal[:, 0].max() == pytest.approx(1.03)
    assert second.nominal[:, 1].max() == pytest.approx(0.53)
    assert np.ptp(first.nominal[:, 2]) == pytest.approx(0.06 / np.cos(np.pi / 12), rel=0.04)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{form: pipe run, corners: [0 mm, 0 mm], diameter: 10 mm}", "two points or more"),
        ("{form: pipe run, corners: [0 mm, 0 mm, 0 mm, 9 mm, 0 mm, 0 mm]}", "diameter"),
        ("{form: alternator}", "centre"),
    ],
)
def test_what_a_part_lacks_is_told(text: str, told: str) -> None:
    found = evaluate(with_solid(text))
    assert any(told in one.wrong + one.mend for one in found.problems)


def test_a_radiator_with_a_solid_is_tried_against_the_engine() -> None:
    text = build().replace("picks: {engine: four}\n", RADIATORS.lstrip("\n"))
    found = evaluate(text)
    assert not found.problems
    # rear face at 260 - 50 mm, the nose at 120 mm
    assert found.value("radiator_clearance", "picked radiator") == pytest.approx(0.210 - 0.120)
    assert found.verdict("packaging.radiator").state is State.GOOD
    near = evaluate(text.replace("260 mm, 0 mm", "180 mm, 0 mm"))
    assert near.verdict("packaging.radiator").state is State.FAILS


def test_a_radiator_without_a_solid_is_not_asked_about() -> None:
    assert evaluate(build()).verdict("packaging.radiator").senseless


def test_a_radiators_solid_that_lacks_something_is_told(tmp_path: Path) -> None:
    text = build().replace("picks: {engine: four}\n", RADIATORS.lstrip("\n"))
    (tmp_path / "build.yaml").write_text(
        text.replace("centre: [260 mm, 0 mm, 300 mm], ", ""), encoding="utf-8"
    )
    (problem,) = load(tmp_path).problems
    assert problem.field == "options.radiator.thick.solid"
    assert "centre" in problem.wrong


def test_a_separate_part_is_no_part_of_the_engines_size() -> None:
    parts = (
        "{parts: {pipe: {form: pipe run, kind: hot, separate: true, diameter: 50 mm, "
        "corners: [100 mm, 250 mm, -50 mm, -900 mm, 150 mm, -150 mm]}}, length: 580 mm"
    )
    found = evaluate(build().replace("{length: 580 mm", parts))
    assert not found.problems
    assert found.value("engine_length") == pytest.approx(0.580)
    assert "pipe to left rail" in found.result("bay_clearance").value
