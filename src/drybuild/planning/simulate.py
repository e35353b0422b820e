"""Run a plan through all of its draws at once, under a rule that does not know the future."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.planning.bench import Bench
from drybuild.planning.calendar import Clock
from drybuild.planning.jobs import Plan
from drybuild.planning.layout import Layout, Work, arrange, lay_out
from drybuild.planning.sampling import Array, Draws

AT_ONCE = 4096
"""Runs that are worked off side by side: enough to keep NumPy busy, few enough for the caches."""


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
        return replace(
            self,
            draws=self.draws.some(which),
            work=self.work.some(which),
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

    @cached_property
    def finish_day(self) -> Array:
        """When everything is done."""
        finish: Array = self.out_day.max(axis=0, initial=0.0)
        return finish

    @cached_property
    def cost(self) -> Array:
        """All money: jobs, repairs and parts."""
        total: Array = self.work.cost.sum(axis=0) + self.draws.price.sum(axis=0)
        return total

    @cached_property
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
    start, end = np.empty((2, layout.size, draws.runs))
    bound_by = np.empty(start.shape, np.int16)
    for first in range(0, draws.runs, AT_ONCE):
        part = slice(first, first + AT_ONCE)
        bench = Bench(layout, work.some(part), clock, draws.hours_kept[part])
        bench.work_off(sequence)
        start[:, part], end[:, part], bound_by[:, part] = bench.start, bench.end, bench.bound_by
    late_placed, late_arrivals = _by_node(layout, end, work, placed, arrivals)
    return Outcome(
        plan=plan,
        layout=layout,
        draws=draws,
        work=work,
        clock=clock,
        start_day=start,
        end_day=end,
        bound_by=bound_by,
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
        hours = hours + layout.helpers @ work.hours / plan.calendar.helper_share
    waits = (work.cure_days + work.away_days + work.lead_days).sum(axis=0)
    release = work.release_day.max(axis=0, initial=0.0)
    return plan.calendar.days_for(
        float((hours / draws.hours_kept).max(initial=0.0)),
        float((waits + release).max(initial=0.0)),
    )
