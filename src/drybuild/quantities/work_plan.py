"""The work plan of a build, and its runs: what every figure about money and time rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from drybuild.errors import InputError
from drybuild.physics.condition import Discovery as ZoneDiscovery
from drybuild.planning.dates import (
    OrderBy,
    last_safe_days,
    latest_starts,
    order_dates,
    wanted_days,
    with_days,
)
from drybuild.planning.faults import faults
from drybuild.planning.jobs import Correlation, Plan
from drybuild.planning.jobs import Job as PlannedJob
from drybuild.planning.repair_order import Round, waits
from drybuild.planning.sampling import Draws, draw
from drybuild.planning.simulate import Outcome, simulate
from drybuild.project.body import Body
from drybuild.project.catalogue import SYSTEMS, system_class
from drybuild.project.samples import Values
from drybuild.project.work import Job, Work
from drybuild.quantities.condition_repair import must_not
from drybuild.quantities.graph import Parts
from drybuild.quantities.quantity import step
from drybuild.quantities.work_jobs import (
    Draft,
    calendar,
    own_finds,
    own_jobs,
    usual_jobs,
    with_parts,
    zone_discoveries,
)
from drybuild.tables.work import standard_jobs

ORDER_RUNS = 400
"""Runs by which orders get their day; their tenth percentile is good to a few days."""


@dataclass(frozen=True, kw_only=True)
class WorkPlan:
    """The plan, and the samples of the readings behind it."""

    plan: Plan
    prices: dict[str, Values]
    leads: dict[str, Values]
    hidden: int
    """Zones that may want repair and that no job lays open."""
    usual: bool
    """Whether the jobs are those of a usual rebuild, for want of the owner's own."""
    today: float
    """Day of the plan from which orders can be placed."""


@dataclass(frozen=True, kw_only=True)
class Runs:
    """The runs of a plan over the graph's samples, and two single runs beside them."""

    plan: Plan
    """With a day for every order."""
    runs: Outcome
    planned: Outcome
    """Likely figures and nothing found; its plan has each order on the plan's own day."""
    expected: Outcome
    """Likely figures, and of every find what it takes on average."""
    wanted: Values
    """Day on which each part is wanted, in the plan and the first runs, a row an order. [day]"""
    latest: Values
    """Latest start of each node in the plan, with every part at hand. [day]"""

    def of(self, figure: str) -> Values:
        """Return a figure of each run; the nominal one is the expected."""
        values: Values = getattr(self.runs, figure).copy()
        values[0] = getattr(self.expected, figure)[0]
        return values


@step(
    "Work plan: jobs, orders, what may be found, and when you work",
    source="definition",
    aggregate=True,
)
def work_plan(
    parts: Parts,
    jobs: Mapping[str, Job],
    work: Work,
    body: Body,
    discoveries: tuple[ZoneDiscovery, ...],
    repair_rounds: tuple[Round, ...],
) -> WorkPlan:
    """Put together from the file's own jobs, or the usual ones where it lists none.

    The picked options bring their orders and the work of fitting them, the survey its zones.
    """
    draft = _draft(parts, jobs, work, body)
    zones = zone_discoveries(discoveries, draft, waits(repair_rounds, must_not))
    time = calendar(work)
    plan = Plan(
        calendar=time,
        jobs=tuple(_still_needing(job, work) for job in draft.jobs.values()),
        discoveries=(*zones, *own_finds(work.finds, work)),
        orders=draft.orders,
        places={place: max(int(count), 1) for place, count in work.places.items()},
        correlation=Correlation(
            common=float(work.common_factor[0]), trade=float(work.trade_factor[0])
        ),
    )
    wrong = faults(plan)
    if wrong:
        raise InputError("the jobs cannot be planned: " + "; ".join(map(str, wrong)))
    return WorkPlan(
        plan=plan,
        prices=draft.prices,
        leads=draft.leads,
        hidden=len(discoveries) - len(zones),
        usual=not jobs,
        today=max(time.day(work.today), 0.0) if work.has("today") else 0.0,
    )


def _still_needing(job: PlannedJob, work: Work) -> PlannedJob:
    """Return a job without the systems that are decided, since their parts are ordered."""
    return replace(job, needs=tuple(one for one in job.needs if one not in work.ordered))


