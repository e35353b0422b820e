"""Cooling against handbooks and general-purpose libraries."""

from __future__ import annotations

import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from drybuild.physics.air import (
    air_conductivity,
    air_density,
    air_viscosity,
    atmospheric_pressure,
    speed_of_sound,
)
from drybuild.physics.coolant import (
    coolant_boiling_temperature,
    coolant_conductivity,
    coolant_density,
    coolant_freezing_temperature,
    coolant_specific_heat,
    coolant_viscosity,
    water_saturation_temperature,
)
from drybuild.physics.cooling import (
    effectiveness_counterflow,
    effectiveness_larger_mixed,
    effectiveness_smaller_mixed,
    effectiveness_unmixed,
    flow_for_heat,
    fuel_heat,
    heat_exchanged,
    steady_road_power,
)
from drybuild.physics.cooling_air import face_velocity_in_balance, ram_pressure
from drybuild.physics.fuel import fuel_mass_flow
from drybuild.physics.radiator import (
    LouvredCore,
    core_pressure_drop,
    louvre_friction,
    nusselt_gnielinski,
)

GRAM_PER_KWH = 1.0 / 3.6e9


@pytest.mark.parametrize(
    ("celsius", "fraction"),
    [(-20.0, 0.5), (20.0, 0.3), (20.0, 0.5), (40.0, 0.5), (80.0, 0.3), (80.0, 0.5), (90.0, 0.5),
     (99.0, 0.4), (99.0, 0.5)],
)  # fmt: skip
def test_coolant_properties_are_those_of_the_coolprop_library(
    celsius: float, fraction: float
) -> None:
    # CoolProp carries Melinder's 2010 coefficients for aqueous ethylene glycol by mass.
    fluid = f"INCOMP::MEG[{fraction}]"
    kelvin = celsius + 273.15
    mine = {"temperature": kelvin, "glycol_fraction": fraction}
    for name, value in {
        "D": coolant_density(**mine),
        "C": coolant_specific_heat(**mine),
        "V": coolant_viscosity(**mine),
        "L": coolant_conductivity(**mine),
    }.items():
        assert value == pytest.approx(PropsSI(name, "T", kelvin, "P", 2e5, fluid), rel=1e-6)


def test_half_and_half_freezes_at_minus_36() -> None:
    # CoolProp, INCOMP::MEG[0.5]: -36.0 °C.
    frozen = PropsSI("T_freeze", "T", 293.15, "P", 2e5, "INCOMP::MEG[0.5]")
    assert coolant_freezing_temperature(glycol_fraction=0.5) == pytest.approx(frozen, abs=0.01)


@pytest.mark.parametrize(
    ("megapascal", "kelvin"),
    # IAPWS-IF97, Table 36, check values of the saturation temperature.
    [(0.1, 372.755919), (1.0, 453.035632), (10.0, 584.149488)],
)
def test_saturation_temperature_gives_the_check_values_of_if97(
    megapascal: float, kelvin: float
) -> None:
    found = water_saturation_temperature(pressure=megapascal * 1e6)
    assert found == pytest.approx(kelvin, abs=1e-5)


@pytest.mark.parametrize(("cap_bar", "celsius"), [(0.9, 118.8), (1.1, 122.0)])
def test_water_under_a_cap_boils_where_coolprop_says(cap_bar: float, celsius: float) -> None:
    absolute = 101325.0 + cap_bar * 1e5
    found = water_saturation_temperature(pressure=absolute)
    assert found - 273.15 == pytest.approx(celsius, abs=0.05)
    assert found == pytest.approx(PropsSI("T", "P", absolute, "Q", 0, "Water"), abs=0.02)


def test_half_and_half_boils_at_107_at_sea_level() -> None:
    # ASHRAE Handbook, Fundamentals, 50 % ethylene glycol: 225 °F (107.2 °C); from memory.
    found = coolant_boiling_temperature(pressure=101325.0, glycol_fraction=0.5)
    assert found - 273.15 == pytest.approx(107.2, abs=0.6)


def test_glycol_raises_the_boiling_point_under_a_cap_by_about_eight_kelvin() -> None:
    # Cooling-system practice: about 8 K for half and half; from memory.
    capped = 101325.0 + 1.0e5
    rise = coolant_boiling_temperature(
        pressure=capped, glycol_fraction=0.5
    ) - water_saturation_temperature(pressure=capped)
    assert rise == pytest.approx(8.0, abs=1.0)


