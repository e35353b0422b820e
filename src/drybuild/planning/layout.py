"""A plan laid out as arrays: nodes in order of priority, links, places, releases."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.planning.estimates import ThreePoint
from drybuild.planning.faults import precedence
from drybuild.planning.jobs import Job, Plan
from drybuild.planning.network import tails
from drybuild.planning.sampling import Array, Draws, Whole
from drybuild.project.succession import order


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Nodes are jobs, repairs and orders that wait for a job; row 0 has the first call on time."""

    names: tuple[str, ...]
    kinds: tuple[str, ...]
    """"job", "repair" or "order" for each node."""
    rows: Whole
    """Row of each node among the plan's jobs, discoveries or orders."""
    before: tuple[tuple[int, ...], ...]
    """The nodes that each node waits for."""
    place: Whole
    """Index of the place that the node holds, or -1."""
    slots: tuple[int, ...]
    """How many of each place there are."""
    helpers: Whole

    @property
    def size(self) -> int:
        """The number of nodes."""
        return len(self.names)

    @cached_property
    def orders(self) -> npt.NDArray[np.bool_]:
        """Which nodes are orders, that take nobody's time."""
        return np.array([kind == "order" for kind in self.kinds], bool)

    def index(self, name: str) -> int:
        """Return the row of a job or repair."""
        return self._index[name]

    @cached_property
    def _index(self) -> dict[str, int]:
        return {n: i for i, n in enumerate(self.names) if self.kinds[i] != "order"}


def lay_out(plan: Plan) -> Layout:
    """Return the plan's nodes, those with the longest way to the end first.

    Notes
    -----
    The priority is the tail: the node's own expected time and that of the longest chain behind
    it. It uses expected figures only, never those of a run: a policy may not know the future.

    """
    after = _after(plan)
    hours = _expected_hours(plan)
    daily = plan.calendar.usual_hours_a_day
    lags = _expected_waits(plan)
    tail = tails({name: hours.get(name, 0.0) / daily for name in after}, after, lags)
    depth = {name: place for place, name in enumerate(order(after))}
    names = sorted(after, key=lambda name: (-_rank(name, tail[name]), depth[name]))
    index = {name: i for i, name in enumerate(names)}
    items = {item.name: item for item in plan.steps}
    places = list(dict.fromkeys(item.place for item in items.values() if item.place))
    kinds, rows = zip(*(_kind(plan, name) for name in names), strict=True) if names else ((), ())
    held = [getattr(items.get(name), "place", "") for name in names]
    return Layout(
        names=tuple(name.removeprefix(ORDER) for name in names),
        kinds=kinds,
        rows=np.array(rows, np.int64),
        before=tuple(tuple(index[earlier] for earlier in after[name]) for name in names),
        place=np.array([places.index(p) if p else -1 for p in held], np.int64),
        slots=tuple(plan.places.get(place, 1) for place in places),
        helpers=np.array([getattr(items.get(name), "helpers", 0) for name in names], np.int64),
    )


ORDER = "order\N{NO-BREAK SPACE}"
"""Keeps the names of orders apart from those of jobs."""


def _rank(name: str, tail: float) -> float:
    return np.inf if name.startswith(ORDER) else tail


def _after(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Return what each node waits for, orders that wait for a job included."""
    after = precedence(plan)
    for item in plan.orders:
        if item.after:
            after[ORDER + item.part] = item.after
            for name in item.needed_by:
                after[name] = (*after[name], ORDER + item.part)
    return after


def _expected_hours(plan: Plan) -> dict[str, float]:
    jobs = {job.name: middle(job.hours) for job in plan.jobs}
    repairs = {
        found.name: sum(grade.odds * middle(grade.hours) for grade in found.grades)
        for found in plan.discoveries
    }
    return jobs | repairs


def _expected_waits(plan: Plan) -> dict[str, float]:
    waits = {job.name: middle(job.cure_days) + middle(job.away_days) for job in plan.jobs}
    for item in plan.orders:
        waits[ORDER + item.part] = middle(item.lead_days)
    return waits


def middle(figure: ThreePoint) -> float:
    """Return the mean of a figure by the PERT weights, near enough for a priority."""
    return (figure.low + 4.0 * figure.likely + figure.high) / 6.0


def _kind(plan: Plan, name: str) -> tuple[str, int]:
    if name.startswith(ORDER):
        parts = [item.part for item in plan.orders]
        return "order", parts.index(name.removeprefix(ORDER))
    jobs = [job.name for job in plan.jobs]
    if name in jobs:
        return "job", jobs.index(name)
    return "repair", [found.name for found in plan.discoveries].index(name)


@dataclass(frozen=True, kw_only=True)
class Work:
    """The draws of a plan arranged by node: one row a node, last axis = runs."""

    hours: Array
    cure_days: Array
    away_days: Array
    lead_days: Array
    """Wait between the last job before and the node's own start: material for a repair."""
    release_day: Array
    """No start before: the job's earliest day, and the arrival of what it needs."""
    cost: Array

    def some(self, which: slice) -> Work:
        """Return the work of some of the runs."""
        return Work(**{name: rows[..., which] for name, rows in vars(self).items()})


def arrange(plan: Plan, layout: Layout, draws: Draws, arrivals: Array) -> Work:
    """Arrange draws by node.

    Parameters
    ----------
    plan, layout, draws
        The plan, its layout and its draws.
    arrivals : array
        Day on which each order arrives, a row an order; -inf for those that come by a node. [day]

    """
    work = Work(**{one.name: np.zeros((layout.size, draws.runs)) for one in fields(Work)})
    for node, (kind, row) in enumerate(zip(layout.kinds, layout.rows, strict=True)):
        if kind == "job":
            work.hours[node] = draws.hours[row]
            work.cure_days[node] = draws.cure_days[row]
            work.away_days[node] = draws.away_days[row]
            work.cost[node] = draws.cost[row]
            work.release_day[node] = _release(plan, plan.jobs[row], arrivals)
        elif kind == "repair":
            work.hours[node] = draws.grade_hours[row]
            work.cost[node] = draws.grade_cost[row]
            work.lead_days[node] = draws.grade_lead_days[row]
        else:
            work.away_days[node] = draws.order_lead_days[row]
            work.release_day[node] = max(plan.orders[row].placed_day or 0.0, 0.0)
    return work


def _release(plan: Plan, job: Job, arrivals: Array) -> Array:
    wanted = [row for row, item in enumerate(plan.orders) if job.name in item.needed_by]
    latest: Array = np.maximum.reduce([arrivals[row] for row in wanted], initial=0.0)
    return np.maximum(latest, job.earliest_day)
