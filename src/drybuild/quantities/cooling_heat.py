"""What the engine does in the heat: energy and heat at idle, on a climb, on a fast road."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.air import air_density, atmospheric_pressure
from drybuild.physics.cooling import (
    four_stroke_power,
    friction_pressure_barnes_moss,
    fuel_heat,
    fuel_heat_willans,
    steady_road_power,
)
from drybuild.physics.fuel import fuel_mass_flow
from drybuild.physics.performance import top_speed_from_power
from drybuild.project.brief import Brief
from drybuild.project.cooling import AirConditioning, Cooling
from drybuild.project.engine import Engine
from drybuild.project.handbook import given_or_handbook
from drybuild.project.performance import Running
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.fuel import fuel_named
from drybuild.units import STANDARD_GRAVITY

IDLE, CLIMB, FAST_ROAD, FULL_POWER = "idle", "climb", "fast road", "full power"
SITUATIONS = (IDLE, CLIMB, FAST_ROAD, FULL_POWER)
"""Standing in traffic, the brief's climb, its usual fast speed on the level, and flat out."""


@dataclass(frozen=True, kw_only=True)
class Duty:
    """One situation on the brief's hot day: how fast and how hard."""

    speed: Values
    engine_speed: Values
    power: Values
    """At the flywheel, with what the air conditioning takes."""


@quantity(
    "kg/J",
    "Fuel for each unit of work at full power",
    source="heywood-1988-fuel-use",
    shown="g/kWh",
)
def specific_fuel_consumption(engine: Engine) -> Values:
    """Take it as given, else what engines that breathe so take of this fuel."""
    return consumption_at_power(engine)


@quantity("kg/s", "Fuel at full power", source="heywood-1988-fuel-use", shown="kg/h")
def fuel_flow_at_power(peak_power: Values, specific_fuel_consumption: Values) -> Values:
    """Burn fuel for the greatest power."""
    return np.asarray(
        fuel_mass_flow(power=peak_power, specific_consumption=specific_fuel_consumption)
    )


@quantity("W", "Power that the air conditioning takes", source="definition", shown="kW")
def air_conditioning_power(air_conditioning: AirConditioning) -> Values:
    """Divide the cooling by the efficiency; none where none is fitted."""
    if not air_conditioning.has("cooling_capacity"):
        return np.zeros_like(air_conditioning.efficiency)
    return air_conditioning.cooling_capacity / air_conditioning.efficiency


@quantity("kg/m³", "Density of the hot day's air", source="iso-2533")
def hot_air_density(brief: Brief, cooling: Cooling) -> Values:
    """Take the standard pressure of the altitude and the hot day's temperature."""
    pressure = atmospheric_pressure(altitude=cooling.altitude)
    return np.asarray(air_density(pressure=pressure, temperature=brief.hot_day))


@quantity(
    "W",
    "Engine power for the climb and the fast road, in the heat",
    per="situation",
    source="gillespie-road-load",
    shown="kW",
)
def power_in_heat(
    peak_power: Values,
    laden_mass: Values,
    hot_air_density: Values,
    air_conditioning_power: Values,
    drag_area: Values,
    running: Running,
    cooling: Cooling,
    brief: Brief,
) -> Labelled:
    """Hold the speed on the grade; an engine that cannot gives all it has and climbs slower."""
    towed = cooling.towed_mass if cooling.has("towed_mass") else 0.0
    road = {
        "rolling_coefficient": running.rolling_resistance,
        "drag_area": drag_area,
        "density": hot_air_density,
    }
    climb = steady_road_power(
        mass=laden_mass + towed, speed=brief.climb_speed, grade=brief.climb_grade, **road
    )
    level = steady_road_power(mass=laden_mass, speed=brief.cruise_speed, grade=0.0, **road)
    efficiency = cooling.driveline_efficiency
    asked = {
        IDLE: cooling.idle_power + air_conditioning_power,
        CLIMB: climb / efficiency + air_conditioning_power,
        FAST_ROAD: level / efficiency + air_conditioning_power,
        FULL_POWER: peak_power,
    }
    return {name: np.minimum(power, peak_power) for name, power in asked.items()}


