"""What it is worth to know something: tables, one normal measurement, or the runs at hand."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
_NORMAL = NormalDist()


def best_now(payoffs: npt.ArrayLike, odds: npt.ArrayLike) -> float:
    """Return the expected worth of the best decision with what is known now.

    Parameters
    ----------
    payoffs : array
        Worth of each decision (rows) in each state (columns). [money]
    odds : array
        Probability of each state. [-]

    """
    return float((np.asarray(payoffs, float) @ np.asarray(odds, float)).max())


def perfect_information(payoffs: npt.ArrayLike, odds: npt.ArrayLike) -> float:
    """Return the expected value of perfect information.

    Parameters
    ----------
    payoffs : array
        Worth of each decision (rows) in each state (columns). [money]
    odds : array
        Probability of each state. [-]

    Notes
    -----
    EVPI = E[max_d U(d, x)] − max_d E[U(d, x)].

    References
    ----------
    .. [1] Raiffa and Schlaifer, *Applied Statistical Decision Theory*, 1961 (from memory).
    .. [2] Howard, "Information value theory", IEEE Trans. SSC-2, 1966, 22-26 (from memory).

    """
    table, chances = np.asarray(payoffs, float), np.asarray(odds, float)
    return float(table.max(axis=0) @ chances) - best_now(table, chances)


def sample_information(
    payoffs: npt.ArrayLike, odds: npt.ArrayLike, likelihood: npt.ArrayLike
) -> float:
    """Return the expected value of an imperfect test, before its price.

    Parameters
    ----------
    payoffs : array
        Worth of each decision (rows) in each state (columns). [money]
    odds : array
        Probability of each state. [-]
    likelihood : array
        Probability of each finding (columns) in each state (rows). [-]

    Notes
    -----
    EVSI = Σ_y max_d Σ_x P(x) P(y|x) U(d, x) − max_d E[U(d, x)].

    References
    ----------
    .. [1] Raiffa, *Decision Analysis*, 1968, 34-36: the driller's test (from course notes).

    """
    table, chances = np.asarray(payoffs, float), np.asarray(odds, float)
    findings = np.asarray(likelihood, float)
    sums = findings.sum(axis=1)
    require(np.abs(sums - 1.0) < 1e-6, "likelihood", sums, "", "rows that sum to 1")
    joint = chances[:, np.newaxis] * findings
    return float((table @ joint).max(axis=0).sum()) - best_now(table, chances)


def unit_normal_loss(score: float) -> float:
    """Return the expected excess of a standard normal over a score.

    Notes
    -----
    L(u) = φ(u) − u (1 − Φ(u)).

    References
    ----------
    .. [1] Raiffa and Schlaifer, *Applied Statistical Decision Theory*, 1961, tables.

    """
    return _NORMAL.pdf(score) - score * 0.5 * math.erfc(score / math.sqrt(2.0))


@dataclass(frozen=True, kw_only=True)
class NormalWorth:
    """What one measurement is worth to a choice between acting and leaving it."""

    perfect: float
    """EVPI, in the unit of the gain."""
    measured: float
    """EVSI of the measurement, before its price."""
    learnt_sd: float
    """Standard deviation of what the gain will be thought to be after the measurement."""


def two_actions(*, gain: float, gain_sd: float, error_sd: float) -> NormalWorth:
    """Return the worth of measuring a normal gain of acting; one acts if it is above zero.

    Parameters
    ----------
    gain : float
        Expected gain of acting over leaving it. [money]
    gain_sd : float
        Standard deviation of what is known of the gain. [money]
    error_sd : float
        Standard deviation of the measurement's error, as gain. [money]

    Notes
    -----
    s′ = s²/√(s² + e²); EVPI = s L(|m|/s), EVSI = s′ L(|m|/s′).

    References
    ----------
    .. [1] Raiffa and Schlaifer, *Applied Statistical Decision Theory*, 1961 (from memory).

    """
    require(gain_sd >= 0.0, "gain_sd", gain_sd, "", "zero or more")
    require(error_sd >= 0.0, "error_sd", error_sd, "", "zero or more")
    if gain_sd == 0.0:
        return NormalWorth(perfect=0.0, measured=0.0, learnt_sd=0.0)
    learnt = gain_sd**2 / math.hypot(gain_sd, error_sd)
    return NormalWorth(
        perfect=gain_sd * unit_normal_loss(abs(gain) / gain_sd),
        measured=learnt * unit_normal_loss(abs(gain) / learnt),
        learnt_sd=learnt,
    )


def partial_information(worths: Array, known: Array, *, bins: int = 20, seed: int = 0) -> float:
    """Return the expected value of knowing one input, from one sample of runs.

    Parameters
    ----------
    worths : array
        Worth of each decision (rows) in each run. [money]
    known : array
        The input in each run. [any]
    bins : int
        Parts of equal size that the input is cut into; inputs with fewer values keep those.
    seed : int
        Of the shuffle that measures the bias.

    Returns
    -------
    float
        Zero or more. [money]

    Notes
    -----
    Within a bin each decision's mean worth estimates E[U_d | x]; the mean over the bins of the
    best of them, less the best overall mean, is the worth of knowing x. The best of noisy means is
    too high by a little; the same figure on a shuffled input measures by how much.

    References
    ----------
    .. [1] Strong and Oakley, "An efficient method for computing single-parameter partial expected
       value of perfect information", Medical Decision Making 33(6), 2013, 755-766.
    .. [2] Strong, Oakley and Brennan, Medical Decision Making 34(3), 2014, 311-326.

    """
    group = bin_index(known, bins)
    shuffled = np.random.default_rng(seed).permutation(group)
    now = float(worths.mean(axis=1).max())
    gained = _best_by_group(worths, group) - _best_by_group(worths, shuffled)
    return max(0.0, min(gained, float(worths.max(axis=0).mean()) - now))


def _best_by_group(worths: Array, group: npt.NDArray[np.int64]) -> float:
    sums = np.array([np.bincount(group, weights=row) for row in worths])
    return float(sums.max(axis=0).sum() / group.size)


def bin_index(values: Array, bins: int) -> npt.NDArray[np.int64]:
    """Return the bin of each value: equal values share one, otherwise bins are of equal size."""
    distinct, index = np.unique(values, return_inverse=True)
    if distinct.size <= bins:
        return np.asarray(index, np.int64)
    place = np.searchsorted(np.sort(values), values, side="left")
    return np.asarray(place * bins // values.size, np.int64)


def shares_of_doubt(target: Array, inputs: dict[str, Array], *, bins: int = 20) -> dict[str, float]:
    """Return which share of a result's variance each input explains, the largest first.

    Parameters
    ----------
    target : array
        The result in each run, such as a check's margin. [any]
    inputs : dict of array
        Each input in each run. [any]
    bins : int
        Parts of equal size that each input is cut into.

    Returns
    -------
    dict of float
        First-order shares, zero or more; together they stay below 1 but for sampling error where
        the inputs are independent. [-]

    Notes
    -----
    Var(E[Y | X])/Var(Y), the correlation ratio, from the means of the bins. Its bias under no
    relation, (k − 1)/(n − 1) for k bins, is taken out as in the adjusted R².

    References
    ----------
    .. [1] Saltelli et al., *Global Sensitivity Analysis: The Primer*, 2008, ch. 1 and 4
       (from memory).

    """
    good = np.isfinite(target)
    result = target[good] - target[good].mean() if good.any() else target[:0]
    total = float((result**2).sum())
    if total == 0.0 or result.size < 3:
        return dict.fromkeys(inputs, 0.0)
    shares = {name: _share(result, values[good], bins, total) for name, values in inputs.items()}
    return dict(sorted(shares.items(), key=lambda item: -item[1]))


def _share(result: Array, values: Array, bins: int, total: float) -> float:
    group = bin_index(values, bins)
    counts = np.bincount(group)
    used = int((counts > 0).sum())
    if used < 2 or used >= result.size:
        return 0.0
    sums = np.bincount(group, weights=result)
    between = float((sums**2 / np.maximum(counts, 1)).sum())
    raw = between / total
    return max(0.0, 1.0 - (1.0 - raw) * (result.size - 1) / (result.size - used))
