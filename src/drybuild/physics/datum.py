"""A body measured on its datum points: lengths and levels put together by least squares.

More lengths than needed are taken, so that they check each other: what the readings leave over
says which of them does not fit, and how sure the places are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erf

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Pairs = Sequence[tuple[int, int]]

STEPS, STILL = 40, 1e-10
"""Most steps of the solution, and the move at which it stands still. [m]"""
UNCHECKED = 1e-6
"""Redundancy below which no other reading checks a reading. [-]"""


@dataclass(frozen=True, kw_only=True)
class Adjustment:
    """Points put in place by lengths, and how each length fits."""

    places: Array
    """Places in plan, a row a point. [m]"""
    gain: Array
    """How each coordinate (x and y of the first point, then of the next) follows each length."""
    left_over: Array
    """Adjusted length less the reading. [m]"""
    redundancy: Array
    """Share of each reading that the others check, 0 to 1."""
    misfit: Array
    """What is left over, in its own standard deviations; nan where nothing checks the reading."""
    freedom: int
    """Lengths beyond those that are just needed."""
    variance: float
    """Squares of the weighted left-overs over the freedom: near 1 where spreads are told right."""


def adjusted(
    *,
    start: npt.ArrayLike,
    held: npt.ArrayLike,
    pairs: Pairs,
    lengths: npt.ArrayLike,
    spreads: npt.ArrayLike,
) -> Adjustment:
    """Return the places in plan that agree best with more lengths than are needed.

    Parameters
    ----------
    start : array_like
        About where each point lies, a row (x, y) a point. [m]
    held : array_like
        Whether a point stays where it is; none held leaves the whole body free. [-]
    pairs : sequence of tuple
        The two points of each length. [-]
    lengths : array_like
        Measured lengths in plan. [m]
    spreads : array_like
        Standard deviation of each length. [m]

    Returns
    -------
    Adjustment
        Places, and how each reading fits. [m]

    Notes
    -----
    Gauss-Newton on Σ ((d − l)/σ)². Without held points the three freedoms of a plan body stay as
    in `start` (inner constraints: the least move of all coordinates). Left over v = A x − l, with
    cofactors Q = σ² − A N⁺ Aᵀ; redundancy r = Q/σ², misfit w = v/(σ √r).

    References
    ----------
    .. [1] C. D. Ghilani, "Adjustment Computations", 5th ed., 2010, ch. 14 and 21 (from memory).
    .. [2] W. Baarda, "A testing procedure for use in geodetic networks", 1968 (from memory).

    """
    places = np.array(start, dtype=float)
    measured, sigma = np.asarray(lengths, float), np.asarray(spreads, float)
    require(measured > 0.0, "lengths", measured, "m", "more than zero")
    require(sigma > 0.0, "spreads", sigma, "m", "more than zero")
    free = np.repeat(~np.asarray(held, bool), 2)
    ends = np.array(pairs, dtype=np.int64).reshape(-1, 2)
    solver, slopes = np.zeros((places.size, len(measured))), np.zeros((len(measured), places.size))
    for _ in range(STEPS):
        slopes = _slopes(places, ends)
        solver[free] = np.linalg.pinv(slopes[:, free] / sigma[:, None], rcond=1e-9) / sigma
        move = solver @ (measured - _lengths(places, ends))
        places = places + move.reshape(-1, 2)
        if np.abs(move).max(initial=0.0) < STILL:
            break
    else:
        places = np.full_like(places, np.nan)
    left = _lengths(places, ends) - measured
    redundancy = np.clip(1.0 - np.einsum("ij,ji->i", slopes, solver), 0.0, 1.0)
    checked = redundancy > UNCHECKED
    scale = sigma * np.sqrt(np.where(checked, redundancy, 1.0))
    freedom = len(measured) - int(np.linalg.matrix_rank(slopes[:, free], tol=1e-9))
    return Adjustment(
        places=places,
        gain=solver,
        left_over=left,
        redundancy=redundancy,
        misfit=np.where(checked, left / scale, np.nan),
        freedom=freedom,
        variance=float(((left / sigma) ** 2).sum() / freedom) if freedom else float("nan"),
    )


def loose_freedoms(*, start: npt.ArrayLike, pairs: Pairs) -> int:
    """Return how many ways points in plan can still move against each other.

    Parameters
    ----------
    start : array_like
        About where each point lies, a row (x, y) a point. [m]
    pairs : sequence of tuple
        The two points of each length. [-]

    Returns
    -------
    int
        0 where the lengths hold all points together. [-]

    Notes
    -----
    2 n − 3 less the rank of the lengths' slopes.

    References
    ----------
    .. [1] G. Laman, "On graphs and rigidity of plane skeletal structures", 1970 (from memory).

    """
    places = np.asarray(start, float)
    ends = np.array(pairs, dtype=np.int64).reshape(-1, 2)
    rank = int(np.linalg.matrix_rank(_slopes(places, ends), tol=1e-9)) if len(ends) else 0
    return max(0, places.size - 3 - rank)


def fitted_twist(
    *,
    along: npt.ArrayLike,
    across: npt.ArrayLike,
    drop: npt.ArrayLike,
    spreads: npt.ArrayLike,
) -> tuple[Array, Array]:
    """Return how far a body is twisted, whatever the slope of its stand.

    Parameters
    ----------
    along : array_like
        Where each pair of level points lies along the car. [m]
    across : array_like
        Distance between the two points of each pair. [m]
    drop : array_like
        Left height less right height of each pair; last axis = samples. [m]
    spreads : array_like
        Standard deviation of each pair's difference. [m]

    Returns
    -------
    tuple of array
        Twist between the first and the last pair, left side up, and each pair's angle less the
        fitted one. [rad]

    Notes
    -----
    The roll of each pair, drop/across, is fitted by a line over its place, weighted by
    (across/σ)²; the line's constant is the stand. Two pairs fit exactly, three or more leave over
    what a single pair is off.

    References
    ----------
    .. [1] Weighted linear regression; any text on statistics.

    """
    x, b = np.asarray(along, float), np.asarray(across, float)
    s = np.asarray(spreads, float)
    require(b > 0.0, "across", b, "m", "more than zero")
    require(s > 0.0, "spreads", s, "m", "more than zero")
    require(np.ptp(x) > 0.0, "along", x, "m", "two different places at least")
    roll = np.moveaxis(np.moveaxis(np.asarray(drop, float), 0, -1) / b, -1, 0)
    weight = (b / s) ** 2
    middle = (weight * x).sum() / weight.sum()
    share = weight * (x - middle) / (weight * (x - middle) ** 2).sum()
    slope = np.tensordot(share, roll, axes=1)
    mean = np.tensordot(weight / weight.sum(), roll, axes=1)
    fit = mean + np.multiply.outer(x - middle, slope)
    return np.asarray(slope * (x[-1] - x[0])), np.asarray(roll - fit)


def sag(
    *, along: npt.ArrayLike, front: npt.ArrayLike, middle: npt.ArrayLike, rear: npt.ArrayLike
) -> Array:
    """Return how far a point lies below the line between two others.

    Parameters
    ----------
    along : array_like
        Places of the front, middle and rear points along the car. [m]
    front : array_like
        Height of the front point. [m]
    middle : array_like
        Height of the middle point. [m]
    rear : array_like
        Height of the rear point. [m]

    Returns
    -------
    array
        Sag, down positive. [m]

    Notes
    -----
    Linear interpolation between the ends, less the middle's height.

    References
    ----------
    .. [1] Definition.

    """
    x = np.asarray(along, float)
    require(abs(x[2] - x[0]) > 0.0, "along", x, "m", "ends apart")
    share = (x[1] - x[0]) / (x[2] - x[0])
    line = (1.0 - share) * np.asarray(front, float) + share * np.asarray(rear, float)
    return np.asarray(line - np.asarray(middle, float), dtype=np.float64)


def odds_outside(*, value: npt.ArrayLike, spread: npt.ArrayLike, allowed: npt.ArrayLike) -> Array:
    """Return how likely a body is out of tolerance, measuring error reckoned with.

    Parameters
    ----------
    value : array_like
        What was measured. [m]
    spread : array_like
        Standard deviation of the measurement. [m]
    allowed : array_like
        Tolerance to either side. [m]

    Returns
    -------
    array
        Chance that the true value lies outside. [-]

    Notes
    -----
    1 − Φ((T − m)/σ) + Φ((−T − m)/σ): a flat prior on the true value.

    References
    ----------
    .. [1] JCGM 106:2012, "The role of measurement uncertainty in conformity assessment", clause 7
       (from memory).

    """
    m, s, t = (np.asarray(one, float) for one in (value, spread, allowed))
    require(s > 0.0, "spread", s, "m", "more than zero")
    require(t >= 0.0, "allowed", t, "m", "zero or more")
    cdf = np.vectorize(lambda z: 0.5 * (1.0 + erf(z / np.sqrt(2.0))), otypes=[np.float64])
    return np.asarray(1.0 - cdf((t - m) / s) + cdf((-t - m) / s), dtype=np.float64)


def _lengths(places: Array, ends: npt.NDArray[np.int64]) -> Array:
    return np.asarray(np.hypot(*(places[ends[:, 1]] - places[ends[:, 0]]).T))


def _slopes(places: Array, ends: npt.NDArray[np.int64]) -> Array:
    """Return how each length grows with each coordinate."""
    away = places[ends[:, 1]] - places[ends[:, 0]]
    away = away / np.hypot(*away.T)[:, None]
    found = np.zeros((len(ends), places.size))
    rows = np.arange(len(ends))
    for axis in (0, 1):
        found[rows, 2 * ends[:, 0] + axis] = -away[:, axis]
        found[rows, 2 * ends[:, 1] + axis] = away[:, axis]
    return found
