"""The state of a body that nobody has seen yet: odds by zone, common causes, worth of a look.

Pure probability. A zone is sound, wants a patch, or must be replaced. Behind all zones stands one
hidden rust factor (the car's life), and behind some a second one (a wet scuttle means wet floors).
`Discovery` is what the work plan takes over as a branch.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import erf, exp, inf, log, sqrt
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
ThreePoint = tuple[float, float, float]

GRADES = ("sound", "patch", "replace")
"""From the best to the worst; odds and likelihoods keep this order."""

_NORMAL = NormalDist()
_FACTOR_GRID = np.linspace(-4.0, 4.0, 33)
_FACTOR_WEIGHT = np.exp(-0.5 * _FACTOR_GRID**2) / np.exp(-0.5 * _FACTOR_GRID**2).sum()
_erf = np.vectorize(erf, otypes=[np.float64])


@dataclass(frozen=True, kw_only=True)
class Discovery:
    """One thing that may be found: odds, what it hangs on, and what each outcome takes."""

    name: str
    odds: Mapping[str, float]
    """Chance of each grade as known now; the three add up to one."""
    loading: float
    """Correlation of the zone's state with the rust factor of the whole body, 0 to below 1."""
    hours: Mapping[str, ThreePoint]
    """Hours of work in each grade: low, likely, high."""
    cost: Mapping[str, ThreePoint]
    """Material and bought-in work in each grade, in the build's money: low, likely, high."""
    revealed_by: str
    """The job after which the grade is known."""
    link: str = ""
    """The nearer common cause, if the zone has one: zones of the same link share it."""
    link_loading: float = 0.0
    """Correlation of the zone's state with that nearer cause."""
    caution: str = ""

    def __post_init__(self) -> None:
        """Refuse odds that are no odds and loadings that leave no room for chance."""
        total = sum(self.odds.get(grade, -1.0) for grade in GRADES)
        require(abs(total - 1.0) < 1e-9, "odds", total, "-", "one in sum over the three grades")
        require(
            self.loading**2 + self.link_loading**2 < 1.0,
            "loading",
            self.loading,
            "-",
            "such that loading² + link_loading² stays below one",
        )


@dataclass(frozen=True, kw_only=True)
class Zone:
    """A body zone before anybody looked: odds, loadings, and the likelihood of what was seen."""

    name: str
    odds: tuple[float, float, float]
    loading: float
    link: str = ""
    link_loading: float = 0.0
    seen: tuple[float, float, float] = field(default=(1.0, 1.0, 1.0))
    """Chance of what was seen, given sound, patch, replace. All alike: nothing was seen."""


@dataclass(frozen=True, kw_only=True)
class Belief:
    """What is believed of every zone once all that was seen is put together."""

    odds: Mapping[str, tuple[float, float, float]]
    factor_mean: float
    """Mean of the rust factor: 0 before anything was seen, above it for a worse body."""
    factor_sd: float
    """Spread of the rust factor: 1 before anything was seen."""
    link_sd: Mapping[str, float]


def shifted_odds(
    *, patch: npt.ArrayLike, replace: npt.ArrayLike, shift: npt.ArrayLike
) -> tuple[Array, Array, Array]:
    """Return the odds of the three grades after a shift of the hidden state.

    Parameters
    ----------
    patch : array_like
        Chance of a patch in the reference climate and history. [-]
    replace : array_like
        Chance of a replacement in the reference climate and history. [-]
    shift : array_like
        How much worse the hidden state is, in standard deviations. [-]

    Returns
    -------
    tuple of array
        Chances of sound, patch and replace. [-]

    Notes
    -----
    Ordered probit: the state z is normal with mean `shift`; the zone is sound below t₁ and to be
    replaced above t₂, with Φ(t₁) = 1 − patch − replace and Φ(t₂) = 1 − replace.

    References
    ----------
    .. [1] W. H. Greene, "Econometric Analysis", 5th ed., 2003, sec. 21.8 (from memory).

    """
    patch, replace = np.asarray(patch, float), np.asarray(replace, float)
    require((patch > 0.0) & (patch < 1.0), "patch", patch, "-", "between zero and one")
    require((replace > 0.0) & (replace < 1.0), "replace", replace, "-", "between zero and one")
    require(patch + replace < 1.0, "patch", patch + replace, "-", "less than one with replace")
    inverse = np.vectorize(_NORMAL.inv_cdf, otypes=[np.float64])
    below_patch = _cdf(inverse(1.0 - patch - replace) - np.asarray(shift, float))
    below_replace = _cdf(inverse(1.0 - replace) - np.asarray(shift, float))
    return below_patch, below_replace - below_patch, 1.0 - below_replace


