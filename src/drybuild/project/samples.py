"""Turn a reading into samples: index 0 is the nominal value, the rest draw from its spread.

Each reading draws with a seed made of its path, so the same reading gives the same samples in
every option and every run, and differences between options are differences, not noise.
"""

from __future__ import annotations

import hashlib
import statistics
from functools import cache

import numpy as np
import numpy.typing as npt

from drybuild.project.readings import Reading

Values = npt.NDArray[np.float64]
"""A quantity over its samples: last axis = samples, index 0 = nominal."""

HALF_BAND = 1.6448536269514722
"""Normal score of the 95 % point: a spread is the half-width of the 5-95 % band."""
WIDE = 0.3
"""Relative half-width from which a positive reading is drawn lognormal, so it stays positive."""


def draw(reading: Reading, path: str, samples: int) -> Values:
    """Return the nominal value and `samples` draws of a reading.

    Narrow readings are normal on either side of their value, positive ones wider than 30 %
    lognormal; both pass through the 5, 50 and 95 % points. Both are cut at the field's own
    bounds by redistributing the tail, not by piling it up at the bound.
    """
    nominal = np.array([reading.value])
    if samples == 0 or reading.high <= reading.low:
        return np.concatenate((nominal, np.full(samples, reading.value)))
    scores = normal_scores(path, samples)
    if reading.low > 0.0 and reading.spread > WIDE * abs(reading.value):
        up, down = np.log(reading.high / reading.value), np.log(reading.value / reading.low)
        drawn = reading.value * np.exp(scores * np.where(scores > 0.0, up, down) / HALF_BAND)
    else:
        up, down = reading.high - reading.value, reading.value - reading.low
        drawn = reading.value + scores * np.where(scores > 0.0, up, down) / HALF_BAND
    return np.concatenate((nominal, _within(drawn, reading)))


def normal_scores(path: str, samples: int) -> Values:
    """Return stratified standard normal scores in an order that only `path` decides."""
    seed = int.from_bytes(hashlib.blake2b(path.encode(), digest_size=8).digest(), "little")
    return np.random.default_rng(seed).permutation(_strata(samples))


@cache
def _strata(samples: int) -> Values:
    inverse = statistics.NormalDist().inv_cdf
    return np.array([inverse((k + 0.5) / samples) for k in range(samples)])


def _within(drawn: Values, reading: Reading) -> Values:
    """Replace draws outside the bounds by draws inside, keeping the order of the rest."""
    inside = np.ones(drawn.shape, dtype=bool)
    if reading.least is not None:
        inside &= drawn >= reading.least
    if reading.most is not None:
        inside &= drawn <= reading.most
    if inside.all() or not inside.any():
        return drawn if inside.all() else np.full(drawn.shape, reading.value)
    pool = np.sort(drawn[inside])
    places = np.linspace(0.0, pool.size - 1.0, int((~inside).sum())).round().astype(int)
    kept = drawn.copy()
    kept[~inside] = pool[places]
    return kept


def at_shares(drawn: Values, *shares: float) -> list[float]:
    """Return what some shares of the samples stay below, as `numpy.quantile` does, at less cost.

    Book and verdicts ask for thousands of bands of a few hundred to some thousand samples each.
    """
    last = drawn.size - 1
    places = [divmod(share * last, 1.0) for share in shares]
    pairs = [(int(below), min(int(below) + 1, last)) for below, _ in places]
    ranked = np.partition(drawn, [one for pair in pairs for one in pair])
    found = []
    for (below, above), (_, part) in zip(pairs, places, strict=True):
        low, high = float(ranked[below]), float(ranked[above])
        rise = high - low
        found.append(low + rise * part if part < 0.5 else high - rise * (1.0 - part))
    return found
