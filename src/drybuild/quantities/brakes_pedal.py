"""The foot's side of the brakes: pedal force and travel, the servo, stops, a failed circuit."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.brakes import actuation, stopping
from drybuild.project.brakes import BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import AXLES, FRONT, REAR, constant, of_axle
from drybuild.quantities.brakes import BrakeLine, Stance
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.brakes import hose_expansion, stopping_limit
from drybuild.units import STANDARD_GRAVITY

HUNDRED_BAR = 1e7  # [Pa], the pressure that give is stated at
KMH = 1.0 / 3.6  # [m/s]


@quantity("N", "Greatest help of the servo", source="limpert")
def booster_assist(brake_hydraulics: BrakeHydraulics) -> Values:
    """Nothing without one; a vacuum servo's falls with the engine's vacuum."""
    if brake_hydraulics.booster == "none":
        return constant(0.0)
    if brake_hydraulics.booster == "hydraulic":
        return brake_hydraulics.booster_assist
    return actuation.booster_assist(
        diameter=brake_hydraulics.booster_diameter,
        rod_diameter=brake_hydraulics.booster_rod,
        diaphragms=brake_hydraulics.booster_diaphragms,
        depression=brake_hydraulics.vacuum,
        efficiency=brake_hydraulics.booster_efficiency,
    )


@quantity("N", "Pedal force at the servo's knee", source="limpert")
def booster_knee_pedal_force(booster_assist: Values, brake_hydraulics: BrakeHydraulics) -> Values:
    """Beyond it only the foot adds."""
    _needs_servo(brake_hydraulics)
    knee = actuation.booster_knee(gain=brake_hydraulics.booster_gain, assist=booster_assist)
    return knee / brake_hydraulics.pedal_ratio


@quantity("N", "Pedal force for a 0.9 g stop", source="limpert")
def pedal_force_at_0_9g(
    line_pressure_at_0_9g: Values, booster_assist: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, servo working."""
    return _pedal_force(line_pressure_at_0_9g, booster_assist, brake_hydraulics)