def bayes_odds(*, odds: Sequence[float], likelihood: Sequence[float]) -> tuple[float, ...]:
    """Return the odds after one observation of one zone alone.

    Parameters
    ----------
    odds : sequence of float
        Chances before. [-]
    likelihood : sequence of float
        Chance of what was observed, in each state. [-]

    Returns
    -------
    tuple of float
        Chances after. [-]

    Notes
    -----
    P(s | o) = P(o | s) P(s) / Σ P(o | s) P(s).

    References
    ----------
    .. [1] T. Bayes, "An Essay towards solving a Problem in the Doctrine of Chances", 1763.

    """
    joint = [before * chance for before, chance in zip(odds, likelihood, strict=True)]
    total = sum(joint)
    require(total > 0.0, "likelihood", tuple(likelihood), "-", "possible in some state")
    return tuple(part / total for part in joint)


def thickness_likelihood(
    *, left: float, left_spread: float, means: Sequence[float], spreads: Sequence[float]
) -> tuple[float, ...]:
    """Return how likely a thickness reading is in each state, the likeliest as one.

    Parameters
    ----------
    left : float
        Measured thickness over that of the new sheet. [-]
    left_spread : float
        Standard deviation of that share: gauge and new sheet together. [-]
    means : sequence of float
        Mean share that is left in each state. [-]
    spreads : sequence of float
        Standard deviation of the share in each state. [-]

    Returns
    -------
    tuple of float
        Likelihood by state, over the greatest. [-]

    Notes
    -----
    A normal share read with a normal error is normal with the sum of both variances:
    L = N(x; μ, σ² + u²).

    References
    ----------
    .. [1] A. Gelman and others, "Bayesian Data Analysis", 3rd ed., sec. 2.5 (from memory).

    """
    require(left >= 0.0, "left", left, "-", "zero or more")
    require(left_spread >= 0.0, "left_spread", left_spread, "-", "zero or more")
    logs = []
    for mean, spread in zip(means, spreads, strict=True):
        variance = spread**2 + left_spread**2
        require(variance > 0.0, "spreads", spread, "-", "more than zero with the reading's")
        logs.append(-0.5 * (left - mean) ** 2 / variance - 0.5 * log(variance))
    return tuple(exp(one - max(logs)) for one in logs)


def seam_length(*, area: npt.ArrayLike, aspect: npt.ArrayLike) -> Array:
    """Return the weld round a piece of sheet let in on all sides.

    Parameters
    ----------
    area : array_like
        Area of the piece. [m²]
    aspect : array_like
        Its length over its width. [-]

    Returns
    -------
    array
        Perimeter. [m]

    Notes
    -----
    2 √A (√r + 1/√r); a quarter of the area in the same shape has half of it.

    References
    ----------
    .. [1] Perimeter of a rectangle.

    """
    a, r = np.asarray(area, float), np.asarray(aspect, float)
    require(a >= 0.0, "area", a, "m²", "zero or more")
    require(r >= 1.0, "aspect", r, "-", "one or more")
    return np.asarray(2.0 * np.sqrt(a) * (np.sqrt(r) + 1.0 / np.sqrt(r)), dtype=np.float64)


