"""Verdicts on the engine, from small build files."""

from __future__ import annotations

from tests.building import BARE, evaluate

from drybuild.checks.verdicts import State


def verdict(check: str, entries: str) -> State:
    text = f"{BARE}options: {{engine: {{one: {{{entries}}}}}}}\n"
    return evaluate(text).verdict(f"engine.{check}").state


def test_peaks_that_contradict_each_other() -> None:
    assert verdict("peaks-agree", "power: 100 kW at 5000 rpm, torque: 230 N·m at 3000 rpm") is (
        State.GOOD
    )
    # 100 kW at 5000 rpm is 191 N·m already.
    assert verdict("peaks-agree", "power: 100 kW at 5000 rpm, torque: 170 N·m at 3000 rpm") is (
        State.FAILS
    )


def test_piston_speed() -> None:
    assert verdict("piston-speed", "power: 90 kW at 5500 rpm, stroke: 80 mm") is State.GOOD
    assert verdict("piston-speed", "power: 90 kW at 8000 rpm, stroke: 80 mm") is State.FAILS


def test_mounts() -> None:
    idle = "cylinders: 4, idle_speed: 750 rpm"  # fires at 25 Hz, isolates from 17.7 Hz down
    assert verdict("mount-frequency", f"{idle}, mount_roll_frequency: 12 Hz") is State.GOOD
    assert verdict("mount-frequency", f"{idle}, mount_roll_frequency: 22 Hz") is State.FAILS
    assert verdict("mount-frequency", idle) is State.OPEN


def test_high_voltage_is_said_with_its_caution() -> None:
    petrol = evaluate().result("traction_voltage")
    assert petrol.missing[0].senseless
    motor = "kind: electric, power: 60 kW, torque: 200 N·m, battery_voltage: 350 V"
    assert verdict("high-voltage", motor) is State.FAILS
    check = evaluate().checks["engine.high-voltage"]
    assert "licensed" in check.caution
    assert check.advice
