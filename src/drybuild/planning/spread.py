"""Distributions through three points: beta-PERT between limits, and one through 10/50/90 %."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from drybuild.planning.estimates import ThreePoint

Array = npt.NDArray[np.float64]
NORMAL = NormalDist()
Z_ONE_IN_TEN = NORMAL.inv_cdf(0.9)
SCORES = np.linspace(-4.5, 4.5, 721)
"""Normal scores at which a beta's quantiles are tabulated; ten thousand runs reach 3.9."""


@dataclass(frozen=True)
class BetaPert:
    """The beta distribution between `low` and `high` with its mode at `likely`.

    Notes
    -----
    α = 1 + 4 (m − a)/(b − a), β = 1 + 4 (b − m)/(b − a); mean (a + 4 m + b)/6; variance
    (μ − a)(b − μ)/7, which is the exact one: the textbook's ((b − a)/6)² is an approximation.

    References
    ----------
    .. [1] Malcolm, Roseboom, Clark and Fazar, "Application of a technique for research and
       development program evaluation", Operations Research 7, 1959, 646-669 (from memory).
    .. [2] Vose, *Risk Analysis*, 3rd ed., the PERT distribution (from memory).

    """

    low: float
    likely: float
    high: float

    @property
    def alpha(self) -> float:
        """The first shape parameter."""
        return 1.0 + 4.0 * (self.likely - self.low) / (self.high - self.low)

    @property
    def beta(self) -> float:
        """The second shape parameter."""
        return 1.0 + 4.0 * (self.high - self.likely) / (self.high - self.low)

    @property
    def mean(self) -> float:
        """The mean."""
        return (self.low + 4.0 * self.likely + self.high) / 6.0

    @property
    def variance(self) -> float:
        """The exact variance."""
        return (self.mean - self.low) * (self.high - self.mean) / 7.0

    def at_scores(self, scores: Array) -> Array:
        """Return the quantiles at the probabilities of some normal scores."""
        shape = _beta_quantiles(self.alpha, self.beta)
        return self.low + (self.high - self.low) * np.interp(scores, SCORES, shape)


@cache
def _beta_quantiles(alpha: float, beta: float) -> Array:
    """Tabulate the quantiles of a beta distribution over `SCORES`.

    With x = sin²θ the density is smooth to both ends, so the trapezoid rule is exact enough.
    """
    theta = np.linspace(0.0, np.pi / 2.0, 2049)
    with np.errstate(divide="ignore"):
        density = np.sin(theta) ** (2.0 * alpha - 1.0) * np.cos(theta) ** (2.0 * beta - 1.0)
    steps = 0.5 * (density[1:] + density[:-1])
    cumulated = np.concatenate([[0.0], np.cumsum(steps)])
    chances = np.array([NORMAL.cdf(score) for score in SCORES])
    quantiles: Array = np.sin(np.interp(chances, cumulated / cumulated[-1], theta)) ** 2
    return quantiles


def through_three(figure: ThreePoint, scores: Array) -> Array:
    """Return quantiles of the positive distribution with these 10, 50 and 90 % points.

    Notes
    -----
    The semi-bounded quantile-parameterised Johnson distribution with lower bound zero. With
    L, B, H the logarithms of the three points, c = Φ⁻¹(0.9), s = min(B − L, H − B),
    n = sgn(L + H − 2 B), δ = sinh(arcosh((H − L)/(2 s)))/c and λ = s/(δ c)::

        Q = θ exp(λ sinh(arsinh(δ z) + arsinh(n c δ)))

    θ is the low point for n = 1 and the high point for n = −1. For n = 0, where the middle is the
    geometric mean of the ends, it is the lognormal of mean B and deviation (H − L)/(2 c).

    References
    ----------
    .. [1] Hadlock and Bickel, "Johnson quantile-parameterized distributions", Decision Analysis
       14(1), 2017, 35-64 (from memory; that it meets the three points is tested).

    """
    low, middle, high = (math.log(p) for p in (figure.low, figure.likely, figure.high))
    c = Z_ONE_IN_TEN
    small = min(middle - low, high - middle)
    ratio = (high - low) / (2.0 * small)
    if ratio < 1.0 + 1e-9:
        return figure.likely * np.exp((high - low) / (2.0 * c) * scores)
    delta = math.sinh(math.acosh(ratio)) / c
    side = 1.0 if low + high > 2.0 * middle else -1.0
    anchor = figure.low if side > 0 else figure.high
    bend = np.sinh(np.arcsinh(delta * scores) + side * math.asinh(c * delta))
    return anchor * np.exp(small / (delta * c) * bend)


def at_scores(figure: ThreePoint, scores: Array) -> Array:
    """Return a figure at normal scores, by the distribution that its three points call for.

    Ends that are one-in-ten points need 0 < low < likely < high; three points that do not have
    that (a zero, or two that are equal) are read as limits.
    """
    if figure.certain:
        return np.full(scores.shape, figure.likely)
    if figure.limits or not 0.0 < figure.low < figure.likely < figure.high:
        return BetaPert(figure.low, figure.likely, figure.high).at_scores(scores)
    return through_three(figure, scores)
