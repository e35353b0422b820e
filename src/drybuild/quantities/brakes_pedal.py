"""The foot's side of the brakes: pedal force and travel, the servo, stops, a failed circuit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.brakes import actuation, pedal, stopping
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.quantities.axles import AXLES, FRONT, REAR, constant, each_axle, of_axle
from drybuild.quantities.brakes import BrakeLine, Stance, pressure_at
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.brakes import HoseExpansion, hose_expansion, stopping_limit
from drybuild.units import STANDARD_GRAVITY

HUNDRED_BAR = 1e7  # [Pa], the pressure that give is stated at
KMH = 1.0 / 3.6  # [m/s]
USUAL = 0.3  # [-], braking rate of a usual stop, that firmness is told at


@dataclass(frozen=True, kw_only=True)
class PedalFeel:
    """All that gives between the foot and the linings."""

    area: Labelled
    gap: Labelled
    give: Labelled
    knee: Values
    slope: Values
    hose_length: Values
    hose: HoseExpansion
    filling: Values
    bulk_modulus: Values
    air: Values
    bore: Values
    ratio: Values
    free_play: Values
    pad_give: Values

    def taken(self, pressure: Values) -> Labelled:
        """Return the fluid that each axle's brakes take at a line pressure. [m³]."""
        behind = actuation.proportioned_pressure(
            pressure=pressure, knee=self.knee, slope=self.slope
        )
        at = {FRONT: pressure, REAR: behind}
        return each_axle(
            lambda axle: pedal.caliper_volume(
                piston_area=self.area[axle],
                gap=self.gap[axle],
                give=self.give[axle],
                pressure=at[axle],
                stated_pressure=HUNDRED_BAR,
            )
        )

    def hoses(self, pressure: Values) -> Values:
        """Return the fluid that the hoses take. [m³]."""
        return actuation.hose_volume(
            pressure=pressure,
            length=self.hose_length,
            printed_pressure=self.hose.pressure,
            printed_volume=self.hose.volume,
        )

    def volume(self, pressure: Values) -> Values:
        """Return all the fluid that a line pressure takes. [m³]."""
        taken = self.taken(pressure)
        fluid = actuation.fluid_volume(
            filling=self.filling, pressure=pressure, bulk_modulus=self.bulk_modulus
        )
        air = pedal.trapped_air_volume(air=self.air, pressure=pressure)
        return taken[FRONT] + taken[REAR] + self.hoses(pressure) + fluid + air

    def travel(self, pressure: Values, force: Values) -> Values:
        """Return the travel of the pad at a line pressure and the foot's force. [m]."""
        moved = actuation.pedal_travel(
            volume=self.volume(pressure), bore=self.bore, pedal_ratio=self.ratio
        )
        return self.free_play + moved + force * self.pad_give


@quantity("N", "Greatest help of the servo", source="limpert")
def booster_assist(brake_hydraulics: BrakeHydraulics) -> Values:
    """Nothing without one; a vacuum servo's falls with the engine's vacuum."""
    if brake_hydraulics.booster == "none":
        return constant(0.0)
    if brake_hydraulics.booster in ("hydraulic", "electric"):
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
    needs_servo(brake_hydraulics)
    knee = actuation.booster_knee(gain=brake_hydraulics.booster_gain, assist=booster_assist)
    return knee / brake_hydraulics.pedal_ratio


