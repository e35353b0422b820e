"""Where no place will do: the least that has to be altered so that one does.

Each alteration turns a question into another, by an amount. What is told was proven: the altered
question was searched anew, and a place found.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count, product
from typing import TypeAlias

import numpy as np

from drybuild.physics.placement.climb import Spot, climb
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Question
from drybuild.physics.placement.search import BINDS, Found, place_at
from drybuild.physics.solids.nearest import Clearance

Altered: TypeAlias = Callable[[Question, float], Question]
EASES = 1e-4
"""A limit that is widened by less is not eased. [m, rad, -]"""
TRIES = 4
"""Amounts that are tried on the way to the least."""
MOST_SOLVED = 30
"""Sets of alterations that are searched anew at most, the cheapest first."""
MORE_SOLVED = 6
"""And at most so many more once one will do."""
ENOUGH_WAYS = 4
"""So many ways are told."""
PLENTY = 0.005
"""A climb in an altered question ends at such a margin: that it will do is enough. [m]"""
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
    instead: str = ""
    """Alterations with the same word here exclude each other: one sump goes one way."""


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
    """The cheapest first; empty where nothing will do."""
    all_done: float
    """Margin with everything altered as far as it goes; where it will do, at least so much (m)."""


def ways_to_fit(
    *,
    found: Found,
    alterations: Sequence[Alteration],
    first: Sequence[Alteration] | None = None,
    between: Callable[[], None] | None = None,
) -> Ways:
    """Return the cheapest sets of alterations that let a place be found.

    Parameters
    ----------
    found : Found
        The best place without any; alterations start from it. [m]
    alterations : sequence of Alteration
        What may be altered. [-]
    first : sequence of Alteration
        Every set holds one of these; any may begin where not given. [-]
    between : callable
        Called now and then; may raise to stop.

    Returns
    -------
    Ways
        Sets without a needless part, the cheapest first. [-]

    Notes
    -----
    Sets are taken up in the order of their cost, each done as far as it goes and searched anew. A
    set that will not do is widened by whatever changes a contact or limit that holds its best
    place; nothing else can better it. First everything is altered at once: where that will not
    do, nothing does. The margin grows with the amount, nearly straight: the least amount is found
    by false position on it, rounded up to a step, and proven at the rounded amount.

    References
    ----------
    .. [1] E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959: the cheapest
       first (from memory).
    .. [2] W. Press and others, "Numerical Recipes", 3rd ed. 2007, sec. 9.2: false position (from
       memory).

    """
    best = found.spot
    for everything in _all_at_once(alterations):
        spot = _solved(found, everything, between).spot
        best = spot if spot.worth > best.worth else best
        if _fits(best):
            break
    if not _fits(best):
        return Ways(ways=(), all_done=best.worth)
    ways = [_least(found, one, between) for one in _cheapest(found, alterations, first, between)]
    ways.sort(key=lambda way: (way.cost, len(way.alterations)))
    return Ways(ways=tuple(ways), all_done=best.worth)


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


@dataclass(frozen=True, kw_only=True, eq=False)
class _Solved:
    changes: tuple[Alteration, ...]
    question: Question
    near: Near
    spot: Spot


def _all_at_once(alterations: Sequence[Alteration]) -> Iterator[tuple[Alteration, ...]]:
    """Return everything that can be done at once, one of each that exclude each other."""
    groups: dict[str, list[Alteration]] = {}
    for one in alterations:
        groups.setdefault(one.instead or one.name, []).append(one)
    yield from product(*groups.values())


def _cheapest(
    found: Found,
    alterations: Sequence[Alteration],
    first: Sequence[Alteration] | None,
    between: Callable[[], None] | None,
) -> Iterator[_Solved]:
    """Return sets that will do, the cheapest first."""
    order = count()
    start = _Solved(changes=(), question=found.question, near=Near(found.question.scene),
                    spot=found.spot)  # fmt: skip
    waiting: list[tuple[float, int, tuple[Alteration, ...], Spot]] = []
    seen: set[frozenset[str]] = set()
    done: list[frozenset[str]] = []

    def widen(one: _Solved, by: Sequence[Alteration]) -> None:
        for more in _mattering(one, by):
            changes = (*one.changes, more)
            names = frozenset(each.name for each in changes)
            if names not in seen:
                seen.add(names)
                cost = sum(each.cost for each in changes)
                heapq.heappush(waiting, (cost, next(order), changes, one.spot))

    widen(start, alterations if first is None else first)
    left = MOST_SOLVED
    while waiting and left > 0 and len(done) < ENOUGH_WAYS:
        left -= 1
        _, _, changes, spot = heapq.heappop(waiting)
        names = frozenset(each.name for each in changes)
        if any(known <= names for known in done):
            continue
        solved = _solved(found, changes, between, spot)
        if _fits(solved.spot):
            done.append(names)
            left = min(left, MORE_SOLVED)
            yield solved
        else:
            widen(solved, alterations)


def _mattering(solved: _Solved, alterations: Sequence[Alteration]) -> list[Alteration]:
    """Return the alterations that change something that holds a set's best place."""
    taken = {one.instead or one.name for one in solved.changes}
    spot, old = solved.spot, solved.question
    held = [one for one in spot.contacts if one.margin <= spot.margin + BINDS]
    tight = spot.spares <= BINDS
    found = []
    for one in alterations:
        if (one.instead or one.name) in taken:
            continue
        new = one.altered(old, one.most)
        wider = new.spares(spot.at[:, None])[:, 0] > spot.spares + EASES
        if any(_differs(each, old, new) for each in held) or bool(np.any(wider & tight)):
            found.append(one)
    return found


