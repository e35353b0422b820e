import numpy as np
import pytest
from tests.planning.plans import MONDAY, job, plan

from drybuild.planning.calendar import Calendar
from drybuild.planning.dates import (
    decision_dates,
    last_safe_days,
    latest_starts,
    need_days,
    order_dates,
    place_orders,
    place_to_plan,
)
from drybuild.planning.estimates import ThreePoint, exactly
from drybuild.planning.jobs import Job, Order
from drybuild.planning.sampling import draw
from drybuild.planning.simulate import simulate


def test_latest_starts_leave_the_end_where_it_is() -> None:
    jobs = (
        job("send out", 1.0, away_days=exactly(20.0)),
        job("fit", 2.0, "send out"),
        job("clean", 3.0),
    )
    of = plan(*jobs)
    done = simulate(of, draw(of, 0))
    latest = dict(zip(done.layout.names, latest_starts(done), strict=True))
    # 23 days: one hour, 20 days away, two hours; the cleaning has to end by day 21.
    assert done.finish_day[0] == pytest.approx(23.0)
    assert latest["send out"] == pytest.approx(0.0)
    assert latest["fit"] == pytest.approx(21.0)
    assert latest["clean"] == pytest.approx(18.0)


def ordered(lead: ThreePoint, placed: float | None = None) -> Order:
    return Order(
        part="gearbox", system="gearbox", lead_days=lead, needed_by=("fit",), placed_day=placed
    )


JOBS = (
    Job(name="strip", hours=ThreePoint(20.0, 30.0, 60.0)),
    Job(name="fit", hours=exactly(5.0), after=("strip",)),
)


def test_an_order_s_last_safe_day_is_late_in_one_run_of_ten() -> None:
    of = plan(*JOBS, orders=(ordered(ThreePoint(5.0, 10.0, 20.0)),))
    draws = draw(of, 2000)
    wanted = need_days(of, draws)
    day = last_safe_days(wanted, draws.order_lead_days)[0]
    late = day + draws.order_lead_days[0, 1:] > wanted[0, 1:]
    assert late.mean() == pytest.approx(0.1, abs=0.002)


def test_orders_are_placed_on_that_day_but_not_in_the_past() -> None:
    short = plan(*JOBS, orders=(ordered(exactly(5.0)),))
    placed = place_orders(short, draw(short, 500)).orders[0].placed_day
    assert placed is not None
    assert 10.0 < placed < 30.0
    long = plan(*JOBS, orders=(ordered(exactly(300.0)),))
    draws = draw(long, 500)
    today = place_orders(long, draws, today=3.0)
    assert today.orders[0].placed_day == 3.0
    (when,) = order_dates(today, simulate(today, draws))
    assert when.safe_day < 0.0
    assert when.chance_late == 1.0
    assert when.clash


def test_a_day_that_is_given_stays() -> None:
    of = plan(*JOBS, orders=(ordered(exactly(5.0), placed=7.0),))
    assert place_orders(of, draw(of, 100)) == of


def test_the_plan_s_own_date_is_the_latest_start_less_the_lead() -> None:
    of = plan(*JOBS, orders=(ordered(exactly(5.0)),))
    draws = draw(of, 200)
    of = place_orders(of, draws)
    (when,) = order_dates(of, simulate(of, draws))
    assert when.plan_day == pytest.approx(25.0)
    assert when.needed_day == pytest.approx(30.0, abs=0.5)
    assert 0.03 < when.chance_late <= 0.1  # ordered on a whole day, so a little early


def test_a_system_is_decided_for_its_first_order_or_job() -> None:
    jobs = (*JOBS, job("brackets", 1.0, needs=("gearbox", "seats")))
    of = plan(*jobs, orders=(ordered(exactly(5.0)),))
    draws = draw(of, 300)
    placed = place_orders(of, draws)
    done = simulate(placed, draws)
    dates = {d.system: d for d in decision_dates(placed, done, order_dates(placed, done))}
    assert set(dates) == {"gearbox", "seats"}
    assert dates["gearbox"].because == "gearbox"
    assert dates["seats"].because == "brackets"


def test_a_part_that_no_job_wants_is_simply_ordered() -> None:
    spare = Order(part="spare", lead_days=exactly(4.0), price=exactly(10.0))
    of = plan(*JOBS, orders=(spare,))
    draws = draw(of, 50)
    assert np.isinf(need_days(of, draws)).all()
    assert place_orders(of, draws).orders[0].placed_day == 0.0


def test_the_plan_itself_orders_for_its_own_days() -> None:
    of = plan(*JOBS, orders=(ordered(exactly(12.5)),))
    assert place_to_plan(of).orders[0].placed_day == 17.0
    assert place_to_plan(of, today=20.0).orders[0].placed_day == 20.0


def test_no_job_of_a_weekend_worker_begins_after_its_latest_start() -> None:
    calendar = Calendar(start=MONDAY, hours_a_week=6.0, weekdays=(0, 0, 1, 0, 0, 2, 0))
    jobs = [
        job(f"j{i}", 2.0 + i % 3, *([f"j{i - 2}"] if i > 1 else []), place="bay" if i % 2 else "")
        for i in range(12)
    ]
    jobs.append(job("spray", 3.0, "j5", place="bay", cure_days=exactly(9.0)))
    of = plan(*jobs, calendar=calendar)
    done = simulate(of, draw(of, 0))
    slack = latest_starts(done) - done.start_day[:, 0]
    assert slack.min() == pytest.approx(0.0, abs=1e-6)
