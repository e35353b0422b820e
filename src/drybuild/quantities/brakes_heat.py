"""How hot the brakes get, what that does to the fluid, and what the parking brake holds."""

from __future__ import annotations

import numpy as np

from drybuild.physics.brakes import heat, parking, stopping
from drybuild.project.body import Body
from drybuild.project.brakes import (
    AxleBrakes,
    BrakeHydraulics,
    FrontBrakes,
    ParkingBrake,
    RearBrakes,
)
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, constant, each_axle, of_axle
from drybuild.quantities.brakes import BrakeLine, Stance, drum_factor, share_at
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.brakes import fluid_boiling_point, parking_grade, temperature_limit
from drybuild.units import STANDARD_GRAVITY

KMH = 1.0 / 3.6  # [m/s]
FACINGS = {"nose up": 1, "nose down": -1}
STOPS = 10
INTERVAL = 45.0  # [s], cycle of the type I test, 71/320/EEC Annex II 1.3.1
FADE_STOPS, FADE_FROM, FADE_TO = 15, 120.0 * KMH, 60.0 * KMH  # the same test for passenger cars
AIR_DENSITY = 1.20  # [kg/m³], 20 °C at sea level
ROLLING_RESISTANCE = 0.012  # [-], common practice, no source
IRON_CONDUCTIVITY, IRON_DENSITY = 48.0, 7200.0  # [W/(m·K)], [kg/m³], Limpert ch. 3, from memory
MODERATE_STOP = 0.5  # [-], rate at which the share of heat is taken


@quantity("J", "Heat of one stop from 100 km/h, laden", source="gillespie", shown="kJ")
def stop_heat(laden_mass: Values) -> Values:
    """All brakes together."""
    return stopping.braking_energy(mass=laden_mass, speed_begin=100.0 * KMH, speed_end=0.0)


@quantity("-", "Share of the heat to one rotor", per="axle", source="limpert", shown="%")
def rotor_heat_share(
    brake_line: BrakeLine, laden_stance: Stance, front_brakes: FrontBrakes, rear_brakes: RearBrakes
) -> Labelled:
    """Half the axle's share of braking at 0.5 g, less what goes to the linings."""
    front = share_at(brake_line, laden_stance, MODERATE_STOP)
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


@quantity(
    "K",
    "Temperature of a rotor after ten stops from 100 km/h",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_ten_stops(
    rotor_rise_one_stop: Labelled, front_brakes: FrontBrakes, rear_brakes: RearBrakes, brief: Brief
) -> Labelled:
    """One every 45 s, driven fast in between; radiation left out, so on the high side."""
    return each_axle(
        lambda axle: (
            brief.hot_day
            + _repeated(rotor_rise_one_stop[axle], STOPS, of_axle(axle, front_brakes, rear_brakes))
        )
    )


@quantity(
    "K",
    "Temperature of a rotor after the fade test",
    per="axle",
    source="eec-71-320-read",
    shown="degC",
)
def rotor_temperature_fade_test(
    laden_mass: Values,
    rotor_heat_share: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brief: Brief,
) -> Labelled:
    """Type I of the older directive: fifteen times from 120 to 60 km/h, 45 s apart."""
    snub = stopping.braking_energy(mass=laden_mass, speed_begin=FADE_FROM, speed_end=FADE_TO)

    def fade(axle: str) -> Values:
        rise = _rise(snub * rotor_heat_share[axle], of_axle(axle, front_brakes, rear_brakes))
        return brief.hot_day + _repeated(rise, FADE_STOPS, of_axle(axle, front_brakes, rear_brakes))

    return each_axle(fade)


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


@quantity(
    "K",
    "Temperature of a rotor at the foot of the descent",
    per="axle",
    source="limpert",
    shown="degC",
)
def rotor_temperature_descent(
    descent_braking_power: Values,
    descent_time: Values,
    rotor_heat_share: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brief: Brief,
) -> Labelled:
    """Braking all the way, out of gear; a low gear spares them most of it."""

    def foot(axle: str) -> Values:
        one = of_axle(axle, front_brakes, rear_brakes)
        return brief.hot_day + heat.heating_rise(
            power=descent_braking_power * rotor_heat_share[axle],
            time=descent_time,
            conductance=one.slow_convection * one.cooling_area,
            rotor_mass=one.rotor_mass,
            specific_heat=one.specific_heat,
        )

    return each_axle(foot)


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
    "How far the fluid stays below its wet boiling point on the descent",
    per="axle",
    source="common-practice",
)
def brake_fluid_margin(
    rotor_temperature_descent: Labelled, brake_hydraulics: BrakeHydraulics, brief: Brief
) -> Labelled:
    """Take the fluid as warmed by a share of the rotor's rise; old fluid boils at its wet point."""
    boils = fluid_boiling_point(brake_hydraulics.fluid, wet=True)
    return each_axle(
        lambda axle: (
            boils
            - brief.hot_day
            - brake_hydraulics.fluid_heat_share * (rotor_temperature_descent[axle] - brief.hot_day)
        )
    )


