"""How hot the brakes get: one stop, ten stops, the fade test, the long descent; the fluid."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drybuild.physics.brakes import heat, stopping, warming
from drybuild.physics.brakes.warming import Rotor
from drybuild.physics.gearing import road_speed_at
from drybuild.project.body import Body
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.brief import Brief
from drybuild.project.engine import Engine
from drybuild.project.samples import Values
from drybuild.quantities.axles import FRONT, REAR, constant, each_axle, of_axle
from drybuild.quantities.brakes import BrakeLine, Stance, share_at
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.brakes import fluid_boiling_point, temperature_limit
from drybuild.units import STANDARD_GRAVITY

KMH = 1.0 / 3.6  # [m/s]
HUNDRED = 100.0 * KMH
STOPS = 10
INTERVAL = 45.0  # [s], cycle of the type I test, 71/320/EEC Annex II 1.3.1
FADE_STOPS, FADE_FROM, FADE_TO = 15, 120.0 * KMH, 60.0 * KMH  # the same test for passenger cars
AIR_DENSITY = 1.20  # [kg/m³], 20 °C at sea level
ROLLING_RESISTANCE = 0.012  # [-], common practice, no source
IRON_CONDUCTIVITY, IRON_DENSITY = 48.0, 7200.0  # [W/(m·K)], [kg/m³], Limpert ch. 3, from memory
MODERATE_STOP = 0.5  # [-], rate at which the share of heat is taken
FADE_RATE = 3.0  # [m/s²], first stop of the type I test, 71/320/EEC Annex II 1.3.1
STILL_CONVECTION = 6.0  # [W/(m²·K)], air at rest: 2 to 25 in Incropera table 1.1, from memory
DESCENT_STEPS = 24
ENGINE_DRAG = np.array([1.8e5])  # [Pa], throttle closed: 1.5 to 2.2 bar, common practice, no source
ENGINE_SHARE = 0.65  # [-], of its highest speed: what people hold a low gear at, common practice


@quantity("J", "Heat of one stop from 100 km/h, laden", source="gillespie", shown="kJ")
def stop_heat(laden_mass: Values) -> Values:
    """All brakes together."""
    return stopping.braking_energy(mass=laden_mass, speed_begin=100.0 * KMH, speed_end=0.0)


@quantity("-", "Share of the heat to one rotor", per="axle", source="limpert", shown="%")
def rotor_heat_share(
    laden_brake_line: BrakeLine,
    laden_stance: Stance,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
) -> Labelled:
    """Half the axle's share of braking at 0.5 g, less what goes to the linings."""
    front = share_at(laden_brake_line, laden_stance, MODERATE_STOP)
    shares = {FRONT: front, REAR: 1.0 - front}
    return each_axle(
        lambda axle: shares[axle] / 2.0 * of_axle(axle, front_brakes, rear_brakes).heat_share
    )


@quantity("K", "Rise of a rotor in one stop from 100 km/h", per="axle", source="limpert")
def rotor_rise_one_stop(
    stop_heat: Values,
    rotor_heat_share: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
) -> Labelled:
    """Mean of the rotor, nothing carried off; the rubbed surface is hotter for a moment."""
    return each_axle(
        lambda axle: _rise(
            stop_heat * rotor_heat_share[axle], of_axle(axle, front_brakes, rear_brakes)
        )
    )


