"""Small linear programmes against HiGHS, as SciPy has it."""

import numpy as np
import pytest
from scipy.optimize import linprog

from drybuild.errors import InputError
from drybuild.physics.placement.programme import maximised


@pytest.mark.parametrize("seed", range(12))
def test_the_most_is_that_of_highs(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count, unknowns = int(rng.integers(1, 120)), int(rng.integers(1, 24))
    rows, gains = rng.normal(size=(count, unknowns)), rng.normal(size=unknowns)
    bounds, most = rng.uniform(0.0, 1.0, count), rng.uniform(0.0, 1.0, unknowns)
    if seed % 3 == 0:  # whole numbers, many of them nothing: several ends of a step at once
        rows, gains, bounds, most = rows.round(), gains.round(), bounds.round(), most.round(1)
    found = maximised(gains=gains, rows=rows, bounds=bounds, most=most)
    known = linprog(-gains, A_ub=rows, b_ub=bounds, bounds=[(0.0, one) for one in most])
    assert gains @ found == pytest.approx(-known.fun, abs=1e-8)
    assert np.all(rows @ found <= bounds + 1e-9)
    assert np.all((found >= -1e-12) & (found <= most + 1e-12))


def test_steps_that_come_round_again_are_left() -> None:
    # E. M. L. Beale's programme, on which the plain rule goes in a circle for ever; its most is
    # 1/20 at (1/25, 0, 1, 0) (Chvátal 1983, ch. 3; from memory; HiGHS agrees).
    gains = np.array([0.75, -150.0, 0.02, -6.0])
    rows = np.array([[0.25, -60.0, -0.04, 9.0], [0.5, -90.0, -0.02, 3.0], [0.0, 0.0, 1.0, 0.0]])
    bounds = np.array([0.0, 0.0, 1.0])
    found = maximised(gains=gains, rows=rows, bounds=bounds, most=np.full(4, np.inf))
    assert found == pytest.approx([0.04, 0.0, 1.0, 0.0])
    known = linprog(-gains, A_ub=rows, b_ub=bounds)
    assert gains @ found == pytest.approx(-known.fun)


def test_a_gain_without_end_is_refused() -> None:
    with pytest.raises(InputError, match="bounded"):
        maximised(
            gains=np.ones(1), rows=-np.ones((1, 1)), bounds=np.ones(1), most=np.full(1, np.inf)
        )
