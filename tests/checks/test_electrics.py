from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

BUILD = """
build: a trial car
car: {body: {kind: unitary}}
options:
  engine: {trial: {as_is: true, power: 80 kW, idle_speed: 850 ± 20 rpm}}
  alternator: {trial: {as_is: true, output: ALTERNATOR, hot_share: 0.88 ± 0.02}}
  battery: {trial: {as_is: true, capacity: 60 Ah, cold_cranking_current: 540 ± 20 A}}
  wiring: {trial: {as_is: true, only_these: true, cabin_air: 50 ± 2 °C, engine_bay_air: 70 ± 2 °C,
                   insulation_limit: 105 °C ± 0 K, battery_cable_area: CABLE,
                   battery_cable_length: 1.2 ± 0.1 m, starter_current: 180 ± 10 A,
                   earth_resistance: 0.8 ± 0.1 mΩ, charging_cable_area: 16 mm²,
                   body_return: 2 ± 0.2 mΩ, circuits: {
    ignition: {current: 10 ± 0.2 A, run: 2 m, area: 2.5 mm², fuse: 15 A, wires: 3},
    lamps: {current: 12 ± 0.2 A, run: RUN, area: AREA, fuse: FUSE, wires: 3, place: cabin,
            idle_night: 100 %, cruise_night: 100 %}}}}
"""
ALL = (
    "electrics.charge-by-night", "electrics.charge-by-day", "electrics.cranking",
    "electrics.starter-cable", "electrics.charging-cable", "electrics.voltage-drop",
    "electrics.wire-temperature", "electrics.wire-over-fuse", "electrics.fuse-load",
    "electrics.fuse-opens", "electrics.short-circuit",
)  # fmt: skip


def verdict(check: str, **changed: str):
    text = BUILD
    given = {
        "ALTERNATOR": "70 ± 2 A",
        "CABLE": "35 mm²",
        "RUN": "3 m",
        "AREA": "2.5 mm²",
        "FUSE": "20 A",
    }
    for word, value in {**given, **changed}.items():
        text = text.replace(word, value)
    build = evaluate(text)
    assert build.problems == ()
    return build.verdict(check)


@pytest.mark.parametrize("check", ALL)
def test_sound_system_is_good(check: str) -> None:
    assert verdict(check).state is State.GOOD


@pytest.mark.parametrize(
    ("check", "changed"),
    [
        ("electrics.voltage-drop", {"RUN": "12 m"}),
        ("electrics.wire-over-fuse", {"AREA": "0.75 mm²"}),
        ("electrics.wire-temperature", {"AREA": "0.5 mm²"}),
        ("electrics.fuse-load", {"FUSE": "10 A"}),
        ("electrics.fuse-opens", {"FUSE": "80 A"}),
        ("electrics.charge-by-night", {"ALTERNATOR": "22 ± 1 A"}),
        ("electrics.starter-cable", {"CABLE": "6 mm²"}),
    ],
)
def test_fault_is_found(check: str, changed: dict[str, str]) -> None:
    found = verdict(check, **changed)
    assert found.state is State.FAILS
    assert found.check.caution


def test_worst_circuit_is_named() -> None:
    worst = verdict("electrics.voltage-drop", RUN="12 m").worst
    assert worst is not None
    assert worst.label == "lamps"
