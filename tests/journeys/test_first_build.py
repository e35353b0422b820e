"""A build from nothing, as the tutorial walks it: new, check, set, pick, undo, options, plan."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drybuild.cli import main


def run(*words: str, code: int = 0) -> Result:
    """Run a command and insist on its exit code."""
    result = CliRunner().invoke(main, list(words), catch_exceptions=False)
    assert result.exit_code == code, result.output
    return result


@pytest.fixture(params=["unitary", "ladder", "backbone"])
def started(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A fresh starter of each kind."""
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", request.param)
    return folder


def test_a_starter_computes_at_once(started: Path) -> None:
    found = json.loads(run("quantities", str(started), "--json", "--samples", "200").output)
    assert not found["problems"]
    assert found["quantities"]["kerb_mass"]["value"] > 400.0
    assert "good" in run("check", str(started), "--samples", "200").output


def test_a_measurement_settles_what_hung_on_it(started: Path) -> None:
    def doubt() -> float:
        found = json.loads(run("quantities", str(started), "--json", "--samples", "200").output)
        mass = found["quantities"]["kerb_mass"]
        return float(mass["high"]) - float(mass["low"])

    before = doubt()
    run("set", str(started), "car.mass.front_axle", "545 ± 5 kg", "--why", "weighed")
    run("set", str(started), "car.mass.rear_axle", "505 ± 5 kg")
    assert doubt() < before / 4.0


def test_pick_undo_and_redo_change_one_entry_only(tmp_path: Path) -> None:
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", "unitary")
    file = folder / "build.yaml"
    before = file.read_text(encoding="utf-8")
    told = run("pick", str(folder), "engine", "later two litre").output
    after = file.read_text(encoding="utf-8")
    assert "later two litre" in told
    changed = [
        (old, new)
        for old, new in zip(before.splitlines(), after.splitlines(), strict=True)
        if old != new
    ]
    assert len(changed) == 1
    run("undo", str(folder))
    assert file.read_text(encoding="utf-8") == before
    run("redo", str(folder))
    assert file.read_text(encoding="utf-8") == after


def test_an_edit_that_would_not_read_changes_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", "unitary")
    before = (folder / "build.yaml").read_bytes()
    told = run("set", str(folder), "car.body.wheelbase", "2540 kg", code=2).output
    assert "car.body.wheelbase" in told
    assert "Nothing was saved" in told
    assert (folder / "build.yaml").read_bytes() == before


def test_options_plan_and_next_steps_answer_on_a_starter(tmp_path: Path) -> None:
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", "unitary")
    options = json.loads(run("options", str(folder), "--json", "--samples", "200").output)
    assert options["complete_builds"] > 0
    trial = run("options", str(folder), "--pick", "engine=later two litre", "--samples", "200")
    assert "complete build" in trial.output
    plan = json.loads(run("schedule", str(folder), "--json", "--runs", "200").output)
    assert plan["cost"]["p50"] <= plan["cost"]["p80"]
    steps = json.loads(run("next", str(folder), "--json", "--samples", "200").output)
    assert steps["steps"]


def test_a_verdict_explains_itself(tmp_path: Path) -> None:
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", "unitary")
    told = run("check", str(folder), "--why", "brakes.pedal-force", "--samples", "200").output
    for words in ("wanted", "Limit from", "How it was found", "What helps", "Caution"):
        assert words in told


def test_an_unknown_check_is_answered_with_the_known_ones(tmp_path: Path) -> None:
    folder = tmp_path / "my-car"
    run("new", str(folder), "--kind", "unitary")
    told = run("check", str(folder), "--why", "no.such", "--samples", "100", code=1).output
    assert "brakes.pedal-force" in told
