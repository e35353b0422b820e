"""Verdicts: the four states, labels, must lines, where the doubt comes from."""

from __future__ import annotations

from types import ModuleType
from typing import Any

import numpy as np
import pytest
from tests.building import evaluate

from drybuild.checks.check import Check
from drybuild.checks.verdicts import State, doubt_shares, judge
from drybuild.project.readings import Origin, Reading
from drybuild.quantities.graph import Evaluation, Graph
from drybuild.quantities.quantity import quantity


def evaluation_of(values: Any, unit: str = "m") -> Evaluation:  # an array, or arrays by label
    def one(brief: Any) -> Any:
        return values

    made = quantity(unit, "a length", source="definition")(one)
    made.function.__module__ = "room"
    module = ModuleType("room")
    module.one = made  # type: ignore[attr-defined]  # a made-up module
    return Evaluation(Graph((module,)), evaluate().build, 1000)


def spread(nominal: float, sd: float) -> Any:  # an array
    drawn = np.random.default_rng(1).normal(nominal, sd, 1000)
    return np.concatenate(([nominal], drawn))


CHECK = Check(id="room.one", asks="Is it long enough?", quantity="one", at_least="1 m", mend="-")


@pytest.mark.parametrize(
    ("nominal", "state"),
    [
        (1.30, State.GOOD),
        (1.12, State.TIGHT),
        (1.02, State.OPEN),
        (0.85, State.FAILS),
    ],
)
def test_states_follow_the_share_of_samples_that_hold(nominal: float, state: State) -> None:
    assert judge(CHECK, evaluation_of(spread(nominal, 0.1))).state is state


def test_a_margin_inside_the_band_is_tight_however_sure() -> None:
    check = Check(
        id="room.one",
        asks="?",
        quantity="one",
        at_least="1 m",
        band="5 mm",
        mend="-",
    )
    assert judge(check, evaluation_of(spread(1.003, 1e-6))).state is State.TIGHT


def test_the_worst_label_decides_and_the_rest_are_listed() -> None:
    values = {"front": spread(2.0, 0.01), "rear": spread(0.5, 0.01)}
    verdict = judge(CHECK, evaluation_of(values))
    assert verdict.state is State.FAILS
    assert [one.label for one in verdict.judged] == ["rear", "front"]


def test_a_sample_without_a_solution_never_helps() -> None:
    values = spread(2.0, 0.01)
    values[1:] = np.nan
    assert judge(CHECK, evaluation_of(values)).state is State.FAILS


def test_a_band_takes_the_nearer_side() -> None:
    check = Check(id="room.one", asks="?", quantity="one", at_least="1 m", at_most="2 m", mend="-")
    worst = judge(check, evaluation_of(spread(1.9, 0.01))).worst
    assert worst is not None
    assert worst.margin == pytest.approx(0.1)
    assert worst.limit == pytest.approx(2.0)


def test_the_doubt_of_a_sum_is_shared_by_its_variances() -> None:
    """Var(3a + 4b) = 9 + 16: shares 0.36 and 0.64 exactly (Saltelli et al. 2008, ch. 1)."""
    evaluation = evaluation_of(spread(1.0, 0.1))
    for path in ("a", "b"):
        evaluation.readings[path] = Reading(
            value=0.0, low=-1.6449, high=1.6449, origin=Origin.MEASURED, text="", unit=""
        )
    total = 3.0 * evaluation.drawn("a") + 4.0 * evaluation.drawn("b")
    shares = {one.path: one.share for one in doubt_shares(total, frozenset({"a", "b"}), evaluation)}
    assert shares["b"] == pytest.approx(0.64, abs=0.04)
    assert shares["a"] == pytest.approx(0.36, abs=0.04)


def test_a_label_that_is_not_there_is_said_to_be_missing() -> None:
    check = Check(id="room.one", asks="?", quantity="one", at_least="1 m", label="middle", mend="-")
    verdict = judge(check, evaluation_of({"front": spread(2.0, 0.01)}))
    assert verdict.state is State.OPEN
    assert "front" in verdict.missing[0].why
