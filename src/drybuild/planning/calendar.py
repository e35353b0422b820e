"""The owner's time: hours a week, weeks that differ, and the clock between hours and days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.planning.estimates import ALL, ThreePoint

Array = npt.NDArray[np.float64]
WEEK = 7


@dataclass(frozen=True, kw_only=True)
class Span:
    """Some weeks with other hours than usual: a holiday, a move, a free month."""

    first: date
    last: date
    """The last day of the span, itself included."""
    hours_a_week: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Calendar:
    """When the owner works."""

    start: date
    hours_a_week: float
    weekdays: tuple[float, ...] = (1.0,) * WEEK
    """Weights of Monday to Sunday; the week's hours are shared out by them."""
    spans: tuple[Span, ...] = ()
    helper_hours_a_week: float = 0.0
    hours_kept: ThreePoint = ALL
    """Share of the intended hours that are really worked, the same through a whole run."""

    def day(self, when: date) -> float:
        """Return a date as a day of the plan, where the start is day 0."""
        return float((when - self.start).days)

    def date(self, day: float) -> date:
        """Return the date of a day of the plan, rounded down."""
        return self.start + timedelta(days=int(np.floor(day)))

    def daily_hours(self, days: int) -> Array:
        """Return the hours of each of the first `days` days."""
        weights = np.array(self.weekdays) / sum(self.weekdays)
        weekday = (self.start.weekday() + np.arange(days)) % WEEK
        weekly = np.full(days, self.hours_a_week)
        for span in self.spans:
            first = max(0, (span.first - self.start).days)
            last = max(0, (span.last - self.start).days + 1)
            weekly[first:last] = span.hours_a_week
        hours: Array = weekly * weights[weekday]
        return hours

    @property
    def usual_hours_a_day(self) -> float:
        """The hours of an average day in a usual week."""
        return self.hours_a_week / WEEK

    @property
    def helper_share(self) -> float:
        """The helpers' hours over the owner's in a usual week."""
        return self.helper_hours_a_week / self.hours_a_week

    def days_for(self, hours: float, waiting_days: float) -> int:
        """Return enough days for so many hours and so much waiting."""
        lost = sum((span.last - span.first).days + 1 for span in self.spans)
        spread = WEEK * (hours / self.hours_a_week + 2.0)
        return int(np.ceil(spread + waiting_days)) + lost + WEEK


class Clock:
    """Hours worked against days gone by, for a calendar that reaches far enough."""

    def __init__(self, calendar: Calendar, days: int) -> None:
        self.calendar = calendar
        self.days = days
        self._rate = calendar.daily_hours(days)
        self._hours = np.concatenate([[0.0], np.cumsum(self._rate)])
        self._pace = np.where(self._rate > 0.0, self._rate, 1.0)  # on idle days no hour is left

    def hours_at(self, day: Array) -> Array:
        """Return the hours that have been worked by a day."""
        whole = np.minimum(day.astype(np.int64), self.days - 1)
        hours: Array = self._hours[whole] + (day - whole) * self._rate[whole]
        return hours

    def day_at(self, hours: Array) -> Array:
        """Return the first day by which so many hours have been worked."""
        index = np.maximum(np.searchsorted(self._hours, hours, side="left"), 1)
        before = index - 1
        days: Array = before + (hours - self._hours[before]) / self._pace[before]
        return days

    def last_day_at(self, hours: Array) -> Array:
        """Return the last day on which no more than so many hours have been worked."""
        slight = 1e-9 * max(float(self._hours[-1]), 1.0)
        index = np.searchsorted(self._hours, hours + slight, side="right") - 1
        index = np.clip(index, 0, self.days - 1)
        left = np.maximum(hours - self._hours[index], 0.0)
        days: Array = index + np.divide(
            left, self._rate[index], out=np.zeros_like(left), where=self._rate[index] > 0.0
        )
        return days

    @cached_property
    def months(self) -> npt.NDArray[np.int64]:
        """The calendar month of each day, counted from that of the start."""
        start = self.calendar.start
        dates = np.datetime64(start) + np.arange(self.days + 1)
        months = dates.astype("datetime64[M]").astype(np.int64)
        return np.asarray(months - months[0], dtype=np.int64)