@quantity("N", "Pedal force for a 0.9 g stop", source="limpert")
def pedal_force_at_0_9g(
    line_pressure_at_0_9g: Values, booster_assist: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, servo working."""
    return foot_for(line_pressure_at_0_9g, booster_assist, brake_hydraulics)


@quantity("N", "Pedal force for a 0.9 g stop, servo failed", source="limpert")
def pedal_force_without_booster(
    line_pressure_at_0_9g: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden; the same without a servo."""
    return foot_for(line_pressure_at_0_9g, constant(0.0), brake_hydraulics)


@quantity("Pa", "Line pressure at 500 N on the pedal", source="un-r13h", shown="bar")
def line_pressure_at_500_n(booster_assist: Values, brake_hydraulics: BrakeHydraulics) -> Values:
    """Press with the largest foot force that the regulations allow."""
    return pressure_by_foot(constant(most_force()), booster_assist, brake_hydraulics)


@step("Fluid and pedal travel over line pressure", source="limpert")
def pedal_feel(
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brake_piston_area: Labelled,
    laden_brake_line: BrakeLine,
    brake_hydraulics: BrakeHydraulics,
) -> PedalFeel:
    """Gaps, give, hoses, fluid, air and play: what lies between foot and lining."""
    one = brake_hydraulics
    sections = {axle: of_axle(axle, front_brakes, rear_brakes) for axle in AXLES}
    printed = hose_expansion(bore=float(one.hose_bore[0]), low_expansion=one.low_expansion)
    return PedalFeel(
        # A disc needs what its one side's pistons displace at both pads: twice the pad gap is the
        # sliding piston's own travel, and opposed pistons each go half of it. A drum has two.
        area={
            axle: 2.0 * (1.0 if of.kind == "disc" else 2.0) * brake_piston_area[axle]
            for axle, of in sections.items()
        },
        gap={axle: _gap(of) for axle, of in sections.items()},
        give={axle: of.compliance for axle, of in sections.items()},
        knee=laden_brake_line.knee,
        slope=laden_brake_line.slope,
        hose_length=one.hose_share * one.hose_length,
        hose=printed,
        filling=one.filling,
        bulk_modulus=one.bulk_modulus,
        air=one.air if one.has("air") else constant(0.0),
        bore=one.master_cylinder_bore,
        ratio=one.pedal_ratio,
        free_play=one.free_play,
        pad_give=1.0 / one.pedal_stiffness if one.has("pedal_stiffness") else constant(0.0),
    )


@quantity("m³", "Fluid each axle takes at 0.9 g", per="axle", source="limpert", shown="cm³")
def brake_fluid_displaced(pedal_feel: PedalFeel, line_pressure_at_0_9g: Values) -> Labelled:
    """Take-up and give of all its pistons."""
    return pedal_feel.taken(line_pressure_at_0_9g)


@quantity("m³", "Fluid the hoses take at 0.9 g", source="cfr-571-106", shown="cm³")
def hose_fluid_displaced(pedal_feel: PedalFeel, line_pressure_at_0_9g: Values) -> Values:
    """Take a share of the largest expansion that the hose standard allows."""
    return pedal_feel.hoses(line_pressure_at_0_9g)


@quantity("m³", "Fluid that replaces trapped air at 0.9 g", source="limpert", shown="cm³")
def trapped_air_displaced(
    pedal_feel: PedalFeel, line_pressure_at_0_9g: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Bleeding would give it back."""
    if not brake_hydraulics.has("air"):
        raise DoesNotApply(brake_hydraulics.path_of("air"), "no air is known to be in the system")
    return pedal.trapped_air_volume(air=pedal_feel.air, pressure=line_pressure_at_0_9g)


@quantity("m", "Travel of the master cylinder at 0.9 g", source="limpert", shown="mm")
def master_cylinder_travel(pedal_feel: PedalFeel, line_pressure_at_0_9g: Values) -> Values:
    """Brakes, hoses, air and the fluid's own give over the bore."""
    return pedal_feel.volume(line_pressure_at_0_9g) / actuation.bore_area(diameter=pedal_feel.bore)


@quantity("m", "Pedal travel in a 0.9 g stop", source="limpert", shown="mm")
def pedal_travel_at_0_9g(
    pedal_feel: PedalFeel, line_pressure_at_0_9g: Values, pedal_force_at_0_9g: Values
) -> Values:
    """From rest, free play and the give of pedal and bulkhead included."""
    return pedal_feel.travel(line_pressure_at_0_9g, pedal_force_at_0_9g)


@quantity("m", "Pedal travel before the linings touch", source="limpert", shown="mm")
def pedal_travel_to_touch(pedal_feel: PedalFeel) -> Values:
    """Free play, gaps and knock-back."""
    return pedal_feel.travel(constant(0.0), constant(0.0))


@quantity("N/m", "Firmness of the pedal at 0.3 g", source="limpert", shown="N/mm")
def pedal_firmness(
    pedal_feel: PedalFeel,
    laden_brake_line: BrakeLine,
    laden_stance: Stance,
    booster_assist: Values,
    brake_hydraulics: BrakeHydraulics,
) -> Values:
    """Foot force for each metre more: how hard the pedal is in a usual stop, laden."""
    low, high = (
        pressure_at(laden_brake_line, laden_stance, rate) for rate in (USUAL - 0.05, USUAL + 0.05)
    )
    force = [foot_for(one, booster_assist, brake_hydraulics) for one in (low, high)]
    travel = [pedal_feel.travel(at, foot) for at, foot in zip((low, high), force, strict=True)]
    return (force[1] - force[0]) / (travel[1] - travel[0])


@quantity("-", "Share of the pedal's travel used at 0.9 g", source="common-practice", shown="%")
def pedal_travel_share(pedal_travel_at_0_9g: Values, brake_hydraulics: BrakeHydraulics) -> Values:
    """Leave the rest for heat, wear and a failed circuit."""
    return pedal_travel_at_0_9g / brake_hydraulics.pedal_stroke


@quantity("m/s²", "Deceleration at 500 N on the pedal", source="un-r13h")
def pedal_limited_deceleration(
    laden_brake_line: BrakeLine, line_pressure_at_500_n: Values, laden_stance: Stance
) -> Values:
    """Laden, if the tyres held."""
    return laden_brake_line.total(line_pressure_at_500_n) / laden_stance.weight * STANDARD_GRAVITY


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
    return stop_from(100.0, stopping_deceleration, brake_hydraulics)


@quantity("m", "Stopping distance from 80 km/h, dry", source="eec-71-320")
def stopping_distance_80_kmh(
    stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, as the older directive tests it."""
    return stop_from(80.0, stopping_deceleration, brake_hydraulics)


@quantity("m", "Stopping distance from 100 km/h, wet", source="un-r13h")
def wet_stopping_distance_100_kmh(
    wet_stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, no axle locked."""
    return stop_from(100.0, wet_stopping_deceleration, brake_hydraulics)


def _gap(one: AxleBrakes) -> Values:
    """Return the travel before the lining touches; a sliding caliper follows a wobbling disc."""
    pushed = one.kind == "disc" and one.caliper_kind == "fixed" and one.has("knock_back")
    return one.take_up + one.knock_back if pushed else one.take_up


def foot_for(pressure: Values, assist: Values, one: BrakeHydraulics) -> Values:
    """Return the foot force for a line pressure. [N]."""
    return actuation.pedal_force_for_pressure(
        pressure=pressure,
        pedal_ratio=one.pedal_ratio,
        efficiency=one.efficiency,
        bore=one.master_cylinder_bore,
        gain=gain_of(one),
        assist=assist,
    )


def pressure_by_foot(force: Values, assist: Values, one: BrakeHydraulics) -> Values:
    """Return the line pressure that a foot force makes. [Pa]."""
    return actuation.pressure_for_pedal_force(
        pedal_force=force,
        pedal_ratio=one.pedal_ratio,
        efficiency=one.efficiency,
        bore=one.master_cylinder_bore,
        gain=gain_of(one),
        assist=assist,
    )


def gain_of(one: BrakeHydraulics) -> Values:
    """Return the servo's gain, one without a servo. [-]."""
    return constant(1.0) if one.booster == "none" else one.booster_gain


def stop_from(kmh: float, deceleration: Values, one: BrakeHydraulics) -> Values:
    """Return the stopping distance from a speed in km/h. [m]."""
    return stopping.stopping_distance(speed=kmh * KMH, deceleration=deceleration, delay=one.delay)


def needs_servo(one: BrakeHydraulics) -> None:
    """Leave what is asked of servos where there is none."""
    if one.booster == "none":
        raise DoesNotApply(one.path_of("booster"), "there is no servo")


def most_force() -> float:
    """Return the largest foot force that the regulations allow. [N]."""
    return stopping_limit("cold").largest_pedal_force
