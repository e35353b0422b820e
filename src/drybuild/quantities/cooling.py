"""Cooling: air through the core, heat it sheds, and the temperature at which both balance."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.air import SPECIFIC_HEAT, air_viscosity, atmospheric_pressure
from drybuild.physics.coolant import (
    coolant_boiling_temperature,
    coolant_conductivity,
    coolant_density,
    coolant_freezing_temperature,
    coolant_specific_heat,
    coolant_viscosity,
)
from drybuild.physics.cooling import effectiveness_unmixed, flow_for_heat, temperature_in_balance
from drybuild.physics.cooling_air import face_velocity_in_balance, ram_pressure
from drybuild.physics.pipes import pipe_velocity
from drybuild.physics.radiator import LouvredCore, air_side_conductance, tube_side_conductance
from drybuild.project.brief import Brief
from drybuild.project.cooling import AirConditioning, Cooling, Radiator
from drybuild.project.engine import Engine
from drybuild.project.samples import Values
from drybuild.quantities.cooling_heat import FULL_POWER, IDLE, Duty
from drybuild.quantities.quantity import Labelled, quantity, step

COOLANT_REFERENCE = 363.15  # [K], properties move by under 2 % from here to 115 °C
COLD_FILL, HOT_FILL = 293.15, 373.15  # [K]
OIL_DENSITY, OIL_SPECIFIC_HEAT = 850.0, 2100.0  # [kg/m³], [J/(kg·K)], warm engine oil, practice
LOUVRE_SHARE = 0.85  # [-], of the fin's height that is cut into louvres, common practice
FIN_CONDUCTIVITY = {"copper and brass": 380.0, "aluminium": 205.0}  # [W/(m·K)], handbooks


@dataclass(frozen=True, kw_only=True)
class Liquid:
    """The coolant at working temperature."""

    density: Values
    viscosity: Values
    specific_heat: Values
    conductivity: Values


@dataclass(frozen=True, kw_only=True)
class Zone:
    """A part of the core that air goes through at one velocity."""

    share: Values
    velocity: Values
    """At the face; zero where nothing drives the air."""


@step("Geometry of the radiator core", source="chang-wang-1997")
def radiator_core(radiator: Radiator) -> LouvredCore:
    """Gather the core; plain fins without louvres are not covered, and carry less heat."""
    return LouvredCore(
        depth=radiator.depth,
        fin_pitch=radiator.fin_pitch,
        fin_height=radiator.fin_height,
        fin_thickness=radiator.fin_thickness,
        fin_conductivity=FIN_CONDUCTIVITY[radiator.metal],
        louvre_pitch=radiator.louvre_pitch,
        louvre_length=LOUVRE_SHARE * radiator.fin_height,
        louvre_angle=radiator.louvre_angle,
        tube_thickness=radiator.tube_thickness,
        tube_wall=radiator.tube_wall,
    )


@quantity("m²", "Face of the radiator core", source="definition")
def radiator_area(radiator: Radiator) -> Values:
    """Multiply width and height."""
    return radiator.width * radiator.height


@step("Coolant at working temperature", source="melinder-2010")
def coolant_liquid(cooling: Cooling) -> Liquid:
    """Work out the mixture's properties at 90 °C."""
    warm, glycol = COOLANT_REFERENCE, cooling.glycol
    return Liquid(
        density=np.asarray(coolant_density(temperature=warm, glycol_fraction=glycol)),
        viscosity=np.asarray(coolant_viscosity(temperature=warm, glycol_fraction=glycol)),
        specific_heat=np.asarray(coolant_specific_heat(temperature=warm, glycol_fraction=glycol)),
        conductivity=np.asarray(coolant_conductivity(temperature=warm, glycol_fraction=glycol)),
    )


@quantity("m³/s", "Coolant flow", per="situation", source="fan-laws", shown="l/min")
def coolant_flow(
    coolant_heat: Values,
    coolant_liquid: Liquid,
    engine_rated_speed: Values,
    duties: dict[str, Duty],
    cooling: Cooling,
) -> Labelled:
    """Scale the pump's flow with engine speed; an unknown pump is taken as rightly sized."""
    if cooling.has("pump_flow"):
        rated = cooling.pump_flow
    else:
        rated = np.asarray(
            flow_for_heat(
                heat=coolant_heat,
                density=coolant_liquid.density,
                specific_heat=coolant_liquid.specific_heat,
                temperature_change=cooling.coolant_rise,
            )
        )
    return {name: rated * duty.engine_speed / engine_rated_speed for name, duty in duties.items()}


