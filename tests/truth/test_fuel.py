"""Fuel system against the fluids library, AP-42 and worked practice."""

from __future__ import annotations

import fluids
import numpy as np
import pytest

from drybuild.physics.fuel import (
    fuel_mass_flow,
    gasoline_vapour_pressure,
    injector_flow_at_pressure,
    injector_static_flow,
)
from drybuild.physics.pipes import (
    friction_factor_churchill,
    pipe_pressure_loss,
    pipe_velocity,
    reynolds_number,
)
from drybuild.tables.fuel import fuel_named

GRAM_PER_KWH = 1.0 / 3.6e9
LITRE_PER_HOUR = 1e-3 / 3600.0
POUND = 0.45359237


@pytest.mark.parametrize(
    ("bore", "velocity", "reynolds", "friction", "loss_per_metre"),
    # 200 l/h, 745 kg/m³, 0.5 mPa·s, drawn tube of 1.5 µm: worked with the fluids library.
    [(8e-3, 1.105, 13174, 0.02915, 1658.0), (6e-3, 1.965, 17566, 0.02727, 6537.0)],
)
def test_fuel_line_worked_with_fluids(
    bore: float, velocity: float, reynolds: float, friction: float, loss_per_metre: float
) -> None:
    flow = 200.0 * LITRE_PER_HOUR
    speed = pipe_velocity(volume_flow=flow, bore=bore)
    re = reynolds_number(velocity=speed, diameter=bore, density=745.0, viscosity=0.5e-3)
    assert speed == pytest.approx(velocity, abs=5e-4)
    assert re == pytest.approx(reynolds, abs=1.0)
    found = friction_factor_churchill(reynolds=re, relative_roughness=1.5e-6 / bore)
    assert found == pytest.approx(friction, abs=6e-6)
    loss = pipe_pressure_loss(
        volume_flow=flow,
        bore=bore,
        length=1.0,
        loss_coefficient=0.0,
        roughness=1.5e-6,
        density=745.0,
        viscosity=0.5e-3,
    )
    assert loss == pytest.approx(loss_per_metre, rel=5e-4)


@pytest.mark.parametrize("reynolds", [200.0, 1000.0, 5e3, 1e5, 1e7])
@pytest.mark.parametrize("rough", [0.0, 1e-4, 1e-3, 1e-2])
def test_churchill_agrees_with_the_fluids_library(reynolds: float, rough: float) -> None:
    found = friction_factor_churchill(reynolds=reynolds, relative_roughness=rough)
    assert found == pytest.approx(fluids.friction.Churchill_1977(reynolds, rough), rel=1e-9)


def test_churchill_is_laminar_below_and_near_colebrook_above() -> None:
    # 64/Re at Re 1000; Colebrook through fluids at Re 1e5, 1e-3: 0.02217, Churchill 0.02234.
    laminar = friction_factor_churchill(reynolds=1000.0, relative_roughness=0.0)
    assert laminar == pytest.approx(0.064, rel=1e-3)
    rough = friction_factor_churchill(reynolds=1e5, relative_roughness=1e-3)
    assert rough == pytest.approx(0.02234, abs=5e-6)
    assert rough == pytest.approx(fluids.friction.Colebrook(1e5, 1e-3), rel=0.01)


def test_coolant_hose_worked_with_fluids() -> None:
    # 100 l/min of half glycol at 90 °C in a smooth hose of 32 mm, Re 82 460: fluids' own choice of
    # formula (Colebrook) gives 1277 Pa/m; Churchill differs by less than 1 %.
    loss = pipe_pressure_loss(
        volume_flow=100e-3 / 60.0,
        bore=0.032,
        length=1.0,
        loss_coefficient=0.0,
        roughness=0.0,
        density=1019.0,
        viscosity=0.8195e-3,
    )
    assert loss == pytest.approx(1277.0, rel=0.01)


@pytest.mark.parametrize(
    ("fuel", "consumption", "litres"),
    # 200 kW: fuel properties and consumption of the handbooks, worked by hand.
    [("petrol", 300.0, 80.5), ("E85", 420.0, 107.6), ("methanol", 610.0, 154.0),
     ("diesel", 220.0, 52.7)],
)  # fmt: skip
def test_fuel_volume_of_200_kw(fuel: str, consumption: float, litres: float) -> None:
    mass = fuel_mass_flow(power=200e3, specific_consumption=consumption * GRAM_PER_KWH)
    assert mass / fuel_named(fuel).density / LITRE_PER_HOUR == pytest.approx(litres, rel=1e-3)


def test_e85_needs_four_tenths_more_volume_than_petrol() -> None:
    # Energy of a litre: (43.0 · 0.745)/(29.2 · 0.781) = 1.40.
    petrol, e85 = fuel_named("petrol"), fuel_named("E85")
    ratio = petrol.heating_value * petrol.density / (e85.heating_value * e85.density)
    assert ratio == pytest.approx(1.40, abs=0.01)


def test_injectors_of_300_horsepower_and_eight_cylinders() -> None:
    # Tuning practice: 0.50 lb/(hp·h), 80 % duty: 23.4 lb/h each; √(4/3) = 1.155 from 3 to 4 bar.
    flow = 300.0 * 0.50 * POUND / 3600.0
    each = injector_static_flow(fuel_flow=flow, injectors=8.0, duty=0.80)
    assert each * 3600.0 / POUND == pytest.approx(23.4, abs=0.05)
    assert each / 0.720 * 60e3 == pytest.approx(246.0, rel=5e-3)  # cm³/min at 0.72 kg/l
    stronger = injector_flow_at_pressure(rated_flow=1.0, rated_pressure=3e5, pressure=4e5)
    assert stronger == pytest.approx(1.155, abs=5e-4)


@pytest.mark.parametrize(
    ("reid_psi", "fahrenheit", "true_psi"),
    # EPA AP-42 ch. 7.1, table of petroleum liquids, gasoline of RVP 13, 10 and 7; from memory.
    [(13, 60, 6.9), (13, 100, 13.8), (10, 40, 3.4), (10, 60, 5.2), (10, 80, 7.4), (10, 100, 10.5),
     (7, 60, 3.5), (7, 100, 7.4)],
)  # fmt: skip
def test_gasoline_vapour_pressure_follows_ap_42(
    reid_psi: float, fahrenheit: float, true_psi: float
) -> None:
    found = gasoline_vapour_pressure(
        temperature=(fahrenheit + 459.67) / 1.8, reid_pressure=reid_psi * 6894.757
    )
    assert found / 6894.757 == pytest.approx(true_psi, rel=0.03)


def test_consumption_of_the_handbooks_in_pounds_per_horsepower_hour() -> None:
    # 0.45 to 0.50 lb/(hp·h) is 274 to 304 g/kWh for petrol without a blower.
    known = fuel_named("petrol").atmospheric
    low, usual, high = (one / GRAM_PER_KWH for one in (known.low, known.value, known.high))
    assert low <= 274.0 <= usual <= 304.0 <= high
    assert np.isclose(0.45 * POUND * 1e3 / 0.745699872, 274.0, atol=0.5)
