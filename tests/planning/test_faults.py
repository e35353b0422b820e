from dataclasses import replace

import pytest
from tests.planning.plans import MONDAY, job, plan

from drybuild.planning.calendar import Calendar
from drybuild.planning.estimates import ThreePoint
from drybuild.planning.faults import faults
from drybuild.planning.jobs import Discovery, Grade, Order, Plan

GOOD = plan(job("strip", 5.0), job("weld", 8.0, "strip"), job("paint", 6.0, "weld"))


def codes(broken: Plan) -> list[str]:
    return [fault.code for fault in faults(broken)]


def test_a_sound_plan_has_no_faults() -> None:
    assert faults(GOOD) == ()


def test_an_unknown_job_comes_with_the_nearest_name() -> None:
    (found,) = faults(plan(*GOOD.jobs, job("fit", 1.0, "pain")))
    assert found.code == "job-unknown"
    assert "Did you mean 'paint'?" in str(found)
    assert "job 'fit': after" in str(found)


def test_a_circle_is_named_as_the_circle() -> None:
    (found,) = faults(plan(job("a", 1.0, "c"), job("b", 1.0, "a"), job("c", 1.0, "b")))
    assert found.code == "job-circle"
    for link in ("a → b", "b → c", "c → a"):
        assert found.wrong.count(link) == 1 or found.wrong.endswith(link.split()[2] + ".")


def test_a_circle_through_a_discovery_or_an_order_is_found() -> None:
    look = Discovery(
        name="rust", grades=(Grade(name="sound", odds=1.0),), revealed_by="paint", before=("weld",)
    )
    assert codes(replace(GOOD, discoveries=(look,))) == ["job-circle"]
    panel = Order(part="panel", needed_by=("weld",), after=("paint",))
    assert codes(replace(GOOD, orders=(panel,))) == ["job-circle"]


@pytest.mark.parametrize("odds", [(0.5, 0.4), (1.2, -0.2), ()])
def test_odds_sum_to_one(odds: tuple[float, ...]) -> None:
    grades = tuple(Grade(name=str(i), odds=p) for i, p in enumerate(odds))
    found = Discovery(name="rust", grades=grades, revealed_by="strip")
    assert "odds" in codes(replace(GOOD, discoveries=(found,)))


@pytest.mark.parametrize(
    "points", [(3.0, 2.0, 4.0), (-1.0, 2.0, 4.0), (1.0, 2.0, float("nan")), (1.0, 5.0, 4.0)]
)
def test_three_points_rise_from_zero(points: tuple[float, float, float]) -> None:
    wrong = replace(GOOD.jobs[0], cost=ThreePoint(*points))
    assert codes(plan(wrong, *GOOD.jobs[1:])) == ["three-point-order"]


def test_all_faults_come_at_once() -> None:
    broken = plan(
        job("a", 1.0, "zzz"),
        job("a", 1.0, helpers=1),
        calendar=Calendar(start=MONDAY, hours_a_week=0.0),
    )
    assert set(codes(broken)) == {"calendar", "job-twice", "job-unknown", "helper-hours"}
