"""Run a plan through all of its draws at once, under a rule that does not know the future."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from drybuild.planning.calendar import Clock
from drybuild.planning.jobs import Plan
from drybuild.planning.layout import Layout, Work, arrange, lay_out
from drybuild.planning.sampling import Array, Draws, Whole

Mask = npt.NDArray[np.bool_]
FROM_THE_START = -1
"""Bound by nothing that went before: it could begin at once, or waited for a release."""


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of every run; rows are the layout's nodes, index 0 of the last axis the plan."""

    plan: Plan
    layout: Layout
    draws: Draws
    work: Work
    clock: Clock
    start_day: Array
    end_day: Array
    """When the node's last hour is worked; cure and time away come on top."""
    bound_by: npt.NDArray[np.int16]
    """The node that this one had to wait for, or `FROM_THE_START`."""
    placed_day: Array
    """Day on which each order was placed, a row an order."""
    arrival_day: Array

    def some(self, which: slice) -> Outcome:
        """Return some of the runs."""
        work = Work(**{name: rows[..., which] for name, rows in vars(self.work).items()})
        return replace(
            self,
            draws=self.draws.some(which),
            work=work,
            start_day=self.start_day[..., which],
            end_day=self.end_day[..., which],
            bound_by=self.bound_by[..., which],
            placed_day=self.placed_day[..., which],
            arrival_day=self.arrival_day[..., which],
        )

    @property
    def out_day(self) -> Array:
        """When what follows each node may begin."""
        return self.end_day + self.work.cure_days + self.work.away_days

    @property
    def finish_day(self) -> Array:
        """When everything is done."""
        finish: Array = self.out_day.max(axis=0, initial=0.0)
        return finish

    @property
    def cost(self) -> Array:
        """All money: jobs, repairs and parts."""
        total: Array = self.work.cost.sum(axis=0) + self.draws.price.sum(axis=0)
        return total

    @property
    def hours(self) -> Array:
        """All of the owner's hours."""
        total: Array = self.work.hours.sum(axis=0)
        return total


def simulate(
    plan: Plan,
    draws: Draws,
    *,
    parts_at_hand: bool = False,
    placed: Array | None = None,
    sequence: Sequence[int] | None = None,
) -> Outcome:
    """Work a plan off in every run.

    Parameters
    ----------
    plan : Plan
        A plan without faults.
    draws : Draws
        Its figures in each run.
    parts_at_hand : bool
        Leave all orders out of account, to find when each part would be wanted.
    placed : array, optional
        Day on which each order is placed in each run, instead of the plan's. [day]
    sequence : sequence of int, optional
        Take the nodes in just this order instead of by priority.

    Notes
    -----
    The owner does one job at a time to its end, and then takes the first by priority among those
    that may begin; if none may, he waits for the next that does. So a start depends only on what
    is known at that moment: a discovery costs its hours when its job has revealed it, never
    before. This is the parallel schedule scheme with a fixed priority list, applied run by run.
    Helpers' hours and the owner's are charged when a job begins; with fewer helper hours than
    owner hours in a week the job ends when the helpers' hours have come, and the owner goes on.

    References
    ----------
    .. [1] Kolisch, "Serial and parallel resource-constrained project scheduling methods
       revisited", EJOR 90, 1996, 320-333 (from memory).
    .. [2] Möhring, Radermacher and Weiss, "Stochastic scheduling problems", Zeitschrift für
       Operations Research 28, 1984, 193-260 (from memory), for policies and what they may know.

    """
    if parts_at_hand:
        plan, draws = _with_parts(plan, draws)
    layout = lay_out(plan)
    placed, arrivals = _orders(plan, draws, placed)
    work = arrange(plan, layout, draws, arrivals)
    clock = Clock(plan.calendar, _horizon(plan, layout, work, draws))
    bench = _Bench(plan, layout, work, clock, draws.hours_kept)
    for step in range(layout.size):
        bench.step(None if sequence is None else sequence[step])
    late_placed, late_arrivals = _by_node(layout, bench.end, work, placed, arrivals)
    return Outcome(
        plan=plan,
        layout=layout,
        draws=draws,
        work=work,
        clock=clock,
        start_day=bench.start,
        end_day=bench.end,
        bound_by=bench.bound_by,
        placed_day=late_placed,
        arrival_day=late_arrivals,
    )


def _with_parts(plan: Plan, draws: Draws) -> tuple[Plan, Draws]:
    """Return the plan as if every part came at once."""
    orders = tuple(replace(item, placed_day=None) for item in plan.orders)
    at_once = np.zeros_like(draws.order_lead_days)
    return replace(plan, orders=orders), replace(draws, order_lead_days=at_once)


