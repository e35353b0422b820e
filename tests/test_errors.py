"""Guards of the physics: what they let through, what they refuse, and in which words."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError, require, require_positive


def test_a_refusal_names_the_input_its_value_and_what_would_do() -> None:
    with pytest.raises(InputError, match=r"bore is 0\.0 m; it must be more than zero"):
        require_positive(bore=(0.0, "m"))


def test_every_sample_counts() -> None:
    require_positive(bore=(np.array([0.01, 0.02]), "m"), mass=(3.0, "kg"))
    with pytest.raises(InputError, match=r"an array from -0\.01 to 0\.02 m"):
        require_positive(bore=(np.array([0.02, -0.01]), "m"))


def test_a_sample_without_a_solution_stays_one() -> None:
    require_positive(speed=(np.array([np.nan, 10.0]), "m/s"))


def test_the_plain_guard_refuses_what_compares_with_nothing() -> None:
    with pytest.raises(InputError, match="speed"):
        require(np.greater(np.nan, 0.0), "speed", np.nan, "m/s", "more than zero")