@step("Speed, engine speed and power in each situation", source="gillespie-road-load")
def duties(
    power_in_heat: Labelled,
    engine_rated_speed: Values,
    laden_mass: Values,
    hot_air_density: Values,
    engine: Engine,
    drag_area: Values,
    running: Running,
    cooling: Cooling,
    brief: Brief,
) -> dict[str, Duty]:
    """Put speeds to the powers; flat out is as fast as the power carries the car on the level."""
    fastest = top_speed_from_power(
        wheel_power=power_in_heat[FULL_POWER] * cooling.driveline_efficiency,
        weight=laden_mass * STANDARD_GRAVITY,
        rolling_coefficient=running.rolling_resistance,
        drag_area=drag_area,
        air_density=hot_air_density,
    )
    speeds = {
        IDLE: (np.zeros_like(laden_mass), engine.idle_speed),
        CLIMB: (brief.climb_speed, cooling.climb_engine_speed),
        FAST_ROAD: (brief.cruise_speed, cooling.fast_road_engine_speed),
        FULL_POWER: (np.asarray(fastest), engine_rated_speed),
    }
    return {
        name: Duty(speed=speed, engine_speed=turning, power=power_in_heat[name])
        for name, (speed, turning) in speeds.items()
    }


@quantity(
    "W",
    "Energy that the engine takes, in the heat",
    per="situation",
    source="heywood-1988-friction",
    shown="kW",
)
def engine_energy_in_heat(duties: dict[str, Duty], engine: Engine, cooling: Cooling) -> Labelled:
    """Follow the Willans line at part load; at full power count the fuel that it burns."""
    if engine.kind == "electric":
        return {name: duty.power / engine.drive_efficiency for name, duty in duties.items()}
    found = {}
    for name, duty in duties.items():
        if name == FULL_POWER:
            found[name] = np.asarray(
                fuel_heat(
                    fuel_flow=duty.power * consumption_at_power(engine),
                    heating_value=fuel_named(engine.fuel).heating_value,
                )
            )
            continue
        friction = four_stroke_power(
            mean_pressure=friction_pressure_barnes_moss(engine_speed=duty.engine_speed),
            displacement=engine.displacement,
            engine_speed=duty.engine_speed,
        )
        idle = name == IDLE
        found[name] = np.asarray(
            fuel_heat_willans(
                brake_power=duty.power,
                friction_power=friction,
                indicated_efficiency=(
                    cooling.idle_efficiency if idle else engine.indicated_efficiency
                ),
            )
        )
    return found


@quantity(
    "W",
    "Heat to the coolant in each situation",
    per="situation",
    source="heywood-1988-heat-balance",
    shown="kW",
)
def coolant_heat_in_heat(
    engine_energy_in_heat: Labelled, duties: dict[str, Duty], engine: Engine, cooling: Cooling
) -> Labelled:
    """Take the coolant's share of the fuel's heat; all that a drive loses is the coolant's."""
    if engine.kind == "electric":
        return {name: taken - duties[name].power for name, taken in engine_energy_in_heat.items()}
    share = {
        IDLE: cooling.idle_share,
        CLIMB: cooling.part_load_share,
        FAST_ROAD: cooling.part_load_share,
        FULL_POWER: cooling.full_load_share,
    }
    return {name: taken * share[name] for name, taken in engine_energy_in_heat.items()}


@quantity(
    "W",
    "Heat to the coolant at full power",
    source="heywood-1988-heat-balance",
    shown="kW",
)
def coolant_heat(coolant_heat_in_heat: Labelled) -> Values:
    """Pick out flat out."""
    return coolant_heat_in_heat[FULL_POWER]


def consumption_at_power(engine: Engine) -> Values:
    """Return fuel over work at full power: given, else of engines that breathe so."""
    engine.require_piston()
    fuel = fuel_named(engine.fuel)
    known = fuel.atmospheric if engine.aspiration == "natural" else fuel.charged
    return given_or_handbook(engine, "specific_consumption", known)
