"""One finding moves stiffness, cost and finish in one step, and what moved is said."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest

from drybuild.present.what_moved import moved_figures
from drybuild.quantities.graph import Result
from drybuild.session import Session

ESTATE = Path(__file__).parents[2] / "examples" / "estate"
FIGURES = ("shell_state_torsion", "rust_repair_cost", "total_cost", "finish_date")
FOUND = "outer sill left: {found: replace, judged: tapped}"


def told(folder: Path, finding: str) -> tuple[Session, dict[str, Result]]:
    shutil.copytree(ESTATE, folder)
    survey = folder / "survey.yaml"
    text = survey.read_text(encoding="utf-8")
    assert FOUND in text
    survey.write_text(text.replace(FOUND, finding), encoding="utf-8")
    session = Session.open(folder, 400)
    return session, {name: session.evaluation.result(name) for name in FIGURES}


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Session, dict[str, Result], Session,
                                                           dict[str, Result]]:  # fmt: skip
    base = tmp_path_factory.mktemp("finding")
    sound = "outer sill left: {found: sound, judged: blasted}"
    rotten = "outer sill left: {found: replace, judged: blasted}"
    return *told(base / "sound", sound), *told(base / "rotten", rotten)


def test_a_rotten_sill_is_softer_dearer_and_later(both) -> None:
    _, sound, _, rotten = both

    def mean(results: dict[str, Result], name: str, label: str = "") -> float:
        return float(np.nanmean(results[name].labelled()[label][1:]))

    assert mean(rotten, "shell_state_torsion", "as found") < mean(
        sound, "shell_state_torsion", "as found"
    )
    for name in FIGURES[1:]:
        assert mean(rotten, name) > mean(sound, name), name


def test_what_moved_names_all_three(both) -> None:
    _, sound, session, rotten = both
    moved = {one.name for one in moved_figures(sound, rotten, session.build)}
    assert {"rust_repair_cost", "finish_date", "shell_state_torsion"} <= moved


def test_the_repair_order_moves_with_it(both) -> None:
    before, _, after, _ = both
    lists = [one.evaluation.result("repair_list").value for one in (before, after)]
    assert "outer sill left" not in lists[0].repairs
    assert lists[1].repairs["outer sill left"].grade == "replace"