def _draft(parts: Parts, jobs: Mapping[str, Job], work: Work, body: Body) -> Draft:
    changed = (name for name, part in parts.items() if part.changed)
    choices = {*changed, *parts.undecided}
    if jobs:
        return with_parts(own_jobs(jobs, work, choices), parts, work, usual=False)
    matters = {one: system_class(one).__module__.rpartition(".")[2] for one in SYSTEMS}
    chosen = {one: matter for one, matter in matters.items() if one in choices}
    draft = usual_jobs(standard_jobs(body.kind), chosen, parts, work)
    return with_parts(draft, parts, work, usual=True)


@step("Runs of the work plan", source="stochastic-scheduling", aggregate=True)
def work_runs(work_plan: WorkPlan, work: Work, drawn_grades: Mapping[str, Values]) -> Runs:
    """Every sample of the graph is one run, with its own body, prices and delivery times."""
    count, today = work.hours_a_week.size, work_plan.today
    draws = _draws(work_plan, work, drawn_grades).beside(_expected(work_plan.plan))
    some = draws.some(slice(0, min(ORDER_RUNS + 1, count)))
    at_hand = simulate(work_plan.plan, some, parts_at_hand=True)
    wanted = wanted_days(at_hand)
    plan = with_days(work_plan.plan, last_safe_days(wanted, some.order_lead_days), today=today)
    on_paper = with_days(work_plan.plan, wanted[:, 0] - some.order_lead_days[:, 0], today=today)
    placed = np.repeat(_placed(plan), count + 1, axis=1)
    placed[:, 0] = _placed(on_paper)[:, 0]
    done = simulate(plan, draws, placed=placed)
    return Runs(
        plan=plan,
        runs=done.some(slice(0, count)),
        planned=replace(done.some(slice(0, 1)), plan=on_paper),
        expected=done.some(slice(count, count + 1)),
        wanted=wanted,
        latest=latest_starts(at_hand),
    )


def _placed(plan: Plan) -> Values:
    return np.array([[order.placed_day or 0.0] for order in plan.orders]).reshape(-1, 1)


@step("When each part must be ordered", source="stochastic-scheduling", aggregate=True)
def order_days(work_runs: Runs, work_plan: WorkPlan) -> tuple[OrderBy, ...]:
    """Find the plan's own date, and the one that keeps the chance of lateness at a tenth.

    Parts that are ordered already are left out.
    """
    ordered = {one.part for one in work_plan.plan.orders if one.placed_day is not None}
    dates = order_dates(work_runs.plan, work_runs.runs, work_runs.wanted, work_runs.latest)
    return tuple(one for one in dates if one.part not in ordered)


def _draws(work_plan: WorkPlan, work: Work, grades: Mapping[str, Values]) -> Draws:
    """Draw the plan, with the graph's own samples wherever it has them."""
    plan, size = work_plan.plan, work.hours_a_week.size
    drawn = draw(plan, size - 1, _zone_grades(plan, grades))
    price, lead = drawn.price.copy(), drawn.order_lead_days.copy()
    for row, order in enumerate(plan.orders):
        price[row] = work_plan.prices.get(order.part, price[row])
        lead[row] = work_plan.leads.get(order.part, lead[row])
    weekly = work.hours_a_week / work.hours_a_week[0]
    return replace(drawn, price=price, order_lead_days=lead, hours_kept=drawn.hours_kept * weekly)


def _zone_grades(plan: Plan, grades: Mapping[str, Values]) -> dict[str, Values]:
    """Return the grade of each zone in every sample, by the name of its discovery."""
    names = {discovery.name for discovery in plan.discoveries}
    return {f"repair {zone}": drawn for zone, drawn in grades.items() if f"repair {zone}" in names}


def _expected(plan: Plan) -> Draws:
    """Return one run in which every find takes its average over the odds."""
    drawn = draw(plan, 0)

    def average(what: str) -> Values:
        return np.array(
            [
                [sum(grade.odds * getattr(grade, what).likely for grade in found.grades)]
                for found in plan.discoveries
            ]
        ).reshape(len(plan.discoveries), 1)

    return replace(
        drawn,
        grade_hours=average("hours"),
        grade_cost=average("cost"),
        grade_lead_days=average("lead_days"),
    )