def _orders(plan: Plan, draws: Draws, placed: Array | None) -> tuple[Array, Array]:
    """Return when orders are placed and arrive; -inf for those that wait for a job."""
    if placed is None:
        days = np.array([[item.placed_day or 0.0] for item in plan.orders]).reshape(-1, 1)
        placed = np.repeat(days, draws.runs, axis=1)
    arrivals = placed + draws.order_lead_days
    for row, item in enumerate(plan.orders):
        if item.after:
            arrivals[row] = -np.inf
    return placed, arrivals


def _by_node(
    layout: Layout, end: Array, work: Work, placed: Array, arrivals: Array
) -> tuple[Array, Array]:
    """Fill in the orders that were placed when a job was done."""
    placed, arrivals = placed.copy(), arrivals.copy()
    for node, kind in enumerate(layout.kinds):
        if kind == "order":
            row = layout.rows[node]
            placed[row] = end[node]
            arrivals[row] = end[node] + work.away_days[node]
    return placed, arrivals


def _horizon(plan: Plan, layout: Layout, work: Work, draws: Draws) -> int:
    """Return more days than any run can take: all work and all waits, one behind the other."""
    hours = work.hours.sum(axis=0)
    if layout.helpers.any():
        hours = hours + layout.helpers @ work.hours / _helper_share(plan)
    waits = (work.cure_days + work.away_days + work.lead_days).sum(axis=0)
    release = work.release_day.max(axis=0, initial=0.0)
    return plan.calendar.days_for(
        float((hours / draws.hours_kept).max(initial=0.0)),
        float((waits + release).max(initial=0.0)),
    )


def _helper_share(plan: Plan) -> float:
    return plan.calendar.helper_hours_a_week / plan.calendar.hours_a_week


