"""The set of additions that stiffens a frame most within limits, with a proof that none is better.

Nothing that is added to a frame softens it, so the frame with every addition that might still be
taken is at least as stiff as any set of them: where that is no stiffer than the best set found so
far, none of those sets need be solved.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require


@dataclass(frozen=True, kw_only=True)
class BestSet:
    """The stiffest set within the limits."""

    chosen: tuple[int, ...]
    """Numbers of the additions, in order."""
    stiffness: float
    solved: int
    """Sets whose stiffness was solved."""
    allowed: int
    """Sets within the limits and without rivals, each of which is solved or ruled out."""


@dataclass
class _Search:
    """What the search knows so far."""

    stiffness: Callable[[frozenset[int]], float]
    weights: npt.NDArray[np.float64]
    limits: npt.NDArray[np.float64]
    rivals: frozenset[frozenset[int]]
    best: frozenset[int]
    value: float
    known: dict[frozenset[int], float]

    def solve(self, chosen: frozenset[int]) -> float:
        if chosen not in self.known:
            self.known[chosen] = self.stiffness(chosen)
        return self.known[chosen]


def best_set(
    *,
    stiffness: Callable[[frozenset[int]], float],
    weights: npt.ArrayLike,
    limits: npt.ArrayLike,
    rivals: frozenset[frozenset[int]],
) -> BestSet:
    """Return the stiffest set of additions within every limit.

    Parameters
    ----------
    stiffness : callable
        Stiffness with a set of additions, by their numbers; never less with more. [N·m/rad or N/m]
    weights : array_like
        What each addition takes of each limit, (additions, limits): mass, money. [any]
    limits : array_like
        How much of each may be taken. [any]
    rivals : frozenset
        Pairs of additions that are not taken together. [-]

    Returns
    -------
    BestSet
        The set, its stiffness, how many sets were solved and how many there are. [-]

    Notes
    -----
    Depth first, the most rewarding addition first. A branch is cut when the frame with its set and
    all later additions that would fit alone is no stiffer than the best set found.

    References
    ----------
    .. [1] A. H. Land, A. G. Doig, "An automatic method of solving discrete programming problems",
       Econometrica 28, 1960 (from memory).
    .. [2] Lord Rayleigh, "Theory of Sound", 1877, §88: a constraint or spring more never lowers a
       stiffness (from memory).

    """
    amounts = np.atleast_2d(np.asarray(weights, dtype=np.float64))
    most = np.asarray(limits, dtype=np.float64)
    require(amounts >= 0.0, "weights", amounts, "-", "zero or more")
    start = frozenset[int]()
    found = _Search(
        stiffness=stiffness,
        weights=amounts,
        limits=most * (1.0 + 1e-12),
        rivals=rivals,
        best=start,
        value=-np.inf,
        known={},
    )
    found.value = found.solve(start)
    fitting = [one for one in range(len(amounts)) if (amounts[one] <= found.limits).all()]
    order = sorted(fitting, key=lambda one: -found.solve(frozenset({one})))
    _branch(found, start, tuple(order))
    return BestSet(
        chosen=tuple(sorted(found.best)),
        stiffness=found.value,
        solved=len(found.known),
        allowed=_count(found, start, tuple(order)),
    )


def _branch(found: _Search, chosen: frozenset[int], later: tuple[int, ...]) -> None:
    value = found.solve(chosen)
    if value > found.value:
        found.best, found.value = chosen, value
    open_ = tuple(one for one in later if _fits(found, chosen, one))
    if not open_ or found.solve(chosen | set(open_)) <= found.value:
        return
    for number, one in enumerate(open_):
        rest = open_[number + 1 :]
        if number and found.solve(chosen | set(open_[number:])) <= found.value:
            return
        _branch(found, chosen | {one}, rest)


def _fits(found: _Search, chosen: frozenset[int], one: int) -> bool:
    """Whether an addition is within every limit beside what is chosen, and no rival of it."""
    taken = found.weights[sorted(chosen | {one})].sum(axis=0)
    free = not any(frozenset({one, other}) in found.rivals for other in chosen)
    return free and bool((taken <= found.limits).all())


def _count(found: _Search, chosen: frozenset[int], later: tuple[int, ...]) -> int:
    """Return how many sets are within the limits, this one among them."""
    return 1 + sum(
        _count(found, chosen | {one}, later[number + 1 :])
        for number, one in enumerate(later)
        if _fits(found, chosen, one)
    )