@quantity(
    "K",
    "Temperature of a rotor after one stop from 100 km/h",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_one_stop(rotor_rise_one_stop: Labelled, brief: Brief) -> Labelled:
    """From the air of a hot day."""
    return each_axle(lambda axle: brief.hot_day + rotor_rise_one_stop[axle])


@quantity("K", "Rise of the rubbed surface in that stop", per="axle", source="incropera")
def rotor_surface_rise_one_stop(
    stop_heat: Values,
    rotor_heat_share: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brake_effective_radius: Labelled,
) -> Labelled:
    """Half-way through a stop at 0.5 g, above the rotor's own temperature."""
    time = 100.0 * KMH / (MODERATE_STOP * STANDARD_GRAVITY)

    def flash(axle: str) -> Values:
        one = of_axle(axle, front_brakes, rear_brakes)
        around = 2.0 * np.pi * brake_effective_radius[axle]
        swept = around * (2.0 * one.pad_height if one.kind == "disc" else one.lining_width)
        # A flux that falls linearly to nothing has twice its mean at the start.
        return heat.surface_flash_rise(
            initial_flux=2.0 * stop_heat * rotor_heat_share[axle] / time / swept,
            stop_time=time,
            conductivity=IRON_CONDUCTIVITY,
            density=IRON_DENSITY,
            specific_heat=one.specific_heat,
        )

    return each_axle(flash)


@step("Discs and drums as their temperature sees them", source="limpert")
def brake_rotors(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> dict[str, Rotor]:
    """By axle: what they hold, and how heat leaves them."""
    return {axle: rotor_of(of_axle(axle, front_brakes, rear_brakes)) for axle in (FRONT, REAR)}


@quantity(
    "K",
    "Temperature of a rotor after ten stops from 100 km/h",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_ten_stops(
    stop_heat: Values, rotor_heat_share: Labelled, brake_rotors: dict[str, Rotor], brief: Brief
) -> Labelled:
    """One every 45 s at 0.5 g, back to speed in between; air, radiation and hub take their part."""
    return each_axle(
        lambda axle: warming.stops_temperature(
            rotor=brake_rotors[axle],
            air=brief.hot_day,
            heat=stop_heat * rotor_heat_share[axle],
            stops=STOPS,
            interval=INTERVAL,
            braking_time=HUNDRED / (MODERATE_STOP * STANDARD_GRAVITY),
            speed_from=HUNDRED,
            speed_to=0.0,
        )[-1]
    )


@step("Temperature of a rotor through the fade test", source="eec-71-320-read")
def rotor_temperatures_fade_test(
    laden_mass: Values, rotor_heat_share: Labelled, brake_rotors: dict[str, Rotor], brief: Brief
) -> Labelled:
    """By axle, a row a stop: fifteen from 120 to 60 km/h, 45 s apart."""
    return each_axle(
        lambda axle: fade_temperatures(
            brake_rotors[axle], brief, laden_mass, rotor_heat_share[axle]
        )
    )


@quantity(
    "K",
    "Temperature of a rotor after the fade test",
    per="axle",
    source="eec-71-320-read",
    shown="degC",
)
def rotor_temperature_fade_test(rotor_temperatures_fade_test: Labelled) -> Labelled:
    """Type I of the older directive: fifteen times from 120 to 60 km/h, 45 s apart."""
    return each_axle(lambda axle: rotor_temperatures_fade_test[axle][-1])


@quantity("W", "Power into the brakes on the descent", source="limpert", shown="kW")
def descent_braking_power(laden_mass: Values, body: Body, brief: Brief) -> Values:
    """All brakes, out of gear, at the brief's speed and grade."""
    return heat.descent_power(
        mass=laden_mass,
        gravity=STANDARD_GRAVITY,
        speed=brief.descent_speed,
        grade=brief.descent_grade,
        rolling_resistance=ROLLING_RESISTANCE,
        drag_area=body.frontal_area * body.drag_coefficient,
        air_density=AIR_DENSITY,
        engine_braking=0.0,
    )


@quantity("s", "Time down the longest descent", source="definition", shown="min")
def descent_time(brief: Brief) -> Values:
    """Height lost over the rate of losing it."""
    slope = np.arctan(brief.descent_grade)
    return brief.descent_drop / (brief.descent_speed * np.sin(slope))


@quantity("W", "Power that the engine takes on the descent", source="heywood", shown="kW")
def descent_engine_power(
    brief: Brief,
    engine: Engine,
    overall_ratios: Values,
    driven_radius: Values,
    engine_limit_speed: Values,
) -> Values:
    """Throttle closed, in the lowest gear that keeps it under 0.65 of its highest speed."""
    at_limit = road_speed_at(
        engine_speed=engine_limit_speed, overall_ratio=overall_ratios, rolling_radius=driven_radius
    )
    turning = brief.descent_speed / at_limit * engine_limit_speed
    allowed = np.where(turning <= ENGINE_SHARE * engine_limit_speed, turning, 0.0)
    return warming.engine_drag_power(
        mean_pressure=ENGINE_DRAG,
        swept_volume=engine.displacement,
        engine_speed=np.max(allowed, axis=0),
    )


@step("Temperature of a rotor down the descent", source="limpert")
def rotor_temperatures_descent(
    descent_braking_power: Values,
    descent_time: Values,
    rotor_heat_share: Labelled,
    brake_rotors: dict[str, Rotor],
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brief: Brief,
) -> Labelled:
    """By axle, out of gear, at equal times from its top to its foot."""

    def down(axle: str) -> Values:
        return descent_temperatures(
            brake_rotors[axle],
            of_axle(axle, front_brakes, rear_brakes),
            brief,
            descent_braking_power * rotor_heat_share[axle],
            descent_time,
        )

    return each_axle(down)


@quantity(
    "K",
    "Temperature of a rotor at the foot of the descent",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_descent(rotor_temperatures_descent: Labelled) -> Labelled:
    """Braking all the way, out of gear; a low gear spares them much of it."""
    return each_axle(lambda axle: rotor_temperatures_descent[axle][-1])


@quantity(
    "K",
    "Temperature of a rotor at the foot of the descent, in a low gear",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_descent_in_gear(
    descent_braking_power: Values,
    descent_engine_power: Values,
    descent_time: Values,
    rotor_heat_share: Labelled,
    brake_rotors: dict[str, Rotor],
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brief: Brief,
) -> Labelled:
    """Let the engine take its part, and the brakes the rest."""
    rest = np.maximum(descent_braking_power - descent_engine_power, 0.0)
    return each_axle(
        lambda axle: descent_temperatures(
            brake_rotors[axle],
            of_axle(axle, front_brakes, rear_brakes),
            brief,
            rest * rotor_heat_share[axle],
            descent_time,
        )[-1]
    )


@quantity(
    "K", "Temperature the linings bear for long", per="axle", source="common-practice", shown="degC"
)
def lining_temperature_limit(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """By the kind of lining."""
    return each_axle(
        lambda axle: constant(temperature_limit(of_axle(axle, front_brakes, rear_brakes).lining))
    )


@quantity(
    "K", "Temperature the rotors bear for long", per="axle", source="common-practice", shown="degC"
)
def rotor_temperature_limit(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Iron discs crack well above it; iron drums open."""

    def limit(axle: str) -> Values:
        disc = of_axle(axle, front_brakes, rear_brakes).kind == "disc"
        return constant(temperature_limit("iron disc" if disc else "iron drum"))

    return each_axle(limit)


@quantity(
    "K",
    "How far fresh fluid stays below its dry boiling point on the descent",
    per="axle",
    source="common-practice",
)
def fresh_brake_fluid_margin(
    rotor_temperature_descent: Labelled, brake_hydraulics: BrakeHydraulics, brief: Brief
) -> Labelled:
    """As filled from a sealed can."""
    return fluid_margin(rotor_temperature_descent, brake_hydraulics, brief, wet=False)


@quantity(
    "K",
    "How far the fluid stays below its wet boiling point on the descent",
    per="axle",
    source="common-practice",
)
def brake_fluid_margin(
    rotor_temperature_descent: Labelled, brake_hydraulics: BrakeHydraulics, brief: Brief
) -> Labelled:
    """Take the fluid as warmed by a share of the rotor's rise; old fluid boils at its wet point."""
    return fluid_margin(rotor_temperature_descent, brake_hydraulics, brief, wet=True)


def fluid_margin(
    rotor: Labelled, hydraulics: BrakeHydraulics, brief: Brief, *, wet: bool
) -> Labelled:
    """Return how far the fluid stays below boiling with the rotors at a temperature. [K]."""
    boils = fluid_boiling_point(hydraulics.fluid, wet=wet)
    return each_axle(
        lambda axle: (
            boils - brief.hot_day - hydraulics.fluid_heat_share * (rotor[axle] - brief.hot_day)
        )
    )


def _rise(energy: Values, one: AxleBrakes) -> Values:
    return heat.one_stop_rise(
        heat=energy, rotor_mass=one.rotor_mass, specific_heat=one.specific_heat
    )


def rotor_of(one: AxleBrakes) -> Rotor:
    """Return a disc or drum as its temperature sees it."""
    return Rotor(
        heat_capacity=one.rotor_mass * one.specific_heat,
        cooling_area=one.cooling_area,
        radiating_area=_radiating_area(one),
        emissivity=one.emissivity,
        hub_conductance=one.hub_conductance,
        fast_convection=one.convection,
        fast_speed=HUNDRED,
        still_convection=STILL_CONVECTION,
    )


def _radiating_area(one: AxleBrakes) -> Values:
    """Return what sees the wheel: a disc's two rubbed faces, a drum's outside; vanes do not."""
    radius = one.rotor_diameter / 2.0
    if one.kind == "disc":
        inner = radius - one.pad_height
        return 2.0 * np.pi * (np.square(radius) - np.square(inner))
    outer = radius + one.drum_wall
    return np.pi * (2.0 * outer * one.lining_width + np.square(outer))


def fade_temperatures(rotor: Rotor, brief: Brief, mass: Values, share: Values) -> Values:
    """Return a rotor's temperatures through the fade test, a row a stop. [K]."""
    snub = stopping.braking_energy(mass=mass, speed_begin=FADE_FROM, speed_end=FADE_TO)
    return warming.stops_temperature(
        rotor=rotor,
        air=brief.hot_day,
        heat=snub * share,
        stops=FADE_STOPS,
        interval=INTERVAL,
        braking_time=(FADE_FROM - FADE_TO) / FADE_RATE,
        speed_from=FADE_FROM,
        speed_to=FADE_TO,
    )


def descent_temperatures(
    rotor: Rotor, one: AxleBrakes, brief: Brief, power: Values, time: Values
) -> Values:
    """Return a rotor's temperatures down the descent; a convection known by trial counts. [K]."""
    if one.has("slow_convection"):
        rotor = replace(rotor, fast_convection=one.slow_convection, fast_speed=brief.descent_speed)
    return warming.drag_temperature(
        rotor=rotor,
        air=brief.hot_day,
        power=power,
        speed=brief.descent_speed,
        time=time,
        steps=DESCENT_STEPS,
    )