def believe(*, zones: Sequence[Zone]) -> Belief:
    """Return the odds of every zone given everything that was seen anywhere.

    Parameters
    ----------
    zones : sequence of Zone
        All zones of the body, with what was seen on each. [-]

    Returns
    -------
    Belief
        Odds by zone and what is left of the common factors. [-]

    Notes
    -----
    State of zone i: z = a F + b G + c e with c = √(1 − a² − b²); F is the body's factor, G that of
    its link, e its own, all standard normal. F and every G are integrated on a grid from −4 to 4
    standard deviations in steps of 0.25 (for a normal density the trapezoidal sum on that grid is
    exact to about 1e-4, which is the density cut off). Given F the links are independent, so
    the cost is linear in the number of zones.

    References
    ----------
    .. [1] O. Vasicek, "Loan portfolio value", Risk, 2002: the factor form (from memory).

    """
    groups: dict[str, list[Zone]] = {}
    for zone in zones:
        groups.setdefault(zone.link or f"only {zone.name}", []).append(zone)
    evidence = {name: _group_evidence(members) for name, members in groups.items()}
    posterior = _FACTOR_WEIGHT.copy()
    for per_factor, _ in evidence.values():
        posterior = posterior * per_factor
    require(posterior.sum() > 0.0, "seen", 0.0, "-", "possible together")
    posterior /= posterior.sum()
    odds: dict[str, tuple[float, float, float]] = {}
    spreads: dict[str, float] = {}
    for name, members in groups.items():
        joint = posterior[:, None] * evidence[name][1]
        spreads[name] = _spread(joint.sum(axis=0))
        for zone in members:
            weighted = _grade_chances(zone) * np.asarray(zone.seen)
            total = weighted.sum(axis=-1)
            safe = np.where(total > 0.0, total, 1.0)
            found = (joint[..., None] * weighted / safe[..., None]).sum(axis=(0, 1))
            found /= found.sum()
            odds[zone.name] = (float(found[0]), float(found[1]), float(found[2]))
    mean = float((posterior * _FACTOR_GRID).sum())
    return Belief(odds=odds, factor_mean=mean, factor_sd=_spread(posterior), link_sd=spreads)


def left_over_loading(*, loading: float, factor_sd: float) -> float:
    """Return the loading that still links zones once part of the factor is known.

    Parameters
    ----------
    loading : float
        Loading before anything was seen. [-]
    factor_sd : float
        What is left of the factor's spread, 1 at first. [-]

    Returns
    -------
    float
        Loading on a factor scaled back to spread one. [-]

    Notes
    -----
    a' = a s / √(a² s² + 1 − a²): the share of the state's spread that the factor still explains.

    References
    ----------
    .. [1] Variance of a sum of independent variables; definition.

    """
    require(0.0 <= loading < 1.0, "loading", loading, "-", "from zero to below one")
    require(factor_sd >= 0.0, "factor_sd", factor_sd, "-", "zero or more")
    explained = (loading * factor_sd) ** 2
    return float(np.sqrt(explained / (explained + 1.0 - loading**2)))


def draw_grades(
    *, discovery: Discovery, common: npt.ArrayLike, linked: npt.ArrayLike, own: npt.ArrayLike
) -> npt.NDArray[np.int64]:
    """Return the grade of a discovery in every run: 0 sound, 1 patch, 2 replace.

    Parameters
    ----------
    discovery : Discovery
        What may be found. [-]
    common : array_like
        Standard normal draws of the body's rust factor. [-]
    linked : array_like
        Standard normal draws of the discovery's link; shared by all of the same link. [-]
    own : array_like
        Standard normal draws of its own. [-]

    Returns
    -------
    array of int
        Index into `GRADES`. [-]

    Notes
    -----
    The state is z = a F + b G + √(1 − a² − b²) e; the grade follows from z against Φ⁻¹ of the odds,
    so each discovery keeps its own odds exactly whatever the loadings are.

    References
    ----------
    .. [1] O. Vasicek, "Loan portfolio value", Risk, 2002 (from memory).

    """
    a, b = discovery.loading, discovery.link_loading
    state = a * np.asarray(common) + b * np.asarray(linked)
    state = state + sqrt(1.0 - a * a - b * b) * np.asarray(own)
    patch_from = _threshold(discovery.odds["sound"])
    replace_from = _threshold(discovery.odds["sound"] + discovery.odds["patch"])
    return np.asarray((state > patch_from) * 1 + (state > replace_from) * 1, dtype=np.int64)


