from datetime import date

import numpy as np
import pytest

from drybuild.planning.calendar import Calendar, Clock, Span

WEEKENDS = Calendar(
    start=date(2025, 1, 6),
    hours_a_week=10.0,
    weekdays=(0, 0, 0, 0, 0, 3, 2),
    spans=(Span(first=date(2025, 1, 13), last=date(2025, 1, 19)),),
)


def test_a_weekend_worker_gets_on_at_weekends_only() -> None:
    clock = Clock(WEEKENDS, 40)
    days = np.array([5.0, 5.5, 6.0, 7.0, 12.0])
    assert clock.hours_at(days) == pytest.approx([0.0, 3.0, 6.0, 10.0, 10.0])


def test_the_day_of_the_last_hour_is_the_first_on_which_it_is_done() -> None:
    clock = Clock(WEEKENDS, 40)
    # 10 h are done when the first Sunday ends, not on some day of the idle week behind it.
    hours = np.array([0.0, 3.0, 10.0, 11.0])
    assert clock.day_at(hours) == pytest.approx([0.0, 5.5, 7.0, 19.0 + 1.0 / 6.0])


def test_hours_and_days_are_each_other_s_inverse_while_work_goes_on() -> None:
    clock = Clock(Calendar(start=date(2025, 3, 5), hours_a_week=11.0), 100)
    days = np.linspace(0.1, 90.0, 50)
    assert clock.day_at(clock.hours_at(days)) == pytest.approx(days)


def test_months_are_calendar_months() -> None:
    clock = Clock(Calendar(start=date(2025, 1, 20), hours_a_week=7.0), 60)
    assert list(clock.months[[0, 11, 12, 39, 40]]) == [0, 0, 1, 1, 2]


def test_dates_and_days() -> None:
    assert WEEKENDS.day(date(2025, 2, 6)) == 31.0
    assert WEEKENDS.date(31.7) == date(2025, 2, 6)


def test_the_last_day_with_so_many_hours_is_the_eve_of_the_next_work() -> None:
    clock = Clock(WEEKENDS, 40)
    # After 10 h comes an idle week; the last day with no more than that is the next Saturday.
    hours = np.array([0.0, 3.0, 10.0])
    assert clock.last_day_at(hours) == pytest.approx([5.0, 5.5, 19.0])
