"""Entries about time: days that count, spans with other hours, dates by name."""

from __future__ import annotations

import datetime

import pytest
from tests.building import BARE, evaluate

from drybuild.project.weeks import WeeksOff

HOUR = 3600.0


def off(text: str) -> object:
    build = evaluate(f"{BARE}work: {{weeks_off: {text}}}\n")
    assert build.problems == ()
    return build.build.tops["work"].given["weeks_off"]


def test_a_span_without_hours_is_a_holiday() -> None:
    span = WeeksOff(first=datetime.date(2027, 7, 12), last=datetime.date(2027, 8, 1), hours=0.0)
    assert off("[2027-07-12 to 2027-08-01]") == (span,)


def test_a_span_with_hours_and_a_single_day() -> None:
    found = off("[2027-12-20 to 2028-01-02 at 20 h, 2027-05-01]")
    assert isinstance(found, tuple)
    assert found[0].hours == pytest.approx(20.0 * HOUR)
    assert found[1].first == found[1].last == datetime.date(2027, 5, 1)


@pytest.mark.parametrize(
    "text", ["2027-08-01 to 2027-07-12", "next summer", "2027-02-30", "2027-05-01 at 8 kg"]
)
def test_a_span_that_ends_before_it_begins_or_is_no_span_is_told(text: str) -> None:
    build = evaluate(f"{BARE}work: {{weeks_off: [{text}]}}\n")
    assert [one.code for one in build.problems] == ["span-unreadable"]


def test_a_week_without_a_working_day_is_told() -> None:
    build = evaluate(f"{BARE}work: {{weekdays: {{monday: 0, sunday: 0}}}}\n")
    (problem,) = build.problems
    assert (problem.code, problem.field) == ("no-weekday", "work.weekdays")
    assert "weight above 0" in problem.mend
