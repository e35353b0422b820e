"""Samples of readings."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import at_shares, draw, normal_scores


def reading(
    low: float, value: float, high: float, least: float | None = None, most: float | None = None
) -> Reading:
    return Reading(
        value=value,
        low=low,
        high=high,
        origin=Origin.MEASURED,
        text="",
        unit="",
        least=least,
        most=most,
    )


@pytest.mark.parametrize(
    "one", [reading(9.0, 10.0, 11.0), reading(9.5, 10.0, 12.0), reading(2.0, 10.0, 30.0)]
)
def test_the_bounds_are_the_5_and_95_percent_points(one: Reading) -> None:
    drawn = draw(one, "a", 4000)[1:]
    found = np.quantile(drawn, (0.05, 0.5, 0.95))
    assert found == pytest.approx((one.low, one.value, one.high), rel=5e-3)


def test_the_first_is_the_nominal_value() -> None:
    assert draw(reading(1.0, 2.0, 9.0), "a", 10)[0] == 2.0


def test_the_same_path_draws_the_same_samples_and_others_are_independent() -> None:
    one = reading(9.0, 10.0, 11.0)
    assert np.array_equal(draw(one, "car.mass", 500), draw(one, "car.mass", 500))
    other = np.corrcoef(normal_scores("car.mass", 2000), normal_scores("car.body", 2000))[0, 1]
    assert abs(other) < 0.08


def test_samples_keep_to_the_bounds_of_the_field_without_piling_up() -> None:
    drawn = draw(reading(0.6, 0.9, 1.2, least=0.0, most=1.0), "a", 2000)[1:]
    assert drawn.max() <= 1.0
    assert np.mean(drawn == drawn.max()) < 0.02


def test_wide_positive_readings_stay_positive() -> None:
    assert draw(reading(1.0, 10.0, 100.0), "a", 5000).min() > 0.0


SHARES = (0.0, 0.05, 0.5, 0.95, 1.0)


@pytest.mark.parametrize("size", [1, 2, 3, 7, 20, 21, 120, 2000])
@pytest.mark.parametrize("scale", [1e-9, 1.0, 1e9])
def test_shares_agree_with_numpy_to_the_last_bit(size: int, scale: float) -> None:
    # numpy.quantile, its default method: linear between ranks.
    drawn = np.random.default_rng(size).normal(size=size) * scale
    assert at_shares(drawn, *SHARES) == np.quantile(drawn, SHARES).tolist()


def test_samples_that_are_alike_and_those_given_stay_as_they_are() -> None:
    drawn = np.array([3.0, 1.0, 1.0, 1.0, 2.0])
    kept = drawn.copy()
    assert at_shares(drawn, 0.05, 0.95) == np.quantile(drawn, (0.05, 0.95)).tolist()
    assert (drawn == kept).all()
