"""What a change moved, and what it did not."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from drybuild.cli import main
from drybuild.present.what_moved import moved_figures, moved_verdicts
from drybuild.project.load import load
from drybuild.project.writing import AsTyped
from drybuild.session import Session, edit

BUILD = (
    "build: a test car\ncar:\n  body: {kind: unitary, wheelbase: 2500 mm}\n"
    "options:\n  shell:\n    left: {as_is: true}\n    rails: {work: connectors, mass: 14 kg}\n"
    "picks: {shell: left}\n"
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "build.yaml").write_text(BUILD, encoding="utf-8")
    return tmp_path


def test_a_finding_moves_stiffness_and_hours_and_no_more(folder: Path) -> None:
    names = ("shell_frame_as_found", "rust_repair_hours", "shell_original_stiffness", "kerb_mass")
    session = Session.open(folder, 400)
    before = {name: session.evaluation.result(name) for name in names}
    edit(folder, "survey.zones.outer sill left.found", AsTyped("replace"))
    after = session.renewed(load(folder))
    moved = moved_figures(
        before,
        {name: after.evaluation.result(name) for name in names},
        after.build,
        {"rust_repair_hours"},
    )
    assert [one.name for one in moved] == ["rust_repair_hours", "shell_frame_as_found"]
    assert all(one.before != one.after for one in moved)


def test_noise_is_no_move(folder: Path) -> None:
    session, other = Session.open(folder, 400), Session.open(folder, 401)
    names = ("shell_frame_torsion", "kerb_mass")
    before, after = (
        {name: one.evaluation.result(name) for name in names} for one in (session, other)
    )
    assert moved_figures(before, after, session.build) == ()


def test_verdicts_that_are_others_are_told(folder: Path) -> None:
    session = Session.open(folder, 200)
    verdicts = {one.check.id: one for one in session.verdicts}
    some = tuple(verdicts.values())[:3]
    assert moved_verdicts(some, some) == ()
    told = moved_verdicts(some, some[1:])
    assert told == ((some[0].check, str(some[0].state), "not asked"),)


def test_the_terminal_says_what_changed(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drybuild.cli.opening.open_session", lambda place: Session.open(place, 60))
    found = CliRunner().invoke(
        main, ["pick", str(folder), "shell", "rails", "--what-changed"], catch_exceptions=False
    )
    assert found.exit_code == 0
    assert "picks.shell: left -> rails" in found.output
    assert "shell_stiffness_ratio" in found.output
    assert "Verdicts" in found.output or "Every verdict stands" in found.output
