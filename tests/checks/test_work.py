import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

VAN = """\
build: an invented van
car: {body: {kind: unitary}}
brief: {budget: %s, finish_by: %s}
work: {start: 2027-01-04, hours_a_week: 7 h}
jobs:
  take apart: {hours: 5 / 7 / 12 h, cost: 200 / 300 / 600 EUR}
  fit: {hours: 6 h, after: [take apart]}
"""


@pytest.mark.parametrize(("budget", "state"), [("2000 EUR", State.GOOD), ("250 EUR", State.FAILS)])
def test_the_budget_is_held_in_eight_runs_of_ten(budget: str, state: State) -> None:
    assert evaluate(VAN % (budget, "2027-12-01")).verdict("work.budget").state is state


@pytest.mark.parametrize(
    ("finish", "state"), [("2027-12-01", State.GOOD), ("2027-01-12", State.FAILS)]
)
def test_the_wanted_end_is_met_in_eight_runs_of_ten(finish: str, state: State) -> None:
    found = evaluate(VAN % ("2000 EUR", finish))
    assert found.verdict("work.finish-date").state is state
    assert found.verdict("work.hours-a-week").state is state


def test_without_a_budget_or_a_day_the_checks_are_open() -> None:
    found = evaluate(VAN.replace("brief: {budget: %s, finish_by: %s}\n", ""))
    assert found.verdict("work.budget").state is State.OPEN
    assert found.verdict("work.finish-date").state is State.OPEN


def test_jobs_that_lay_nothing_open_are_told() -> None:
    plain = VAN % ("2000 EUR", "2027-12-01")
    assert evaluate(plain).verdict("work.hidden-zones").state is State.FAILS
    staged = plain.replace("600 EUR}", "600 EUR, stage: strips}")
    assert evaluate(staged).verdict("work.hidden-zones").state is State.GOOD


def test_a_late_order_is_told() -> None:
    text = (VAN % ("9000 EUR", "2028-12-01")).replace(
        "after: [take apart]", "after: [take apart], fits: [engine]"
    )
    text += "options: {engine: {new: {price: 900 EUR, lead_time: %s}}}\npicks: {engine: new}\n"
    assert evaluate(text % "20 weeks").verdict("work.orders-in-time").state is State.FAILS
    assert evaluate(text % "1 day").verdict("work.orders-in-time").state is not State.FAILS


def test_without_orders_nobody_asks_whether_they_come_in_time() -> None:
    assert evaluate(VAN % ("2000 EUR", "2027-12-01")).verdict("work.orders-in-time").senseless
