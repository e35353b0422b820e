"""Look-ups in curves against numpy's own interpolation, sample by sample."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.sampled import between, blend, last_zero, look_up, position, resample

RNG = np.random.default_rng(7)
SAMPLES = 5
ALONG = np.sort(RNG.uniform(0.0, 10.0, (9, SAMPLES)), axis=0)
VALUES = RNG.normal(0.0, 1.0, (9, SAMPLES))


def test_look_up_is_numpys_interpolation_on_an_even_grid() -> None:
    share = RNG.uniform(0.0, 1.0, (20, SAMPLES))
    found = look_up(table=VALUES, share=share)
    grid = np.linspace(0.0, 1.0, 9)
    for one in range(SAMPLES):
        assert found[:, one] == pytest.approx(np.interp(share[:, one], grid, VALUES[:, one]))


def test_look_up_holds_the_ends() -> None:
    share = np.array([[-0.5] * SAMPLES, [1.5] * SAMPLES])
    assert look_up(table=VALUES, share=share) == pytest.approx(VALUES[[0, -1]])


def test_position_and_blend_are_look_up_in_two_steps() -> None:
    share = RNG.uniform(0.0, 1.0, (4, SAMPLES))
    below, weight = position(share=share, points=9)
    assert blend(table=VALUES, below=below, weight=weight) == pytest.approx(
        look_up(table=VALUES, share=share)
    )


def test_resample_is_numpys_interpolation_on_any_grid() -> None:
    even = np.sort(RNG.uniform(-1.0, 11.0, (15, SAMPLES)), axis=0)
    found = resample(even=even, along=ALONG, values=VALUES)
    for one in range(SAMPLES):
        wanted = np.interp(even[:, one], ALONG[:, one], VALUES[:, one])
        assert found[:, one] == pytest.approx(wanted)


def test_between_knows_nothing_outside() -> None:
    middle = (ALONG[3] + ALONG[4]) / 2.0
    found = between(along=ALONG, values=VALUES, wanted=middle)
    assert found == pytest.approx((VALUES[3] + VALUES[4]) / 2.0)
    assert np.isnan(between(along=ALONG, values=VALUES, wanted=ALONG[-1] + 1.0)).all()
    assert np.isnan(between(along=ALONG, values=VALUES, wanted=ALONG[0] - 1.0)).all()


def test_last_zero_of_a_straight_line_is_its_root() -> None:
    along = np.linspace(0.0, 10.0, 11)[:, None] + np.zeros(3)
    roots = np.array([2.5, 7.0, 20.0])
    found = last_zero(along=along, surplus=roots - along)
    assert found[:2] == pytest.approx(roots[:2])
    assert found[2] == 10.0  # never short: the end of the curve


def test_a_surplus_that_never_is_has_no_zero() -> None:
    along = np.linspace(0.0, 1.0, 5)[:, None]
    assert np.isnan(last_zero(along=along, surplus=-1.0 - along)).all()
