from dataclasses import replace

import numpy as np
import pytest
from tests.planning.plans import MONDAY, SEVEN_A_WEEK, job, plan

from drybuild.planning.bench import FROM_THE_START
from drybuild.planning.calendar import Calendar, Span
from drybuild.planning.estimates import ThreePoint, exactly
from drybuild.planning.jobs import Discovery, Grade, Job, Order, Plan
from drybuild.planning.sampling import draw
from drybuild.planning.simulate import Outcome, simulate


def run(of: Plan, runs: int = 0, **more: object) -> Outcome:
    return simulate(of, draw(of, runs), **more)  # type: ignore[arg-type]


def span(outcome: Outcome, name: str) -> tuple[float, float]:
    node = outcome.layout.index(name)
    return float(outcome.start_day[node, 0]), float(outcome.end_day[node, 0])


def test_one_owner_works_on_one_thing_at_a_time() -> None:
    done = run(plan(job("a", 3.0), job("b", 2.0)))
    assert done.finish_day[0] == pytest.approx(5.0)


def test_the_longer_way_to_the_end_goes_first() -> None:
    done = run(plan(job("short", 3.0), job("long", 2.0), job("then", 4.0, "long")))
    assert span(done, "long") == pytest.approx((0.0, 2.0))
    assert span(done, "then") == pytest.approx((2.0, 6.0))
    assert span(done, "short") == pytest.approx((6.0, 9.0))


def test_paint_cures_while_the_owner_works_elsewhere() -> None:
    spray = job("spray", 2.0, place="bay", cure_days=exactly(5.0))
    done = run(
        plan(spray, job("polish", 1.0, "spray", place="bay"), job("sew", 3.0, place="bench"))
    )
    assert span(done, "sew") == pytest.approx((2.0, 5.0))
    assert span(done, "polish") == pytest.approx((7.0, 8.0))


def test_a_curing_job_keeps_its_place_and_one_sent_out_frees_it() -> None:
    after = job("other", 1.0, place="bay")
    cured = job("spray", 2.0, place="bay", cure_days=exactly(5.0))
    away = job("spray", 2.0, place="bay", away_days=exactly(5.0))
    assert span(run(plan(cured, after)), "other") == pytest.approx((7.0, 8.0))
    assert span(run(plan(away, after)), "other") == pytest.approx((2.0, 3.0))
    both = run(plan(cured, after, places={"bay": 2}))
    assert span(both, "other") == pytest.approx((2.0, 3.0))


def test_weeks_off_are_skipped() -> None:
    away = Span(first=MONDAY, last=MONDAY.replace(day=12))
    calendar = replace(SEVEN_A_WEEK, spans=(away,))
    assert run(plan(job("a", 3.0), calendar=calendar)).finish_day[0] == pytest.approx(10.0)


def test_hours_that_are_not_kept_stretch_the_calendar() -> None:
    calendar = replace(SEVEN_A_WEEK, hours_kept=exactly(0.5))
    assert run(plan(job("a", 3.0), calendar=calendar)).finish_day[0] == pytest.approx(6.0)


def test_a_helper_s_hours_bound_a_job_while_the_owner_goes_on() -> None:
    calendar = Calendar(start=MONDAY, hours_a_week=7.0, helper_hours_a_week=3.5)
    lift = job("lift", 2.0, helpers=1)
    done = run(plan(lift, job("then", 1.0, "lift"), job("else", 1.0), calendar=calendar))
    assert span(done, "lift") == pytest.approx((0.0, 4.0))
    assert span(done, "else") == pytest.approx((2.0, 3.0))
    assert span(done, "then") == pytest.approx((4.0, 5.0))


def test_a_part_holds_its_job_up_until_it_comes() -> None:
    late = Order(part="gearbox", lead_days=exactly(10.0), needed_by=("fit",), placed_day=2.0)
    done = run(plan(job("fit", 1.0), job("else", 1.0), orders=(late,)))
    assert done.arrival_day[0, 0] == 12.0
    assert span(done, "fit") == pytest.approx((12.0, 13.0))
    assert span(done, "else") == pytest.approx((0.0, 1.0))
    at_hand = run(done.plan, parts_at_hand=True)
    assert at_hand.finish_day[0] == pytest.approx(2.0)


def test_a_part_that_must_be_measured_for_is_ordered_when_that_is_done() -> None:
    part = Order(part="shaft", lead_days=exactly(4.0), needed_by=("fit",), after=("measure",))
    done = run(plan(job("measure", 3.0), job("fit", 1.0), job("else", 2.0), orders=(part,)))
    assert done.placed_day[0, 0] == pytest.approx(3.0)
    assert done.arrival_day[0, 0] == pytest.approx(7.0)
    assert span(done, "fit") == pytest.approx((7.0, 8.0))