@quantity("K", "Warming of the coolant in the engine", per="situation", source="definition")
def coolant_warming(
    coolant_heat_in_heat: Labelled, coolant_flow: Labelled, coolant_liquid: Liquid
) -> Labelled:
    """Divide the heat by what the flow carries."""
    carried = coolant_liquid.density * coolant_liquid.specific_heat
    return {
        name: heat / (carried * coolant_flow[name]) for name, heat in coolant_heat_in_heat.items()
    }


@quantity("m/s", "Velocity in the radiator hoses at full power", source="definition")
def coolant_hose_velocity(coolant_flow: Labelled, cooling: Cooling) -> Values:
    """Divide the flow by the section of the hose."""
    flow = coolant_flow[FULL_POWER]
    return np.asarray(pipe_velocity(volume_flow=flow, bore=cooling.hose_bore))


@quantity("-", "Share of the core that the fan draws through", source="common-practice", shown="%")
def fan_coverage(radiator: Radiator, radiator_area: Values) -> Values:
    """Count the whole core behind a shroud, else the discs of the fans."""
    if radiator.shroud:
        return np.ones_like(radiator_area)
    disc = radiator.fans * np.pi / 4.0 * radiator.fan_diameter**2
    return np.minimum(disc / radiator_area, 1.0)


@step("Air before the fan and beside it", source="hucho-cooling-air")
def radiator_zones(
    radiator_core: LouvredCore,
    radiator_area: Values,
    fan_coverage: Values,
    hot_air_density: Values,
    duties: dict[str, Duty],
    radiator: Radiator,
    cooling: Cooling,
    air_conditioning: AirConditioning,
    brief: Brief,
) -> dict[str, tuple[Zone, ...]]:
    """Balance ram and fan against core, condenser, grille and engine bay in each zone."""
    loss = cooling.air_path_loss
    if air_conditioning.has("cooling_capacity"):
        loss = loss + air_conditioning.condenser_loss
    whole = not np.any(fan_coverage < 1.0)
    driven = {
        (name, behind_fan): _driven(
            radiator, cooling, duty, density=hot_air_density, behind_fan=behind_fan
        )
        for name, duty in duties.items()
        for behind_fan in ((True,) if whole else (True, False))
    }
    ram, pressure, flow = (np.array(rows) for rows in zip(*driven.values(), strict=True))
    share = {True: fan_coverage, False: np.ones_like(fan_coverage)}
    found = face_velocity_in_balance(
        ram_pressure=ram,
        stalled_pressure=pressure,
        free_flow=flow,
        face_area=radiator_area * np.array([share[behind_fan] for _, behind_fan in driven]),
        core=radiator_core,
        other_loss=loss,
        density=hot_air_density,
        viscosity=air_viscosity(temperature=brief.hot_day),
    )
    # Nothing drives the air: none moves.
    velocity = dict(zip(driven, np.nan_to_num(found), strict=True))
    share[False] = 1.0 - fan_coverage
    return {
        name: tuple(
            Zone(share=share[behind_fan], velocity=velocity[name, behind_fan])
            for behind_fan in (True, False)
            if (name, behind_fan) in velocity
        )
        for name in duties
    }


@quantity("m³/s", "Air through the radiator", per="situation", source="hucho-cooling-air")
def radiator_air_flow(
    radiator_zones: dict[str, tuple[Zone, ...]], radiator_area: Values
) -> Labelled:
    """Add up the air of the zones."""
    return {
        name: radiator_area * sum(zone.share * zone.velocity for zone in zones)
        for name, zones in radiator_zones.items()
    }


@quantity("m³/s", "Air that the fan draws, standing still", source="hucho-cooling-air")
def fan_air_flow(radiator_air_flow: Labelled) -> Values:
    """Pick out the idle."""
    return radiator_air_flow[IDLE]


@quantity("m/s", "Velocity of the air at the core", per="situation", source="hucho-cooling-air")
def radiator_face_velocity(radiator_air_flow: Labelled, radiator_area: Values) -> Labelled:
    """Spread the air over the whole core."""
    return {name: flow / radiator_area for name, flow in radiator_air_flow.items()}


@quantity("W", "Heat of the air conditioning's condenser", source="definition", shown="kW")
def condenser_heat(air_conditioning: AirConditioning, air_conditioning_power: Values) -> Values:
    """Add what the cabin gave and what the compressor took; none where none is fitted."""
    if not air_conditioning.has("cooling_capacity"):
        return air_conditioning_power
    return air_conditioning.cooling_capacity + air_conditioning_power


