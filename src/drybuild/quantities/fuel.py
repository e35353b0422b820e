"""Fuel system: what the engine wants, what the pump gives, what the lines lose."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.air import atmospheric_pressure
from drybuild.physics.fuel import (
    fuel_range as range_on_a_tank,
)
from drybuild.physics.fuel import (
    gasoline_vapour_pressure,
    injector_flow_at_pressure,
    injector_static_flow,
    pump_flow,
    pump_free_flow,
    suction_margin,
)
from drybuild.physics.pipes import bore_for_velocity, pipe_pressure_loss, pipe_velocity
from drybuild.project.brief import Brief
from drybuild.project.cooling import Cooling
from drybuild.project.engine import Engine
from drybuild.project.fuel import FuelSystem
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.fuel import fuel_named

PETROL_VISCOSITY = 0.5e-3  # [Pa·s], petrol at 20 °C, handbooks; the loss goes with its fifth root
DIESEL_VISCOSITY = 2.7e-3  # [Pa·s], EN 590 at 40 °C 2.0 to 4.5 mm²/s
PRESSURE_LINE, SUCTION_LINE = "pressure line", "suction line"
BORE_VELOCITY = {PRESSURE_LINE: 2.0, SUCTION_LINE: 0.8}
"""Velocities that lines are sized for [m/s]: 1 to 3 and at most 0.5 to 1; common practice."""


@quantity("m³/s", "Fuel volume at full power", source="fuel-properties", shown="l/h")
def fuel_volume_flow_at_power(fuel_flow_at_power: Values, engine: Engine) -> Values:
    """Divide the mass flow by the fuel's density."""
    return fuel_flow_at_power / fuel_named(engine.fuel).density


@quantity("Pa", "Boost pressure at full power", source="common-practice", shown="bar")
def boost_pressure(engine: Engine, fuel_system: FuelSystem) -> Values:
    """Take it as given, else what charged road engines have; none without a blower."""
    if engine.aspiration == "natural":
        return np.zeros_like(fuel_system.pressure)
    return engine.boost if engine.has("boost") else fuel_system.boost


@quantity("Pa", "Pressure that the fuel pump works against", source="churchill-1977", shown="bar")
def fuel_pump_pressure(
    fuel_system: FuelSystem, boost_pressure: Values, fuel_line_loss: Labelled
) -> Values:
    """Add boost and the loss of the pressure line to the regulator's setting."""
    return fuel_system.pressure + boost_pressure + fuel_line_loss[PRESSURE_LINE]


@quantity("m³/s", "Flow of the fuel pump in the car", source="common-practice", shown="l/h")
def fuel_pump_flow(fuel_system: FuelSystem, fuel_pump_pressure: Values) -> Values:
    """Move along the pump's line to the pressure and, if it is electric, the voltage in the car.

    A pump that cannot reach the pressure moves nothing.
    """
    rated = fuel_system.pump_rated_voltage
    free = pump_free_flow(
        rated_flow=fuel_system.pump_flow,
        rated_pressure=fuel_system.pump_rated_pressure,
        stall_pressure=fuel_system.pump_stall_pressure,
    )
    flow = pump_flow(
        free_flow=free,
        stall_pressure=fuel_system.pump_stall_pressure,
        rated_voltage=rated,
        voltage=fuel_system.pump_voltage if fuel_system.pump_is_electric else rated,
        pressure=fuel_pump_pressure,
    )
    return np.where(np.isnan(flow) & np.isfinite(free), 0.0, flow)


@quantity("-", "Fuel pump's flow over what full power takes", source="common-practice")
def pump_margin(fuel_pump_flow: Values, fuel_volume_flow_at_power: Values) -> Values:
    """Divide what the pump gives by what is burnt."""
    return fuel_pump_flow / fuel_volume_flow_at_power


@quantity("m³/s", "Rated flow that a fuel pump should have", source="common-practice", shown="l/h")
def fuel_pump_flow_wanted(fuel_volume_flow_at_power: Values) -> Values:
    """Ask for 1.2 times the demand, at the pressure and voltage in the car."""
    return 1.2 * fuel_volume_flow_at_power


@quantity("m/s", "Velocity in the fuel lines at full power", per="line", source="definition")
def fuel_line_velocity(fuel_volume_flow_at_power: Values, fuel_system: FuelSystem) -> Labelled:
    """Divide the flow by the section of each line."""
    flow = fuel_volume_flow_at_power
    return {
        name: np.asarray(pipe_velocity(volume_flow=flow, bore=bore))
        for name, (bore, _, _) in _lines(fuel_system).items()
    }


@quantity(
    "Pa",
    "Pressure lost in the fuel lines at full power",
    per="line",
    source="churchill-1977",
    shown="kPa",
)
def fuel_line_loss(
    fuel_volume_flow_at_power: Values, engine: Engine, fuel_system: FuelSystem
) -> Labelled:
    """Take pipe friction by Churchill and the losses of bends, fittings, filter and strainer."""
    density = fuel_named(engine.fuel).density
    viscosity = DIESEL_VISCOSITY if engine.fuel == "diesel" else PETROL_VISCOSITY
    return {
        name: np.asarray(
            pipe_pressure_loss(
                volume_flow=fuel_volume_flow_at_power,
                bore=bore,
                length=length,
                loss_coefficient=fittings,
                roughness=fuel_system.line_roughness,
                density=density,
                viscosity=viscosity,
            )
        )
        for name, (bore, length, fittings) in _lines(fuel_system).items()
    }


