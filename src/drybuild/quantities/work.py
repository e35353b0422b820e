"""Money and hours of the build: parts, jobs, repairs, and what to set aside."""

from __future__ import annotations

from datetime import timedelta

import numpy as np

from drybuild.planning.risk import cash_by_month, spread
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.work import Work
from drybuild.quantities.graph import Parts
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.quantities.work_jobs import HOUR, part_name
from drybuild.quantities.work_plan import Runs, WorkPlan


@quantity("money", "Price of the parts", source="definition", aggregate=True)
def parts_cost(parts: Parts, work: Work) -> Values:
    """Every picked option that is not the car as it stands."""
    total = np.zeros(work.hours_a_week.size)
    for part in parts.values():
        if part.changed and not part.picked.as_is:
            total = total + part.picked.price
    return total


@quantity("money", "Price of each part", source="definition", per="part")
def part_price(parts: Parts) -> Labelled:
    """Take the price of each picked option that is not the car as it stands."""
    return {
        part_name(part): part.picked.price
        for part in parts.values()
        if part.changed and not part.picked.as_is
    }


@quantity("money", "Material and bills of the jobs", source="definition", aggregate=True)
def jobs_cost(work_runs: Runs) -> Values:
    """Add up the cost and the hired hours of every job."""
    return _sum(work_runs, "cost", "job")


@quantity("money", "Repair of what is found on the way", source="definition", aggregate=True)
def finds_cost(work_runs: Runs) -> Values:
    """Nominal: the average over the odds. Samples: bodies as they may turn out."""
    return _sum(work_runs, "cost", "repair")


@quantity("money", "Cost of the whole build", source="definition", aggregate=True)
def total_cost(parts_cost: Values, jobs_cost: Values, finds_cost: Values) -> Values:
    """Parts, jobs and what is found; your own hours cost nothing here."""
    return parts_cost + jobs_cost + finds_cost


@quantity("money", "Cost if nothing is found", source="definition", aggregate=True)
def planned_cost(work_runs: Runs, parts_cost: Values) -> Values:
    """Likely figures throughout: the plan on paper, which is seldom met."""
    jobs = float(work_runs.planned.work.cost.sum())
    return np.full_like(parts_cost, float(parts_cost[0]) + jobs)


@quantity("money", "Cost that eight builds of ten stay below", source="estimate-ranging")
def cost_at_80(total_cost: Values) -> Values:
    """Eighty per cent is a choice of owners, not a rule."""
    return np.full_like(total_cost, _p80(total_cost))


@quantity("money", "What to set aside above the plan", source="estimate-ranging")
def contingency(cost_at_80: Values, planned_cost: Values) -> Values:
    """P80 of the total, finds and correlation included, less the plan on paper."""
    return np.maximum(cost_at_80 - planned_cost, 0.0)


@quantity("money", "Most money in one calendar month", source="definition")
def dearest_month(work_runs: Runs) -> Values:
    """Take the month in which most is paid, in each run."""
    values: Values = cash_by_month(work_runs.runs).max(axis=0)
    values[0] = float(cash_by_month(work_runs.expected).max())
    return values


@quantity("money", "Money paid by the end of each month", source="definition", per="month")
def money_by_month(work_runs: Runs) -> Labelled:
    """Add up from the start; deposits are paid on ordering, the rest on delivery."""
    paid = cash_by_month(work_runs.runs).cumsum(axis=0)
    expected = cash_by_month(work_runs.expected).cumsum(axis=0)[:, 0]
    months = np.minimum(np.arange(len(paid)), len(expected) - 1)
    paid[:, 0] = expected[months]
    month = work_runs.plan.calendar.start.replace(day=1)
    found: Labelled = {}
    for row in paid:
        found[f"{month:%Y-%m}"] = row
        month = (month + timedelta(days=32)).replace(day=1)
    return found


@quantity("s", "Your own hours", source="definition", shown="h", aggregate=True)
def labour_hours(work_runs: Runs) -> Values:
    """Jobs, fitting and what is found; hired hours are not among them."""
    return HOUR * work_runs.of("hours")