@quantity("K", "Air that enters the core", per="situation", source="definition", shown="degC")
def core_air_temperature(
    radiator_air_flow: Labelled,
    condenser_heat: Values,
    hot_air_density: Values,
    cooling: Cooling,
    brief: Brief,
) -> Labelled:
    """Warm the hot day's air by the condenser, and at idle by what comes round again."""
    found = {}
    for name, flow in radiator_air_flow.items():
        warmer = condenser_heat / (hot_air_density * SPECIFIC_HEAT * flow)
        again = cooling.idle_recirculation if name == IDLE else 0.0
        found[name] = brief.hot_day + np.where(condenser_heat > 0.0, warmer, 0.0) + again
    return found


@quantity(
    "W/K",
    "Heat that the radiator sheds for each kelvin",
    per="situation",
    source="incropera-heat-exchangers",
)
def radiator_heat_per_kelvin(
    radiator_zones: dict[str, tuple[Zone, ...]],
    radiator_core: LouvredCore,
    radiator_area: Values,
    coolant_flow: Labelled,
    coolant_liquid: Liquid,
    hot_air_density: Values,
    radiator: Radiator,
    brief: Brief,
) -> Labelled:
    """Sum effectiveness times smaller capacity rate over the zones; nan where no air moves."""
    found = {}
    for name, zones in radiator_zones.items():
        tubes = tube_side_conductance(
            core=radiator_core,
            core_width=radiator.width,
            core_height=radiator.height,
            volume_flow=coolant_flow[name],
            density=coolant_liquid.density,
            viscosity=coolant_liquid.viscosity,
            specific_heat=coolant_liquid.specific_heat,
            conductivity=coolant_liquid.conductivity,
        )
        liquid = coolant_flow[name] * coolant_liquid.density * coolant_liquid.specific_heat
        total = sum(
            zone.share
            * _shed(
                zone.velocity,
                core=radiator_core,
                area=radiator_area,
                tubes=np.asarray(tubes),
                liquid=liquid,
                density=hot_air_density,
                viscosity=np.asarray(air_viscosity(temperature=brief.hot_day)),
            )
            for zone in zones
        )
        found[name] = np.where(total > 0.0, radiator.condition * total, np.nan)
    return found


@quantity(
    "K",
    "Coolant leaving the engine, thermostat open",
    per="situation",
    source="incropera-heat-exchangers",
    shown="degC",
)
def coolant_temperature(
    coolant_heat_in_heat: Labelled,
    radiator_heat_per_kelvin: Labelled,
    core_air_temperature: Labelled,
) -> Labelled:
    """Find where the radiator sheds the heat it is given; the thermostat may hold it warmer."""
    return {
        name: np.asarray(
            temperature_in_balance(
                air_temperature=core_air_temperature[name],
                heat=heat,
                heat_per_kelvin=radiator_heat_per_kelvin[name],
            )
        )
        for name, heat in coolant_heat_in_heat.items()
    }


@quantity(
    "K",
    "Coolant at work, thermostat closing when it is cool",
    per="situation",
    source="common-practice",
    shown="degC",
)
def coolant_working_temperature(coolant_temperature: Labelled, radiator: Radiator) -> Labelled:
    """Hold it at the thermostat's temperature where the radiator could cool it further."""
    return {
        name: np.maximum(warm, radiator.thermostat) for name, warm in coolant_temperature.items()
    }


@quantity("K", "Boiling point of the coolant under the cap", source="iapws-if97", shown="degC")
def coolant_boiling_point(radiator: Radiator, cooling: Cooling) -> Values:
    """Boil water and glycol at the pressure of the altitude and the cap."""
    pressure = atmospheric_pressure(altitude=cooling.altitude) + radiator.cap_pressure
    return np.asarray(
        coolant_boiling_temperature(pressure=pressure, glycol_fraction=cooling.glycol)
    )


@quantity("K", "Margin of the coolant to boiling", per="situation", source="iapws-if97")
def boil_margin(coolant_working_temperature: Labelled, coolant_boiling_point: Values) -> Labelled:
    """Subtract the working temperature from the boiling point."""
    return {
        name: coolant_boiling_point - warm for name, warm in coolant_working_temperature.items()
    }


@quantity(
    "W",
    "Heat that the radiator can shed short of boiling",
    per="situation",
    source="incropera-heat-exchangers",
    shown="kW",
)
def radiator_capacity(
    radiator_heat_per_kelvin: Labelled,
    core_air_temperature: Labelled,
    coolant_boiling_point: Values,
) -> Labelled:
    """Let the coolant come to its boiling point."""
    return {
        name: each * (coolant_boiling_point - core_air_temperature[name])
        for name, each in radiator_heat_per_kelvin.items()
    }


