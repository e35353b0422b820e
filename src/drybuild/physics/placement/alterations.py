"""Where no place will do: the least that has to be altered so that one does.

Each alteration turns a question into another, by an amount. What is told was proven: the altered
question was searched anew, and a place found.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

import numpy as np

from drybuild.physics.placement.climb import Spot, climb
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Question
from drybuild.physics.placement.search import Found, place_at

Altered: TypeAlias = Callable[[Question, float], Question]
HELPS = 5e-4
"""An alteration that brings less margin than this by itself is not tried with others. [m]"""
TRIES = 4
"""Amounts that are tried on the way to the least."""
MOST_PAIRS = 14
"""Pairs that are tried, the cheapest first."""
ENOUGH_WAYS = 5
"""So many ways are told."""
SURE = 1e-5
"""Margin over nothing that is asked for, so that rounding does not undo it. [m]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Alteration:
    """Something that may be altered, as data."""

    name: str
    altered: Altered
    most: float
    """The most that it can be done by. [m, or a share]"""
    step: float
    """Amounts are told in steps of this; as large as `most` for all or nothing."""
    cost: float
    """What it costs, hours counted in: the order of what is told. [money]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Way:
    """Alterations that together let a place be found."""

    alterations: tuple[Alteration, ...]
    amounts: tuple[float, ...]
    found: Found
    """The place, in the altered question."""

    @property
    def cost(self) -> float:
        """What they cost together (money)."""
        return sum(one.cost for one in self.alterations)


@dataclass(frozen=True, kw_only=True, eq=False)
class Ways:
    """What altering leads to."""

    ways: tuple[Way, ...]
    """The cheapest first; empty where nothing that was tried will do."""
    gains: tuple[tuple[Alteration, float], ...]
    """How much margin each alteration brings by itself, done as far as it goes. [m]"""


def ways_to_fit(
    *,
    found: Found,
    alterations: Sequence[Alteration],
    between: Callable[[], None] | None = None,
) -> Ways:
    """Return the cheapest sets of alterations that let a place be found.

    Parameters
    ----------
    found : Found
        The best place without any; alterations start from it. [m]
    alterations : sequence of Alteration
        What may be altered. [-]
    between : callable
        Called now and then; may raise to stop.

    Returns
    -------
    Ways
        Single alterations first tried, then pairs of those that help, then all that help together
        less whatever proves needless. [-]

    Notes
    -----
    The margin at the best place grows with the amount, nearly straight: the least amount is found
    by false position on it and told rounded up to a step, proven at the rounded amount.

    References
    ----------
    .. [1] W. Press and others, "Numerical Recipes", 3rd ed. 2007, sec. 9.2: false position (from
       memory).

    """
    base = found.spot
    gains, ways, spots = [], [], {}
    for one in sorted(alterations, key=lambda one: one.cost):
        if between is not None:
            between()
        spot, _ = _solved(found, [one], [one.most], [])
        spots[one.name] = spot
        if spot.worth > base.worth + HELPS:
            gains.append((one, spot.worth - base.worth))
            if _fits(spot):
                ways.append(_least(found, [one], spot))
    helping = [one for one, _ in gains if not any(one in way.alterations for way in ways)]
    ways += _several(found, helping, spots, between, ways)
    ways.sort(key=lambda way: (way.cost, len(way.alterations)))
    ranked = sorted(gains, key=lambda pair: -pair[1])
    return Ways(ways=tuple(ways[:ENOUGH_WAYS]), gains=tuple(ranked))


def altered(
    *, question: Question, alterations: Sequence[Alteration], amounts: Sequence[float]
) -> Question:
    """Return a question with alterations done, one after another.

    Parameters
    ----------
    question : Question
        As things are. [m]
    alterations : sequence of Alteration
        What is altered. [-]
    amounts : sequence of float
        How far each. [m]

    Returns
    -------
    Question
        The altered one. [m]

    """
    for one, amount in zip(alterations, amounts, strict=True):
        question = one.altered(question, amount)
    return question


def _several(
    found: Found,
    helping: Sequence[Alteration],
    spots: dict[str, Spot],
    between: Callable[[], None] | None,
    known: Sequence[Way],
) -> list[Way]:
    """Return pairs that will do, and, where neither they nor single ones do, what all do."""
    pairs = sorted(combinations(helping, 2), key=lambda pair: sum(one.cost for one in pair))
    cheapest = min((way.cost for way in known), default=np.inf)
    ways: list[Way] = []
    for pair in pairs[:MOST_PAIRS]:
        if sum(one.cost for one in pair) >= cheapest or len(ways) >= ENOUGH_WAYS:
            break
        if between is not None:
            between()
        spot, _ = _solved(
            found, pair, [one.most for one in pair], [spots[one.name] for one in pair]
        )
        if _fits(spot):
            ways.append(_least(found, pair, spot))
    if not ways and not known and len(helping) > 2:
        ways += _pruned(found, helping, spots)
    return ways


def _pruned(found: Found, helping: Sequence[Alteration], spots: dict[str, Spot]) -> list[Way]:
    """Do all that helps, then leave out what proves needless, the dearest first."""
    kept = list(helping)
    last, _ = _solved(found, kept, [one.most for one in kept], [spots[one.name] for one in kept])
    if not _fits(last):
        return []
    for one in sorted(helping, key=lambda one: -one.cost):
        fewer = [other for other in kept if other is not one]
        spot, _ = _solved(found, fewer, [other.most for other in fewer], [last])
        if _fits(spot):
            kept, last = fewer, spot
    return [_least(found, kept, last)]


def _fits(spot: Spot) -> bool:
    return spot.keeps and spot.margin >= SURE


def _solved(
    found: Found, changes: Sequence[Alteration], amounts: Sequence[float], starts: Sequence[Spot]
) -> tuple[Spot, Question]:
    """Return the best place of an altered question, from the tops known so far."""
    question = altered(question=found.question, alterations=changes, amounts=amounts)
    near = Near(question.scene)
    best: Spot | None = None
    for at in [*(one.at for one in starts), *found.tops[:2]]:
        spot = climb(near=near, question=question, start=at)
        best = spot if best is None or spot.worth > best.worth else best
        if _fits(best):
            break
    if best is None:
        raise AssertionError("a question has a start")
    return best, question


def _least(found: Found, changes: Sequence[Alteration], most: Spot) -> Way:
    """Return the least common share of the alterations at which a place is still found."""
    low, high, spot = 0.0, 1.0, most
    below, above = found.spot.worth, most.worth
    amounts = [one.most for one in changes]
    for _ in range(TRIES):
        share = low + (high - low) * min(max(-below / max(above - below, 1e-9), 0.05), 0.95)
        tried = [_rounded(one, share) for one in changes]
        if tried == amounts or share >= high:
            break
        there, _ = _solved(found, changes, tried, [spot])
        if _fits(there):
            high, above, spot, amounts = share, there.worth, there, tried
            if above < 1e-3:
                break
        else:
            low, below = share, min(there.worth, -1e-6)
    question = altered(question=found.question, alterations=changes, amounts=amounts)
    proven = place_at(question=question, at=spot.at)
    return Way(alterations=tuple(changes), amounts=tuple(amounts), found=proven)


def _rounded(one: Alteration, share: float) -> float:
    return float(min(one.most, np.ceil(share * one.most / one.step - 1e-9) * one.step))
