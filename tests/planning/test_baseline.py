import pytest
from tests.planning.plans import MONDAY, SEVEN_A_WEEK, job, plan

from drybuild.planning.baseline import baseline, by_priority
from drybuild.planning.calendar import Calendar, Span
from drybuild.planning.estimates import exactly
from drybuild.planning.jobs import Order


def test_the_solver_sees_that_waiting_pays() -> None:
    """Begin with what then has to cure, though the other way to the end looks longer."""
    spray = job("spray", 1.0, cure_days=exactly(6.0))
    of = plan(job("engine", 5.0), job("trim", 3.0, "engine"), spray, job("polish", 0.5, "spray"))
    found = baseline(of, seconds=5.0)
    assert found.proven
    assert found.finish_day == pytest.approx(9.5)
    assert found.bound_day == pytest.approx(9.5, abs=0.1)
    assert found.finish_day <= found.list_day
    assert found.gap < 0.01


def test_calendar_waits_are_cheaper_in_weeks_off() -> None:
    holiday = Span(first=MONDAY.replace(day=8), last=MONDAY.replace(day=14))
    calendar = Calendar(start=MONDAY, hours_a_week=7.0, spans=(holiday,))
    spray = job("spray", 2.0, cure_days=exactly(7.0))
    of = plan(spray, job("polish", 1.0, "spray"), job("else", 4.0), calendar=calendar)
    found = baseline(of, seconds=5.0)
    # The paint cures through the holiday; only 7 h of work in all, so day 7 + 7.
    assert found.finish_day == pytest.approx(14.0)
    assert found.bound_day <= found.finish_day


def test_parts_places_and_helpers_bind_the_baseline() -> None:
    calendar = Calendar(start=MONDAY, hours_a_week=7.0, helper_hours_a_week=3.5)
    jobs = (
        job("fit engine", 4.0, place="bay", helpers=1),
        job("wire", 2.0, "fit engine", place="bay"),
        job("seats", 3.0, place="bench"),
    )
    part = Order(part="engine", lead_days=exactly(5.0), needed_by=("fit engine",), placed_day=0.0)
    found = baseline(plan(*jobs, calendar=calendar, orders=(part,)), seconds=5.0)
    # The engine comes on day 5, takes 8 days of the helper's hours, and the wiring two more.
    assert found.finish_day == pytest.approx(15.0)
    assert found.proven


def test_the_list_alone_is_a_schedule() -> None:
    of = plan(job("a", 3.0), job("b", 2.0, "a"), calendar=SEVEN_A_WEEK)
    assert by_priority(of).finish_day[0] == pytest.approx(5.0)
