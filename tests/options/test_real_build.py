"""The tables of a real, small build against judging every complete build one by one."""

from __future__ import annotations

from itertools import product

import pytest
from tests.building import Evaluated, evaluate

from drybuild.checks.verdicts import judge
from drybuild.options.chooser import Chooser
from drybuild.present.verdict_texts import failing_words

FILE = """
build: an invented saloon
car: {body: {kind: unitary}, mass: {front_axle: 520 kg, rear_axle: 480 kg}}
brief:
  must: [wheel_diameter <= 15 in, pedal_force_at_0_9g <= 400 N]
options:
  wheels:
    thirteen: {as_is: true, mass: 40 kg, diameter: 13 in, width: 5 in}
    fifteen: {mass: 44 kg, diameter: 15 in, width: 6 in, price: 700 EUR}
    sixteen: {mass: 46 kg, diameter: 16 in, width: 7 in, price: 900 EUR}
  tyres:
    narrow: {as_is: true, mass: 32 kg, size: 165/80R13 83S}
    usual: {mass: 34 kg, size: 195/65R15 91V, price: 400 EUR}
    wide: {mass: 36 kg, size: 205/55R16 91V, price: 500 EUR}
  front_brakes:
    old: {as_is: true, mass: 30 kg, rotor_diameter: 230 mm, piston_diameter: 48 mm}
    large: {mass: 36 kg, rotor_diameter: 300 mm, piston_diameter: 57 mm, price: 900 EUR}
  brake_hydraulics:
    plain: {as_is: true, booster: none}
    servo: {booster: vacuum, price: 300 EUR}
"""


@pytest.fixture(scope="module")
def car() -> Evaluated:
    found = evaluate(FILE, samples=400)
    assert not found.problems
    return found


@pytest.fixture(scope="module")
def chooser(car: Evaluated) -> Chooser:
    return Chooser(car.evaluation, tuple(car.checks.values()), failing_words)


def all_picks(chooser: Chooser) -> list[dict[str, str]]:
    options = chooser.network.options
    return [dict(zip(options, one, strict=True)) for one in product(*options.values())]


def test_the_count_is_that_of_trying_every_build(chooser: Chooser) -> None:
    def passes(picks: dict[str, str]) -> bool:
        return all(
            table.allowed[tuple(chooser.network.options[s].index(picks[s]) for s in table.scope)]
            for table in chooser.network.tables
        )

    builds = [picks for picks in all_picks(chooser) if passes(picks)]
    assert builds
    assert chooser.state({}).total == len(builds)
    for system, option in chooser.network.labels:
        held = sum(build[system] == option for build in builds)
        assert chooser.state({system: option}).total == held


def test_what_a_table_excludes_fails_in_every_complete_build(
    car: Evaluated, chooser: Chooser
) -> None:
    judged = 0
    for table in chooser.network.tables:
        if table.id not in car.checks:
            continue
        for picks in all_picks(chooser):
            place = tuple(chooser.network.options[s].index(picks[s]) for s in table.scope)
            if not table.allowed[place]:
                whole = chooser.tabulator.whole(picks)
                verdict = judge(car.checks[table.id], car.evaluation, picks=whole, doubts=False)
                assert verdict.rules_out, (table.id, picks)
                judged += 1
    assert judged > 20


def test_the_reasons_are_in_the_persons_words(chooser: Chooser) -> None:
    state = chooser.state({"wheels": "fifteen"})
    reason = state.reasons["tyres", "narrow"]
    assert reason.picks == (("wheels", "fifteen"), ("tyres", "narrow"))
    assert "in" in reason.sentences()[0]
    assert "(must.1)" in state.reasons["wheels", "sixteen"].sentences()[0]


def test_the_kept_picks_are_the_cheapest(chooser: Chooser) -> None:
    found = chooser.completion({}, "price")
    assert found is not None
    prices = []
    for picks in all_picks(chooser):
        if chooser.conflict(picks) is None:
            weights = chooser.additives["price"].weights
            prices.append(sum(weights[s].get(o, 0.0) for s, o in picks.items()))
    assert found.total == pytest.approx(min(prices))