def expected_three_point(
    *, low: npt.ArrayLike, likely: npt.ArrayLike, high: npt.ArrayLike
) -> Array:
    """Return the mean of a beta distribution given by low, likely and high.

    Parameters
    ----------
    low : array_like
        Least value. [-]
    likely : array_like
        Most likely value. [-]
    high : array_like
        Greatest value. [-]

    Returns
    -------
    array
        Mean, in the unit of the three. [-]

    Notes
    -----
    (low + 4 likely + high) / 6.

    References
    ----------
    .. [1] D. G. Malcolm and others, "Application of a technique for research and development
       program evaluation", Operations Research 7, 1959.

    """
    low, likely, high = (np.asarray(value, float) for value in (low, likely, high))
    ordered = (low <= likely) & (likely <= high)
    require(ordered, "likely", likely, "-", "between low and high")
    return np.asarray((low + 4.0 * likely + high) / 6.0, dtype=np.float64)


def _cdf(z: npt.ArrayLike) -> Array:
    return np.asarray(0.5 * (1.0 + _erf(np.asarray(z, float) / sqrt(2.0))), dtype=np.float64)


def _grade_chances(zone: Zone) -> Array:
    return _chances(zone.odds, zone.loading, zone.link_loading)


@lru_cache(maxsize=64)
def _chances(odds: tuple[float, float, float], a: float, b: float) -> Array:
    """Chances of the three grades on the grid of both factors: shape (F, G, 3).

    Zones of the two sides have the same before anything was seen, and need them twice.
    """
    require(a * a + b * b < 1.0, "loading", a, "-", "below one with the link's, squared and added")
    common = a * _FACTOR_GRID[:, None]
    if b:  # a zone without a link needs no second axis
        common = common + b * _FACTOR_GRID[None, :]
    own = sqrt(1.0 - a * a - b * b)
    below_patch = _cdf((_threshold(odds[0]) - common) / own)
    below_replace = _cdf((_threshold(odds[0] + odds[1]) - common) / own)
    chances = np.stack([below_patch, below_replace - below_patch, 1.0 - below_replace], axis=-1)
    chances.setflags(write=False)
    return chances


def _threshold(chance: float) -> float:
    """State below which that chance lies; infinite where nothing or everything does."""
    if chance <= 0.0:
        return -inf
    return inf if chance >= 1.0 else _NORMAL.inv_cdf(chance)


def _group_evidence(members: Sequence[Zone]) -> tuple[Array, Array]:
    """Chance of what was seen on a link's zones given F, and the weights of G given F and that."""
    weight = np.broadcast_to(_FACTOR_WEIGHT, (_FACTOR_GRID.size, _FACTOR_GRID.size)).copy()
    for zone in members:
        if len(set(zone.seen)) > 1:
            weight *= (_grade_chances(zone) * np.asarray(zone.seen)).sum(axis=-1)
    total = weight.sum(axis=1)
    return total, weight / np.where(total > 0.0, total, 1.0)[:, None]


def _spread(weights: Array) -> float:
    mean = (weights * _FACTOR_GRID).sum()
    return float(np.sqrt((weights * (_FACTOR_GRID - mean) ** 2).sum()))