@quantity("s", "Your own hours if nothing is found", source="definition", shown="h", aggregate=True)
def planned_hours(work_runs: Runs) -> Values:
    """Add up the likely hours of jobs and fitting."""
    return np.full(work_runs.runs.draws.runs, HOUR * float(work_runs.planned.hours[0]))


@quantity("s", "Hours of repair of what is found", source="definition", shown="h", aggregate=True)
def finds_hours(work_runs: Runs) -> Values:
    """Add up the repairs. Nominal: the average over the odds. Samples: bodies as they turn out."""
    return HOUR * _sum(work_runs, "hours", "repair")


@quantity("s", "Your own hours by trade", source="definition", per="trade", shown="h")
def hours_by_trade(work_runs: Runs) -> Labelled:
    """Add up jobs and repairs by the trade that they name."""
    trades = {one.name: one.trade or "other" for one in work_runs.plan.steps}
    layout = work_runs.runs.layout
    found: Labelled = {}
    for trade in dict.fromkeys(trades.values()):
        rows = [
            node
            for node, name in enumerate(layout.names)
            if layout.kinds[node] != "order" and trades[name] == trade
        ]
        found[trade] = HOUR * _of_rows(work_runs, "hours", rows)
    return found


@quantity("-", "Finds that want work", source="definition", aggregate=True)
def finds_expected(work_runs: Runs) -> Values:
    """Count the finds beyond the best grade. Nominal: the sum of their odds."""
    found = (work_runs.runs.draws.grade > 0).sum(axis=0).astype(float)
    found[0] = sum(1.0 - one.grades[0].odds for one in work_runs.plan.discoveries)
    return np.asarray(found)


@quantity("-", "Jobs to do", source="definition", aggregate=True)
def jobs_count(work_plan: WorkPlan) -> Values:
    """Count the jobs and the fitting of parts; repairs of finds are not among them."""
    return np.array([float(len(work_plan.plan.jobs))])


@quantity("-", "Doubtful zones that no job lays open", source="definition", aggregate=True)
def zones_left_hidden(work_plan: WorkPlan) -> Values:
    """Count the zones that the plan leaves out; their repair is in no cost and no date."""
    return np.array([float(work_plan.hidden)])


@quantity("money", "What you meant to spend", source="the-build-file")
def budget(brief: Brief) -> Values:
    """Take it from the brief."""
    return brief.budget


@quantity("money/s", "What an hour of your own is worth to you", source="the-build-file")
def own_hour_worth(work: Work) -> Values:
    """Take it from the file; nobody pays it, but time is weighed by it."""
    return work.own_hour


@quantity(
    "money", "What is lost with each part if it proves wrong", source="definition", per="system"
)
def part_at_stake(parts: Parts, work: Work) -> Labelled:
    """Sum its price, where it is known, and the hours of fitting it at what they are worth."""
    found: Labelled = {}
    for system, part in parts.items():
        if part.changed and not part.picked.as_is:
            lost = np.zeros(work.own_hour.size)
            if part.picked.has("price"):
                lost = lost + part.picked.price
            if part.picked.has("fitting"):
                lost = lost + part.picked.fitting.likely * work.own_hour
            found[system] = lost
    return found


@quantity("money", "Your own hours at what they are worth to you", source="definition")
def labour_worth(labour_hours: Values, work: Work) -> Values:
    """Not part of the cost; it weighs a dearer part against the hours it saves."""
    return labour_hours * work.own_hour


def _p80(values: Values) -> float:
    return spread(values).p80 if values.size > 1 else float(values[0])


def _sum(runs: Runs, what: str, kind: str) -> Values:
    kinds = runs.runs.layout.kinds
    return _of_rows(runs, what, [node for node, one in enumerate(kinds) if one == kind])


def _of_rows(runs: Runs, what: str, rows: list[int]) -> Values:
    """Return a sum over nodes; the nominal one from the expected run, which has the same nodes."""
    values: Values = getattr(runs.runs.work, what)[rows].sum(axis=0)
    values[0] = float(getattr(runs.expected.work, what)[rows].sum())
    return values
