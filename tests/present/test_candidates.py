from __future__ import annotations

import json

import numpy as np
import pytest
from click.testing import CliRunner
from tests.building import BARE

from drybuild.cli import main
from drybuild.present.candidates import compared
from drybuild.session import Session

CAR = f"""{BARE}brief:
  must: [wheel_diameter <= 14 in]
options:
  wheels:
    steel: {{as_is: true, diameter: 13 in, width: 5 in}}
    alloy: {{diameter: 15 in, width: 6 in}}
  front_suspension:
    original: {{as_is: true, layout: strut, wheel_rate: 18 ± 1 N/mm, roll_centre_height: 70 mm}}
    kit:
      layout: double wishbone
      camber_gain: 15 deg/m
      least_wheel_diameter: 15 in
      bump_travel: 60 mm
      droop_travel: 60 mm
    measured:
      layout: sliding pillar
      bump_travel: 50 mm
      droop_travel: 50 mm
      points:
        wheel_centre: [0 mm, 650 mm, 300 mm]
        pillar_lower: [10 mm, 580 mm, 200 mm]
        pillar_upper: [-20 mm, 560 mm, 550 mm]
        tie_inner: [-140 mm, 300 mm, 310 mm]
        tie_outer: [-140 mm, 550 mm, 300 mm]
picks: {{front_suspension: original, wheels: steel}}
"""


@pytest.fixture
def folder(tmp_path):  # type: ignore[no-untyped-def]  # pytest's own path
    (tmp_path / "build.yaml").write_text(CAR, encoding="utf-8")
    return tmp_path


def test_each_candidate_stands_in_the_build_with_its_spread(folder) -> None:  # type: ignore[no-untyped-def]
    session = Session.open(folder, 200)
    assert not session.problems
    found = compared(session.evaluation, session.checks, "front_suspension")
    original, kit, measured = found.candidates
    assert original.picked
    assert original.as_is
    rate = original.values("wheel_rate", "front")[""]
    assert rate[0] == pytest.approx(18e3)
    assert np.quantile(rate, 0.95) == pytest.approx(19e3, rel=0.01)
    # The sheet's gain is a straight line; without one there is no line at all.
    camber = kit.curves["camber"]
    slope = np.diff(camber.nominal) / np.diff(camber.travel)
    assert np.degrees(slope) == pytest.approx(-15.0)
    assert "camber" not in original.curves
    assert not camber.from_points
    solved = measured.curves["toe_in"]
    assert solved.from_points
    assert (solved.low <= solved.high).all()
    assert np.ptp(solved.nominal) > 0.0


def test_a_kit_that_no_wheels_suit_is_explained(folder) -> None:  # type: ignore[no-untyped-def]
    session = Session.open(folder, 100)
    found = compared(session.evaluation, session.checks, "front_suspension")
    original, kit, measured = found.candidates
    assert "15 in or larger" in kit.conflict
    assert 'keeps out "alloy"' in kit.conflict
    assert 'too small for it: "steel"' in kit.conflict
    assert "wheel_diameter <= 14 in" in kit.conflict
    assert not original.conflict
    assert not measured.conflict
    assert "wheels.least-diameter-front-suspension" in [one.check.id for one in kit.fails]


def test_the_command_says_the_same_as_json(folder) -> None:  # type: ignore[no-untyped-def]
    run = CliRunner().invoke(main, ["compare", str(folder), "--json", "--samples", "100"])
    assert run.exit_code == 0, run.output
    found = json.loads(run.output)
    kit = found["candidates"][1]
    assert kit["name"] == "kit"
    assert "15 in" in kit["conflict"]
    assert found["candidates"][0]["figures"]["wheel_rate"]["values"]["value"]["value"] == 18000.0
    text = CliRunner().invoke(main, ["compare", str(folder), "--samples", "100"])
    assert "No wheels of this build go with it" in text.output.replace("\n", " ")


def test_a_build_without_candidates_says_what_to_write(tmp_path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "build.yaml").write_text(BARE, encoding="utf-8")
    run = CliRunner().invoke(main, ["compare", str(tmp_path), "--system", "dampers"])
    assert run.exit_code == 0
    assert "dampers" in run.output


def test_springs_to_order_as_words_and_json(folder) -> None:  # type: ignore[no-untyped-def]
    text = CliRunner().invoke(main, ["springs", str(folder), "--samples", "100"])
    assert text.exit_code == 0, text.output
    assert "To order: front" in text.output
    run = CliRunner().invoke(main, ["springs", str(folder), "--samples", "100", "--json"])
    found = json.loads(run.output)
    speeds, forces = found["damper_curves"]["speed"], found["damper_curves"]["force"]["front"]
    assert len(speeds) == len(forces)
    assert forces[0][0] < 0.0 < forces[-1][0]
    assert found["figures"]["wanted_wheel_rate"]["values"]["front"]["value"] > 0.0
