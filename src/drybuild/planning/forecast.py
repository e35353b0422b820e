"""All that the runs of a plan say at once: cost and end with their odds, dates, cash, drivers."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

import numpy as np

from drybuild.planning.dates import DecideBy, OrderBy
from drybuild.planning.jobs import Plan
from drybuild.planning.risk import Driver, Spread, cash_bands, criticality, drivers, spread
from drybuild.planning.sampling import Array
from drybuild.planning.simulate import Outcome


@dataclass(frozen=True, kw_only=True)
class JobDates:
    """When a job is likely to be done; dates of the plan and of the runs."""

    name: str
    start: datetime.date
    """In the plan."""
    end: datetime.date
    start_p80: datetime.date
    """Eight runs of ten have begun it by then."""
    hours: float
    cost: float
    critical: float
    """Share of runs in which it was on the chain that set the end."""
    caution: str


@dataclass(frozen=True, kw_only=True)
class Forecast:
    """The plan's odds."""

    cost: Spread
    finish: Spread
    """In days since the start."""
    start: datetime.date
    weeks: Array
    """Of each run."""
    total: Array
    """Money of each run."""
    months: tuple[str, ...]
    cash: Array
    """Cumulated money by month: the plan, half of the runs, eight of ten."""
    drivers: tuple[Driver, ...]
    jobs: tuple[JobDates, ...]
    orders: tuple[OrderBy, ...]
    decisions: tuple[DecideBy, ...]
    found: dict[str, float]
    """Share of runs in which each discovery wanted work."""

    def day(self, days: float) -> datetime.date:
        """Return a day of the plan as a date."""
        return self.start + datetime.timedelta(days=round(days))


def forecast(
    planned: Outcome,
    runs: Outcome,
    orders: tuple[OrderBy, ...],
    decisions: tuple[DecideBy, ...],
) -> Forecast:
    """Return all that the runs say.

    Parameters
    ----------
    planned : Outcome
        The plan: likely figures, nothing found.
    runs : Outcome
        Its runs.
    orders, decisions
        Their last days.

    """
    cost, finish = runs.cost.copy(), runs.finish_day.copy()
    cost[0], finish[0] = planned.cost[0], planned.finish_day[0]
    start = runs.plan.calendar.start
    bands = cash_bands(runs)
    found = drivers(runs)
    return Forecast(
        cost=spread(cost),
        finish=spread(finish),
        start=start,
        weeks=finish / 7.0,
        total=cost,
        months=_months(start, bands.shape[1]),
        cash=bands,
        drivers=found,
        jobs=_job_dates(runs.plan, planned, runs),
        orders=orders,
        decisions=decisions,
        found={one.name: one.odds for one in found if one.kind == "discovery"},
    )


def _months(start: datetime.date, count: int) -> tuple[str, ...]:
    first = start.year * 12 + start.month - 1
    return tuple(f"{(first + k) // 12}-{(first + k) % 12 + 1:02}" for k in range(count))


def _job_dates(plan: Plan, planned: Outcome, runs: Outcome) -> tuple[JobDates, ...]:
    shares = criticality(runs).nodes
    found = []
    for job in plan.jobs:
        here, there = planned.layout.index(job.name), runs.layout.index(job.name)
        found.append(
            JobDates(
                name=job.name,
                start=_date(plan, planned.start_day[here, 0]),
                end=_date(plan, planned.end_day[here, 0]),
                start_p80=_date(plan, float(np.quantile(runs.start_day[there, 1:], 0.8))),
                hours=float(planned.work.hours[here, 0]),
                cost=float(planned.work.cost[here, 0]),
                critical=float(shares[there]),
                caution=job.caution,
            )
        )
    return tuple(sorted(found, key=lambda one: (one.start, one.end)))


def _date(plan: Plan, day: float) -> datetime.date:
    return plan.calendar.start + datetime.timedelta(days=round(float(day)))
