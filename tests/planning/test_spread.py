import numpy as np
import pytest
from scipy import stats

from drybuild.planning.estimates import ThreePoint, between, exactly
from drybuild.planning.spread import NORMAL, BetaPert, at_scores, through_three

SCORES = np.array([NORMAL.inv_cdf(p) for p in (0.1, 0.5, 0.9)])


@pytest.mark.parametrize(
    "points", [(8.0, 12.0, 20.0), (1.0, 1.2, 9.0), (1.0, 8.0, 9.0), (40.0, 69.0, 120.0)]
)
def test_one_in_ten_ends_are_met_exactly(points: tuple[float, float, float]) -> None:
    assert through_three(ThreePoint(*points), SCORES) == pytest.approx(points, rel=1e-9)


def test_a_geometric_middle_makes_it_lognormal() -> None:
    scores = np.linspace(-3.0, 3.0, 13)
    figure = between(40.0, 120.0)
    sigma = np.log(3.0) / (2.0 * NORMAL.inv_cdf(0.9))
    lognormal = stats.lognorm.ppf(stats.norm.cdf(scores), sigma, scale=np.sqrt(4800.0))
    assert at_scores(figure, scores) == pytest.approx(lognormal, rel=1e-9)
    near = ThreePoint(40.0, figure.likely * 1.0001, 120.0)
    assert at_scores(near, scores) == pytest.approx(lognormal, rel=1e-3)


def test_it_is_positive_and_rises() -> None:
    drawn = through_three(ThreePoint(5.0, 10.0, 12.0), np.linspace(-4.0, 4.0, 200))
    assert drawn[0] > 0.0
    assert np.all(np.diff(drawn) > 0.0)


@pytest.mark.parametrize("points", [(5.0, 8.0, 14.0), (0.0, 0.0, 1.0), (2.0, 9.0, 9.0)])
def test_beta_quantiles_agree_with_a_statistics_library(points: tuple[float, ...]) -> None:
    pert = BetaPert(*points)
    chances = np.array([0.001, 0.05, 0.2, 0.5, 0.8, 0.95, 0.999])
    library = stats.beta(pert.alpha, pert.beta, pert.low, pert.high - pert.low)
    scores = stats.norm.ppf(chances)
    assert pert.at_scores(scores) == pytest.approx(library.ppf(chances), abs=2e-4 * pert.high)
    assert pert.mean == pytest.approx(library.mean())
    assert pert.variance == pytest.approx(library.var())


def test_ends_that_no_one_in_ten_reading_fits_are_limits() -> None:
    drawn = at_scores(ThreePoint(0.0, 2.0, 10.0), np.linspace(-4.0, 4.0, 100))
    assert drawn.min() >= 0.0
    assert drawn.max() <= 10.0


def test_a_certain_figure_has_no_spread() -> None:
    assert list(at_scores(exactly(3.0), SCORES)) == [3.0, 3.0, 3.0]
