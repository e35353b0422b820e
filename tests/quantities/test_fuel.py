from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

LITRE_PER_HOUR = 1e-3 / 3600.0
INJECTED = """
build: a trial car
car: {body: {kind: unitary}}
options:
  engine: {trial: {as_is: true, power: 200 kW at 6000 rpm, displacement: 2.5 l, cylinders: 6,
                   ENGINE}}
  fuel_system: {trial: {as_is: true, delivery: injection, pressure: 3 bar, pump_flow: 160 l/h,
                        pump_rated_pressure: 3 bar, pump_stall_pressure: 7.5 bar,
                        pump_voltage: 13.5 V, line_bore: 8 mm, tank_volume: 60 l, SYSTEM}}
"""


def built(engine: str = "fuel: petrol", system: str = "line_length: 4 m"):
    return evaluate(INJECTED.replace("ENGINE", engine).replace("SYSTEM", system))


def test_bare_build_computes_every_fuel_quantity() -> None:
    bare = evaluate(BARE)
    for name in (
        "fuel_flow_at_power", "pump_margin", "fuel_line_loss", "fuel_line_velocity",
        "fuel_vapour_margin", "fuel_range", "usable_fuel",
    ):  # fmt: skip
        assert not bare.result(name).open, name


def test_a_pump_that_cannot_reach_the_pressure_moves_nothing() -> None:
    # A carburettor's pump cannot push against the boost of a turbocharger.
    car = evaluate(
        f"{BARE}options: {{engine: {{e: {{power: 90 kW, aspiration: turbocharged}}}}}}\n"
    )
    assert car.value("fuel_pump_flow") == 0.0
    assert car.value("pump_margin") == 0.0
    assert car.verdict("fuel.pump-flow").rules_out


def test_a_carburettor_has_no_injectors_to_judge() -> None:
    assert evaluate(BARE).verdict("fuel.injectors").senseless
    assert not built().verdict("fuel.injectors").senseless
    assert not built().result("injector_size_wanted").open


def test_file_is_read_without_problems() -> None:
    assert built().problems == ()


def test_volume_at_full_power() -> None:
    # 200 kW at 290 g/kWh and 745 kg/m³: 77.9 l/h.
    found = built().value("fuel_volume_flow_at_power")
    assert found / LITRE_PER_HOUR == pytest.approx(200 * 290 / 745, rel=1e-6)


def test_e85_needs_a_larger_pump() -> None:
    assert built("fuel: E85").value("pump_margin") < built().value("pump_margin")


def test_pump_meets_its_rating_where_it_works_at_it() -> None:
    build = built()
    lost = build.value("fuel_line_loss", "pressure line")
    pressure = build.value("fuel_pump_pressure")
    assert pressure == pytest.approx(3e5 + lost)
    wanted = 160.0 * (1.0 - pressure / 7.5e5) / (1.0 - 3.0 / 7.5)
    assert build.value("fuel_pump_flow") / LITRE_PER_HOUR == pytest.approx(wanted)


def test_boost_takes_pump_flow() -> None:
    charged = built("aspiration: turbocharged, boost: 0.8 bar")
    assert charged.value("boost_pressure") == pytest.approx(0.8e5)
    assert charged.value("fuel_pump_flow") < built().value("fuel_pump_flow")


def test_narrow_line_loses_more_pressure() -> None:
    narrow = evaluate(
        INJECTED.replace("line_bore: 8 mm", "line_bore: 5 mm")
        .replace("ENGINE", "fuel: petrol")
        .replace("SYSTEM", "line_length: 4 m")
    )
    assert narrow.value("fuel_line_loss", "pressure line") > 5.0 * built().value(
        "fuel_line_loss", "pressure line"
    )


def test_given_injectors_are_judged() -> None:
    small = built(system="line_length: 4 m, injector_flow: 200 cm³/min")
    demand = small.value("fuel_volume_flow_at_power")
    assert small.value("injector_duty") == pytest.approx(demand / (6 * 200e-6 / 60.0))
    wanted = small.value("injector_size_wanted")
    assert wanted * 6 * 0.82 == pytest.approx(demand)


def test_engine_driven_pump_needs_no_volts() -> None:
    carburettor = evaluate(BARE)
    assert "fuel pump" not in carburettor.result("circuit_current").labelled()
    assert "fuel pump" in built().result("circuit_current").labelled()


def test_high_pump_far_from_the_tank_is_nearer_to_vapour() -> None:
    low = built(system="lift: -20 cm, suction_length: 0.3 m")
    high = built(system="lift: 50 cm, suction_length: 4 m")
    assert high.value("fuel_vapour_margin") < low.value("fuel_vapour_margin")
    assert low.problems == ()


def test_usable_fuel_and_full_tank() -> None:
    build = built(system="unusable_share: 5 %")
    assert build.value("usable_fuel") == pytest.approx(57e-3)
    assert build.value("full_tank_mass") == pytest.approx(60e-3 * 745.0)
