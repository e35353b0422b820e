"""Box distances against an optimiser that knows nothing of boxes, and the trade's clearances."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from drybuild.physics.solids.clearance import clearances
from drybuild.physics.solids.scene import Pose, Scene
from drybuild.physics.solids.shapes import Solid, box_piece
from drybuild.tables.packaging import needed_clearance


@pytest.mark.parametrize("seed", range(12))
def test_gaps_agree_with_bounded_least_squares(seed: int) -> None:
    # Shortest distance of two boxes as min |p − q|², p and q within bounds: scipy lsq_linear.
    rng = np.random.default_rng(seed)
    low = rng.uniform(-1.0, 1.0, (2, 3))
    high = low + rng.uniform(0.1, 0.8, (2, 3))
    solved = lsq_linear(
        np.hstack([np.eye(3), -np.eye(3)]), np.zeros(3), bounds=(low.ravel(), high.ravel())
    )
    engine, wall = (
        Solid(name=name, pieces=(box_piece(name=name, low=list(lo), high=list(hi)),))
        for name, lo, hi in zip(("engine", "wall"), low, high, strict=True)
    )
    gap = clearances(scene=Scene(moving=(engine,), fixed=(wall,)), pose=Pose())["wall"].gap
    apart = np.sqrt(2.0 * solved.cost)
    assert max(gap, 0.0) == pytest.approx(apart, abs=1e-6)


def test_clearances_of_the_trade() -> None:
    # Trade articles on engine swaps: 15 mm to fixed parts, 15 mm rock to each side.
    assert needed_clearance("fixed") == pytest.approx(0.015)
    assert needed_clearance("rock") == pytest.approx(0.015)
    # common practice, no source: 20-25 mm under the bonnet, 130-150 mm above the road.
    assert 0.020 <= needed_clearance("bonnet") <= 0.025
    assert 0.130 <= needed_clearance("ground") <= 0.150
