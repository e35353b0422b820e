from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.physics.electrics import resistance_when_warm

BUILD = """
build: a trial car
car: {body: {kind: unitary}}
options:
  engine: {trial: {as_is: true, power: 80 kW, idle_speed: 800 rpm}}
  alternator: {trial: {as_is: true, output: 70 A, pulley_ratio: 2.2, cut_in_speed: 1000 rpm,
                       hot_share: 90 %}}
  battery: {trial: {as_is: true, capacity: 60 Ah, cold_cranking_current: 500 A,
                    reserve_capacity: 90 min}}
  wiring: {trial: {as_is: true, cabin_air: 50 °C ± 0 K, engine_bay_air: 70 °C ± 0 K, WIRING}}
"""
LAMPS = (
    "circuits: {spot lamps: {current: 12 A, run: 3 m, area: 2.5 mm², fuse: 20 A, place: cabin, "
    "wires: 1, idle_night: 50 %}}"
)


def built(wiring: str = "bundle_wires: 3", more: str = ""):
    return evaluate(BUILD.replace("WIRING", wiring) + more)


def test_bare_build_computes_every_electric_quantity() -> None:
    bare = evaluate(BARE)
    for name in (
        "electrical_load", "alternator_margin", "battery_reserve_time", "starter_cable_drop",
        "circuit_voltage_drop", "circuit_conductor_temperature", "circuit_wire_wanted",
        "circuit_fuse_wanted", "circuit_ampacity", "parked_battery_time",
    ):  # fmt: skip
        assert not bare.result(name).open, name


def test_alternator_at_idle_and_at_speed() -> None:
    build = built()
    assert build.problems == ()
    idle = 70.0 * 0.9 * (1.0 - 1000.0 / 1760.0) / (1.0 - 1.0 / 6.0)
    assert build.value("alternator_current", "idle at night in rain") == pytest.approx(idle)


def test_load_counts_each_circuit_by_its_duty() -> None:
    only = built(f"only_these: true, {LAMPS}")
    assert only.value("electrical_load", "idle at night in rain") == pytest.approx(6.0)
    assert only.value("electrical_load", "cruise by day") == pytest.approx(0.0)
    both = built(LAMPS)
    without = built()
    name = "electrical_load"
    more = both.value(name, "idle at night in rain") - without.value(name, "idle at night in rain")
    assert more == pytest.approx(6.0)


def test_current_of_a_fitted_part_is_added_in_every_situation() -> None:
    pump = "  water_heater: {kit: {current: 9 A}}\npicks: {water_heater: kit}\n"
    build = built(more=pump)
    assert build.problems == ()
    assert build.value("added_current") == pytest.approx(9.0)
    day = build.value("electrical_load", "cruise by day")
    assert day == pytest.approx(built().value("electrical_load", "cruise by day") + 9.0)


def test_fan_current_of_the_radiator_is_a_circuit_and_counts_once() -> None:
    fan = "  radiator: {trial: {as_is: true, fan: electric, current: 22 A}}\n"
    build = built(more=fan)
    assert build.value("circuit_current", "radiator fan") == pytest.approx(22.0)
    assert build.value("added_current") == 0.0


def test_voltage_drop_by_hand() -> None:
    build = built(f"return_path: wire, {LAMPS}")
    warm = build.value("circuit_conductor_temperature", "spot lamps")
    by_hand = 12.0 * resistance_when_warm(resistance_at_20c=6.0 * 7.60e-3, temperature=warm)
    assert build.value("circuit_voltage_drop", "spot lamps") == pytest.approx(by_hand)
    body = built(f"body_return: 4 mΩ, {LAMPS}")
    half = 12.0 * (resistance_when_warm(resistance_at_20c=3.0 * 7.60e-3, temperature=warm) + 4e-3)
    assert body.value("circuit_voltage_drop", "spot lamps") == pytest.approx(half)


def test_wire_wanted_carries_the_fuse_and_keeps_the_drop() -> None:
    build = built(f"insulation_limit: 105 °C ± 0 K, fuse_loading: 75 % ± 0 %, {LAMPS}")
    assert build.value("circuit_fuse_wanted", "spot lamps") == 20.0
    wanted = build.value("circuit_wire_wanted", "spot lamps") * 1e6
    # At 105 °C and 12 A, 3 m of 1.5 mm² lose 12 · 3 · 12.7 mΩ · 339.5/254.5 = 0.61 V, of 2.5 mm²
    # 0.36 V, and the return through the body 0.03 V more: half a volt allows the latter.
    assert wanted == pytest.approx(2.5)
    assert build.value("circuit_wire_over_fuse", "spot lamps") > 1.0


def test_gauge_wanted_has_the_copper() -> None:
    build = built(f"insulation_limit: 105 °C ± 0 K, fuse_loading: 75 % ± 0 %, {LAMPS}")
    assert build.value("circuit_gauge_wanted", "spot lamps") == 12.0  # 2.91 mm², SAE J1128


def test_no_wire_is_large_enough_for_an_absurd_load() -> None:
    lamps = LAMPS.replace("current: 12 A", "current: 400 A")
    build = built(lamps)
    assert np.isnan(build.value("circuit_fuse_wanted", "spot lamps"))
    assert np.isnan(build.value("circuit_wire_wanted", "spot lamps"))


def test_starter_loop_by_hand() -> None:
    # 35 mm² at 60 °C: 1.5 m of IEC 60228's 0.554 mΩ/m · 294.5/254.5 and 1 mΩ of earth, 200 A.
    build = built(
        "starter_current: 200 A, battery_cable_area: 35 mm², battery_cable_length: 1.5 m, "
        "earth_resistance: 1 mΩ"
    )
    by_hand = 200.0 * (1.5 * 0.554e-3 * 294.5 / 254.5 + 1e-3)
    assert build.value("starter_cable_drop") == pytest.approx(by_hand)
    cold = 12.6 - by_hand - 200.0 * (12.6 - 7.2) / 500.0
    assert build.value("starter_voltage") == pytest.approx(cold)


def test_reserve_without_ignition_or_pump_is_open() -> None:
    build = built(f"only_these: true, {LAMPS}")
    assert build.result("battery_reserve_time").open


def test_parked_time_is_in_days() -> None:
    build = built(more="")
    drain = build.samples_of("parked_battery_time")
    assert 10.0 * 86400.0 < drain[0] < 100.0 * 86400.0


def test_output_wanted_just_carries_every_situation() -> None:
    wanted = built().value("alternator_output_wanted")
    sized = evaluate(
        BUILD.replace("output: 70 A", f"output: {wanted:.6f} A").replace(
            "WIRING", "bundle_wires: 3"
        )
    )
    idle = sized.value("alternator_margin", "idle at night in rain")
    night = sized.value("alternator_cover", "cruise by night")
    assert idle >= -1e-3
    assert night >= 1.25 - 1e-6
    assert idle == pytest.approx(0.0, abs=1e-3) or night == pytest.approx(1.25, abs=1e-3)