@quantity(
    "m", "Bore that the fuel lines should have", per="line", source="common-practice", shown="mm"
)
def fuel_line_bore_wanted(fuel_volume_flow_at_power: Values) -> Labelled:
    """Size them for 2 m/s under pressure and 0.8 m/s in suction."""
    return {
        name: np.asarray(
            bore_for_velocity(volume_flow=fuel_volume_flow_at_power, velocity=velocity)
        )
        for name, velocity in BORE_VELOCITY.items()
    }


@quantity(
    "Pa", "Margin to vapour at the pump's inlet on a hot day", source="ap-42-7-1", shown="kPa"
)
def fuel_vapour_margin(
    fuel_line_loss: Labelled, engine: Engine, fuel_system: FuelSystem, cooling: Cooling
) -> Values:
    """Leave from the atmosphere: vapour pressure, lift and suction loss; diesel hardly boils."""
    if engine.fuel == "diesel":
        vapour = np.zeros_like(fuel_system.reid_pressure)
    else:
        vapour = np.asarray(
            gasoline_vapour_pressure(
                temperature=fuel_system.hot_temperature, reid_pressure=fuel_system.reid_pressure
            )
        )
    return np.asarray(
        suction_margin(
            atmospheric_pressure=atmospheric_pressure(altitude=cooling.altitude),
            vapour_pressure=vapour,
            density=fuel_named(engine.fuel).density,
            lift=fuel_system.lift,
            line_loss=fuel_line_loss[SUCTION_LINE],
        )
    )


@quantity(
    "m³/s", "Static flow that each injector should have", source="common-practice", shown="cm³/min"
)
def injector_size_wanted(
    fuel_volume_flow_at_power: Values, engine: Engine, fuel_system: FuelSystem
) -> Values:
    """Size them at the rail's pressure, if the engine is injected."""
    _needs_injectors(fuel_system)
    return np.asarray(
        injector_static_flow(
            fuel_flow=fuel_volume_flow_at_power,
            injectors=_injectors(engine, fuel_system),
            duty=fuel_system.injector_duty,
        )
    )


@quantity(
    "-",
    "Share of the time that the injectors are open at full power",
    source="common-practice",
    shown="%",
)
def injector_duty(
    fuel_volume_flow_at_power: Values, engine: Engine, fuel_system: FuelSystem
) -> Values:
    """Divide the demand by what the injectors pass."""
    _needs_injectors(fuel_system)
    flow = injector_flow_at_pressure(
        rated_flow=fuel_system.injector_flow,
        rated_pressure=fuel_system.injector_rated_pressure,
        pressure=fuel_system.pressure,
    )
    return np.asarray(fuel_volume_flow_at_power / (flow * _injectors(engine, fuel_system)))


@quantity("m³", "Fuel that can be drawn from the tank", source="definition", shown="l")
def usable_fuel(fuel_system: FuelSystem) -> Values:
    """Leave what the pick-up cannot reach."""
    return fuel_system.tank_volume * (1.0 - fuel_system.unusable_share)


@quantity("m", "Range at the cruising speed", source="definition", shown="km")
def fuel_range(usable_fuel: Values, fuel_use_at_cruise: Values, brief: Brief) -> Values:
    """Divide what can be drawn by what cruising takes."""
    return np.asarray(
        range_on_a_tank(
            usable_volume=usable_fuel,
            fuel_flow=fuel_use_at_cruise * brief.cruise_speed,
            speed=brief.cruise_speed,
        )
    )


@quantity("s", "How long a tank lasts at full power", source="definition", shown="min")
def full_power_endurance(usable_fuel: Values, fuel_volume_flow_at_power: Values) -> Values:
    """Divide what can be drawn by what full power takes."""
    return usable_fuel / fuel_volume_flow_at_power


@quantity("kg", "Mass of a full tank's fuel", source="fuel-properties")
def full_tank_mass(fuel_system: FuelSystem, engine: Engine) -> Values:
    """Multiply volume and density."""
    engine.require_piston()
    return fuel_system.tank_volume * fuel_named(engine.fuel).density


def _lines(fuel_system: FuelSystem) -> dict[str, tuple[Values, Values, Values]]:
    """Return bore, length and loss coefficients of each line."""
    return {
        PRESSURE_LINE: (fuel_system.line_bore, fuel_system.line_length, fuel_system.line_fittings),
        SUCTION_LINE: (
            fuel_system.suction_bore,
            fuel_system.suction_length,
            fuel_system.suction_fittings,
        ),
    }


def _needs_injectors(fuel_system: FuelSystem) -> None:
    if fuel_system.delivery == "carburettor":
        raise DoesNotApply(fuel_system.path_of("delivery"), "a carburettor has no injectors")


def _injectors(engine: Engine, fuel_system: FuelSystem) -> Values:
    return fuel_system.injectors if fuel_system.has("injectors") else engine.cylinders
