"""Exhaust pipes against the worked sheets of installation manuals and the fluids library."""

from __future__ import annotations

import fluids
import pytest

from drybuild.physics.air import air_density
from drybuild.physics.exhaust import (
    exhaust_back_pressure_installation_manual,
    exhaust_mass_flow,
    gas_mach_number,
    gas_pressure_loss,
    inlet_mach_index,
)
from drybuild.physics.fuel import fuel_mass_flow
from drybuild.physics.pipes import pipe_pressure_loss

FOOT, INCH, POUND = 0.3048, 0.0254, 0.45359237
GRAM_PER_KWH = 1.0 / 3.6e9


def test_first_installation_sheet() -> None:
    # 129 m of equivalent length, 0.44609 kg/m³, 558 m³/min, 500 mm: pipe 2.06 kPa, and 5.66 kPa
    # with a silencer of 3.6 kPa. Worked sheet of an installation manual.
    pipe = exhaust_back_pressure_installation_manual(
        volume_flow=558.0 / 60.0, bore=0.5, length=129.0, density=0.44609
    )
    assert pipe == pytest.approx(2060.0, rel=5e-3)
    assert pipe + 3600.0 == pytest.approx(5660.0, rel=5e-3)


def test_second_installation_sheet() -> None:
    # 177 ft, 0.0296 lb/ft³, 6464 ft³/min, 12 in: 0.17 psi.
    pipe = exhaust_back_pressure_installation_manual(
        volume_flow=6464.0 * FOOT**3 / 60.0,
        bore=12.0 * INCH,
        length=177.0 * FOOT,
        density=0.0296 * POUND / FOOT**3,
    )
    assert pipe / 6894.757 == pytest.approx(0.17, abs=0.002)


def test_installation_rule_and_darcy_agree() -> None:
    # 12 m, 230 mm, 300 m³/min, 0.5069 kg/m³: rule 3.06 kPa, Darcy with fluids 3.01 kPa.
    sheet = exhaust_back_pressure_installation_manual(
        volume_flow=5.0, bore=0.23, length=12.0, density=0.5069
    )
    darcy = pipe_pressure_loss(
        volume_flow=5.0,
        bore=0.23,
        length=12.0,
        loss_coefficient=0.0,
        roughness=45e-6,
        density=0.5069,
        viscosity=3.4e-5,
    )
    assert sheet == pytest.approx(3060.0, rel=5e-3)
    assert darcy == pytest.approx(sheet, rel=0.05)


def test_exhaust_of_200_kw() -> None:
    # 300 g/kWh and 13 parts of air: 0.2333 kg/s.
    fuel = fuel_mass_flow(power=200e3, specific_consumption=300.0 * GRAM_PER_KWH)
    assert exhaust_mass_flow(fuel_flow=fuel, air_fuel_ratio=13.0) == pytest.approx(0.2333, abs=1e-4)


@pytest.mark.parametrize(
    ("bore", "kilopascal", "mach"),
    # The same at 600 °C, 3 m and K = 2: worked with an independent script.
    [(57e-3, 32.1, 0.39), (63.5e-3, 20.0, 0.31), (76e-3, 9.2, 0.22)],
)
def test_exhaust_bores_for_200_kw(bore: float, kilopascal: float, mach: float) -> None:
    gas = {"mass_flow": 0.2333, "bore": bore, "temperature": 873.15, "pressure": 101325.0}
    assert gas_mach_number(**gas, heat_ratio=1.34) == pytest.approx(mach, abs=0.005)
    loss = gas_pressure_loss(**gas, length=3.0, loss_coefficient=2.0, roughness=45e-6)
    assert loss / 1e3 == pytest.approx(kilopascal, rel=0.05)


def test_constant_density_overstates_a_little_against_isothermal_flow() -> None:
    # fluids.isothermal_gas solves the compressible pipe; at Mach 0.2 it is a few per cent less.
    flow, bore, temperature, length = 0.2, 0.076, 873.15, 3.0
    density = air_density(pressure=101325.0, temperature=temperature)
    mine = gas_pressure_loss(
        mass_flow=flow,
        bore=bore,
        length=length,
        loss_coefficient=0.0,
        roughness=45e-6,
        temperature=temperature,
        pressure=101325.0,
    )
    reynolds = 4.0 * flow / (3.141592653589793 * bore * 3.8e-5)
    friction = fluids.friction.Churchill_1977(reynolds, 45e-6 / bore)
    upstream = fluids.isothermal_gas(
        rho=density, fd=friction, P2=101325.0, L=length, D=bore, m=flow
    )  # density is at the mean pressure there, near enough for this comparison
    assert mine == pytest.approx(upstream - 101325.0, rel=0.08)


def test_inlet_mach_index_of_a_sporting_two_valve_engine() -> None:
    # Heywood sec. 6.3: filling drops off above about 0.6; (90/44)² · 15/(0.35 · 340) is 0.53.
    index = inlet_mach_index(
        bore=0.09,
        valve_diameter=0.044,
        valves_per_cylinder=1.0,
        mean_piston_speed=15.0,
        flow_coefficient=0.35,
        sound_speed=340.0,
    )
    assert index == pytest.approx(0.527, abs=0.001)