def _differs(contact: Clearance, old: Question, new: Question) -> bool:
    """Return whether something of a contact is not the same in another question."""
    place = contact.place
    moving, fixed = old.scene.moving[place.moving], old.scene.fixed[place.fixed]
    if not any(one is fixed for one in new.scene.fixed):
        return True
    if place.moved and moving.movement:
        movements = old.scene.movements[moving.movement], new.scene.movements[moving.movement]
        if movements[0] is not movements[1]:
            return True
    piece = moving.pieces[place.piece]
    return not any(piece is other for one in new.scene.moving for other in one.pieces)


def _fits(spot: Spot) -> bool:
    return spot.keeps and spot.margin >= SURE


def _solved(
    found: Found,
    changes: Sequence[Alteration],
    between: Callable[[], None] | None,
    known: Spot | None = None,
    amounts: Sequence[float] | None = None,
) -> _Solved:
    """Return the best place of an altered question, from the tops known so far."""
    if between is not None:
        between()
    most = [one.most for one in changes] if amounts is None else amounts
    question = altered(question=found.question, alterations=changes, amounts=most)
    near = Near(question.scene)
    best = climb(
        near=near,
        question=question,
        start=found.spot.at if known is None else known.at,
        enough=PLENTY,
    )
    for at in () if amounts is not None else found.tops[:2]:
        if _fits(best):
            break
        spot = climb(near=near, question=question, start=at, enough=PLENTY)
        best = spot if spot.worth > best.worth else best
    return _Solved(changes=tuple(changes), question=question, near=near, spot=best)


def _least(found: Found, most: _Solved, between: Callable[[], None] | None) -> Way:
    """Return the least common share of the alterations at which a place is still found."""
    low, high, spot = 0.0, 1.0, most.spot
    below, above = found.spot.worth, spot.worth
    amounts = [one.most for one in most.changes]
    for _ in range(TRIES):
        share = low + (high - low) * min(max(-below / max(above - below, 1e-9), 0.05), 0.95)
        tried = [_rounded(one, share) for one in most.changes]
        if tried == amounts:
            break
        there = _solved(found, most.changes, between, spot, tried).spot
        if _fits(there):
            high, above, spot, amounts = share, there.worth, there, tried
        else:
            low, below = share, min(there.worth, -1e-6)
    question = altered(question=found.question, alterations=most.changes, amounts=amounts)
    proven = place_at(question=question, at=spot.at)
    return Way(alterations=most.changes, amounts=tuple(amounts), found=proven)


def _rounded(one: Alteration, share: float) -> float:
    return float(min(one.most, np.ceil(share * one.most / one.step - 1e-9) * one.step))
