import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.next_steps.value import (
    best_now,
    partial_information,
    perfect_information,
    sample_information,
    shares_of_doubt,
    two_actions,
    unit_normal_loss,
)

PAYOFFS = [[-70.0, 50.0, 200.0], [0.0, 0.0, 0.0]]
ODDS = [0.5, 0.3, 0.2]


def test_a_test_that_says_nothing_is_worth_nothing_and_a_sure_one_all() -> None:
    blank = np.full((3, 2), 0.5)
    assert sample_information(PAYOFFS, ODDS, blank) == pytest.approx(0.0)
    sure = sample_information(PAYOFFS, ODDS, np.eye(3))
    assert sure == pytest.approx(perfect_information(PAYOFFS, ODDS))


def test_findings_must_sum_to_one() -> None:
    with pytest.raises(InputError, match="likelihood"):
        sample_information(PAYOFFS, ODDS, np.full((3, 2), 0.4))


def test_one_decision_leaves_nothing_to_learn() -> None:
    assert perfect_information([[1.0, 2.0, 3.0]], ODDS) == pytest.approx(0.0)
    assert best_now([[1.0, 2.0, 3.0]], ODDS) == pytest.approx(1.7)


def test_a_perfect_measurement_is_worth_perfect_information() -> None:
    found = two_actions(gain=3.0, gain_sd=2.0, error_sd=0.0)
    assert found.measured == pytest.approx(found.perfect)
    assert two_actions(gain=3.0, gain_sd=0.0, error_sd=1.0).perfect == 0.0
    with pytest.raises(InputError):
        two_actions(gain=1.0, gain_sd=-1.0, error_sd=1.0)


def test_the_normal_worth_agrees_with_drawing_it() -> None:
    rng = np.random.default_rng(1)
    gain = rng.normal(4.0, 10.0, 400_000)
    assert two_actions(gain=4.0, gain_sd=10.0, error_sd=5.0).perfect == pytest.approx(
        np.maximum(gain, 0.0).mean() - 4.0, rel=0.02
    )


def test_the_loss_is_steep_below_and_flat_above() -> None:
    assert unit_normal_loss(-8.0) == pytest.approx(8.0)
    assert unit_normal_loss(8.0) == pytest.approx(0.0, abs=1e-12)


def test_an_unrelated_input_is_worth_nothing() -> None:
    rng = np.random.default_rng(2)
    gain = rng.normal(1.0, 5.0, 5000)
    worths = np.array([gain, np.zeros(5000)])
    noise = rng.normal(size=5000)
    # Without the shuffled figure taken off it would be about 0.05.
    assert partial_information(worths, noise) < 0.06


def test_the_runs_give_what_the_normal_formula_gives() -> None:
    rng = np.random.default_rng(3)
    x, rest = rng.normal(0.0, 6.0, 50_000), rng.normal(0.0, 8.0, 50_000)
    gain = 4.0 + x + rest
    worths = np.array([gain, np.zeros_like(gain)])
    exact = 6.0 * unit_normal_loss(4.0 / 6.0)
    assert partial_information(worths, x, bins=40) == pytest.approx(exact, rel=0.06)


def test_shares_of_doubt_are_those_of_a_sum_of_independent_parts() -> None:
    rng = np.random.default_rng(4)
    parts = {name: rng.normal(0.0, sd, 8000) for name, sd in (("a", 3.0), ("b", 1.0), ("c", 0.0))}
    found = shares_of_doubt(sum(parts.values(), np.zeros(8000)), parts)
    assert found["a"] == pytest.approx(0.9, abs=0.03)
    assert found["b"] == pytest.approx(0.1, abs=0.03)
    assert found["c"] == 0.0
    assert list(found) == ["a", "b", "c"]


def test_a_curved_relation_is_seen_where_correlation_is_blind() -> None:
    x = np.random.default_rng(5).normal(size=8000)
    assert shares_of_doubt(x**2, {"x": x}, bins=100)["x"] > 0.9
    assert abs(np.corrcoef(x, x**2)[0, 1]) < 0.1


def test_samples_without_a_solution_are_left_out() -> None:
    x = np.random.default_rng(6).normal(size=1000)
    y = np.where(x > 2.0, np.nan, x)
    assert shares_of_doubt(y, {"x": x})["x"] > 0.95
    assert shares_of_doubt(np.full(9, np.nan), {"x": np.arange(9.0)}) == {"x": 0.0}
