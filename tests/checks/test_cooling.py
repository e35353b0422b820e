from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

BUILD = """
build: a trial car
brief: {hot_day: 38 °C ± 1 K, climb_grade: 6 % ± 0.1 %, climb_speed: 80 ± 1 km/h}
car:
  body: {kind: unitary, drag_coefficient: 0.45 ± 0.01, frontal_area: 1.9 ± 0.02 m²}
  cooling: {glycol: GLYCOL, altitude: 200 m ± 10 m, part_load_share: 0.30 ± 0.01,
            full_load_share: 0.22 ± 0.01}
options:
  engine: {trial: {as_is: true, power: POWER at 5500 rpm, displacement: 2 l}}
  radiator: {trial: {as_is: true, width: WIDTH, height: 420 ± 5 mm, depth: 50 ± 1 mm,
                     fin_pitch: 2.0 ± 0.05 mm, fan: FAN, fan_flow: 0.9 ± 0.05 m³/s, shroud: true,
                     fan_pressure: 220 ± 10 Pa, condition: 0.93 ± 0.02, cap_pressure: 1 ± 0.02 bar}}
"""


def verdict(check: str, **changed: str) -> State:
    text = BUILD
    given = {"POWER": "85 kW", "WIDTH": "600 ± 5 mm", "FAN": "electric", "GLYCOL": "0.48 ± 0.01"}
    for word, value in {**given, **changed}.items():
        text = text.replace(word, value)
    build = evaluate(text)
    assert build.problems == ()
    return build.verdict(check).state


def test_generous_radiator_is_good_everywhere() -> None:
    for check in ("cooling.idle", "cooling.climb", "cooling.fast-road", "cooling.freezing"):
        assert verdict(check) is State.GOOD, check


def test_small_radiator_fails_the_climb() -> None:
    assert verdict("cooling.climb", WIDTH="180 ± 5 mm") is State.FAILS


def test_no_fan_fails_at_idle() -> None:
    assert verdict("cooling.idle", FAN="none") is State.FAILS


def test_plain_water_fails_the_cold_day() -> None:
    assert verdict("cooling.freezing", GLYCOL="0.02 ± 0.001") is State.FAILS