@quantity("N", "Parking brake's force at the road", source="limpert")
def parking_brake_force(
    parking_brake: ParkingBrake, rear_brakes: RearBrakes, static_radius: Labelled
) -> Values:
    """Both rear wheels, with the force on the grip that may be asked."""
    rubbing = parking_brake.friction if parking_brake.has("friction") else rear_brakes.friction
    if parking_brake.kind == "rear calipers":
        factor, radius = (
            2.0 * rubbing,
            rear_brakes.rotor_diameter / 2.0 - rear_brakes.pad_height / 2.0,
        )
    elif parking_brake.kind == "drums in discs":
        factor = drum_factor(rear_brakes, "duo-servo", rubbing)
        radius = parking_brake.drum_diameter / 2.0
    else:
        kind = rear_brakes.kind if rear_brakes.kind != "disc" else "simplex"
        # The lever spreads the shoes of a two-leading-shoe brake as it does any other's.
        factor = drum_factor(rear_brakes, "simplex" if kind == "duplex" else kind, rubbing)
        radius = rear_brakes.rotor_diameter / 2.0
    torque = parking.cable_brake_torque(
        hand_force=parking_brake.hand_force,
        lever_ratio=parking_brake.lever_ratio,
        cable_efficiency=parking_brake.cable_efficiency,
        brake_ratio=parking_brake.brake_ratio,
        brake_factor=factor,
        radius=radius,
    )
    return 2.0 * torque / static_radius[REAR]


@quantity(
    "-", "Grade that the parking brake holds, laden", per="facing", source="limpert", shown="%"
)
def parking_brake_hold_grade(
    parking_brake_force: Values, laden_stance: Stance, tyres: Tyres
) -> Labelled:
    """By the grip's force or the rear tyres' dry adhesion, whichever gives way first."""
    by_force = parking.largest_grade_by_force(force=parking_brake_force, weight=laden_stance.weight)
    found = {}
    for words, facing in FACINGS.items():
        by_tyres = parking.largest_grade_by_adhesion_rear(
            adhesion=tyres.adhesion,
            front_share=laden_stance.front_share,
            height_ratio=laden_stance.height_ratio,
            facing=facing,
        )
        found[words] = np.fmin(by_force, by_tyres)
    return found


@quantity("-", "Adhesion the rear tyres need to stay parked", per="facing", source="limpert")
def parking_adhesion_needed(laden_stance: Stance) -> Labelled:
    """On the older directive's grade, laden, rear wheels braked only."""
    grade = parking_grade("71/320/EEC")
    return {
        words: parking.adhesion_needed_rear(
            grade=grade,
            front_share=laden_stance.front_share,
            height_ratio=laden_stance.height_ratio,
            facing=facing,
        )
        for words, facing in FACINGS.items()
    }


def _rise(energy: Values, one: AxleBrakes) -> Values:
    return heat.one_stop_rise(
        heat=energy, rotor_mass=one.rotor_mass, specific_heat=one.specific_heat
    )


def _repeated(rise: Values, stops: int, one: AxleBrakes) -> Values:
    return heat.repeated_stops_rise(
        one_stop_rise=rise,
        stops=stops,
        interval=INTERVAL,
        conductance=one.convection * one.cooling_area,
        rotor_mass=one.rotor_mass,
        specific_heat=one.specific_heat,
    )
