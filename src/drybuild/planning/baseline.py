"""The plan's own schedule: by priority at once, and the shortest that CP-SAT can find."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.planning.calendar import Clock
from drybuild.planning.jobs import Plan
from drybuild.planning.layout import Layout
from drybuild.planning.sampling import draw
from drybuild.planning.simulate import Outcome, simulate
from drybuild.planning.solver import Link, Piece, Solution, Task, Use, shortest

TICK = 0.02
"""Length of the solver's unit of the owner's working time. [h]"""


@dataclass(frozen=True, kw_only=True)
class Baseline:
    """The schedule of the plan: likely values, no discoveries, every order on its day."""

    outcome: Outcome
    """The better of the two schedules, as a run of one."""
    list_day: float
    """End of the schedule by priority. [day]"""
    finish_day: float
    """End of the better one. [day]"""
    bound_day: float
    """No schedule of this plan can end before this day. [day]"""
    proven: bool
    """Whether the solver closed the gap, but for the rounding to whole ticks."""

    @property
    def gap(self) -> float:
        """The share by which the schedule could at most be shortened."""
        return (self.finish_day - self.bound_day) / max(self.finish_day, 1e-9)


def by_priority(plan: Plan) -> Outcome:
    """Return the plan's schedule by priority alone: milliseconds, for every edit."""
    return simulate(plan, draw(plan, 0))


def baseline(plan: Plan, *, seconds: float = 5.0) -> Baseline:
    """Return the best schedule of the plan that can be found in some seconds.

    Notes
    -----
    The solver works in the owner's working time, in which the owner is simply one machine.
    Waits that run in calendar days are longer or shorter in it where weeks differ; each is
    cut into stretches of the calendar, and in each stretch its least length is taken, rounded
    down. So the solver's bound holds for the true plan, and nothing longer than the schedule by
    priority need be looked for; the order of jobs is then worked off on the true calendar.

    """
    listed = by_priority(plan)
    solved = _solve(listed, seconds)
    best, bound = listed, 0.0
    if solved is not None:
        order = _sequence(listed.layout, solved)
        followed = simulate(plan, draw(plan, 0), sequence=order)
        best = min(listed, followed, key=lambda o: float(o.finish_day[0]))
        bound = float(listed.clock.day_at(np.array([solved.bound * TICK]))[0])
    finish = float(best.finish_day[0])
    return Baseline(
        outcome=best,
        list_day=float(listed.finish_day[0]),
        finish_day=finish,
        bound_day=min(bound, finish),
        proven=solved is not None and solved.proven,
    )


def _sequence(layout: Layout, solved: Solution) -> list[int]:
    """Return the nodes by their start; where two start together, what comes before goes first."""
    depth: dict[int, int] = {}

    def deep(node: int) -> int:
        if node not in depth:
            depth[node] = 1 + max((deep(earlier) for earlier in layout.before[node]), default=0)
        return depth[node]

    return sorted(range(layout.size), key=lambda i: (solved.starts[str(i)], deep(i)))


def _solve(listed: Outcome, seconds: float) -> Solution | None:
    layout, waits = listed.layout, _Waits(listed)
    tasks = [_task(listed, node, waits) for node in range(layout.size)]
    links = [
        Link(
            before=str(earlier),
            after=str(node),
            through=waits.pieces(waits.behind[earlier] + waits.ahead[node]),
        )
        for node in range(layout.size)
        for earlier in layout.before[node]
    ]
    capacity = {"owner": 1, "helpers": 1}
    capacity |= {f"place {i}": count for i, count in enumerate(layout.slots)}
    starts = listed.clock.hours_at(listed.start_day[:, 0])
    return shortest(
        tasks,
        links,
        capacity,
        seconds=seconds,
        hint={str(node): int(start / TICK) for node, start in enumerate(starts)},
        tails={
            str(node): waits.pieces(wait) for node, wait in enumerate(waits.behind) if wait > 0.0
        },
        limit=_ticks(float(listed.clock.hours_at(listed.finish_day)[0])) + 1,
    )


def _ticks(hours: float) -> int:
    """Return whole ticks, rounded down so that no schedule is lost; the slight is for floats."""
    return int(np.floor(hours / TICK + 1e-6))


def _task(listed: Outcome, node: int, waits: _Waits) -> Task:
    layout, work = listed.layout, listed.work
    hours = float(work.hours[node, 0] / listed.draws.hours_kept[0])
    length, helped = _ticks(hours), 0
    uses = []
    if length and layout.kinds[node] != "order":
        uses.append(Use(of="owner"))
    if length and layout.helpers[node]:
        calendar = listed.plan.calendar
        helped = _ticks(hours * float(layout.helpers[node]) / calendar.helper_share)
        uses.append(Use(of="helpers", length=helped))
    cure = waits.pieces(float(work.cure_days[node, 0]))
    if layout.place[node] >= 0 and (length or cure):
        uses.append(Use(of=f"place {layout.place[node]}", length=max(length, helped), through=cure))
    release = np.array(
        [work.release_day[node, 0] + (waits.ahead[node] if waits.alone(node) else 0)]
    )
    return Task(
        name=str(node),
        length=length,
        ends=max(length, helped),
        uses=tuple(uses),
        earliest=_ticks(float(listed.clock.hours_at(release)[0])),
    )


class _Waits:
    """Waits in calendar days as pieces of the owner's working time."""

    def __init__(self, listed: Outcome) -> None:
        self.listed = listed
        work = listed.work
        self.behind = [float(days) for days in work.cure_days[:, 0] + work.away_days[:, 0]]
        self.ahead = [float(days) for days in work.lead_days[:, 0]]
        self._known: dict[float, tuple[Piece, ...]] = {0.0: ()}

    def alone(self, node: int) -> bool:
        """Whether a node waits for no other."""
        return not self.listed.layout.before[node]

    def pieces(self, days: float) -> tuple[Piece, ...]:
        """Return the least hours of work that go by during a wait, by when it begins."""
        if days not in self._known:
            self._known[days] = _pieces(self.listed.clock, days)
        return self._known[days]


def _pieces(clock: Clock, days: float) -> tuple[Piece, ...]:
    """Cut the calendar where the least wait changes, judged week by week.

    Within a week the work that goes by during a wait moves up and down with the days of work;
    the least of the week is taken.
    """
    weeks = max(clock.days // 7, 1)
    begins = np.arange(weeks * 7, dtype=float)
    ends = np.minimum(begins + days, clock.days)
    gone = clock.hours_at(ends) - clock.hours_at(begins)
    # The wait is least at a day's end or at a point where its own end meets one.
    kinks = np.clip(np.ceil(begins + days) - days, 0.0, clock.days - 1.0)
    bent = clock.hours_at(np.minimum(kinks + days, clock.days)) - clock.hours_at(kinks)
    least = np.floor(np.minimum(gone, bent).reshape(weeks, 7).min(axis=1) / TICK + 1e-6)
    edges = np.flatnonzero(np.diff(least)) + 1
    first_weeks = np.concatenate([[0], edges])
    first = np.floor(clock.hours_at(first_weeks * 7.0) / TICK).astype(int)
    last = np.concatenate([first[1:] + 1, [10**9]])
    return tuple(
        Piece(first=int(a), last=int(b), wait=int(least[week]))
        for a, b, week in zip(first, last, first_weeks, strict=True)
    )
