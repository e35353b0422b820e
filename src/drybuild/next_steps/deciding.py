"""What to decide and what to order, by when, and what putting it off costs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drybuild.next_steps.stakes import Stakes
from drybuild.next_steps.step import Act, Step
from drybuild.planning.dates import OrderBy
from drybuild.planning.jobs import Plan
from drybuild.planning.sampling import Draws
from drybuild.planning.simulate import simulate
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.work_dates import EPOCH
from drybuild.quantities.work_plan import Runs

SOON_DAYS = 60.0
"""Orders that are due later than this from today are no next step."""
PUT_OFF_DAYS = 28.0
SOME_RUNS = 300
MOST_ORDERS = 10
MINUTES = 30.0
"""What writing an order or weighing a decision takes; a guess."""


def orders(evaluation: Evaluation, at_stake: Stakes) -> tuple[Step, ...]:
    """Return a step for each order that is due soon: what four weeks' delay would cost.

    The weeks are the mean of the end's move over the same runs (common random numbers), from
    ordering it on its day, or today if that is over, to four weeks later.
    """
    runs = evaluation.result("work_runs").value
    dates = evaluation.result("order_days").value
    plan = evaluation.result("work_plan").value
    if not isinstance(runs, Runs) or plan is None or dates is None:
        return ()
    due: list[OrderBy] = [one for one in dates if one.safe_day < plan.today + SOON_DAYS]
    some = runs.runs.draws.some(slice(0, SOME_RUNS + 1))
    usual = simulate(runs.plan, some).finish_day[1:].mean() if due else 0.0
    return tuple(_order(one, runs.plan, some, usual, at_stake) for one in due[:MOST_ORDERS])


def _order(one: OrderBy, plan: Plan, some: Draws, usual: float, at_stake: Stakes) -> Step:
    later = replace(
        plan,
        orders=tuple(
            replace(item, placed_day=(item.placed_day or 0.0) + PUT_OFF_DAYS)
            if item.part == one.part
            else item
            for item in plan.orders
        ),
    )
    lost = simulate(later, some).finish_day[1:].mean() - usual
    weeks = max(0.0, float(lost)) / 7.0
    return Step(
        act=Act.ORDER,
        about=one.part,
        what=one.part,
        weeks=weeks,
        minutes=MINUTES,
        by=_date(plan, one.safe_day),
        score=weeks * at_stake.week / (MINUTES / 60.0) - at_stake.hour,
    )


def _date(plan: Plan, day: float) -> float:
    return float(plan.calendar.start.toordinal() - EPOCH + np.floor(day))


def decisions(evaluation: Evaluation, at_stake: Stakes) -> tuple[Step, ...]:
    """Return a step for each system that is still open and has a choice, the first due on top.

    A decision that is overdue is held to cost a week for each week that it waits; one that is due
    later counts less, down to nothing in eight weeks.
    """
    due = evaluation.result("decide_by_date").labelled()
    today = _today(evaluation)
    steps = []
    for system, options in evaluation.build.options.items():
        if len(options) < 2 or system in evaluation.build.picks:
            continue
        day = float(due[system][0]) if system in due else None
        steps.append(
            Step(
                act=Act.DECIDE,
                about=system,
                what=system,
                minutes=MINUTES,
                by=day,
                score=_urgency(day, today) * at_stake.week / (MINUTES / 60.0),
            )
        )
    return tuple(sorted(steps, key=lambda step: np.inf if step.by is None else step.by))


def _today(evaluation: Evaluation) -> float:
    plan = evaluation.result("work_plan").value
    if plan is None:
        return np.inf
    start: float = plan.plan.calendar.start.toordinal() - EPOCH
    return start + float(plan.today)


def _urgency(day: float | None, today: float) -> float:
    return 0.0 if day is None else float(np.clip(1.0 - (day - today) / SOON_DAYS, 0.0, 1.0))
