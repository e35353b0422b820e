"""Options and jobs under another name."""

from __future__ import annotations

import pytest

from drybuild.errors import SaveError
from drybuild.project.history import redo, undo
from drybuild.project.load import load
from drybuild.project.rename import rename

MAIN = """\
build: An invented car
options:
  engine:
    original: {as_is: true}
    larger: {mass: 150 kg}   # keep this
  gearbox:
    five-speed: {mass: 34 kg, needs: {engine: [larger, original]}}
picks: {engine: larger}
"""
JOBS = """\
jobs:
  strip it: {hours: 4 h}
  weld it:
    hours: 9 h   # and this
    after: [strip it]
"""


@pytest.fixture
def place(tmp_path):
    (tmp_path / "build.yaml").write_text(MAIN, encoding="utf-8")
    (tmp_path / "jobs.yaml").write_text(JOBS, encoding="utf-8")
    return tmp_path


def test_an_option_is_renamed_wherever_it_is_named(place) -> None:
    assert rename(place, ("options", "engine", "larger"), "the big one: 2 litre") == ()
    text = (place / "build.yaml").read_text("utf-8")
    assert text == MAIN.replace("larger", '"the big one: 2 litre"') or "'the big one" in text
    build = load(place)
    assert build.picks["engine"] == "the big one: 2 litre"
    assert not build.problems
    assert "# keep this" in text
    undo(place)
    assert (place / "build.yaml").read_text("utf-8") == MAIN


def test_a_job_is_renamed_in_what_comes_after_it(place) -> None:
    assert rename(place, ("jobs", "strip it"), "take it apart") == ()
    assert (place / "jobs.yaml").read_text("utf-8") == JOBS.replace("strip it", "take it apart")


def test_a_name_that_is_taken_or_missing_is_refused(place) -> None:
    with pytest.raises(SaveError, match="already"):
        rename(place, ("options", "engine", "larger"), "original")
    with pytest.raises(SaveError, match="no jobs"):
        rename(place, ("jobs", "paint it"), "spray it")
    assert (place / "build.yaml").read_text("utf-8") == MAIN


def test_a_rename_in_two_files_is_taken_back_at_once(place) -> None:
    work = "work:\n  fit_after: strip it\n"
    (place / "work.yaml").write_text(work, encoding="utf-8")
    assert rename(place, ("jobs", "strip it"), "take it apart") == ()
    assert "take it apart" in (place / "work.yaml").read_text("utf-8")
    undo(place)
    assert (place / "work.yaml").read_text("utf-8") == work
    assert (place / "jobs.yaml").read_text("utf-8") == JOBS
    redo(place)
    assert "strip it" not in (place / "jobs.yaml").read_text("utf-8")
    assert "strip it" not in (place / "work.yaml").read_text("utf-8")