@pytest.mark.parametrize(("units", "ratio"), [(1.0, 0.5), (2.0, 0.3), (1.5, 0.8), (3.0, 1.0)])
def test_effectiveness_agrees_with_the_ht_library(units: float, ratio: float) -> None:
    # ht.effectiveness_from_NTU; its "crossflow" is the exact series, the formula lies within 1 %.
    def oracle(subtype: str) -> float:
        return float(ht.effectiveness_from_NTU(units, ratio, subtype=subtype))

    mine = {"transfer_units": units, "capacity_ratio": ratio}
    assert effectiveness_unmixed(**mine) == pytest.approx(oracle("crossflow approximate"), rel=1e-9)
    assert effectiveness_unmixed(**mine) == pytest.approx(oracle("crossflow"), rel=0.01)
    assert effectiveness_smaller_mixed(**mine) == pytest.approx(
        oracle("crossflow, mixed Cmin"), rel=1e-9
    )
    assert effectiveness_larger_mixed(**mine) == pytest.approx(
        oracle("crossflow, mixed Cmax"), rel=1e-9
    )
    assert effectiveness_counterflow(**mine) == pytest.approx(oracle("counterflow"), rel=1e-9)


@pytest.mark.parametrize(
    ("units", "ratio", "printed"),
    # Incropera Eq. 11.32, worked with an independent script.
    [(1.0, 0.5, 0.54476), (2.0, 0.3, 0.79049), (1.5, 0.8, 0.59773), (3.0, 1.0, 0.68421)],
)
def test_effectiveness_unmixed_values(units: float, ratio: float, printed: float) -> None:
    found = effectiveness_unmixed(transfer_units=units, capacity_ratio=ratio)
    assert found == pytest.approx(printed, abs=1e-5)


def test_radiator_worked_with_ht() -> None:
    # 0.24 m², 6 m/s, 1.2 kg/m³; 1.5 kg/s of coolant at 3600 J/(kg·K); 3500 W/K. The exact series of
    # ht gives 0.7801 and 81.4 kW; the formula is the published approximation, good to 1 %.
    air, coolant = 0.24 * 6.0 * 1.2 * 1006.0, 1.5 * 3600.0
    effectiveness = effectiveness_unmixed(transfer_units=3500.0 / air, capacity_ratio=air / coolant)
    heat = heat_exchanged(
        effectiveness=effectiveness, smaller_capacity_rate=air, temperature_difference=60.0
    )
    assert effectiveness == pytest.approx(0.7801, rel=0.01)
    assert heat == pytest.approx(81.4e3, rel=0.01)


def test_heat_of_150_kw_at_285_g_per_kwh() -> None:
    # 43.0 MJ/kg: 511 kW of fuel, 28 % of it to the coolant 143 kW (Heywood's energy split).
    flow = fuel_mass_flow(power=150e3, specific_consumption=285.0 * GRAM_PER_KWH)
    heat = fuel_heat(fuel_flow=flow, heating_value=43.0e6)
    assert heat == pytest.approx(511e3, rel=2e-3)
    assert 0.28 * heat == pytest.approx(143e3, rel=2e-3)


def test_power_of_a_motorway_climb() -> None:
    # 1500 kg, 6 %, 100 km/h, f 0.013, C_dA 0.855 m², 1.2 kg/m³: 40.8 kW at the wheels, by hand.
    power = steady_road_power(
        mass=1500.0,
        speed=100.0 / 3.6,
        grade=0.06,
        rolling_coefficient=0.013,
        drag_area=0.855,
        density=1.2,
    )
    assert power == pytest.approx(40.8e3, rel=2e-3)


def test_coolant_flow_for_45_kw_and_8_kelvin() -> None:
    # Energy balance with CoolProp's properties at 90 °C: 1.556 kg/s, 91.6 l/min.
    flow = flow_for_heat(
        heat=45e3,
        density=coolant_density(temperature=363.15, glycol_fraction=0.5),
        specific_heat=coolant_specific_heat(temperature=363.15, glycol_fraction=0.5),
        temperature_change=8.0,
    )
    assert flow * 60e3 == pytest.approx(91.6, abs=0.1)