@quantity("-", "What the radiator can shed over what it must", per="situation", source="definition")
def cooling_reserve(radiator_capacity: Labelled, coolant_heat_in_heat: Labelled) -> Labelled:
    """Divide what can be shed by what must be."""
    return {name: can / coolant_heat_in_heat[name] for name, can in radiator_capacity.items()}


@quantity(
    "K",
    "Warmest air in which the car can stand, climb or run",
    per="situation",
    source="incropera-heat-exchangers",
    shown="degC",
)
def hottest_day(
    coolant_temperature: Labelled, coolant_boiling_point: Values, brief: Brief
) -> Labelled:
    """Warm the day until the coolant boils; heat and flows are taken as on the hot day."""
    return {
        name: brief.hot_day + coolant_boiling_point - warm
        for name, warm in coolant_temperature.items()
    }


@quantity("K", "Freezing point of the coolant", source="melinder-2010", shown="degC")
def coolant_freezing_point(cooling: Cooling) -> Values:
    """Look at where ice first forms."""
    return np.asarray(coolant_freezing_temperature(glycol_fraction=cooling.glycol))


@quantity("K", "Margin of the coolant to freezing on a cold day", source="melinder-2010")
def freeze_margin(coolant_freezing_point: Values, brief: Brief) -> Values:
    """Subtract the freezing point from the cold day."""
    return brief.cold_day - coolant_freezing_point


@quantity("m³", "Growth of the coolant from cold to hot", source="melinder-2010", shown="l")
def coolant_expansion(cooling: Cooling) -> Values:
    """Let the volume grow as the density falls from 20 to 100 °C."""
    cold = coolant_density(temperature=COLD_FILL, glycol_fraction=cooling.glycol)
    hot = coolant_density(temperature=HOT_FILL, glycol_fraction=cooling.glycol)
    return cooling.coolant_volume * (cold / hot - 1.0)


@quantity("W", "Heat to the oil at full power", source="heywood-1988-heat-balance", shown="kW")
def oil_heat(peak_power: Values, engine: Engine, cooling: Cooling) -> Values:
    """Take the oil's share of the power."""
    engine.require_piston()
    return peak_power * cooling.oil_share


@quantity("K", "Warming of the oil in the engine at full power", source="common-practice")
def oil_warming(oil_heat: Values, cooling: Cooling) -> Values:
    """Divide the heat by what the oil's flow carries."""
    return oil_heat / (OIL_DENSITY * OIL_SPECIFIC_HEAT * cooling.oil_flow)


def _driven(
    radiator: Radiator, cooling: Cooling, duty: Duty, *, density: Values, behind_fan: bool
) -> tuple[Values, Values, Values]:
    """Return what drives the air through a zone: ram, and the fan's pressure and free flow."""
    ram = np.asarray(
        ram_pressure(
            speed=duty.speed, density=density, pressure_coefficient=cooling.ram_coefficient
        )
    )
    if not behind_fan:
        return ram, np.zeros_like(ram), np.ones_like(ram)
    turning = _fan_turning(radiator, duty.engine_speed)
    pressure = np.zeros_like(ram) if radiator.fan == "none" else radiator.fan_pressure * turning**2
    return ram, pressure, radiator.fan_flow * turning


def _fan_turning(radiator: Radiator, engine_speed: Values) -> Values:
    """Return how fast the fan turns over the speed that its flow is given for."""
    if radiator.fan != "belt":
        return np.ones_like(engine_speed)
    return engine_speed * radiator.fan_ratio / radiator.fan_speed


def _shed(
    velocity: Values,
    *,
    core: LouvredCore,
    area: Values,
    tubes: Values,
    liquid: Values,
    density: Values,
    viscosity: Values,
) -> Values:
    """Return effectiveness times smaller capacity rate of a whole core at this face velocity."""
    moving = velocity > 0.0
    face = np.where(moving, velocity, 1.0)
    outside = air_side_conductance(
        face_velocity=face, core=core, density=density, viscosity=viscosity
    )
    conductance = area / (1.0 / outside + 1.0 / tubes)
    air = density * face * area * SPECIFIC_HEAT
    smaller, larger = np.minimum(air, liquid), np.maximum(air, liquid)
    effectiveness = effectiveness_unmixed(
        transfer_units=conductance / smaller, capacity_ratio=smaller / larger
    )
    return np.where(moving, effectiveness * smaller, 0.0)
