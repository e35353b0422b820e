"""Small invented plans that can be followed by hand."""

from __future__ import annotations

from datetime import date

from drybuild.planning.calendar import Calendar
from drybuild.planning.estimates import exactly
from drybuild.planning.jobs import Discovery, Job, Order, Plan

MONDAY = date(2025, 1, 6)
SEVEN_A_WEEK = Calendar(start=MONDAY, hours_a_week=7.0)
"""One hour a day: hours and days are the same number."""


def job(name: str, hours: float = 0.0, *after: str, **more: object) -> Job:
    return Job(name=name, hours=exactly(hours), after=after, **more)  # type: ignore[arg-type]


def plan(*jobs: Job, calendar: Calendar = SEVEN_A_WEEK, **more: object) -> Plan:
    return Plan(calendar=calendar, jobs=jobs, **more)  # type: ignore[arg-type]


__all__ = ["MONDAY", "SEVEN_A_WEEK", "Discovery", "Order", "job", "plan"]
