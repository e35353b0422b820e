from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

BUILD = """
build: a trial car
car: {{body: {{kind: unitary}}, intake: {{duct_bore: {duct} mm}}}}
options:
  engine: {{trial: {{as_is: true, power: 110 kW at 6000 rpm, displacement: 2 l}}}}
  exhaust: {{trial: {{as_is: true, bore: {bore} mm, length: 3 m, bends: 4, bend_loss: 0.25,
                    silencer_loss: 3 ± 0.5, gas_temperature: 550 ± 30 °C}}}}
"""


@pytest.mark.parametrize(("bore", "state"), [(63, State.GOOD), (38, State.FAILS)])
def test_back_pressure_follows_the_bore(bore: int, state: State) -> None:
    build = evaluate(BUILD.format(bore=bore, duct=75))
    assert build.problems == ()
    assert build.verdict("exhaust.back-pressure").state is state
    assert not build.verdict("exhaust.back-pressure").rules_out  # advice only


def test_narrow_duct_is_said() -> None:
    assert evaluate(BUILD.format(bore=63, duct=40)).verdict("exhaust.intake-duct").state is (
        State.FAILS
    )
