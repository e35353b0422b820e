from functools import cache

from tests.building import evaluate

from drybuild.checks.verdicts import judge
from drybuild.next_steps.advise import next_steps
from drybuild.next_steps.fields import Fields
from drybuild.next_steps.stakes import stakes
from drybuild.next_steps.step import Act, Step

CAR = """\
build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2540 ± 3 mm}
  mass: {front_axle: 545 ± 5 kg, rear_axle: 505 ± 5 kg, cg_height: ~560 mm}
brief: {finish_by: 2031-01-01}
work: {start: 2027-01-04, hours_a_week: 10 h, own_hour: 10 EUR/h}
options:
  engine:
    original: {as_is: true}
    new: {mass: 150 kg, price: 4000 EUR, lead_time: 150 weeks, fitting: 20 / 30 / 50 h}
  axle:
    original: {as_is: true}
    strong: {mass: 80 kg, price: 900 EUR}
picks: {engine: new}
"""


@cache
def steps(text: str = CAR) -> tuple[Step, ...]:
    found = evaluate(text, samples=1000)
    verdicts = [judge(check, found.evaluation) for check in found.checks.values()]
    return next_steps(found.evaluation, verdicts)


def of(act: Act, text: str = CAR) -> dict[str, Step]:
    return {step.about: step for step in steps(text) if step.act is act}


def test_steps_come_ranked() -> None:
    scores = [step.score for step in steps()]
    assert scores == sorted(scores, reverse=True)


SHAFT = "options.propshaft.as it stands.length"
"""Taken from a typical range, and what the shaft's critical speed hangs on."""


def test_a_typical_range_that_a_check_hangs_on_is_worth_measuring() -> None:
    length = of(Act.MEASURE)[SHAFT]
    assert length.worth > 0.0
    assert length.how is not None
    assert "tape" in length.how.tool
    assert length.how.caution
    assert any(one.share > 0.3 for one in length.helps)


def test_what_is_measured_well_is_not_measured_again() -> None:
    measured = of(Act.MEASURE)
    assert "car.body.wheelbase" not in measured
    assert "car.mass.front_axle" not in measured


def test_a_measurement_that_settles_it_takes_the_step_away() -> None:
    shaft = "  propshaft: {original: {as_is: true, length: 1400 ± 1 mm}}\n  axle:\n"
    measured = of(Act.MEASURE, CAR.replace("  axle:\n", shaft))
    assert SHAFT not in measured
    assert "options.propshaft.original.length" not in measured


def test_a_missing_budget_is_a_decision_that_opens_a_check() -> None:
    budget = of(Act.DECIDE)["brief.budget"]
    assert [one.check for one in budget.helps] == ["work.budget"]
    assert budget.worth > 0.0


def test_hidden_zones_are_worth_a_look_and_so_is_the_whole_body() -> None:
    looks = of(Act.INSPECT)
    assert "every zone of the body" in looks
    every = looks.pop("every zone of the body")
    assert every.frees > max(step.frees for step in looks.values())
    assert every.frees > 0.0
    for step in looks.values():
        assert step.how is not None
        assert step.how.caution


def test_an_order_that_is_due_says_what_delay_costs() -> None:
    order = of(Act.ORDER)["engine: new"]
    assert order.by is not None
    assert order.weeks > 1.0  # of the four by which it is put off
    early = CAR.replace("lead_time: 150 weeks", "lead_time: 1 week")
    assert of(Act.ORDER, early) == {}


def test_an_open_system_with_a_choice_is_to_be_decided() -> None:
    assert "axle" in of(Act.DECIDE)
    assert "engine" not in of(Act.DECIDE)


def test_stakes_are_the_part_and_the_work() -> None:
    found = evaluate(CAR, samples=50)
    at_stake = stakes(found.evaluation)
    assert at_stake.hour == 10.0
    assert at_stake.week == 100.0
    assert at_stake.parts == {"engine": 4000.0 + 30.0 * 10.0}
    budget = at_stake.of(found.checks["work.budget"], found.evaluation)
    advice = at_stake.of(found.checks["work.waiting"], found.evaluation)
    assert budget == 80.0  # aggregates count as given: no part by itself is at stake
    assert advice == 80.0


def test_paths_lead_to_their_fields() -> None:
    fields = Fields(evaluate(CAR, samples=10).build)
    mass = fields.of("options.engine.new.mass")
    assert mass is not None
    assert (mass.key, mass.unit) == ("engine.mass", "kg")
    base = fields.of("car.body.wheelbase")
    assert base is not None
    assert base.key == "car.body.wheelbase"
    assert fields.of("car.nothing.here") is None