@quantity("N", "Pedal force for a 0.9 g stop, servo failed", source="limpert")
def pedal_force_without_booster(
    line_pressure_at_0_9g: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden; the same without a servo."""
    return _pedal_force(line_pressure_at_0_9g, constant(0.0), brake_hydraulics)


@quantity("Pa", "Line pressure at 500 N on the pedal", source="un-r13h", shown="bar")
def line_pressure_at_500_n(booster_assist: Values, brake_hydraulics: BrakeHydraulics) -> Values:
    """Press with the largest foot force that the regulations allow."""
    return _pressure(constant(_most_force()), booster_assist, brake_hydraulics)


@quantity("m³", "Fluid each axle takes at 0.9 g", per="axle", source="limpert", shown="cm³")
def brake_fluid_displaced(
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brake_piston_area: Labelled,
    line_pressure_at_0_9g: Values,
    brake_hydraulics: BrakeHydraulics,
) -> Labelled:
    """Take-up and give of all its pistons."""
    pressures = {FRONT: line_pressure_at_0_9g, REAR: line_pressure_at_0_9g}
    if brake_hydraulics.has("valve_knee"):
        pressures[REAR] = actuation.proportioned_pressure(
            pressure=line_pressure_at_0_9g,
            knee=brake_hydraulics.valve_knee,
            slope=brake_hydraulics.valve_slope,
        )
    found = {}
    for axle in AXLES:
        one = of_axle(axle, front_brakes, rear_brakes)
        travel = one.take_up + one.compliance * pressures[axle] / HUNDRED_BAR
        # A disc needs what its one side's pistons displace at both pads: twice the pad gap is the
        # sliding piston's own travel, and opposed pistons each go half of it. A drum has two.
        sides = 1.0 if one.kind == "disc" else 2.0
        found[axle] = 2.0 * sides * brake_piston_area[axle] * travel
    return found


@quantity("m³", "Fluid the hoses take at 0.9 g", source="cfr-571-106", shown="cm³")
def hose_fluid_displaced(
    line_pressure_at_0_9g: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Take a share of the largest expansion that the hose standard allows."""
    printed = hose_expansion(
        bore=float(brake_hydraulics.hose_bore[0]), low_expansion=brake_hydraulics.low_expansion
    )
    largest = actuation.hose_volume(
        pressure=line_pressure_at_0_9g,
        length=brake_hydraulics.hose_length,
        printed_pressure=printed.pressure,
        printed_volume=printed.volume,
    )
    return brake_hydraulics.hose_share * largest


@quantity("m", "Travel of the master cylinder at 0.9 g", source="limpert", shown="mm")
def master_cylinder_travel(
    brake_fluid_displaced: Labelled,
    hose_fluid_displaced: Values,
    line_pressure_at_0_9g: Values,
    brake_hydraulics: BrakeHydraulics,
) -> Values:
    """Brakes, hoses and the fluid's own give over the bore."""
    fluid = actuation.fluid_volume(
        filling=brake_hydraulics.filling,
        pressure=line_pressure_at_0_9g,
        bulk_modulus=brake_hydraulics.bulk_modulus,
    )
    volume = brake_fluid_displaced[FRONT] + brake_fluid_displaced[REAR]
    total = volume + hose_fluid_displaced + fluid
    return total / actuation.bore_area(diameter=brake_hydraulics.master_cylinder_bore)


@quantity("m", "Pedal travel in a 0.9 g stop", source="limpert", shown="mm")
def pedal_travel_at_0_9g(
    master_cylinder_travel: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """From rest, free play left out."""
    return master_cylinder_travel * brake_hydraulics.pedal_ratio


@quantity("-", "Share of the pedal's travel used at 0.9 g", source="common-practice", shown="%")
def pedal_travel_share(pedal_travel_at_0_9g: Values, brake_hydraulics: BrakeHydraulics) -> Values:
    """Leave the rest for heat, wear and a failed circuit."""
    return pedal_travel_at_0_9g / brake_hydraulics.pedal_stroke


@quantity("m/s²", "Deceleration at 500 N on the pedal", source="un-r13h")
def pedal_limited_deceleration(
    brake_line: BrakeLine, line_pressure_at_500_n: Values, laden_stance: Stance
) -> Values:
    """Laden, if the tyres held."""
    return brake_line.total(line_pressure_at_500_n) / laden_stance.weight * STANDARD_GRAVITY


@quantity("m/s²", "Deceleration of a full stop, dry", source="un-r13h")
def stopping_deceleration(
    pedal_limited_deceleration: Values, attainable_deceleration: Values
) -> Values:
    """Laden: what 500 N on the pedal gives, before an axle locks."""
    return np.minimum(pedal_limited_deceleration, attainable_deceleration)


@quantity("m/s²", "Deceleration of a full stop, wet", source="un-r13h")
def wet_stopping_deceleration(
    pedal_limited_deceleration: Values, wet_attainable_deceleration: Values
) -> Values:
    """Laden: what 500 N on the pedal gives, before an axle locks."""
    return np.minimum(pedal_limited_deceleration, wet_attainable_deceleration)


@quantity("-", "Brake effort over weight, as an inspection sees it", source="dvsa-mot", shown="%")
def inspection_brake_effort(stopping_deceleration: Values) -> Values:
    """All wheels' effort before one locks, over the laden weight."""
    return stopping_deceleration / STANDARD_GRAVITY


@quantity("m/s²", "Mean fully developed deceleration from 100 km/h", source="grrf-56-3")
def mean_fully_developed_deceleration(
    stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Over distance, from 0.8 to 0.1 of the speed, as the regulations average it."""
    speed = 100.0 * KMH
    run = speed * brake_hydraulics.delay

    def distance(share: float) -> Values:
        return run + (1.0 - share**2) * speed**2 / (2.0 * stopping_deceleration)

    return stopping.mean_fully_developed_deceleration(
        speed_begin=0.8 * speed,
        speed_end=0.1 * speed,
        distance_begin=distance(0.8),
        distance_end=distance(0.1),
    )


@quantity("m", "Stopping distance from 100 km/h, dry", source="un-r13h")
def stopping_distance_100_kmh(
    stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, no axle locked, from the moment the foot meets the pedal."""
    return _stop(100.0, stopping_deceleration, brake_hydraulics)


@quantity("m", "Stopping distance from 80 km/h, dry", source="eec-71-320")
def stopping_distance_80_kmh(
    stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, as the older directive tests it."""
    return _stop(80.0, stopping_deceleration, brake_hydraulics)


@quantity("m", "Stopping distance from 100 km/h, wet", source="un-r13h")
def wet_stopping_distance_100_kmh(
    wet_stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, no axle locked."""
    return _stop(100.0, wet_stopping_deceleration, brake_hydraulics)


@quantity("m/s²", "Deceleration with the servo failed", source="un-r13h")
def deceleration_without_booster(
    brake_line: BrakeLine,
    laden_stance: Stance,
    attainable_deceleration: Values,
    brake_hydraulics: BrakeHydraulics,
) -> Values:
    """Laden, 500 N on the pedal."""
    _needs_servo(brake_hydraulics)
    pressure = _pressure(constant(_most_force()), constant(0.0), brake_hydraulics)
    reached = brake_line.total(pressure) / laden_stance.weight * STANDARD_GRAVITY
    return np.minimum(reached, attainable_deceleration)


@quantity("m/s²", "Deceleration with a circuit failed", per="circuit", source="un-r13h")
def secondary_deceleration(
    brake_line: BrakeLine,
    line_pressure_at_500_n: Values,
    laden_stance: Stance,
    tyres: Tyres,
    brake_hydraulics: BrakeHydraulics,
) -> Labelled:
    """Laden, 500 N on the pedal, what is left before it locks; the label names what failed."""
    whole = {FRONT: brake_line.front(line_pressure_at_500_n)}
    whole[REAR] = brake_line.rear(line_pressure_at_500_n)
    car, adhesion = laden_stance, tyres.adhesion
    if brake_hydraulics.circuits == "single":
        return {"the only circuit": np.zeros_like(car.weight)}
    share = 1.0
    left: dict[str, tuple[str, ...]] = {"rear circuit": (FRONT,), "front circuit": (REAR,)}
    if brake_hydraulics.circuits == "diagonal":
        share, left = 0.5, {"either diagonal": AXLES}
    found = {}
    for failed, working in left.items():
        force = sum((whole[axle] * share for axle in working), np.zeros_like(car.weight))
        rate = np.minimum(force / car.weight, _tyres_hold(working, share, whole, car, adhesion))
        found[failed] = rate * STANDARD_GRAVITY
    return found


def _tyres_hold(
    working: tuple[str, ...],
    share: float,
    whole: Labelled,
    car: Stance,
    adhesion: Values,
) -> Values:
    """Return the braking rate at which the first working axle locks, by its share of the force."""
    total = whole[FRONT] + whole[REAR]
    front = whole[FRONT] / total if len(working) == 2 else constant(float(working[0] == FRONT))
    # One wheel of an axle holds half of what the axle would.
    grip = adhesion * share
    limits = []
    for axle in working:
        own, carried = (
            (front, car.front_share) if axle == FRONT else (1 - front, 1 - car.front_share)
        )
        sign = 1.0 if axle == FRONT else -1.0
        spare = own - sign * grip * car.height_ratio
        limits.append(grip * carried / np.where(spare > 0.0, spare, np.nan))
    return np.fmin(*limits) if len(limits) == 2 else limits[0]


def _pedal_force(pressure: Values, assist: Values, one: BrakeHydraulics) -> Values:
    return actuation.pedal_force_for_pressure(
        pressure=pressure,
        pedal_ratio=one.pedal_ratio,
        efficiency=one.efficiency,
        bore=one.master_cylinder_bore,
        gain=_gain(one),
        assist=assist,
    )


def _pressure(force: Values, assist: Values, one: BrakeHydraulics) -> Values:
    return actuation.pressure_for_pedal_force(
        pedal_force=force,
        pedal_ratio=one.pedal_ratio,
        efficiency=one.efficiency,
        bore=one.master_cylinder_bore,
        gain=_gain(one),
        assist=assist,
    )


def _gain(one: BrakeHydraulics) -> Values:
    return constant(1.0) if one.booster == "none" else one.booster_gain


def _stop(kmh: float, deceleration: Values, one: BrakeHydraulics) -> Values:
    return stopping.stopping_distance(speed=kmh * KMH, deceleration=deceleration, delay=one.delay)


def _needs_servo(one: BrakeHydraulics) -> None:
    if one.booster == "none":
        raise DoesNotApply(one.path_of("booster"), "there is no servo")


def _most_force() -> float:
    return stopping_limit("cold").largest_pedal_force
