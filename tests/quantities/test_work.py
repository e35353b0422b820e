import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.planning.baseline import baseline

HAND = """\
build: an invented van
car: {body: {kind: unitary}}
survey: {pace: 1.5}
work:
  start: 2027-01-04
  hours_a_week: 7 h
  kept: 100 %
  common_factor: 0
  trade_factor: 0
jobs:
  take apart: {hours: 5 / 7 / 12 h, cost: 20 / 30 / 60 EUR}
  send out: {hours: 1 h, after: [take apart], away: 14 days, cost: 500 EUR}
  fit: {hours: 6 h, after: [send out], fits: [engine]}
options:
  engine:
    old: {as_is: true}
    new: {price: 2000 ± 100 EUR, lead_time: 10 days, deposit: 25 %}
picks: {engine: new}
"""


def day(text: str) -> float:
    return float(np.datetime64(text, "D").astype(int))


def test_the_plan_on_paper_is_followed_by_hand() -> None:
    found = evaluate(HAND)
    # An hour a day from 4 January: 7 h, 1 h, 14 days away, 6 h: 28 days, so until 1 February.
    assert found.value("planned_finish_date") == pytest.approx(day("2027-02-01"))
    assert found.value("finish_date") == pytest.approx(day("2027-02-01"))
    assert found.value("weeks_of_work") == pytest.approx(4 * 7 * 86400.0)
    assert found.value("labour_hours") == pytest.approx(14.0 * 3600.0)
    assert found.value("parts_cost") == pytest.approx(2000.0)
    assert found.value("jobs_cost") == pytest.approx(530.0)
    assert found.value("total_cost") == pytest.approx(2530.0)
    assert found.value("waiting_share") == pytest.approx(0.5)
    assert found.value("job_start_date", "fit") == pytest.approx(day("2027-01-26"))


def test_cost_at_80_less_the_plan_is_the_contingency() -> None:
    found = evaluate(HAND, samples=1000)
    total = found.samples_of("total_cost")[1:]
    assert found.value("cost_at_80") == pytest.approx(np.quantile(total, 0.8))
    assert found.value("contingency") == pytest.approx(found.value("cost_at_80") - 2530.0)


def test_the_price_s_own_samples_carry_into_the_total() -> None:
    found = evaluate(HAND, samples=500)
    price = found.samples_of("part_price", "engine: new")
    assert np.array_equal(found.samples_of("parts_cost"), price)
    assert np.corrcoef(price[1:], found.samples_of("total_cost")[1:])[0, 1] > 0.9
    assert "options.engine.new.price" in found.result("total_cost").inputs


def test_a_part_holds_its_job_up_when_it_comes_late() -> None:
    late = evaluate(HAND.replace("10 days,", "60 days,"))
    # Ordered on day 0, come on day 60, fitted in six days.
    assert late.value("planned_finish_date") == pytest.approx(day("2027-01-04") + 66.0)
    assert late.value("order_slack", "engine: new") < 0.0
    in_time = evaluate(HAND)
    assert in_time.value("order_slack", "engine: new") > 0.0
    assert in_time.value("order_late_odds", "engine: new") <= 0.1
    assert in_time.value("decide_by_date", "engine") == pytest.approx(
        in_time.value("order_by_date", "engine: new")
    )


def test_money_is_paid_in_its_month_and_adds_up() -> None:
    found = evaluate(HAND, samples=50)
    months = found.result("money_by_month").labelled()
    last = list(months.values())[-1]
    assert next(iter(months)) == "2027-01"
    assert last == pytest.approx(found.samples_of("total_cost"))


def test_zones_are_found_only_by_jobs_that_lay_them_open() -> None:
    hidden = evaluate(HAND)
    assert hidden.value("finds_hours") == 0.0
    assert hidden.value("zones_left_hidden") > 30.0
    seen = evaluate(HAND.replace("60 EUR}", "60 EUR, stage: strips}"))
    assert seen.value("zones_left_hidden") == 0.0
    assert seen.value("finds_hours") > 0.0
    assert seen.value("planned_finish_date") == hidden.value("planned_finish_date")
    assert seen.value("finish_date") > hidden.value("finish_date")


def test_the_same_bodies_stand_behind_repair_hours_and_the_finish() -> None:
    found = evaluate(HAND.replace("60 EUR}", "60 EUR, stage: strips}"), samples=400)
    hours = found.samples_of("rust_repair_hours")[1:]
    finish = found.samples_of("finish_date")[1:]
    assert np.corrcoef(hours, finish)[0, 1] > 0.8


