from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

BUILD = """
build: a trial car
car: {body: {kind: unitary}}
options:
  engine: {trial: {as_is: true, power: POWER at 6000 rpm, displacement: 3 l, cylinders: 6}}
  fuel_system: {trial: {as_is: true, delivery: injection, pressure: 3 bar, pump_flow: 160 l/h,
                        pump_voltage: 13 ± 0.2 V, line_bore: BORE, suction_bore: 12 mm,
                        injector_flow: INJECTOR}}
"""


def verdict(check: str, **changed: str) -> State:
    text = BUILD
    given = {"POWER": "150 kW", "BORE": "8 mm", "INJECTOR": "330 cm³/min"}
    for word, value in {**given, **changed}.items():
        text = text.replace(word, value)
    build = evaluate(text)
    assert build.problems == ()
    return build.verdict(check).state


def test_ample_system_is_good() -> None:
    for check in ("fuel.pump-flow", "fuel.pressure-line-loss", "fuel.line-velocity", "fuel.vapour",
                  "fuel.suction-velocity", "fuel.injectors"):  # fmt: skip
        assert verdict(check) is State.GOOD, check


def test_twice_the_power_fails_the_pump_and_the_injectors() -> None:
    assert verdict("fuel.pump-flow", POWER="400 kW") is State.FAILS
    assert verdict("fuel.injectors", INJECTOR="180 cm³/min") is State.FAILS


def test_thin_line_fails() -> None:
    assert verdict("fuel.line-velocity", BORE="2.5 mm") is State.FAILS
    assert verdict("fuel.pressure-line-loss", BORE="2.5 mm") is State.FAILS
