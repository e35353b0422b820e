"""Dates of the build: the end, each job, each order, each decision."""

from __future__ import annotations

from datetime import date

import numpy as np
import numpy.typing as npt

from drybuild.errors import DoesNotApply
from drybuild.planning.dates import OrderBy, decision_dates
from drybuild.planning.risk import criticality, spread
from drybuild.planning.simulate import Outcome
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.work import Work
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.quantities.work_jobs import DAY, HOUR
from drybuild.quantities.work_plan import Runs, WorkPlan

EPOCH = date(1970, 1, 1).toordinal()


def since_1970(runs: Runs, day: npt.ArrayLike) -> Values:
    """Return days of the plan as days since 1970-01-01."""
    return np.asarray(runs.plan.calendar.start.toordinal() - EPOCH + np.asarray(day, float))


@quantity("date", "Day on which it is done", source="stochastic-scheduling", aggregate=True)
def finish_date(work_runs: Runs) -> Values:
    """Nominal: likely figures, and of every find its average. Samples: each its own run."""
    return since_1970(work_runs, work_runs.of("finish_day"))


@quantity("date", "Day on which it is done if nothing is found", source="schedule-schemes")
def planned_finish_date(work_runs: Runs) -> Values:
    """Follow the plan on paper, which is seldom met: look at the 80 % date first."""
    day = float(work_runs.planned.finish_day[0])
    return since_1970(work_runs, np.full(work_runs.runs.draws.runs, day))


@quantity("date", "Day by which eight builds of ten are done", source="estimate-ranging")
def finish_at_80(finish_date: Values) -> Values:
    """Take the 80 % point of the runs; the level is a choice of owners, not a rule."""
    p80 = spread(finish_date).p80 if finish_date.size > 1 else float(finish_date[0])
    return np.full_like(finish_date, p80)


@quantity("s", "Time to allow above the plan", source="estimate-ranging", shown="week")
def time_contingency(finish_at_80: Values, planned_finish_date: Values) -> Values:
    """Take the time from the end on paper to the 80 % date."""
    return np.maximum(finish_at_80 - planned_finish_date, 0.0) * DAY


@quantity("s", "Time from the start to the end", source="stochastic-scheduling", shown="week")
def weeks_of_work(work_runs: Runs) -> Values:
    """Count from the first day to the last, waits and weeks off included."""
    return DAY * work_runs.of("finish_day")


@quantity("-", "Share of your hours spent waiting", source="stochastic-scheduling", shown="%")
def waiting_share(work_runs: Runs) -> Values:
    """Hours that you had until the end, and no job that could be done in them."""
    shares = _waiting(work_runs.runs)
    shares[0] = _waiting(work_runs.expected)[0]
    return shares


def _waiting(outcome: Outcome) -> Values:
    at_hand = outcome.clock.hours_at(outcome.finish_day) * outcome.draws.hours_kept
    worked = np.divide(outcome.hours, at_hand, out=np.ones_like(at_hand), where=at_hand > 0.0)
    return np.maximum(1.0 - worked, 0.0)


@quantity("s", "Hours a week that the wanted end asks for", source="definition", shown="h")
def hours_a_week_needed(labour_hours: Values, work_plan: WorkPlan, brief: Brief) -> Values:
    """Leave waits out of account: fewer hours than this cannot do."""
    days = work_plan.plan.calendar.day(brief.finish_by)
    return labour_hours * 7.0 / days if days > 0.0 else np.full_like(labour_hours, np.nan)


@quantity("date", "Day on which you want it done", source="the-build-file")
def wanted_finish_date(brief: Brief) -> Values:
    """Take it from the brief."""
    return np.array([float(brief.finish_by.toordinal() - EPOCH)])


@quantity("date", "Start of each job", source="stochastic-scheduling", per="job")
def job_start_date(work_runs: Runs) -> Labelled:
    """Say when each job begins. Nominal: the expected run."""
    return _by_job(work_runs, "start_day")


@quantity("date", "End of each job", source="stochastic-scheduling", per="job")
def job_finish_date(work_runs: Runs) -> Labelled:
    """When its last hour is worked; cure and time away come on top."""
    return _by_job(work_runs, "end_day")


def _by_job(runs: Runs, what: str) -> Labelled:
    names = runs.runs.layout
    found: Labelled = {}
    for job in runs.plan.jobs:
        node = names.index(job.name)
        days: Values = getattr(runs.runs, what)[node].copy()
        days[0] = getattr(runs.expected, what)[node, 0]
        found[job.name] = since_1970(runs, days)
    return found


@quantity("date", "Last safe day to order each part", source="stochastic-scheduling", per="part")
def order_by_date(order_days: tuple[OrderBy, ...], work_runs: Runs) -> Labelled:
    """Ordered on that day it comes late in one run of ten."""
    return {one.part: since_1970(work_runs, [one.safe_day]) for one in order_days}


@quantity(
    "s", "Time left to order each part", source="stochastic-scheduling", per="part", shown="week"
)
def order_slack(order_days: tuple[OrderBy, ...], work_plan: WorkPlan) -> Labelled:
    """From today to its last safe day."""
    if not order_days:
        raise DoesNotApply("picks", "nothing is to be ordered")
    return {
        one.part: np.array([DAY * (one.safe_day - max(work_plan.today, one.early_day))])
        for one in order_days
    }


@quantity(
    "-", "Chance that each part comes late", source="stochastic-scheduling", per="part", shown="%"
)
def order_late_odds(order_days: tuple[OrderBy, ...]) -> Labelled:
    """Count the runs in which the part comes after its job could have begun."""
    return {one.part: np.array([one.chance_late]) for one in order_days}


@quantity("date", "Last day to decide each system", source="stochastic-scheduling", per="system")
def decide_by_date(work_runs: Runs, order_days: tuple[OrderBy, ...]) -> Labelled:
    """For its order, or for the first job that needs it."""
    dates = decision_dates(work_runs.plan, work_runs.runs, order_days)
    return {one.system: since_1970(work_runs, [one.safe_day]) for one in dates}


@quantity(
    "-", "How often each job sets the end", source="stochastic-scheduling", per="job", shown="%"
)
def job_criticality(work_runs: Runs) -> Labelled:
    """Share of the runs in which the chain of waiting that ends last goes through it."""
    shares = criticality(work_runs.runs).nodes
    names = work_runs.runs.layout
    return {job.name: shares[[names.index(job.name)]] for job in work_runs.plan.jobs}


@quantity("s", "Your own hours in a usual week", source="the-build-file", shown="h")
def hours_a_week_given(work: Work) -> Values:
    """Take them from the file."""
    return work.hours_a_week


@quantity("s", "Hours of help needed", source="definition", shown="h")
def helper_hours_needed(work_runs: Runs) -> Values:
    """People times hours, over the whole build."""
    helpers = work_runs.runs.layout.helpers
    needed: Values = HOUR * (helpers @ work_runs.runs.work.hours)
    needed[0] = HOUR * float((helpers @ work_runs.expected.work.hours)[0])
    return needed
