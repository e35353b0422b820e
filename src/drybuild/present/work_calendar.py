"""The plan month by month: what is worked on and where, what cures, arrives and is due."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from drybuild.planning.forecast import Forecast
from drybuild.planning.simulate import Outcome
from drybuild.present.path_words import part_name, system_words

MOST = 60
"""Months that are listed; a plan that runs for longer is a plan to think over."""


@dataclass(frozen=True, kw_only=True)
class Month:
    """A month of the plan; nothing found, everything as likely."""

    name: str
    jobs: tuple[tuple[str, str], ...]
    """Jobs that are worked on, each with its place."""
    waits: tuple[str, ...]
    """What cures, or is away."""
    orders: tuple[str, ...]
    arrivals: tuple[str, ...]
    decisions: tuple[str, ...]


def months_of(found: Forecast, planned: Outcome) -> list[Month]:
    """Return every month of the plan in which something happens.

    Parameters
    ----------
    found : Forecast
        What the runs say.
    planned : Outcome
        The run in which everything goes to plan.

    """
    rows: dict[str, dict[str, dict[str, str]]] = {}

    def note(day: datetime.date, kind: str, words: str, more: str = "") -> None:
        month = rows.setdefault(f"{day:%Y-%m}", {})
        month.setdefault(kind, {})[words] = more

    places = {one.name: one.place for one in planned.plan.jobs}
    waits = {one.name: max(one.cure_days.likely, one.away_days.likely) for one in planned.plan.jobs}
    for job in found.jobs:
        for day in _first_days(job.start, job.end):
            note(day, "jobs", job.name, places.get(job.name, ""))
        days = waits.get(job.name, 0.0)
        if days >= 1.0:
            until = job.end + datetime.timedelta(days=round(days))
            note(job.end, "waits", f"{job.name} until {until}")
    for place, order in enumerate(planned.plan.orders):
        note(found.day(float(planned.arrival_day[place, 0])), "arrivals", part_name(order.part))
    for one in found.orders:
        note(
            found.day(one.safe_day), "orders", f"{part_name(one.part)} by {found.day(one.safe_day)}"
        )
    for due in found.decisions:
        note(
            found.day(due.safe_day),
            "decisions",
            f"{system_words(due.system)} by {found.day(due.safe_day)}",
        )
    return [_month(name, rows[name]) for name in sorted(rows)[:MOST]]


def _month(name: str, row: dict[str, dict[str, str]]) -> Month:
    return Month(
        name=name,
        jobs=tuple(row.get("jobs", {}).items()),
        waits=tuple(row.get("waits", {})),
        orders=tuple(row.get("orders", {})),
        arrivals=tuple(row.get("arrivals", {})),
        decisions=tuple(row.get("decisions", {})),
    )


def _first_days(start: datetime.date, end: datetime.date) -> list[datetime.date]:
    """Return a day in each month from a start to an end."""
    days, day = [start], start
    while True:
        day = (day.replace(day=1) + datetime.timedelta(days=32)).replace(day=1)
        if day > end:
            return days
        days.append(day)
