"""Failed brakes: no help from the servo, one circuit empty, drums held by a residual valve."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.brakes import pedal
from drybuild.project.brakes import BrakeHydraulics, RearBrakes
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, constant
from drybuild.quantities.brakes import BrakeLine, Stance, pressure_at
from drybuild.quantities.brakes_pedal import (
    PedalFeel,
    foot_for,
    most_force,
    needs_servo,
    pressure_by_foot,
    stop_from,
)
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.brakes import stopping_limit
from drybuild.units import STANDARD_GRAVITY


@dataclass(frozen=True, kw_only=True)
class Left:
    """What of an axle's brakes still works when a circuit has failed."""

    force: float
    """Share of the axle's braking force, and of its fluid. [-]"""
    grip: float
    """Share of the axle's wheels that brake. [-]"""


WHOLE, ONE_WHEEL, HALF_PISTONS = (
    Left(force=1.0, grip=1.0),
    Left(force=0.5, grip=0.5),
    Left(force=0.5, grip=1.0),
)
CIRCUITS: dict[str, dict[str, dict[str, Left]]] = {
    "front and rear": {"rear circuit": {FRONT: WHOLE}, "front circuit": {REAR: WHOLE}},
    "diagonal": {"either diagonal": {FRONT: ONE_WHEEL, REAR: ONE_WHEEL}},
    "front halves and a rear wheel each": {
        "either circuit": {FRONT: HALF_PISTONS, REAR: ONE_WHEEL}
    },
    "front halves, one with the rear": {
        "circuit with the rear": {FRONT: HALF_PISTONS},
        "circuit without the rear": {FRONT: HALF_PISTONS, REAR: WHOLE},
    },
}
"""What is left of each axle, by the split and by what failed."""


@quantity(
    "-", "Share of the pedal's travel used when a circuit fails", per="circuit", source="limpert",
    shown="%",
)  # fmt: skip
def pedal_travel_share_circuit_failed(
    pedal_feel: PedalFeel, line_pressure_at_0_9g: Values, brake_hydraulics: BrakeHydraulics
) -> Labelled:
    """At the line pressure of a 0.9 g stop: the empty piston runs to its stop first."""
    if brake_hydraulics.circuits == "single":
        raise DoesNotApply(brake_hydraulics.path_of("circuits"), "there is one circuit only")
    taken = pedal_feel.taken(line_pressure_at_0_9g)
    all_of = taken[FRONT] + taken[REAR]
    beside = pedal_feel.volume(line_pressure_at_0_9g) - all_of
    found = {}
    for failed, left in CIRCUITS[brake_hydraulics.circuits].items():
        own = sum((left[axle].force * taken[axle] for axle in left), 0.0 * all_of)
        travel = pedal.travel_with_a_lost_circuit(
            chamber_stroke=brake_hydraulics.chamber_stroke,
            working_volume=own + beside * own / all_of,
            bore=pedal_feel.bore,
            pedal_ratio=pedal_feel.ratio,
            free_play=pedal_feel.free_play,
        )
        found[failed] = travel / brake_hydraulics.pedal_stroke
    return found


@quantity("Pa", "Pressure by which the drums let go over a residual valve", source="limpert",
          shown="bar")  # fmt: skip
def residual_pressure_margin(rear_brakes: RearBrakes, brake_hydraulics: BrakeHydraulics) -> Values:
    """Springs must pull the shoes off against what the valve keeps in the line."""
    if not brake_hydraulics.has("residual_pressure"):
        raise DoesNotApply(brake_hydraulics.path_of("residual_pressure"), "there is no such valve")
    return rear_brakes.threshold_pressure - brake_hydraulics.residual_pressure


@quantity("m/s²", "Deceleration with the servo failed", source="un-r13h")
def deceleration_without_booster(
    laden_brake_line: BrakeLine,
    laden_stance: Stance,
    attainable_deceleration: Values,
    brake_hydraulics: BrakeHydraulics,
) -> Values:
    """Laden, 500 N on the pedal."""
    needs_servo(brake_hydraulics)
    pressure = pressure_by_foot(constant(most_force()), constant(0.0), brake_hydraulics)
    reached = laden_brake_line.total(pressure) / laden_stance.weight * STANDARD_GRAVITY
    return np.minimum(reached, attainable_deceleration)


@quantity("m", "Stopping distance from 100 km/h, servo failed", source="un-r13h")
def stopping_distance_without_booster(
    deceleration_without_booster: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, 500 N on the pedal."""
    return stop_from(100.0, deceleration_without_booster, brake_hydraulics)


@quantity("N", "Pedal force for 2.44 m/s², servo failed", source="un-r13h")
def secondary_pedal_force_without_booster(
    laden_brake_line: BrakeLine, laden_stance: Stance, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden: the foot that the regulation's secondary stop takes with no help at all."""
    needs_servo(brake_hydraulics)
    least = stopping_limit("secondary").deceleration / STANDARD_GRAVITY
    pressure = pressure_at(laden_brake_line, laden_stance, least)
    return foot_for(pressure, constant(0.0), brake_hydraulics)


@quantity("m/s²", "Deceleration with a circuit failed", per="circuit", source="un-r13h")
def secondary_deceleration(
    laden_brake_line: BrakeLine,
    line_pressure_at_500_n: Values,
    laden_stance: Stance,
    tyres: Tyres,
    brake_hydraulics: BrakeHydraulics,
) -> Labelled:
    """Laden, 500 N on the pedal, what is left before it locks; the label names what failed."""
    whole = {FRONT: laden_brake_line.front(line_pressure_at_500_n)}
    whole[REAR] = laden_brake_line.rear(line_pressure_at_500_n)
    car = laden_stance
    if brake_hydraulics.circuits == "single":
        return {"the only circuit": np.zeros_like(car.weight)}
    found = {}
    for failed, left in CIRCUITS[brake_hydraulics.circuits].items():
        forces = {axle: one.force * whole[axle] for axle, one in left.items()}
        rate = sum(forces.values(), np.zeros_like(car.weight)) / car.weight
        hold = _tyres_hold(forces, left, car, tyres.adhesion)
        found[failed] = np.minimum(rate, hold) * STANDARD_GRAVITY
    return found


@quantity("m", "Stopping distance from 100 km/h, a circuit failed", per="circuit", source="un-r13h")
def secondary_stopping_distance(
    secondary_deceleration: Labelled, brake_hydraulics: BrakeHydraulics
) -> Labelled:
    """Laden, 500 N on the pedal."""
    if brake_hydraulics.circuits == "single":
        raise DoesNotApply(brake_hydraulics.path_of("circuits"), "no brake is left")
    return {
        failed: stop_from(100.0, one, brake_hydraulics)
        for failed, one in secondary_deceleration.items()
    }


def _tyres_hold(
    forces: Labelled, left: Mapping[str, Left], car: Stance, adhesion: Values
) -> Values:
    """Return the braking rate at which the first working axle locks, by its share of the force."""
    total = sum(forces.values(), np.zeros_like(car.weight))
    limits = []
    for axle, force in forces.items():
        carried = car.front_share if axle == FRONT else 1.0 - car.front_share
        sign = 1.0 if axle == FRONT else -1.0
        # One wheel of an axle holds half of what the axle would.
        grip = adhesion * left[axle].grip
        spare = force / total - sign * grip * car.height_ratio
        limits.append(grip * carried / np.where(spare > 0.0, spare, np.nan))
    return np.fmin(*limits) if len(limits) == 2 else limits[0]
