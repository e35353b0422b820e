"""Why wishes do not fit together, and the smallest ways out.

Everything here works on any wishes (picks, the person's limits, rules) and any oracle that says
whether a set of them can be had together; more wishes are never easier to have.

References
----------
Junker, "QuickXplain: preferred explanations and relaxations for over-constrained problems",
AAAI-04, pp. 167-172. Reiter, "A theory of diagnosis from first principles", Artificial Intelligence
32:57-95, 1987 (hitting sets; from memory). Liffiton, Previti, Malik, Marques-Silva, "Fast, flexible
MUS enumeration", Constraints 21(2):223-250, 2016.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Generic, TypeAlias, TypeVar

Wish = TypeVar("Wish")
Oracle: TypeAlias = Callable[[tuple[Wish, ...]], bool]
"""Whether these wishes can be had together."""
Places: TypeAlias = frozenset[int]
"""Wishes by their place in the sequence."""


def preferred_conflict(wishes: Sequence[Wish], fits: Oracle[Wish]) -> tuple[Wish, ...] | None:
    """Return a smallest-by-inclusion set of wishes that do not fit together, or None if all do.

    Parameters
    ----------
    wishes : sequence
        The most important first: the conflict found keeps to the front of the sequence, so that
        its last member is the one that the person would give up most easily. [-]
    fits : callable
        The oracle. [-]

    Returns
    -------
    tuple or None
        Empty if nothing fits even without any wish.

    Notes
    -----
    QuickXplain: divide and conquer; about 2k log2(n/k) + 2k questions for k out of n.

    """
    if fits(tuple(wishes)):
        return None
    if not wishes or not fits(()):
        return ()
    found = _split((), False, tuple(range(len(wishes))), _by_place(wishes, fits))
    return tuple(wishes[place] for place in sorted(found))


def _split(
    fixed: tuple[int, ...],
    grown: bool,
    wishes: tuple[int, ...],
    fits: Callable[[tuple[int, ...]], bool],
) -> tuple[int, ...]:
    if grown and not fits(fixed):
        return ()
    if len(wishes) == 1:
        return wishes
    half = len(wishes) // 2
    first, second = wishes[:half], wishes[half:]
    late = _split(fixed + first, True, second, fits)
    early = _split(fixed + late, bool(late), first, fits)
    return early + late


def _by_place(wishes: Sequence[Wish], fits: Oracle[Wish]) -> Callable[[tuple[int, ...]], bool]:
    return lambda places: fits(tuple(wishes[place] for place in sorted(places)))


def ways_out(
    wishes: Sequence[Wish], fits: Oracle[Wish], weights: Sequence[float], most: int = 3
) -> list[tuple[Wish, ...]]:
    """Return the lightest sets of wishes to give up so that the rest fits, the lightest first.

    Parameters
    ----------
    wishes : sequence
        The most important first. [-]
    fits : callable
        The oracle. [-]
    weights : sequence of float
        What giving up each wish counts; more than zero. [-]
    most : int
        How many sets to return at most. [-]

    Returns
    -------
    list of tuple
        Each smallest by inclusion. Empty if nothing fits even without any wish.

    Notes
    -----
    A way out meets every conflict; the lightest set that meets all conflicts known so far either
    is a way out, or what it leaves holds a conflict not known yet (Reiter's duality). So the
    answer is exact, and only the conflicts that matter are looked for.

    """
    if not fits(()):
        return []
    conflicts: list[Places] = []
    found: list[Places] = []
    while len(found) < most:
        gone = _lightest_hitting(conflicts, found, weights)
        if gone is None:
            break
        kept = [place for place in range(len(wishes)) if place not in gone]
        conflict = preferred_conflict(kept, _by_place(wishes, fits))
        if conflict is None:
            found.append(gone)
        else:
            conflicts.append(frozenset(conflict))
    return [tuple(wishes[place] for place in sorted(gone)) for gone in found]


def _lightest_hitting(
    conflicts: Sequence[Places], not_holding: Sequence[Places], weights: Sequence[float]
) -> Places | None:
    """Return the lightest set that meets every conflict and holds none of the other sets."""
    queue: list[tuple[float, tuple[int, ...]]] = [(0.0, ())]
    seen: set[Places] = set()
    while queue:
        weight, places = heappop(queue)
        chosen = frozenset(places)
        if chosen in seen or any(held <= chosen for held in not_holding):
            continue
        seen.add(chosen)
        missed = next((conflict for conflict in conflicts if not conflict & chosen), None)
        if missed is None:
            return chosen
        for place in missed:
            heappush(queue, (weight + weights[place], tuple(sorted((*places, place)))))
    return None


@dataclass(frozen=True, kw_only=True)
class Clashes(Generic[Wish]):
    """Every minimal conflict among the wishes and every minimal way out."""

    conflicts: tuple[tuple[Wish, ...], ...]
    ways_out: tuple[tuple[Wish, ...], ...]
    complete: bool
    """False if the search stopped at its limit."""


def all_clashes(wishes: Sequence[Wish], fits: Oracle[Wish], most: int = 500) -> Clashes[Wish]:
    """Return all minimal conflicts and all minimal ways out; meant for twenty wishes or fewer.

    Parameters
    ----------
    wishes : sequence
        The most important first. [-]
    fits : callable
        The oracle. [-]
    most : int
        Stop after this many sets of both kinds. [-]

    Notes
    -----
    MARCO: take a subset not yet judged; one that fits is grown until nothing can be added (what is
    left out is a way out), one that does not is shrunk to a conflict; each judges all below or
    above it. Unjudged subsets come from hitting sets rather than from a solver.

    """
    judge = _by_place(wishes, fits)
    everything = frozenset(range(len(wishes)))
    conflicts: list[Places] = []
    outs: list[Places] = []
    complete = True
    for seed in _unjudged(everything, conflicts, outs):
        if len(conflicts) + len(outs) >= most:
            complete = False
            break
        clash = preferred_conflict(tuple(sorted(seed)), judge)
        if clash is not None:
            conflicts.append(frozenset(clash))
        else:
            outs.append(everything - _grown(seed, everything, judge))

    def named(sets: list[Places]) -> tuple[tuple[Wish, ...], ...]:
        ordered = sorted(sorted(places) for places in sets)
        return tuple(tuple(wishes[p] for p in places) for places in sorted(ordered, key=len))

    return Clashes(conflicts=named(conflicts), ways_out=named(outs), complete=complete)


def _grown(seed: Places, everything: Places, judge: Callable[[tuple[int, ...]], bool]) -> Places:
    kept = seed
    for place in sorted(everything - seed):
        if judge(tuple(sorted(kept | {place}))):
            kept |= {place}
    return kept


def _unjudged(
    everything: Places, conflicts: Sequence[Places], outs: Sequence[Places]
) -> Iterator[Places]:
    """Give subsets that hold no known conflict and keep something of each known way out.

    Each is as large as the known conflicts allow: what it leaves out is a lightest set meeting all
    known conflicts and holding no known way out.
    """
    ones = [1.0] * len(everything)
    while True:
        gone = _lightest_hitting(conflicts, outs, ones)
        if gone is None:
            return
        yield everything - gone
