"""The plan week by week: what is worked on and where, what it waits for, what comes and is due."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from drybuild.planning.forecast import Forecast
from drybuild.planning.simulate import Outcome
from drybuild.present.path_words import part_name, system_words

MOST = 60
"""Months that are listed; a plan that runs for longer is a plan to think over."""
NAMES = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
WEEK = datetime.timedelta(days=7)
Kind = Literal["cures", "away", "on order"]
"""Paint, sealer or glue that holds its place; what is at a firm; a part that is not here yet."""


@dataclass(frozen=True, kw_only=True)
class Worked:
    """A job that is worked on in a week."""

    job: str
    place: str
    goes_on: bool
    """Whether it was begun before this week."""


@dataclass(frozen=True, kw_only=True)
class Wait:
    """Something that has to be waited for in a week."""

    kind: Kind
    what: str
    until: datetime.date


@dataclass(kw_only=True)
class Week:
    """A week of the plan, from its Monday on; nothing found, everything as likely."""

    monday: datetime.date
    jobs: list[Worked] = field(default_factory=list)
    waits: list[Wait] = field(default_factory=list)
    arrivals: list[str] = field(default_factory=list)
    orders: list[str] = field(default_factory=list)
    decisions: list[str] = field(default_factory=list)

    @property
    def name(self) -> str:
        """Its first and last day."""
        last = self.monday + WEEK - datetime.timedelta(days=1)
        first = f"{self.monday.day}"
        if last.month != self.monday.month:
            first += f" {NAMES[self.monday.month - 1][:3]}"
        return f"{first} to {last.day} {NAMES[last.month - 1][:3]}"


@dataclass(frozen=True, kw_only=True)
class Month:
    """The weeks that begin in a month."""

    name: str
    weeks: tuple[Week, ...]

    @property
    def words(self) -> str:
        """What there is to do in it, in numbers."""
        jobs = len({one.job for week in self.weeks for one in week.jobs})
        waits = {kind: len(self._awaited(kind)) for kind in ("cures", "away", "on order")}
        due = sum(len(week.orders) for week in self.weeks)
        decided = sum(len(week.decisions) for week in self.weeks)
        told = [f"{jobs} job{'' if jobs == 1 else 's'}" if jobs else "no job"]
        told += [f"{number} {kind}" for kind, number in waits.items() if number]
        told += [f"{due} to order"] if due else []
        told += [f"{decided} to decide"] if decided else []
        return ", ".join(told)

    def _awaited(self, kind: str) -> set[str]:
        return {one.what for week in self.weeks for one in week.waits if one.kind == kind}


def months_of(found: Forecast, planned: Outcome) -> list[Month]:
    """Return the weeks of the plan by month, from the first in which something happens.

    Parameters
    ----------
    found : Forecast
        What the runs say.
    planned : Outcome
        The run in which everything goes to plan.

    """
    weeks = _Weeks()
    weeks.jobs(found, planned)
    weeks.parts(found, planned)
    weeks.dates(found)
    months: dict[tuple[int, int], list[Week]] = {}
    for week in weeks.in_order():
        months.setdefault((week.monday.year, week.monday.month), []).append(week)
    return [
        Month(name=f"{NAMES[month - 1]} {year}", weeks=tuple(ones))
        for (year, month), ones in list(months.items())[:MOST]
    ]


class _Weeks:
    """Weeks as they are filled."""

    def __init__(self) -> None:
        self.known: dict[datetime.date, Week] = {}

    def at(self, day: datetime.date) -> Week:
        """Return the week that a day lies in."""
        monday = day - datetime.timedelta(days=day.weekday())
        return self.known.setdefault(monday, Week(monday=monday))

    def from_to(self, start: datetime.date, end: datetime.date) -> Iterator[Week]:
        """Give every week from the one of a day to the one of another."""
        week, last = self.at(start), self.at(max(start, end))
        yield week
        while week.monday < last.monday:
            week = self.at(week.monday + WEEK)
            yield week

    def jobs(self, found: Forecast, planned: Outcome) -> None:
        """Note jobs in each week that they are worked on, and what cures or is away after them."""
        known = {one.name: one for one in planned.plan.jobs}
        for one in found.jobs:
            job = known.get(one.name)
            for number, week in enumerate(self.from_to(one.start, one.end)):
                place = job.place if job else ""
                week.jobs.append(Worked(job=one.name, place=place, goes_on=number > 0))
            if job is None:
                continue
            self._waits("cures", one.name, one.end, job.cure_days.likely)
            self._waits("away", one.name, one.end, job.away_days.likely)

    def parts(self, found: Forecast, planned: Outcome) -> None:
        """Note parts from the day on which the plan orders them to the day when they come."""
        for number, order in enumerate(planned.plan.orders):
            placed = found.day(float(planned.placed_day[number, 0]))
            days = float(planned.arrival_day[number, 0]) - float(planned.placed_day[number, 0])
            name = part_name(order.part)
            self._waits("on order", name, placed, days)
            self.at(placed + datetime.timedelta(days=round(days))).arrivals.append(name)

    def dates(self, found: Forecast) -> None:
        """Note the last days on which to order and to decide."""
        for one in found.orders:
            day = found.day(one.safe_day)
            self.at(day).orders.append(f"{part_name(one.part)} by {day}")
        for due in found.decisions:
            day = found.day(due.safe_day)
            self.at(day).decisions.append(f"{system_words(due.system)} by {day}")

    def in_order(self) -> Iterator[Week]:
        """Give every week from the first to the last, those without anything in them too."""
        if self.known:
            yield from self.from_to(min(self.known), max(self.known))

    def _waits(self, kind: Kind, what: str, start: datetime.date, days: float) -> None:
        if days < 1.0:
            return
        until = start + datetime.timedelta(days=round(days))
        for week in self.from_to(start, until):
            week.waits.append(Wait(kind=kind, what=what, until=until))
