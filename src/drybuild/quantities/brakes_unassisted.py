"""No servo and the largest front disc that fits: cold, hot and down the mountain."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drybuild.physics.brakes import actuation, stopping
from drybuild.physics.brakes.warming import Rotor
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import AXLES, FRONT, REAR, constant, each_axle, of_axle
from drybuild.quantities.brakes import (
    HARD_STOP,
    BrakeLine,
    Stance,
    attainable,
    pressure_at,
    share_at,
)
from drybuild.quantities.brakes_fade import hot_force_share, hot_friction
from drybuild.quantities.brakes_heat import (
    HUNDRED,
    MODERATE_STOP,
    descent_temperatures,
    fade_temperatures,
    fluid_margin,
    rotor_of,
)
from drybuild.quantities.brakes_pedal import PedalFeel, most_force
from drybuild.quantities.brakes_sizing import PedalSizing, pedal_sizing_of
from drybuild.quantities.quantity import Labelled, step
from drybuild.tables.brakes import master_cylinder_bores
from drybuild.units import STANDARD_GRAVITY


@dataclass(frozen=True, kw_only=True)
class Unassisted:
    """What the brakes do without a servo, with the largest front disc inside the wheel."""

    disc: Values
    """Diameter; the drum's own where the front has drums. [m]"""
    changed: bool
    """Whether the disc is another than the one that is picked."""
    bore: str
    ratio: float
    force: Values
    """Foot force of a 0.9 g stop. [N]"""
    travel_share: Values
    deceleration: Values
    """Full stop, cold. [m/s²]"""
    distance: Values
    """From 100 km/h, cold. [m]"""
    hot_share: Values
    hot_distance: Values
    descent: Labelled
    """Rotor temperature at the foot, out of gear. [K]"""
    descent_in_gear: Labelled
    fluid_margin: Labelled
    """Old fluid, out of gear. [K]"""


@step("No servo, largest disc", source="limpert")
def unassisted_brakes(
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brake_hydraulics: BrakeHydraulics,
    brake_effective_radius: Labelled,
    brake_factor_sensitivity: Labelled,
    laden_brake_line: BrakeLine,
    laden_stance: Stance,
    laden_mass: Values,
    pedal_feel: PedalFeel,
    largest_rotor_inside_wheel: Labelled,
    largest_rotor_in_practice: Labelled,
    descent_braking_power: Values,
    descent_engine_power: Values,
    descent_time: Values,
    tyres: Tyres,
    brief: Brief,
) -> Unassisted:
    """Let the disc grow: its mass and surface go as the square of its diameter."""
    sections = {axle: of_axle(axle, front_brakes, rear_brakes) for axle in AXLES}
    disc = front_brakes.rotor_diameter
    if front_brakes.kind == "disc":
        disc = np.fmin(largest_rotor_inside_wheel[FRONT], largest_rotor_in_practice[FRONT])
        # A drawn wheel between the sizes that are made has no rim; it takes the likely wheel's.
        disc = np.where(np.isfinite(disc), disc, disc[0])
    line = _with_disc(laden_brake_line, front_brakes, disc, brake_effective_radius[FRONT])
    pressure = pressure_at(line, laden_stance, HARD_STOP)
    sizing = pedal_sizing_of(pedal_feel, pressure, constant(0.0), constant(1.0), brake_hydraulics)
    bore, ratio = sizing.best()
    at = _pressed(sizing, bore, ratio)
    foot_gives = line.total(at) / laden_stance.weight * STANDARD_GRAVITY
    held = attainable(line, laden_stance, tyres.adhesion)
    cold = np.minimum(foot_gives, held)
    heat = _heat_shares(line, laden_stance, sections)
    rotors = _rotors(sections, disc / front_brakes.rotor_diameter)
    faded = each_axle(
        lambda axle: fade_temperatures(rotors[axle], brief, laden_mass, heat[axle])[-1]
    )
    left = each_axle(lambda axle: hot_friction(sections[axle], faded[axle]))
    hot = hot_force_share(line, at, left, brake_factor_sensitivity)

    def foot(power: Values) -> Labelled:
        return each_axle(
            lambda axle: descent_temperatures(
                rotors[axle], sections[axle], brief, power * heat[axle], descent_time
            )[-1]
        )

    descent = foot(descent_braking_power)
    return Unassisted(
        disc=disc,
        changed=bool(abs(disc[0] / front_brakes.rotor_diameter[0] - 1.0) > 1e-3),
        bore=bore,
        ratio=ratio,
        force=sizing.force(master_cylinder_bores()[bore], ratio),
        travel_share=sizing.travel_share(master_cylinder_bores()[bore], ratio),
        deceleration=cold,
        distance=_distance(cold, brake_hydraulics),
        hot_share=hot,
        hot_distance=_distance(np.minimum(foot_gives * hot, held), brake_hydraulics),
        descent=descent,
        descent_in_gear=foot(np.maximum(descent_braking_power - descent_engine_power, 0.0)),
        fluid_margin=fluid_margin(descent, brake_hydraulics, brief, wet=True),
    )


def _with_disc(line: BrakeLine, front: FrontBrakes, disc: Values, radius: Values) -> BrakeLine:
    """Return the brakes with another front disc, the pads as far below its rim as now."""
    grown = (radius + (disc - front.rotor_diameter) / 2.0) / radius
    return replace(line, gain={**line.gain, FRONT: line.gain[FRONT] * grown})


def _heat_shares(line: BrakeLine, car: Stance, sections: dict[str, AxleBrakes]) -> Labelled:
    front = share_at(line, car, MODERATE_STOP)
    shares = {FRONT: front, REAR: 1.0 - front}
    return each_axle(lambda axle: shares[axle] / 2.0 * sections[axle].heat_share)


def _rotors(sections: dict[str, AxleBrakes], grown: Values) -> dict[str, Rotor]:
    found = {axle: rotor_of(one) for axle, one in sections.items()}
    found[FRONT] = replace(
        found[FRONT],
        heat_capacity=found[FRONT].heat_capacity * np.square(grown),
        cooling_area=found[FRONT].cooling_area * np.square(grown),
        radiating_area=found[FRONT].radiating_area * grown,
    )
    return found


def _distance(deceleration: Values, one: BrakeHydraulics) -> Values:
    return stopping.stopping_distance(speed=HUNDRED, deceleration=deceleration, delay=one.delay)


def _pressed(sizing: PedalSizing, bore: str, ratio: float) -> Values:
    """Return the line pressure that the largest foot force of the rules makes."""
    return actuation.pressure_for_pedal_force(
        pedal_force=most_force(),
        pedal_ratio=ratio,
        efficiency=sizing.efficiency,
        bore=master_cylinder_bores()[bore],
        gain=1.0,
        assist=0.0,
    )