def test_finds_of_one_s_own_cost_their_average_and_turn_out_one_way_or_the_other() -> None:
    text = HAND.replace(
        "jobs:",
        "  finds:\n    crack:\n      revealed_by: take apart\n      before: [fit]\n      results:\n"
        "        none: {odds: 75 %}\n        weld: {odds: 25 %, hours: 8 h, cost: 100 EUR}\n"
        "jobs:",
    )
    found = evaluate(text, samples=1000)
    assert found.value("finds_cost") == pytest.approx(25.0)
    assert found.samples_of("finds_cost")[1:].mean() == pytest.approx(25.0, abs=3.0)
    assert found.value("finds_expected") == pytest.approx(0.25)
    assert set(np.unique(found.samples_of("finds_cost")[1:])) == {0.0, 100.0}


def test_a_job_that_is_done_takes_no_more_time() -> None:
    found = evaluate(HAND.replace("60 EUR}", "60 EUR, done: true}"))
    assert found.value("planned_finish_date") == pytest.approx(day("2027-01-04") + 21.0)
    assert found.value("jobs_cost") == pytest.approx(530.0)


def test_weeks_off_and_working_days_count() -> None:
    text = HAND.replace("kept: 100 %", "kept: 100 %\n  weeks_off: [2027-01-04 to 2027-01-10]")
    assert evaluate(text).value("planned_finish_date") == pytest.approx(day("2027-02-08"))


def test_fitting_hours_make_a_job_where_none_fits_the_part() -> None:
    text = HAND.replace(", fits: [engine]", "").replace("deposit: 25 %", "fitting: 3 / 4 / 6 h")
    found = evaluate(text)
    assert found.value("planned_hours") == pytest.approx(18.0 * 3600.0)
    assert "fit engine: new" in found.result("job_start_date").labelled()


def test_a_bare_build_has_a_usual_rebuild_s_plan() -> None:
    found = evaluate(BARE, samples=300)
    assert found.value("jobs_count") > 25.0
    assert found.value("planned_hours") > 500.0 * 3600.0
    assert found.value("finds_hours") > 100.0 * 3600.0
    assert found.value("total_cost") > 5000.0
    assert found.value("finish_at_80") > found.value("planned_finish_date")


def test_a_part_without_a_price_leaves_the_total_open_and_the_finish_known() -> None:
    found = evaluate(HAND.replace("price: 2000 ± 100 EUR, ", ""))
    assert found.result("total_cost").open
    assert found.result("total_cost").missing[0].path == "options.engine.new.price"
    assert not found.result("finish_date").open


def test_jobs_in_a_circle_leave_the_plan_open() -> None:
    found = evaluate(HAND.replace("60 EUR}", "60 EUR, after: [fit]}"))
    assert found.result("finish_date").open
    assert "wait for each other" in found.result("finish_date").missing[0].why


def test_what_is_replaced_is_not_overhauled() -> None:
    kept = evaluate(BARE, samples=20)
    text = BARE + (
        "options: {engine: {old: {as_is: true}, new: {price: 100 EUR, fitting: 10 h}}}\n"
        "picks: {engine: new}\n"
    )
    replaced = evaluate(text, samples=20)
    overhaul = 50.0 * 3600.0  # the usual hours of an engine, in tables/work_job.csv
    assert replaced.value("planned_hours") == pytest.approx(
        kept.value("planned_hours") - overhaul + 10.0 * 3600.0
    )
    order = replaced.value("order_by_date", "engine: new")
    fitted = replaced.value("job_start_date", "fit engine: new")
    sprayed = replaced.value("job_finish_date", "spray the colour")
    assert sprayed < fitted
    assert order < fitted


def test_the_plan_on_paper_can_be_solved_for_and_gets_no_longer() -> None:
    runs = evaluate(HAND, samples=50).result("work_runs").value
    best = baseline(runs.planned.plan, seconds=2.0)
    assert best.list_day == pytest.approx(float(runs.planned.finish_day[0]))
    assert best.finish_day <= best.list_day


def test_a_part_that_is_ordered_already_comes_when_it_comes() -> None:
    ordered = HAND.replace("10 days,", "60 days,").replace(
        "kept: 100 %", "kept: 100 %\n  ordered: {engine: 2026-12-15}"
    )
    found = evaluate(ordered)
    # Ordered 20 days before the start, it comes on day 40 and is fitted in six days.
    assert found.value("planned_finish_date") == pytest.approx(day("2027-01-04") + 46.0)
    assert found.result("order_by_date").labelled() == {}
    assert found.result("decide_by_date").labelled() == {}