class _Bench:
    """The state of all runs while they are worked off; every array has runs as its last axis."""

    def __init__(
        self, plan: Plan, layout: Layout, work: Work, clock: Clock, hours_kept: Array
    ) -> None:
        nodes, runs = layout.size, hours_kept.size
        self.layout, self.work, self.clock = layout, work, clock
        self.run = np.arange(runs)
        self.day = np.zeros(runs)
        self.worked = np.zeros(runs)
        self.helped = np.zeros(runs)
        self.hours = work.hours / hours_kept
        self.after_lag = work.cure_days + work.away_days
        self.helper_stretch = layout.helpers / _helper_share(plan) if layout.helpers.any() else None
        self.passive = np.array([kind == "order" for kind in layout.kinds])
        self.free = [np.zeros((count, runs)) for count in layout.slots]
        self.held = [0.0] * len(layout.slots)
        self.holder = [np.full((count, runs), FROM_THE_START, np.int16) for count in layout.slots]
        counts = np.array([len(before) for before in layout.before], np.int16)
        self.waiting = np.repeat(counts[:, np.newaxis], runs, axis=1)
        self.known = work.release_day.copy()
        self.bound_by = np.full((nodes, runs), FROM_THE_START, np.int16)
        self.last = np.full(runs, FROM_THE_START, np.int16)
        no_wait = counts == 0
        self.ready = np.where(no_wait[:, np.newaxis], self.known, np.inf)
        self.start = np.zeros((nodes, runs))
        self.end = np.zeros((nodes, runs))
        self.then, self.fan = _fan_out(layout)
        self.low, self.high = 0, int(np.flatnonzero(no_wait).max(initial=0)) + 1
        self.done = np.zeros(nodes, np.int64)

    def step(self, forced: int | None) -> None:
        """Take one node in each run and follow what it brings."""
        pick, ready = self._choose(forced)
        start = np.maximum(self.day, ready)
        passive = self.passive[pick]
        start = np.where(passive, ready, start)
        end = self._do(pick, start, passive)
        self.start[pick, self.run] = start
        self.end[pick, self.run] = end
        self._remember(pick, ready, passive)
        self._hold(pick, end)
        self._release(pick, end + self.after_lag[pick, self.run])
        self.done += np.bincount(pick, minlength=self.done.size)
        while self.low < self.done.size and self.done[self.low] == self.run.size:
            self.low += 1

    def _choose(self, forced: int | None) -> tuple[Whole, Array]:
        """Return the node that each run takes, and the day on which it could have begun."""
        if forced is not None:
            pick = np.full(self.run.size, forced)
        else:
            window = self.ready[self.low : self.high]
            now = np.maximum(self.day, window.min(axis=0))
            pick = self.low + np.argmax(window <= now, axis=0)
        ready = self.ready[pick, self.run]
        self.ready[pick, self.run] = np.inf
        return pick, ready

    def _do(self, pick: Whole, start: Array, passive: Mask) -> Array:
        """Work the hours and return the day of the last."""
        waited = (start > self.day) & ~passive
        worked = np.where(waited, self.clock.hours_at(start), self.worked)
        hours = self.hours[pick, self.run]
        done = worked + hours
        day = np.where(hours > 0.0, self.clock.day_at(done), start)
        end = day
        if self.helper_stretch is not None:
            stretch = self.helper_stretch[pick]
            with_help = np.maximum(worked, self.helped) + stretch * hours
            helped = stretch * hours > 0.0
            self.helped = np.where(helped, with_help, self.helped)
            end = np.where(helped & (with_help > done), self.clock.day_at(with_help), day)
        self.day = np.where(passive, self.day, day)
        self.worked = np.where(passive, self.worked, done)
        return np.where(passive, start, end)

    def _remember(self, pick: Whole, ready: Array, passive: Mask) -> None:
        """Note whether the start waited for the owner rather than for what came before."""
        owner = (self.start[pick, self.run] > ready) & ~passive
        rows = np.flatnonzero(owner)
        self.bound_by[pick[rows], rows] = self.last[rows]
        self.last = np.where(passive, self.last, pick).astype(np.int16)

    def _hold(self, pick: Whole, end: Array) -> None:
        """Keep the place while the work cures or a helper's hours are outstanding."""
        place = self.layout.place[pick]
        until = end + self.work.cure_days[pick, self.run]
        held = (place >= 0) & (until > self.day)
        for index in np.unique(place[held]):
            runs = np.flatnonzero(held & (place == index))
            slots = self.free[index]
            slot = slots[:, runs].argmin(axis=0)
            slots[slot, runs] = until[runs]
            self.held[index] = max(self.held[index], float(until[runs].max()))
            self.holder[index][slot, runs] = pick[runs]
            self._put_off(index, runs)

    def _put_off(self, place: int, runs: Whole) -> None:
        """Let nothing that is ready begin in a place before it is free."""
        until, holder = self._free_from(place, runs)
        window = self.layout.place[self.low : self.high]
        here = np.ix_(self.low + np.flatnonzero(window == place), runs)
        later = self.ready[here] < until
        self.ready[here] = np.where(later, until, self.ready[here])
        self.bound_by[here] = np.where(later, holder, self.bound_by[here])

    def _free_from(self, place: int, runs: Whole) -> tuple[Array, npt.NDArray[np.int16]]:
        """Return the day on which a place is free, and the node that holds it till then."""
        slots = self.free[place][:, runs]
        slot = slots.argmin(axis=0)
        across = np.arange(runs.size)
        return slots[slot, across], self.holder[place][slot, runs]

    def _release(self, pick: Whole, out: Array) -> None:
        """Tell the nodes behind those just done."""
        fan = self.fan[pick]
        for arm in range(int(fan.max(initial=0))):
            runs = np.flatnonzero(fan > arm)
            node = self.then[pick[runs], arm]
            day = out[runs] + self.work.lead_days[node, runs]
            later = day > self.known[node, runs]
            self.known[node[later], runs[later]] = day[later]
            self.bound_by[node[later], runs[later]] = pick[runs[later]]
            self.waiting[node, runs] -= 1
            open_now = self.waiting[node, runs] == 0
            self._open(node[open_now], runs[open_now])

    def _open(self, node: Whole, runs: Whole) -> None:
        if not node.size:
            return
        self.high = max(self.high, int(node.max()) + 1)
        day = self.known[node, runs]
        soonest = day.min()
        for place, held in enumerate(self.held):
            if held > soonest and (here := np.flatnonzero(self.layout.place[node] == place)).size:
                until, holder = self._free_from(place, runs[here])
                late = here[until > day[here]]
                self.bound_by[node[late], runs[late]] = holder[until > day[here]]
                day[here] = np.maximum(day[here], until)
        self.ready[node, runs] = day


def _fan_out(layout: Layout) -> tuple[Whole, Whole]:
    """Return the nodes behind each node as a padded table, and how many there are."""
    behind: list[list[int]] = [[] for _ in layout.names]
    for node, before in enumerate(layout.before):
        for earlier in before:
            behind[earlier].append(node)
    fan = np.array([len(nodes) for nodes in behind], np.int64)
    table = np.zeros((layout.size, int(fan.max(initial=0))), np.int64)
    for node, nodes in enumerate(behind):
        table[node, : len(nodes)] = nodes
    return table, fan
