"""What is wrong with a plan, all of it at once, in words that say how to mend it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from drybuild.planning.estimates import NOTHING, ThreePoint
from drybuild.planning.jobs import Discovery, Job, Order, Plan
from drybuild.project.succession import circle


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One thing wrong in a plan."""

    code: str
    """job-unknown, job-circle, job-twice, three-point-order, odds, helper-hours, calendar."""
    where: str
    """The item and its field: ``job 'fit engine': after``."""
    wrong: str
    mend: str

    def __str__(self) -> str:
        return f"{self.where}: {self.wrong} {self.mend} [{self.code}]"


def faults(plan: Plan) -> tuple[Fault, ...]:
    """Return everything that is wrong with a plan; nothing can be scheduled unless it is empty."""
    return (
        *_calendar(plan),
        *_twice(plan),
        *_unknown(plan),
        *_figures(plan),
        *_odds(plan),
        *_helpers(plan),
        *_circle(plan),
    )


def hint(name: str, known: Iterable[str]) -> str:
    """Return 'Did you mean ...?' for a misspelt name, or where to look."""
    near = get_close_matches(name, list(known), n=1)
    return f"Did you mean {near[0]!r}?" if near else "Add such a job, or take the name out."


def precedence(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Return what each job and each repair waits for, without names that do not exist."""
    known = {job.name for job in plan.jobs}
    after = {job.name: [name for name in job.after if name in known] for job in plan.jobs}
    followers = {name: [j.name for j in plan.jobs if name in j.after] for name in known}
    for item in plan.orders:
        for name in set(item.needed_by) & known:
            after[name] += [earlier for earlier in item.after if earlier in known]
    repairs: dict[str, list[str]] = {}
    finds = known | {found.name for found in plan.discoveries}
    for found in plan.discoveries:
        repairs[found.name] = [name for name in (found.revealed_by, *found.after) if name in finds]
        waiting = found.before or tuple(followers.get(found.revealed_by, ()))
        for name in waiting:
            if name in known:
                after[name].append(found.name)
    return {name: tuple(dict.fromkeys(before)) for name, before in (after | repairs).items()}


def _calendar(plan: Plan) -> Iterator[Fault]:
    calendar = plan.calendar
    if not 0.0 < calendar.hours_a_week <= 168.0:
        yield Fault(
            code="calendar",
            where="calendar: hours a week",
            wrong=f"{calendar.hours_a_week:g} h a week leave nothing to plan with.",
            mend="Write the hours that you can give, more than 0 and at most 168.",
        )
    if len(calendar.weekdays) != 7 or min(calendar.weekdays) < 0 or sum(calendar.weekdays) <= 0:
        yield Fault(
            code="calendar",
            where="calendar: weekdays",
            wrong="the weights of the days are not seven numbers with one above 0.",
            mend="Give Monday to Sunday a number each, 0 for a day without work.",
        )
    for span in calendar.spans:
        if span.last < span.first or span.hours_a_week < 0.0:
            yield Fault(
                code="calendar",
                where=f"calendar: weeks from {span.first}",
                wrong=f"they end on {span.last} with {span.hours_a_week:g} h a week.",
                mend="Put the earlier date first, and 0 h or more.",
            )


def _twice(plan: Plan) -> Iterator[Fault]:
    seen: set[str] = set()
    for item in plan.steps:
        if item.name in seen:
            yield Fault(
                code="job-twice",
                where=f"job {item.name!r}",
                wrong="two jobs or discoveries have this name.",
                mend="Give one of them another name.",
            )
        seen.add(item.name)


def _references(item: Job | Discovery | Order) -> Iterator[tuple[str, str]]:
    if isinstance(item, Job):
        yield from (("after", name) for name in item.after)
    elif isinstance(item, Order):
        yield from (("needed by", name) for name in item.needed_by)
        yield from (("after", name) for name in item.after)
    else:
        yield "revealed by", item.revealed_by
        yield from (("after", name) for name in item.after)
        yield from (("before", name) for name in item.before)


def _title(item: Job | Discovery | Order) -> str:
    if isinstance(item, Order):
        return f"order {item.part!r}"
    return f"{'job' if isinstance(item, Job) else 'discovery'} {item.name!r}"


def _unknown(plan: Plan) -> Iterator[Fault]:
    known = [job.name for job in plan.jobs]
    finds = {found.name for found in plan.discoveries}
    items: tuple[Job | Discovery | Order, ...] = (*plan.steps, *plan.orders)
    for item in items:
        for field, name in _references(item):
            behind_find = field == "after" and isinstance(item, Discovery) and name in finds
            if name not in known and not behind_find:
                yield Fault(
                    code="job-unknown",
                    where=f"{_title(item)}: {field}",
                    wrong=f"there is no job called {name!r}.",
                    mend=hint(name, known),
                )


def _three_points(plan: Plan) -> Iterator[tuple[str, ThreePoint]]:
    for job in plan.jobs:
        for field in ("hours", "cost", "cure_days", "away_days", "hired_hours"):
            yield f"{_title(job)}: {field.replace('_', ' ')}", getattr(job, field)
    for found in plan.discoveries:
        for grade in found.grades:
            for field in ("hours", "cost", "lead_days"):
                yield (
                    f"{_title(found)}, {grade.name}: {field.replace('_', ' ')}",
                    getattr(grade, field),
                )
    for order in plan.orders:
        yield f"{_title(order)}: price", order.price
        yield f"{_title(order)}: lead time", order.lead_days
    yield "calendar: hours kept", plan.calendar.hours_kept


def _figures(plan: Plan) -> Iterator[Fault]:
    for where, figure in _three_points(plan):
        points = (figure.low, figure.likely, figure.high)
        if not all(map(math.isfinite, points)) or not 0.0 <= points[0] <= points[1] <= points[2]:
            yield Fault(
                code="three-point-order",
                where=where,
                wrong="{:g} / {:g} / {:g} do not rise from 0 or more.".format(*points),
                mend="Write low, likely and high in this order.",
            )
    if plan.calendar.hours_kept.low <= 0.0:
        yield Fault(
            code="calendar",
            where="calendar: hours kept",
            wrong="a share of 0 of the hours would never end.",
            mend="Write shares above 0, such as 70 / 90 / 100 %.",
        )


def _odds(plan: Plan) -> Iterator[Fault]:
    for found in plan.discoveries:
        odds = [grade.odds for grade in found.grades]
        if not odds or min(odds) < 0.0 or abs(sum(odds) - 1.0) > 1e-6:
            yield Fault(
                code="odds",
                where=_title(found),
                wrong=f"the odds of its grades sum to {sum(odds):g}.",
                mend="Make them sum to 1 (100 %).",
            )
        loadings = [loading for _, loading in found.causes]
        if min(loadings, default=0.0) < 0.0 or sum(a * a for a in loadings) > 1.0:
            yield Fault(
                code="odds",
                where=f"{_title(found)}: causes",
                wrong=f"loadings of {', '.join(f'{a:g}' for a in loadings)} leave no room.",
                mend="Write 0 (its own luck) to 1 (all from that cause); squares sum to 1 at most.",
            )
    shared = plan.correlation.common + plan.correlation.trade
    if min(plan.correlation.common, plan.correlation.trade) < 0.0 or shared > 1.0:
        yield Fault(
            code="odds",
            where="correlation",
            wrong=f"the shares sum to {shared:g}.",
            mend="Keep both at 0 or more and their sum at 1 or less.",
        )


def _helpers(plan: Plan) -> Iterator[Fault]:
    if plan.calendar.helper_hours_a_week > 0.0:
        return
    for item in plan.steps:
        if item.helpers > 0 and (isinstance(item, Discovery) or item.hours != NOTHING):
            yield Fault(
                code="helper-hours",
                where=f"{_title(item)}: helpers",
                wrong=f"it needs {item.helpers}, and no helper has any hours.",
                mend="Give the helpers hours a week.",
            )


def _circle(plan: Plan) -> Iterator[Fault]:
    after = precedence(plan)
    found = circle(after)
    if found:
        yield Fault(
            code="job-circle",
            where=f"job {found[0]!r}: after",
            wrong=f"the jobs wait for each other: {' → '.join(found)}.",
            mend="Take one of these links out.",
        )
