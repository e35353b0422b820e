"""Large steps in between are let go of once nothing needs them, and found again when asked."""

import sys

import numpy as np

from drybuild.project.load import load
from drybuild.quantities.frugal import Frugal, without_large_steps
from drybuild.quantities.graph import Evaluation, Graph
from drybuild.quantities.quantity import quantity, step

asked: list[str] = []


@step("Something large", source="common-practice")
def large():
    asked.append("large")
    return [np.ones(200_000), {"more": np.ones(200_000)}]


@step("Something small", source="common-practice")
def small(large):
    return float(large[0].sum())


@quantity("-", "What came first", source="common-practice")
def first(large):
    return large[0][:3]


@quantity("-", "What came second", source="common-practice")
def second(small):
    return np.array([small])


@quantity("-", "Nobody asks for it", source="common-practice")
def unasked(large):
    return large[0][:1]


def _evaluation(tmp_path):
    (tmp_path / "build.yaml").write_text("build: Ferrin 1500, invented\n", encoding="utf-8")
    asked.clear()
    return Evaluation(Graph((sys.modules[__name__],)), load(tmp_path), 20)


def _kept(evaluation):
    return {key[0] for key in evaluation.memory}


def test_a_large_step_stays_until_all_that_needs_it_is_there(tmp_path):
    evaluation = _evaluation(tmp_path)
    frugal = Frugal(evaluation, ("first", "second"))
    evaluation.result("first")
    frugal.tidy()
    assert _kept(evaluation) == {"large", "first"}  # "small" is still to come
    evaluation.result("second")
    frugal.tidy()
    assert _kept(evaluation) == {"first", "small", "second"}
    assert asked == ["large"]
    assert float(evaluation.result("unasked").value[0]) == 1.0  # found again
    frugal.tidy()
    assert asked == ["large", "large"]
    assert "large" not in _kept(evaluation)


def test_an_evaluation_at_rest_lets_go_of_all_of_them(tmp_path):
    evaluation = _evaluation(tmp_path)
    evaluation.result("second")
    without_large_steps(evaluation)
    assert _kept(evaluation) == {"small", "second"}