def rusty(odds: float, **more: object) -> Discovery:
    grades = (
        Grade(name="sound", odds=1.0 - odds),
        Grade(name="rotten", odds=odds, hours=exactly(4.0), **more),  # type: ignore[arg-type]
    )
    return Discovery(name="floor", revealed_by="strip", grades=grades)


STRIP = (job("strip", 2.0), job("paint", 1.0, "strip"))


def test_a_discovery_costs_its_hours_in_the_runs_that_make_it() -> None:
    done = run(plan(*STRIP, discoveries=(rusty(0.3),)), 400)
    found = done.draws.grade[0] == 1
    assert done.finish_day[0] == pytest.approx(3.0)
    assert done.finish_day[found] == pytest.approx(7.0)
    assert done.finish_day[~found] == pytest.approx(3.0)


def test_metal_for_a_repair_is_waited_for() -> None:
    done = run(plan(*STRIP, discoveries=(rusty(1.0, lead_days=exactly(9.0)),)))
    assert span(done, "floor") == pytest.approx((11.0, 15.0))


def test_nothing_is_known_before_it_is_revealed() -> None:
    """Until the strip-down is over, runs that will find rust look like those that will not."""
    jobs = (
        *STRIP,
        job("a", 3.0),
        job("b", 2.0, "a"),
        Job(name="c", hours=ThreePoint(1.0, 2.0, 4.0)),
    )
    done = run(plan(*jobs, discoveries=(rusty(0.5),)), 300)
    found = done.draws.grade[0] == 1
    for runs in (found, ~found):
        early = np.sort(done.start_day[:, runs], axis=0)
        assert early[0] == pytest.approx(0.0)
    strip = done.layout.index("strip")
    assert done.end_day[strip] == pytest.approx(done.end_day[strip, 0])
    before = done.start_day < done.end_day[strip]
    assert np.array_equal(before[:, found][:, :1].repeat(found.sum(), 1), before[:, found])


def test_every_run_alone_gives_the_same_as_all_together() -> None:
    part = Order(part="p", lead_days=ThreePoint(2.0, 5.0, 20.0), needed_by=("c",), placed_day=0.0)
    jobs = tuple(
        Job(
            name=name,
            hours=ThreePoint(1.0, 3.0, 8.0),
            after=tuple(after),
            place=place,
            cure_days=ThreePoint(1.0, 2.0, 3.0) if name in "ae" else exactly(0.0),
        )
        for name, after, place in (
            ("a", "", "bay"),
            ("b", "a", "bay"),
            ("c", "a", ""),
            ("d", "", "bay"),
            ("e", "bc", "bay"),
            ("f", "d", "bay"),
        )
    )
    of = plan(*jobs, orders=(part,), discoveries=())
    draws = draw(of, 40)
    together = simulate(of, draws)
    for one in range(41):
        alone = type(draws)(**{k: v[..., one : one + 1] for k, v in vars(draws).items()})
        single = simulate(of, alone)
        assert single.finish_day[0] == pytest.approx(together.finish_day[one])


def test_no_schedule_breaks_a_rule() -> None:
    """Precedence, the owner's hours and the places hold in every run of a larger plan."""
    rng = np.random.default_rng(3)
    jobs = tuple(
        Job(
            name=f"j{i}",
            hours=ThreePoint(1.0, 2.0 + i % 5, 12.0),
            after=tuple(f"j{k}" for k in sorted(set(rng.integers(0, i, 2)))) if i > 2 else (),
            place="bay" if i % 2 else "",
            cure_days=exactly(3.0) if i % 7 == 1 else exactly(0.0),
        )
        for i in range(30)
    )
    done = run(plan(*jobs), 60)
    for node, before in enumerate(done.layout.before):
        for earlier in before:
            assert np.all(done.start_day[node] >= done.out_day[earlier] - 1e-9)
    in_bay = [i for i, p in enumerate(done.layout.place) if p == 0]
    until = done.end_day + done.work.cure_days
    for rows, ends in ((range(30), done.end_day), (in_bay, until)):
        index = np.array(list(rows))
        begun = np.argsort(done.start_day[index], axis=0)
        start = np.take_along_axis(done.start_day[index], begun, 0)
        end = np.take_along_axis(ends[index], begun, 0)
        assert np.all(start[1:] >= end[:-1] - 1e-9)
    spent = done.clock.hours_at(done.end_day) - done.clock.hours_at(done.start_day)
    assert spent == pytest.approx(done.work.hours)


def test_what_a_job_waited_for_is_remembered() -> None:
    done = run(plan(job("a", 3.0), job("b", 2.0, "a"), job("c", 1.0)))
    names = done.layout
    assert done.bound_by[names.index("a"), 0] == FROM_THE_START
    assert done.bound_by[names.index("b"), 0] == names.index("a")
    assert done.bound_by[names.index("c"), 0] == names.index("b")


def test_an_empty_plan_is_done_at_once() -> None:
    done = run(plan(), 3)
    assert list(done.finish_day) == [0.0] * 4
    assert list(done.cost) == [0.0] * 4
