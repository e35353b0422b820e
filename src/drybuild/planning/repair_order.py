"""The order of repairs that keeps a shell true: rounds that open only what may be open together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """A repair that waits for its turn."""

    name: str
    rank: int
    """What carries more comes earlier."""
    side: str
    """left, right, or nothing for the middle."""
    weight: float
    """How much there is to do: the worse side goes first, the other still holds the shape."""


@dataclass(frozen=True, kw_only=True)
class Round:
    """Repairs that may be open at the same time, closed and measured before the next."""

    number: int
    rank: int
    side: str
    names: tuple[str, ...]


def rounds(wanted: Sequence[Wanted], clash: Callable[[str, str], bool]) -> tuple[Round, ...]:
    """Return the repairs in rounds: by rank, one side at a time, nothing that clashes together.

    Parameters
    ----------
    wanted : sequence of Wanted
        The repairs.
    clash : callable
        Says whether two repairs must not be open together.

    Notes
    -----
    Within a rank and side each repair goes into the first round that holds nothing it clashes
    with: greedy colouring in order of weight. The worse side of the car is the one with more to
    do in all ranks, so that it is the same all the way through.

    """
    load = {
        side: sum(one.weight for one in wanted if one.side == side) for side in ("left", "right")
    }
    worse = "left" if load["left"] >= load["right"] else "right"
    place = {worse: 0, "": 1}
    found: list[Round] = []
    groups: dict[tuple[int, int, str], list[Wanted]] = {}
    for one in wanted:
        groups.setdefault((one.rank, place.get(one.side, 2), one.side), []).append(one)
    for (rank, _, side), members in sorted(groups.items()):
        bins: list[list[str]] = []
        for one in sorted(members, key=lambda each: (-each.weight, each.name)):
            home = next((b for b in bins if not any(clash(one.name, n) for n in b)), None)
            if home is None:
                bins.append(home := [])
            home.append(one.name)
        for names in bins:
            found.append(Round(number=len(found) + 1, rank=rank, side=side, names=tuple(names)))
    return tuple(found)


def waits(order: Sequence[Round], clash: Callable[[str, str], bool]) -> dict[str, tuple[str, ...]]:
    """Return for each repair the earlier ones that must be closed before it is opened."""
    found: dict[str, tuple[str, ...]] = {}
    earlier: list[str] = []
    for one in order:
        for name in one.names:
            found[name] = tuple(other for other in earlier if clash(name, other))
        earlier += one.names
    return found


def open_together(
    opens: Mapping[str, Sequence[str]],
    before: Callable[[str], frozenset[str]],
    clash: Callable[[str, str], bool],
) -> tuple[tuple[str, str, str, str], ...]:
    """Return what a plan leaves open together against the rules.

    Parameters
    ----------
    opens : mapping
        What each job opens; it is closed when the job is done.
    before : callable
        Every job that must be done before a job.
    clash : callable
        Says whether two things must not be open together.

    Returns
    -------
    tuple
        Job, what it opens, other job (the same for what one job opens by itself), what that opens.

    """
    found = []
    jobs = list(opens)
    for i, job in enumerate(jobs):
        for other in jobs[i:]:
            if other != job and (other in before(job) or job in before(other)):
                continue
            pairs = [(a, b) for a in opens[job] for b in opens[other] if clash(a, b)]
            if other == job:
                pairs = [(a, b) for a, b in pairs if a < b]
            found += [(job, a, other, b) for a, b in pairs]
    return tuple(found)
