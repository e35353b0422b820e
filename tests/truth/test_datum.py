"""The datum sheet's sums against a surveying textbook, statics, scipy and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import least_squares
from scipy.stats import norm

from drybuild.checks.datum import CHECKS
from drybuild.physics.datum import adjusted, fitted_twist, loose_freedoms, odds_outside, sag

SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
BRACED = [(0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)]


def test_a_trilaterated_station_agrees_with_scipy() -> None:
    # Three stations of C. D. Ghilani, Adjustment Computations, ch. 14 (coordinates as a public
    # course repeats them; lengths from memory; the book's own answer was not at hand).
    fixed = [(865.40, 4527.15), (2432.55, 2047.25), (2865.22, 27.15)]
    lengths = [6049.00, 4736.83, 5446.49]
    found = adjusted(
        start=[*fixed, (6865.0, 3728.0)],
        held=[True, True, True, False],
        pairs=[(0, 3), (1, 3), (2, 3)],
        lengths=lengths,
        spreads=[1.0, 1.0, 1.0],
    )
    assert found.freedom == 1

    # scipy.optimize.least_squares on the same equations as the independent solution
    def left(place: np.ndarray) -> np.ndarray:
        return np.hypot(*(np.array(fixed) - place).T) - lengths

    check = least_squares(left, (6800.0, 3700.0), xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert found.places[3] == pytest.approx(check.x, abs=1e-5)
    assert found.left_over == pytest.approx(check.fun, abs=1e-5)


def test_redundancy_of_a_braced_square_is_its_self_stress() -> None:
    # Statics: the only self-stress of a square with both diagonals is 1 in the sides and -√2 in
    # the diagonals, so each reading's share of the one condition is 1/8 and 1/4 (sum 1).
    lengths = np.hypot(*(SQUARE[[b for _, b in BRACED]] - SQUARE[[a for a, _ in BRACED]]).T)
    found = adjusted(
        start=SQUARE, held=[False] * 4, pairs=BRACED, lengths=lengths, spreads=[1e-3] * 6
    )
    assert found.redundancy == pytest.approx([0.125] * 4 + [0.25] * 2)
    assert found.freedom == 1
    assert found.places == pytest.approx(SQUARE, abs=1e-12)


def test_the_redundancies_sum_to_the_freedom() -> None:
    # Ghilani ch. 21 (from memory): Σ r = number of readings less number of unknowns.
    rng = np.random.default_rng(7)
    points = np.array([[x, y] for x in (0.0, 0.7, 1.9, 2.6) for y in (-0.5, 0.5)])
    pairs = [(i, j) for i in range(8) for j in range(i) if rng.random() < 0.85]
    lengths = np.hypot(*(points[[b for _, b in pairs]] - points[[a for a, _ in pairs]]).T)
    found = adjusted(
        start=points + rng.normal(0.0, 0.02, points.shape),
        held=[False] * 8,
        pairs=pairs,
        lengths=lengths + rng.normal(0.0, 1e-3, len(pairs)),
        spreads=[1e-3] * len(pairs),
    )
    assert found.redundancy.sum() == pytest.approx(len(pairs) - (16 - 3))
    assert found.freedom == len(pairs) - 13
    assert 0.3 < found.variance < 2.5  # chi-squared over its freedom


def test_a_wrong_reading_stands_out_of_the_net() -> None:
    # Baarda's data snooping: the largest misfit is that of the reading which is wrong (10 mm).
    points = np.array([[x, y] for x in (0.0, 0.8, 2.0, 2.8) for y in (-0.5, 0.5)])
    pairs = [(i, j) for i in range(8) for j in range(i)]
    lengths = np.hypot(*(points[[b for _, b in pairs]] - points[[a for a, _ in pairs]]).T)
    rng = np.random.default_rng(11)
    lengths += rng.normal(0.0, 1e-3, len(pairs))
    for wrong in (0, 9, 20):
        typed = lengths.copy()
        typed[wrong] += 0.010
        found = adjusted(
            start=points, held=[False] * 8, pairs=pairs, lengths=typed, spreads=[1e-3] * len(pairs)
        )
        assert int(np.nanargmax(np.abs(found.misfit))) == wrong
        assert abs(found.misfit[wrong]) > 3.29


def test_the_misfit_limit_is_one_in_a_thousand() -> None:
    # scipy.stats.norm: two-sided one in a thousand is 3.29 (Baarda's usual level).
    limit = next(float(one.at_most or 0.0) for one in CHECKS if one.id == "datum.readings")
    assert limit == pytest.approx(norm.ppf(1.0 - 0.0005), abs=5e-3)


def test_the_free_net_agrees_with_scipy() -> None:
    # scipy.optimize.least_squares with three coordinates held: the same lengths, whatever is held.
    rng = np.random.default_rng(3)
    points = np.array([[0.0, 0.5], [0.0, -0.5], [1.5, 0.6], [1.5, -0.6], [2.5, 0.5], [2.5, -0.5]])
    pairs = [(i, j) for i in range(6) for j in range(i)]
    measured = np.hypot(*(points[[b for _, b in pairs]] - points[[a for a, _ in pairs]]).T)
    measured += rng.normal(0.0, 2e-3, len(pairs))

    def left(free: np.ndarray) -> np.ndarray:
        places = np.concatenate([[0.0, 0.5, 0.0], free]).reshape(-1, 2)
        gaps = places[[b for _, b in pairs]] - places[[a for a, _ in pairs]]
        return np.hypot(*gaps.T) - measured

    check = least_squares(left, points.ravel()[3:], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    found = adjusted(
        start=points, held=[False] * 6, pairs=pairs, lengths=measured, spreads=[2e-3] * len(pairs)
    )
    assert found.left_over == pytest.approx(check.fun, abs=1e-8)


def test_a_framework_is_loose_or_not_by_maxwells_count() -> None:
    # J. C. Maxwell 1864: a plane frame of n joints wants 2 n - 3 bars.
    assert loose_freedoms(start=SQUARE, pairs=BRACED[:4]) == 1
    assert loose_freedoms(start=SQUARE, pairs=BRACED[:5]) == 0
    assert loose_freedoms(start=SQUARE, pairs=[]) == 5


def test_twist_is_the_corner_above_the_plane_of_the_other_three() -> None:
    # Plane geometry: heights 0, 0, 0 and h at the front left of a rectangle twist it by h/width,
    # and tilting the stand changes nothing.
    for slope, roll in ((0.0, 0.0), (0.03, -0.02)):
        height = {
            (x, y): slope * x + roll * y + (0.004 if (x, y) == (2.5, 0.5) else 0.0)
            for x in (0.0, 2.5)
            for y in (-0.5, 0.5)
        }
        drop = [height[x, 0.5] - height[x, -0.5] for x in (0.0, 2.5)]
        twist, odd = fitted_twist(
            along=[0.0, 2.5], across=[1.0, 1.0], drop=np.array(drop), spreads=[1e-3, 1e-3]
        )
        assert twist * 1.0 == pytest.approx(0.004)
        assert odd == pytest.approx(0.0, abs=1e-12)


def test_the_twist_line_agrees_with_numpy() -> None:
    # numpy.polyfit as the independent weighted straight line.
    x, across = np.array([0.0, 1.0, 1.7, 2.8]), np.array([1.0, 1.3, 1.3, 0.9])
    drop, spread = np.array([0.001, 0.004, 0.002, 0.007]), np.array([1e-3, 2e-3, 1e-3, 1e-3])
    line = np.polyfit(x, drop / across, 1, w=across / spread)
    twist, odd = fitted_twist(along=x, across=across, drop=drop, spreads=spread)
    assert twist == pytest.approx(line[0] * 2.8)
    assert odd == pytest.approx(drop / across - np.polyval(line, x))


def test_sag_is_measured_from_the_line_of_the_ends() -> None:
    found = sag(along=[0.0, -1.0, -4.0], front=0.100, middle=0.095, rear=0.120)
    assert found == pytest.approx(0.100 + 0.25 * 0.020 - 0.095)


def test_odds_at_the_limit_and_at_a_guard_band() -> None:
    # JCGM 106:2012: on the limit the risk is one half; 1.645 deviations inside it is 5 %, outside
    # it 95 % (normal distribution, limit to one side only in play).
    far = {"spread": 0.5e-3, "allowed": 5e-3}
    assert odds_outside(value=5e-3, **far) == pytest.approx(0.5)
    assert odds_outside(value=5e-3 - 1.645 * 0.5e-3, **far) == pytest.approx(0.05, abs=1e-4)
    assert odds_outside(value=-5e-3 - 1.645 * 0.5e-3, **far) == pytest.approx(0.95, abs=1e-4)
    # scipy.stats.norm where both limits count
    both = norm.sf(2e-3, 1e-3, 2e-3) + norm.cdf(-2e-3, 1e-3, 2e-3)
    assert odds_outside(value=1e-3, spread=2e-3, allowed=2e-3) == pytest.approx(both)
