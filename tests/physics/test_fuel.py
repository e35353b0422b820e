from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.fuel import (
    fuel_range,
    gasoline_vapour_pressure,
    injector_flow_at_pressure,
    injector_static_flow,
    pump_flow,
    pump_free_flow,
    suction_margin,
)
from drybuild.physics.pipes import bore_for_velocity, pipe_pressure_loss, pipe_velocity


def test_pump_gives_its_rated_flow_at_its_rated_point() -> None:
    free = pump_free_flow(rated_flow=5e-5, rated_pressure=3e5, stall_pressure=8e5)
    flow = pump_flow(
        free_flow=free, stall_pressure=8e5, rated_voltage=13.5, voltage=13.5, pressure=3e5
    )
    assert flow == pytest.approx(5e-5)


def test_pump_gives_less_at_low_voltage_and_nothing_beyond_its_pressure() -> None:
    flow = pump_flow(
        free_flow=1e-4,
        stall_pressure=8e5,
        rated_voltage=13.5,
        voltage=np.array([13.5, 11.5]),
        pressure=3e5,
    )
    assert flow[1] < flow[0]
    dead = pump_flow(
        free_flow=1e-4, stall_pressure=8e5, rated_voltage=13.5, voltage=13.5, pressure=9e5
    )
    assert np.isnan(dead)


def test_injector_sizes_add_up_to_the_flow_of_the_engine() -> None:
    each = injector_static_flow(fuel_flow=0.02, injectors=4.0, duty=0.8)
    assert 4.0 * 0.8 * each == pytest.approx(0.02)
    assert injector_flow_at_pressure(rated_flow=1.0, rated_pressure=3e5, pressure=0.0) == 0.0


def test_vapour_pressure_rises_with_temperature() -> None:
    found = gasoline_vapour_pressure(temperature=np.linspace(275.0, 330.0, 12), reid_pressure=6e4)
    assert np.all(np.diff(found) > 0.0)


def test_vapour_pressure_at_the_reid_temperature_is_about_the_reid_pressure() -> None:
    # The Reid test is run at 100 °F (310.93 K).
    found = gasoline_vapour_pressure(temperature=310.93, reid_pressure=6e4)
    assert found == pytest.approx(6e4, rel=0.1)


def test_suction_margin_falls_with_lift_and_heat() -> None:
    common = {"atmospheric_pressure": 101325.0, "density": 745.0, "line_loss": 2000.0}
    low = suction_margin(vapour_pressure=6e4, lift=0.5, **common)
    high = suction_margin(vapour_pressure=6e4, lift=-0.2, **common)
    hot = suction_margin(vapour_pressure=9e4, lift=-0.2, **common)
    assert low < high
    assert hot < high


def test_range() -> None:
    assert fuel_range(usable_volume=0.05, fuel_flow=2.5e-6, speed=25.0) == pytest.approx(500e3)


def test_bore_and_velocity_are_each_others_inverse() -> None:
    bore = bore_for_velocity(volume_flow=5e-5, velocity=1.5)
    assert pipe_velocity(volume_flow=5e-5, bore=bore) == pytest.approx(1.5)


def test_laminar_loss_is_that_of_poiseuille() -> None:
    # Δp = 128 μ L V̇/(π d⁴).
    loss = pipe_pressure_loss(
        volume_flow=1e-6,
        bore=6e-3,
        length=2.0,
        loss_coefficient=0.0,
        roughness=0.0,
        density=745.0,
        viscosity=5e-4,
    )
    assert loss == pytest.approx(128.0 * 5e-4 * 2.0 * 1e-6 / (np.pi * 6e-3**4), rel=1e-3)


def test_impossible_pump_is_refused() -> None:
    with pytest.raises(InputError, match="stall_pressure"):
        pump_free_flow(rated_flow=1e-5, rated_pressure=3e5, stall_pressure=2e5)
    with pytest.raises(InputError, match="duty"):
        injector_static_flow(fuel_flow=0.01, injectors=4.0, duty=1.5)
