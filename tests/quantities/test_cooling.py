from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

CELSIUS = 273.15
BUILD = """
build: a trial car
brief: {hot_day: 40 °C ± 0 K, climb_grade: 7 % ± 0 %, climb_speed: 80 km/h ± 0 km/h}
car:
  body: {kind: unitary, drag_coefficient: 0.45 ± 0, frontal_area: 1.9 ± 0 m²}
  cooling: {altitude: 0 m ± 0 m, glycol: 50 %, CHANGED}
options:
  engine: {sample: {as_is: true, power: 80 kW at 5500 rpm, displacement: 1800 cc}}
  radiator: {trial: {as_is: true, width: 520 mm, height: 400 mm, depth: 40 mm, RADIATOR}}
"""


def built(radiator: str = "fan: belt", changed: str = "coolant_volume: 8 l"):
    return evaluate(BUILD.replace("RADIATOR", radiator).replace("CHANGED", changed))


def test_bare_build_computes_every_cooling_quantity() -> None:
    bare = evaluate(BARE)
    for name in (
        "coolant_heat", "coolant_temperature", "boil_margin", "radiator_capacity", "fan_air_flow",
        "coolant_flow", "oil_heat", "coolant_boiling_point", "freeze_margin", "hottest_day",
    ):  # fmt: skip
        assert not bare.result(name).open, name


def test_file_is_read_without_problems() -> None:
    assert built().problems == ()


def test_heat_at_full_power_is_the_share_of_the_fuel() -> None:
    build = built(changed="full_load_share: 25 %")
    # 80 kW at the table's 290 g/kWh of petrol at 43.0 MJ/kg, a quarter of it.
    assert build.value("coolant_heat") == pytest.approx(0.25 * 80e3 * 290 / 3.6e9 * 43e6, rel=1e-6)
    assert build.value("fuel_flow_at_power") * 3600.0 == pytest.approx(80 * 0.290, rel=1e-6)


def test_settled_temperature_sheds_the_heat() -> None:
    build = built()
    for situation in ("idle", "climb", "fast road", "full power"):
        warmer = build.value("coolant_temperature", situation) - build.value(
            "core_air_temperature", situation
        )
        shed = build.value("radiator_heat_per_kelvin", situation) * warmer
        assert shed == pytest.approx(build.value("coolant_heat_in_heat", situation))


def test_shroud_and_electric_fan_help_at_idle_and_dirt_does_not() -> None:
    plain = built("fan: electric, condition: 90 %")
    shrouded = built("fan: electric, condition: 90 %, shroud: true")
    dirty = built("fan: electric, condition: 60 %, shroud: true")
    assert shrouded.value("fan_air_flow") > plain.value("fan_air_flow")
    warm = "coolant_temperature"
    assert shrouded.value(warm, "idle") < plain.value(warm, "idle")
    assert dirty.value(warm, "idle") > shrouded.value(warm, "idle")


def test_without_a_fan_nothing_moves_at_idle() -> None:
    build = built("fan: none")
    assert build.value("fan_air_flow") == 0.0
    assert np.isnan(build.value("coolant_temperature", "idle"))
    assert np.isfinite(build.value("coolant_temperature", "fast road"))


def test_cap_raises_the_boiling_point() -> None:
    low, high = built("cap_pressure: 0.3 bar"), built("cap_pressure: 1.1 bar")
    assert high.value("coolant_boiling_point") > low.value("coolant_boiling_point") + 10.0


def test_half_glycol_under_one_bar_boils_near_129() -> None:
    # ASHRAE: 107.2 °C open; the trade's rule of 1.7 K for each psi of the cap: 132 °C. From memory.
    build = built("cap_pressure: 1.0 bar")
    assert build.value("coolant_boiling_point") - CELSIUS == pytest.approx(130.0, abs=3.0)


def test_coolant_flow_follows_the_pump_and_the_engine_speed() -> None:
    build = built(changed="pump_flow: 120 l/min, climb_engine_speed: 2750 rpm")
    assert build.value("coolant_flow", "full power") * 60e3 == pytest.approx(120.0)
    assert build.value("coolant_flow", "climb") * 60e3 == pytest.approx(60.0)


def test_trailer_makes_the_climb_hotter() -> None:
    alone, towing = built(), built(changed="towed_mass: 700 kg")
    warm = "coolant_temperature"
    assert towing.value(warm, "climb") > alone.value(warm, "climb")


def test_air_conditioning_warms_the_coolant() -> None:
    fitted = evaluate(
        BUILD.replace("RADIATOR", "fan: electric").replace("CHANGED", "coolant_volume: 8 l")
        + "  air_conditioning: {kit: {cooling_capacity: 4 kW, efficiency: 2.0, as_is: true}}\n"
    )
    without = built("fan: electric")
    assert fitted.value("condenser_heat") == pytest.approx(6e3)
    assert without.value("condenser_heat") == 0.0
    warm = "coolant_temperature"
    assert fitted.value(warm, "idle") > without.value(warm, "idle")
    assert fitted.value("core_air_temperature", "idle") > without.value(
        "core_air_temperature", "idle"
    )


def test_engine_that_cannot_climb_gives_all_it_has() -> None:
    build = evaluate(
        BUILD.replace("RADIATOR", "fan: belt")
        .replace("CHANGED", "coolant_volume: 8 l")
        .replace("80 kW at 5500 rpm", "20 kW at 4000 rpm")
    )
    assert build.value("power_in_heat", "climb") == pytest.approx(20e3)


def test_electric_motor_gives_only_its_losses() -> None:
    build = evaluate(
        BUILD.replace("RADIATOR", "fan: electric")
        .replace("CHANGED", "coolant_volume: 8 l")
        .replace(
            "power: 80 kW at 5500 rpm, displacement: 1800 cc",
            "kind: electric, power: 80 kW, torque: 200 N·m, drive_efficiency: 90 %",
        )
    )
    assert build.value("coolant_heat") == pytest.approx(80e3 * (1.0 / 0.9 - 1.0))
    assert build.result("fuel_flow_at_power").open


def test_oil_takes_its_share() -> None:
    build = built(changed="oil_share: 8 %, oil_flow: 40 l/min")
    assert build.value("oil_heat") == pytest.approx(6400.0)
    assert build.value("oil_warming") == pytest.approx(6400.0 / (850 * 2100 * 40e-3 / 60), rel=1e-6)
