"""Engine entries, as a person writes them, become a full-load curve."""

from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.units import to_si

RPM = np.pi / 30.0


def with_engine(entries: str) -> str:
    return f"{BARE}options: {{engine: {{one: {{{entries}}}}}}}\n"


def test_a_bare_car_has_an_engine_of_its_kind() -> None:
    bare = evaluate()
    assert 30e3 < bare.value("peak_power") < 100e3
    assert 4000 * RPM < bare.value("engine_rated_speed") < 6500 * RPM
    # Heywood sec. 2.7: no unboosted petrol engine has more than about 10.5 bar at its torque peak;
    # the generic curve's 1.25 takes the most powerful samples to 11.8.
    assert np.nanmax(bare.samples_of("peak_mean_pressure")) < 12e5


def test_peaks_as_written() -> None:
    car = evaluate(with_engine("power: 180 kW at 5500 rpm, torque: 350 N·m from 1500 to 4500 rpm"))
    assert car.problems == ()
    assert car.value("peak_power") == pytest.approx(180e3)
    assert car.value("engine_rated_speed") == pytest.approx(5500 * RPM)
    assert car.value("peak_torque") == pytest.approx(350.0)
    assert car.value("peak_torque_speed") == pytest.approx(1500 * RPM)
    assert car.value("engine_limit_speed") == pytest.approx(1.1 * 5500 * RPM)
    # 50 % of 6050 rpm is inside the band.
    assert car.value("full_load_torque", "50%") == pytest.approx(350.0)
    assert car.value("torque_rise") == pytest.approx(350.0 * 5500 * RPM / 180e3)


def test_horsepower_and_pound_feet() -> None:
    car = evaluate(with_engine("power: 200 bhp at 5000 rpm, torque: 250 lb·ft at 3000 rpm"))
    assert car.value("peak_power") == pytest.approx(to_si(200.0, "bhp", "W"))
    assert car.value("peak_torque") == pytest.approx(338.95, abs=0.01)


def test_a_measured_curve_is_used_as_it_is() -> None:
    car = evaluate(
        with_engine(
            "curve: [[1000 rpm, 210 N·m], [3000 rpm, 260 N·m], [5000 rpm, 220 N·m], "
            "[6000 rpm, 170 N·m]]"
        )
    )
    assert car.value("peak_torque") == pytest.approx(260.0)
    assert car.value("peak_torque_speed") == pytest.approx(3000 * RPM)
    assert car.value("peak_power") == pytest.approx(220.0 * 5000 * RPM)
    assert car.value("engine_limit_speed") == pytest.approx(6000 * RPM)
    assert car.value("full_load_torque", "100%") == pytest.approx(170.0)


def test_power_alone_takes_its_speed_from_the_pistons() -> None:
    car = evaluate(with_engine("power: 62 kW, displacement: 1.7 l, cylinders: 4, stroke: 80 mm"))
    # 14 m/s in a square engine of 0.425 l a cylinder: 5154 rpm.
    assert car.value("engine_rated_speed") == pytest.approx(5154 * RPM, rel=1e-3)
    assert car.value("mean_piston_speed") == pytest.approx(2 * 0.080 * 5154 / 60, rel=1e-3)
    assert car.value("specific_power") == pytest.approx(62e3 / 1.7e-3)


def test_idle_fires_as_often_as_cylinders_and_speed_say() -> None:
    car = evaluate(with_engine("cylinders: 8, idle_speed: 600 rpm"))
    assert car.value("idle_firing_frequency") == pytest.approx(40.0)


def test_an_electric_motor_has_full_torque_from_rest_and_no_cylinders() -> None:
    car = evaluate(
        with_engine("kind: electric, power: 100 kW, torque: 250 N·m, limit_speed: 10000 rpm")
    )
    assert car.value("full_load_torque", "20%") == pytest.approx(250.0)
    assert car.value("full_load_power", "100%") == pytest.approx(100e3)
    assert car.result("specific_power").open
    assert car.result("idle_firing_frequency").open


def test_an_electric_motor_without_torque_is_open() -> None:
    car = evaluate(with_engine("kind: electric, power: 100 kW"))
    assert "torque" in car.result("peak_torque").missing[0].path
