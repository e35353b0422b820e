"""Where a function passes zero: against closed forms, at a jump, and without a crossing."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.crossing import crossing


def test_roots_of_powers_are_met_sample_by_sample() -> None:
    wanted = np.linspace(0.5, 30.0, 11)
    found = crossing(
        function=lambda place: place**3 - wanted,
        low=np.zeros(11),
        high=np.full(11, 4.0),
        tolerance=1e-10,
    )
    assert found == pytest.approx(np.cbrt(wanted), rel=1e-12)


def test_a_falling_function_is_met_as_well() -> None:
    found = crossing(
        function=lambda place: 2.0 - np.exp(place),
        low=np.zeros(1),
        high=np.full(1, 5.0),
        tolerance=1e-10,
    )
    assert found == pytest.approx(np.log(2.0), rel=1e-12)


def test_a_jump_through_zero_is_found() -> None:
    found = crossing(
        function=lambda place: np.where(place < 0.3, -1.0, 2.0),
        low=np.zeros(2),
        high=np.full(2, 5.0),
        tolerance=1e-8,
    )
    assert found == pytest.approx(0.3, abs=1e-7)


def test_without_a_crossing_the_far_end_is_given_and_the_others_are_met() -> None:
    found = crossing(
        function=lambda place: place - np.array([2.0, 9.0, np.nan]),
        low=np.zeros(3),
        high=np.full(3, 5.0),
        tolerance=1e-9,
    )
    assert found == pytest.approx([2.0, 5.0, np.nan], nan_ok=True)
