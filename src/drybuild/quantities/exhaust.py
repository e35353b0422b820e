"""Exhaust and intake: gas at full power, its speed, its back pressure, the bore it wants."""

from __future__ import annotations

import numpy as np

from drybuild.physics.air import air_density, atmospheric_pressure
from drybuild.physics.exhaust import (
    EXHAUST_HEAT_RATIO,
    bore_for_mach_number,
    bore_for_pressure_loss,
    gas_mach_number,
    gas_pressure_loss,
)
from drybuild.physics.exhaust import exhaust_mass_flow as burnt_gas
from drybuild.physics.pipes import bore_for_velocity, pipe_velocity
from drybuild.project.cooling import Cooling
from drybuild.project.engine import Engine
from drybuild.project.exhaust import Exhaust, Intake
from drybuild.project.samples import Values
from drybuild.quantities.quantity import quantity
from drybuild.tables.fuel import fuel_named

STREET_BACK_PRESSURE = 15e3  # [Pa], at most 15 to 25 kPa on the street, 10 is good; practice
COLLECTOR_MACH = 0.28  # [-], 0.25 to 0.30 at the collector; practice
DUCT_VELOCITY = 35.0  # [m/s], 30 to 40 m/s at most; practice


@quantity(
    "kg/s", "Air that the engine breathes at full power", source="fuel-properties", shown="kg/h"
)
def intake_air_flow(fuel_flow_at_power: Values, engine: Engine) -> Values:
    """Multiply the fuel by its mixture at full power."""
    return fuel_flow_at_power * fuel_named(engine.fuel).full_power_ratio


@quantity("kg/s", "Exhaust gas at full power", source="definition", shown="kg/h")
def exhaust_mass_flow(fuel_flow_at_power: Values, engine: Engine) -> Values:
    """Add the air to the fuel."""
    ratio = fuel_named(engine.fuel).full_power_ratio
    return np.asarray(burnt_gas(fuel_flow=fuel_flow_at_power, air_fuel_ratio=ratio))


@quantity("Pa", "Pressure of the atmosphere", source="iso-2533", shown="kPa")
def air_pressure(cooling: Cooling) -> Values:
    """Take the standard pressure of the altitude."""
    return np.asarray(atmospheric_pressure(altitude=cooling.altitude))


@quantity("m/s", "Velocity of the exhaust gas at full power", source="definition")
def exhaust_gas_velocity(
    exhaust_mass_flow: Values, air_pressure: Values, exhaust: Exhaust
) -> Values:
    """Divide the hot gas's volume by the section of the pipes."""
    density = air_density(pressure=air_pressure, temperature=exhaust.gas_temperature)
    flow = exhaust_mass_flow / exhaust.pipes / density
    return np.asarray(pipe_velocity(volume_flow=flow, bore=exhaust.bore))


@quantity("-", "Mach number in the exhaust pipe at full power", source="white-viscous-flow")
def exhaust_mach_number(
    exhaust_mass_flow: Values, air_pressure: Values, exhaust: Exhaust
) -> Values:
    """Divide by the speed of sound in the hot gas."""
    return np.asarray(
        gas_mach_number(
            mass_flow=exhaust_mass_flow / exhaust.pipes,
            bore=exhaust.bore,
            temperature=exhaust.gas_temperature,
            pressure=air_pressure,
            heat_ratio=EXHAUST_HEAT_RATIO,
        )
    )


@quantity("-", "Loss coefficients of bends, silencers and outlet", source="common-practice")
def exhaust_loss_coefficient(exhaust: Exhaust) -> Values:
    """Add the bends, the silencers and one for the gas that leaves."""
    return exhaust.bends * exhaust.bend_loss + exhaust.silencer_loss + 1.0


@quantity("Pa", "Back pressure of the exhaust at full power", source="churchill-1977", shown="kPa")
def exhaust_back_pressure(
    exhaust_mass_flow: Values,
    exhaust_loss_coefficient: Values,
    air_pressure: Values,
    exhaust: Exhaust,
) -> Values:
    """Take pipe friction by Churchill and the losses of bends and silencers."""
    return np.asarray(
        gas_pressure_loss(
            mass_flow=exhaust_mass_flow / exhaust.pipes,
            bore=exhaust.bore,
            length=exhaust.length,
            loss_coefficient=exhaust_loss_coefficient,
            roughness=exhaust.roughness,
            temperature=exhaust.gas_temperature,
            pressure=air_pressure,
        )
    )


@quantity("m", "Bore that the exhaust should have", source="churchill-1977", shown="mm")
def exhaust_bore_wanted(
    exhaust_mass_flow: Values,
    exhaust_loss_coefficient: Values,
    air_pressure: Values,
    exhaust: Exhaust,
) -> Values:
    """Take the larger of the bores for 15 kPa of back pressure and for Mach 0.28."""
    each = exhaust_mass_flow / exhaust.pipes
    for_pressure = bore_for_pressure_loss(
        mass_flow=each,
        pressure_loss=STREET_BACK_PRESSURE,
        length=exhaust.length,
        loss_coefficient=exhaust_loss_coefficient,
        roughness=exhaust.roughness,
        temperature=exhaust.gas_temperature,
        pressure=air_pressure,
    )
    for_mach = bore_for_mach_number(
        mass_flow=each,
        mach_number=COLLECTOR_MACH,
        temperature=exhaust.gas_temperature,
        pressure=air_pressure,
        heat_ratio=EXHAUST_HEAT_RATIO,
    )
    return np.maximum(for_pressure, for_mach)


@quantity(
    "m³/s", "Air volume that the engine breathes at full power", source="iso-2533", shown="m³/h"
)
def intake_volume_flow(intake_air_flow: Values, air_pressure: Values, intake: Intake) -> Values:
    """Divide by the density of the air at the filter."""
    density = air_density(pressure=air_pressure, temperature=intake.air_temperature)
    return np.asarray(intake_air_flow / density)


@quantity("m/s", "Velocity in the intake duct at full power", source="definition")
def intake_duct_velocity(intake_volume_flow: Values, intake: Intake) -> Values:
    """Divide the air by the section of the ducts."""
    each = intake_volume_flow / intake.ducts
    return np.asarray(pipe_velocity(volume_flow=each, bore=intake.duct_bore))


@quantity("m", "Bore that the intake duct should have", source="common-practice", shown="mm")
def intake_duct_bore_wanted(intake_volume_flow: Values, intake: Intake) -> Values:
    """Size it for 35 m/s."""
    each = intake_volume_flow / intake.ducts
    return np.asarray(bore_for_velocity(volume_flow=each, velocity=DUCT_VELOCITY))


@quantity(
    "-", "Share of the air that a hot intake and its filter cost", source="iso-2533", shown="%"
)
def intake_density_loss(air_pressure: Values, engine: Engine, intake: Intake) -> Values:
    """Compare the density behind the filter with that of air at 15 °C."""
    engine.require_piston()
    behind = air_density(
        pressure=air_pressure - intake.filter_loss, temperature=intake.air_temperature
    )
    return np.asarray(1.0 - behind / air_density(pressure=air_pressure, temperature=288.15))
