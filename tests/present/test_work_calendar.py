"""The plan week by week, on a plan that can be followed by hand."""

from __future__ import annotations

import datetime
import itertools
from pathlib import Path

import pytest

from drybuild.present.work_calendar import Month, Week, months_of
from drybuild.session import Session

# Ten hours a week are worked, all of them: a job of 15 h takes a week and a half.
BUILD = """\
build: a small plan
car: {body: {kind: unitary}}
work: {start: 2027-01-04, hours_a_week: 10 h, kept: 1 / 1 / 1}
options:
  engine:
    original: {as_is: true}
    other: {power: 60 kW at 5000 rpm, price: 900 EUR, lead_time: 21 ± 0 days}
picks: {engine: other}
jobs:
  strip: {hours: 15 / 15 / 15 h, place: bay}
  paint: {hours: 4 / 4 / 4 h, after: [strip], place: bay, cure: 12 / 12 / 12 days}
  trim: {hours: 4 / 4 / 4 h, after: [paint], away: 15 / 15 / 15 days}
  fit: {hours: 4 / 4 / 4 h, after: [trim], fits: [engine]}
"""


@pytest.fixture(scope="module")
def months(tmp_path_factory: pytest.TempPathFactory) -> list[Month]:
    folder: Path = tmp_path_factory.mktemp("plan")
    (folder / "build.yaml").write_text(BUILD, encoding="utf-8")
    session = Session.open(folder, 40)
    assert session.forecast is not None
    assert session.problems == ()
    return months_of(session.forecast, session.evaluation.result("work_runs").value.planned)


@pytest.fixture(scope="module")
def weeks(months: list[Month]) -> dict[str, Week]:
    return {str(week.monday): week for month in months for week in month.weeks}


def test_a_job_stands_in_every_week_in_which_it_is_worked_on(weeks: dict[str, Week]) -> None:
    first, second = weeks["2027-01-04"], weeks["2027-01-11"]
    assert [(one.job, one.place, one.goes_on) for one in first.jobs] == [("strip", "bay", False)]
    assert ("strip", True) in [(one.job, one.goes_on) for one in second.jobs]
    assert ("paint", False) in [(one.job, one.goes_on) for one in second.jobs]
    assert first.name == "4 to 10 Jan"


def test_paint_that_cures_and_work_that_is_away_are_told_apart(weeks: dict[str, Week]) -> None:
    kinds = {monday: {(one.kind, one.what) for one in week.waits} for monday, week in weeks.items()}
    assert ("cures", "paint") in kinds["2027-01-18"]
    assert not weeks["2027-01-18"].jobs  # nothing else may be done meanwhile
    away = [monday for monday, seen in kinds.items() if ("away", "trim") in seen]
    assert len(away) >= 3  # fifteen days begin and end within weeks
    assert ("cures", "trim") not in set().union(*kinds.values())


def test_a_part_is_waited_for_from_its_order_to_its_arrival(weeks: dict[str, Week]) -> None:
    waiting = [
        week.monday
        for week in weeks.values()
        if any(one.kind == "on order" and one.what == "other" for one in week.waits)
    ]
    (came,) = [week.monday for week in weeks.values() if "other" in week.arrivals]
    assert waiting[-1] == came
    assert came - waiting[0] == datetime.timedelta(weeks=3)


def test_weeks_follow_each_other_without_a_gap_and_months_count_them(
    months: list[Month], weeks: dict[str, Week]
) -> None:
    mondays = [week.monday for week in weeks.values()]
    steps = {b - a for a, b in itertools.pairwise(mondays)}
    assert steps == {datetime.timedelta(weeks=1)}
    assert {one.weekday() for one in mondays} == {0}
    january = next(one for one in months if one.name == "January 2027")
    assert "1 cures" in january.words
    assert weeks["2027-01-25"].name == "25 to 31 Jan"
    assert Week(monday=datetime.date(2027, 2, 22)).name == "22 to 28 Feb"
    assert Week(monday=datetime.date(2027, 3, 29)).name == "29 Mar to 4 Apr"
