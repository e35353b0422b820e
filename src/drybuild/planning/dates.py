"""The latest dates: by when each job must begin, each part be ordered, each system be decided."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from drybuild.planning.jobs import Plan
from drybuild.planning.sampling import Array, Draws, draw
from drybuild.planning.simulate import Outcome, simulate

MAY_BE_LATE = 0.10
"""Share of runs in which a part may come late when it is ordered on its last day."""


@dataclass(frozen=True, kw_only=True)
class OrderBy:
    """When a part must be ordered; days of the plan."""

    part: str
    system: str
    plan_day: float
    """Last day if everything goes to plan, without moving the end."""
    safe_day: float
    """Last day that keeps the chance of its coming late at a tenth."""
    early_day: float
    """Not before this: jobs that must be done first, in the plan."""
    needed_day: float
    """Half of the runs want it by this day."""
    placed_day: float
    """The day on which the schedule has it ordered."""
    chance_late: float
    """Share of runs in which it comes after it is wanted, ordered on `placed_day`."""

    @property
    def clash(self) -> bool:
        """Whether it should be ordered before it can be."""
        return self.early_day > self.safe_day


@dataclass(frozen=True, kw_only=True)
class DecideBy:
    """When a system must be decided; days of the plan."""

    system: str
    plan_day: float
    safe_day: float
    because: str
    """The part or the job that sets the date."""


def latest_starts(outcome: Outcome) -> Array:
    """Return the latest start of each node that leaves the plan's end where it is, in days.

    Notes
    -----
    A backward pass through the plan's own run (index 0): behind each node come its followers,
    the owner's next job, and the next job in its place.

    """
    layout, clock = outcome.layout, outcome.clock
    wait = (outcome.work.cure_days + outcome.work.away_days)[:, 0]
    lead, cure = outcome.work.lead_days[:, 0], outcome.work.cure_days[:, 0]
    latest = np.full(layout.size, float(outcome.finish_day[0]))
    end_by = latest - wait
    start = np.zeros(layout.size)
    begins, done = outcome.start_day[:, 0], outcome.end_day[:, 0]
    taken = clock.hours_at(done) - clock.hours_at(begins)
    sequence = np.lexsort((done, begins))
    for node in reversed(sequence):
        start[node] = end_by[node]
        if taken[node] > 0.0:
            before = np.maximum(clock.hours_at(end_by[[node]]) - taken[node], 0.0)
            start[node] = clock.last_day_at(before)[0]
        for earlier in layout.before[node]:
            end_by[earlier] = min(end_by[earlier], start[node] - lead[node] - wait[earlier])
        if layout.kinds[node] != "order":
            _push_back(outcome, node, start[node], end_by, cure)
    return start


def _push_back(outcome: Outcome, node: int, start: float, end_by: Array, cure: Array) -> None:
    """Let whatever uses the owner or the place before this node end in time for it."""
    begins, done = outcome.start_day[:, 0], outcome.end_day[:, 0]
    earlier = (begins <= begins[node]) & ~outcome.layout.orders
    earlier[node] = False
    owner = earlier & (done <= begins[node]) & (outcome.work.hours[:, 0] > 0.0)
    end_by[owner] = np.minimum(end_by[owner], start)
    place = outcome.layout.place
    if place[node] >= 0:
        held = earlier & (place == place[node]) & (done + cure <= begins[node])
        end_by[held] = np.minimum(end_by[held], start - cure[held])


def need_days(plan: Plan, draws: Draws) -> Array:
    """Return the day on which each order is wanted, a row an order; inf where no job wants it."""
    return wanted_days(simulate(plan, draws, parts_at_hand=True))


def wanted_days(at_hand: Outcome) -> Array:
    """Return the day on which each order is wanted in runs that were made with parts at hand.

    Notes
    -----
    The day on which the first job that needs it would then begin; inf where no job does.

    """
    orders = at_hand.plan.orders
    wanted = np.full((len(orders), at_hand.draws.runs), np.inf)
    for row, item in enumerate(orders):
        for name in item.needed_by:
            start = at_hand.start_day[at_hand.layout.index(name)]
            wanted[row] = np.minimum(wanted[row], start)
    return wanted


def last_safe_days(wanted: Array, lead_days: Array, may_be_late: float = MAY_BE_LATE) -> Array:
    """Return the last day to order each part so that few runs see it late.

    Notes
    -----
    The `may_be_late` quantile over the runs of (day wanted − lead time).

    """
    days = np.full(len(wanted), np.inf)
    used = np.isfinite(wanted).all(axis=1)
    if used.any():
        last = wanted[used, 1:] - lead_days[used, 1:]
        days[used] = np.quantile(last, may_be_late, axis=1)
    return days


def place_orders(
    plan: Plan, draws: Draws, *, today: float = 0.0, may_be_late: float = MAY_BE_LATE
) -> Plan:
    """Return the plan with a day for every order that had none: its last safe day, or today."""
    if all(item.placed_day is not None for item in plan.orders):
        return plan
    safe = last_safe_days(need_days(plan, draws), draws.order_lead_days, may_be_late)
    return with_days(plan, safe, today=today)


def place_to_plan(plan: Plan, *, today: float = 0.0) -> Plan:
    """Return the plan with the orders placed as if everything went to plan, for its baseline.

    Runs that find something want their parts later; the plan itself, which finds nothing, would
    be held up by parts ordered for them.
    """
    draws = draw(plan, 0)
    last = need_days(plan, draws)[:, 0] - draws.order_lead_days[:, 0]
    return with_days(plan, last, today=today)


def with_days(plan: Plan, days: Array, *, today: float) -> Plan:
    """Return the plan with a day for each order that had none."""
    orders = [
        replace(item, placed_day=_placed(float(day), today)) if item.placed_day is None else item
        for item, day in zip(plan.orders, days, strict=True)
    ]
    return replace(plan, orders=tuple(orders))


def _placed(safe: float, today: float) -> float:
    """Return a whole day, and none before today; a part that no job wants is ordered today."""
    return max(float(np.floor(safe)), today) if np.isfinite(safe) else today


def order_dates(
    plan: Plan, outcome: Outcome, wanted: Array | None = None, latest: Array | None = None
) -> tuple[OrderBy, ...]:
    """Return when to order each part, the most urgent first.

    Parameters
    ----------
    plan : Plan
        A plan whose orders have their days.
    outcome : Outcome
        Its runs.
    wanted : array, optional
        The days on which the parts are wanted (`need_days`) in the first of these runs, if they
        are known already. [day]
    latest : array, optional
        The latest starts (`latest_starts`) in the plan with parts at hand, if known. [day]

    """
    if wanted is None or latest is None:
        at_hand = simulate(plan, outcome.draws, parts_at_hand=True)
        wanted, latest = wanted_days(at_hand), latest_starts(at_hand)
    first = outcome.some(slice(0, wanted.shape[1]))
    safe = last_safe_days(wanted, first.draws.order_lead_days)
    found = [
        _order_date(row, float(safe[row]), wanted[row], latest, first)
        for row in range(len(plan.orders))
    ]
    return tuple(sorted(found, key=lambda order: order.safe_day))


def _order_date(row: int, safe: float, wanted: Array, latest: Array, outcome: Outcome) -> OrderBy:
    item, layout = outcome.plan.orders[row], outcome.layout
    jobs = [latest[layout.index(name)] for name in item.needed_by]
    before = [float(outcome.out_day[layout.index(name), 0]) for name in item.after]
    late = outcome.arrival_day[row, 1:] > wanted[1:] + 1e-9
    return OrderBy(
        part=item.part,
        system=item.system,
        plan_day=float(min(jobs, default=np.inf)) - item.lead_days.likely,
        safe_day=safe,
        early_day=max(before, default=0.0),
        needed_day=float(np.median(wanted[1:] if wanted.size > 1 else wanted)),
        placed_day=float(outcome.placed_day[row, -1]),
        chance_late=float(late.mean()) if late.size else 0.0,
    )


def decision_dates(plan: Plan, outcome: Outcome, orders: Iterable[OrderBy]) -> tuple[DecideBy, ...]:
    """Return by when each system must be decided: for its orders, and for jobs that need it."""
    dates = [
        DecideBy(
            system=order.system,
            plan_day=order.plan_day,
            safe_day=order.safe_day,
            because=order.part,
        )
        for order in orders
        if order.system
    ]
    latest = latest_starts(outcome)
    for job in plan.jobs:
        node = outcome.layout.index(job.name)
        starts = outcome.start_day[node, 1:]
        safe = float(np.quantile(starts, MAY_BE_LATE)) if starts.size else float(latest[node])
        dates += [
            DecideBy(system=system, plan_day=float(latest[node]), safe_day=safe, because=job.name)
            for system in job.needs
        ]
    first: dict[str, DecideBy] = {}
    for decision in sorted(dates, key=lambda date: date.safe_day):
        first.setdefault(decision.system, decision)
    return tuple(first.values())
