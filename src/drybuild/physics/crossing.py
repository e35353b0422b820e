"""Where a function passes zero, for all samples at once."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

MOST_ROUNDS = 60
"""Of false position; a smooth function takes seven to ten, a jump as many as halving or more."""


def crossing(
    *, function: Callable[[Array], Array], low: Array, high: Array, tolerance: float
) -> Array:
    """Return where a function passes zero between two places.

    Parameters
    ----------
    function : Callable
        The function; it takes and gives arrays of the shape of `high`. [any]
    low : array
        Where to begin; the function has one sign there. [any]
    high : array
        Where to end; the function has the other sign there. [any]
    tolerance : float
        Last change of the place, of all samples, at which to stop. [as the places]

    Returns
    -------
    array
        The place, or that of a jump through zero; `high` where both ends have the same sign.
        [as low]

    Notes
    -----
    False position, Illinois rule: where the same end stays, its value is halved, so that the other
    end moves next.

    References
    ----------
    .. [1] M. Dowell and P. Jarratt, "A modified regula falsi method for computing the root of an
       equation", BIT 11 (1971).

    """
    kept, tried = np.broadcast_to(low, high.shape), high
    kept_off, tried_off = function(kept), function(tried)
    passes = kept_off * tried_off < 0.0
    for _ in range(MOST_ROUNDS):
        fall = np.where(passes, tried_off - kept_off, np.inf)
        new = tried - tried_off * (tried - kept) / np.where(fall == 0.0, np.inf, fall)
        if not np.any(np.abs(new - tried) > tolerance):
            return new
        off = function(new)
        crossed = off * tried_off <= 0.0
        kept_off = np.where(crossed, tried_off, kept_off / 2.0)
        kept = np.where(crossed, tried, kept)
        tried, tried_off = new, off
    return tried