@pytest.mark.parametrize("kelvin", [253.15, 300.0, 373.15])
def test_air_properties_agree_with_coolprop(kelvin: float) -> None:
    state = ("T", kelvin, "P", 101325.0, "Air")
    density = air_density(pressure=101325.0, temperature=kelvin)
    assert density == pytest.approx(PropsSI("D", *state), rel=2e-3)
    assert air_viscosity(temperature=kelvin) == pytest.approx(PropsSI("V", *state), rel=0.02)
    assert air_conductivity(temperature=kelvin) == pytest.approx(PropsSI("L", *state), rel=0.02)


@pytest.mark.parametrize(
    ("kelvin", "viscosity", "conductivity"),
    # Incropera, Table A.4, air: (K, 1e-7 Pa·s, 1e-3 W/(m·K)); from memory. White states 2 % for
    # Sutherland's viscosity and 2 % for his conductivity of air in this range.
    [(300.0, 184.6, 26.3), (400.0, 230.1, 33.8), (600.0, 305.8, 46.9), (800.0, 369.8, 57.3),
     (1000.0, 424.4, 66.7)],
)  # fmt: skip
def test_air_properties_are_those_of_the_handbook(
    kelvin: float, viscosity: float, conductivity: float
) -> None:
    assert air_viscosity(temperature=kelvin) * 1e7 == pytest.approx(viscosity, rel=0.025)
    assert air_conductivity(temperature=kelvin) * 1e3 == pytest.approx(conductivity, rel=0.025)


def test_standard_atmosphere() -> None:
    # ISO 2533, geopotential height: 89 874.6 Pa at 1000 m, 54 019.9 Pa at 5000 m; 340.29 m/s at
    # 288.15 K. From memory.
    assert atmospheric_pressure(altitude=1000.0) == pytest.approx(89874.6, rel=1e-5)
    assert atmospheric_pressure(altitude=5000.0) == pytest.approx(54019.9, rel=1e-5)
    assert speed_of_sound(temperature=288.15, heat_ratio=1.4) == pytest.approx(340.29, abs=0.05)


@pytest.mark.parametrize(("reynolds", "prandtl"), [(5000.0, 7.0), (20000.0, 4.0), (1e5, 0.71)])
def test_gnielinski_agrees_with_the_ht_library(reynolds: float, prandtl: float) -> None:
    friction = 0.03
    found = nusselt_gnielinski(reynolds=reynolds, prandtl=prandtl, friction=friction)
    assert found == pytest.approx(
        ht.turbulent_Gnielinski(Re=reynolds, Pr=prandtl, fd=friction), rel=1e-9
    )


CORE = LouvredCore(
    depth=0.04,
    fin_pitch=2.2e-3,
    fin_height=9e-3,
    fin_thickness=0.08e-3,
    fin_conductivity=350.0,
    louvre_pitch=1.3e-3,
    louvre_length=7.5e-3,
    louvre_angle=np.radians(25.0),
    tube_thickness=2.2e-3,
    tube_wall=0.2e-3,
)
AIR = {"density": 1.13, "viscosity": 1.9e-5}


def test_core_pressure_drop_lies_where_car_radiators_do() -> None:
    # Common practice, no source: a 30 to 50 mm car core takes 70 to 200 Pa at 6 m/s.
    drop = core_pressure_drop(
        face_velocity=6.0, core=CORE, friction=louvre_friction(core=CORE), **AIR
    )
    assert 70.0 < drop < 200.0


def test_face_velocity_is_a_tenth_to_a_fifth_of_road_speed() -> None:
    # Hucho, chapter on engine cooling, for older cars with an open grille; from memory.
    ram = ram_pressure(speed=30.0, density=1.13, pressure_coefficient=0.5)
    found = face_velocity_in_balance(
        ram_pressure=ram,
        stalled_pressure=0.0,
        free_flow=1.0,
        face_area=0.2,
        core=CORE,
        other_loss=12.0,
        **AIR,
    )
    assert 0.10 < found / 30.0 < 0.20


def test_fan_alone_gives_two_to_four_metres_a_second() -> None:
    # Practice with shrouded electric fans; from memory.
    found = face_velocity_in_balance(
        ram_pressure=0.0,
        stalled_pressure=200.0,
        free_flow=0.9,
        face_area=0.2,
        core=CORE,
        other_loss=8.0,
        **AIR,
    )
    assert 2.0 < found < 4.0
