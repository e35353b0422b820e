from itertools import pairwise

import numpy as np
import pytest

from drybuild.planning.estimates import ThreePoint
from drybuild.planning.network import (
    all_before,
    classic_pert,
    critical_path,
    early_finishes,
    tails,
)
from drybuild.project.succession import circle, order

DIAMOND = {"a": (), "b": ("a",), "c": ("a",), "d": ("b", "c")}


def test_a_diamond_by_hand() -> None:
    found = critical_path({"a": 1.0, "b": 5.0, "c": 2.0, "d": 1.0}, DIAMOND, {"c": 1.0})
    assert found.length == 7.0
    assert found.critical == ("a", "b", "d")
    assert found.timings["c"].slack == 2.0
    assert found.timings["c"].late_start == 3.0


def test_a_lag_can_be_what_is_critical() -> None:
    found = critical_path({"a": 1.0, "b": 5.0, "c": 2.0, "d": 1.0}, DIAMOND, {"c": 7.0})
    assert found.critical == ("a", "c", "d")
    assert found.length == 11.0


def test_a_last_lag_counts() -> None:
    assert critical_path({"a": 2.0}, {"a": ()}, {"a": 3.0}).length == 5.0


def test_an_empty_network_has_no_length() -> None:
    assert critical_path({}, {}).length == 0.0


def test_many_runs_at_once_are_many_single_runs() -> None:
    drawn = np.random.default_rng(0).uniform(1.0, 5.0, (4, 20))
    rows = dict(zip(DIAMOND, drawn, strict=True))
    together = early_finishes(rows, DIAMOND)["d"]
    for run in range(20):
        one = critical_path({name: float(row[run]) for name, row in rows.items()}, DIAMOND)
        assert together[run] == pytest.approx(one.length)


def test_a_circle_is_named_in_order() -> None:
    after = {"x": (), "a": ("c", "x"), "b": ("a",), "c": ("b",), "d": ("c",)}
    found = circle(after)
    assert found[0] == found[-1]
    assert set(found) == {"a", "b", "c"}
    for before, behind in pairwise(found):
        assert before in after[behind]
    assert circle(DIAMOND) == ()
    assert circle({"a": ("a",)}) == ("a", "a")
    assert set(order(after)) == {"x"}


def test_the_tail_is_the_longest_way_out() -> None:
    found = tails({"a": 1.0, "b": 5.0, "c": 2.0, "d": 1.0}, DIAMOND, {"c": 7.0})
    assert found == {"d": 1.0, "b": 6.0, "c": 10.0, "a": 11.0}


def test_everything_before_a_job() -> None:
    assert all_before("d", DIAMOND) == {"a", "b", "c"}


def test_of_two_critical_paths_the_less_certain_counts() -> None:
    figures = {
        "a": ThreePoint(1.0, 1.0, 1.0),
        "b": ThreePoint(1.0, 4.0, 7.0),
        "c": ThreePoint(4.0, 4.0, 4.0),
        "d": ThreePoint(1.0, 1.0, 1.0),
    }
    assert classic_pert(figures, DIAMOND).variance == pytest.approx(1.0)
