"""Brakes from line pressure to road: factors, shares, adhesion used, what locks when."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drybuild.physics.brakes import actuation, balance, friction, pressures, shoes, valve
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import AXLES, FRONT, REAR, constant, each_axle, of_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.units import STANDARD_GRAVITY

HARD_STOP = 0.9  # [-], braking rate of the stop that pedal and balance are judged at
RATES = (0.2, 0.4, 0.6, 0.8)
"""Braking rates at which the adhesion used is tabulated. [-]"""
ADHESIONS = (0.2, 0.4, 0.6, 0.8)
"""Adhesions at which the older directive's least rate is asked. [-]"""


@dataclass(frozen=True, kw_only=True)
class BrakeLine:
    """Braking force at the road over line pressure, valve and thresholds included."""

    gain: Labelled
    """Force of an axle for each pascal at its brakes. [N/Pa]"""
    threshold: Labelled
    knee: Values
    slope: Values

    def front(self, pressure: Values) -> Values:
        """Return the front axle's braking force. [N]."""
        return self.gain[FRONT] * np.maximum(pressure - self.threshold[FRONT], 0.0)

    def rear(self, pressure: Values) -> Values:
        """Return the rear axle's braking force. [N]."""
        behind = actuation.proportioned_pressure(
            pressure=pressure, knee=self.knee, slope=self.slope
        )
        return self.gain[REAR] * np.maximum(behind - self.threshold[REAR], 0.0)

    @property
    def kinks(self) -> tuple[Values, ...]:
        """Line pressures at which the slope of either force changes. [Pa]."""
        rear = self.threshold[REAR]
        held = rear > self.knee
        # Without a valve the knee is infinite and nothing is held; the slope then divides nothing.
        with np.errstate(all="ignore"):
            behind = np.where(held, self.knee + (rear - self.knee) / self.slope, rear)
        return (self.threshold[FRONT], behind, self.knee)

    def total(self, pressure: Values) -> Values:
        """Return the braking force of both axles. [N]."""
        return self.front(pressure) + self.rear(pressure)


@dataclass(frozen=True, kw_only=True)
class Stance:
    """What the balance needs to know of the car."""

    weight: Values
    front_share: Values
    height_ratio: Values


@step("The car at kerb weight, for the balance", source="definition", aggregate=True)
def kerb_stance(axle_load: Labelled, cg_height: Values, wheelbase: Values) -> Stance:
    """At kerb weight the rear is at its lightest."""
    return _stance(axle_load, cg_height, wheelbase)


@step("The laden car, for the balance", source="definition", aggregate=True)
def laden_stance(laden_axle_load: Labelled, laden_cg_height: Values, wheelbase: Values) -> Stance:
    """With people and luggage."""
    return _stance(laden_axle_load, laden_cg_height, wheelbase)


@quantity("m", "Radius at which the linings act", per="axle", source="shigley", shown="mm")
def brake_effective_radius(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Bedded pads: the middle of the pad; drums: the inside radius."""
    return each_axle(lambda axle: _radius(of_axle(axle, front_brakes, rear_brakes)))


@quantity("m", "Diameter of the disc or drum", per="axle", source="the-build-file", shown="mm")
def rotor_diameter(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Outside of the disc, inside of the drum."""
    return each_axle(lambda axle: of_axle(axle, front_brakes, rear_brakes).rotor_diameter)


@quantity("-", "Brake factor", per="axle", source="limpert")
def brake_factor(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Drag of all linings over the force of one side's pistons."""
    return each_axle(lambda axle: _factor(of_axle(axle, front_brakes, rear_brakes)))


@quantity("-", "Brake factor's change over the friction's", per="axle", source="limpert")
def brake_factor_sensitivity(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """One for discs; the more, the more a drum fades and pulls to one side."""
    small = 1e-3

    def sensitivity(axle: str) -> Values:
        one = of_axle(axle, front_brakes, rear_brakes)
        less, same, more = (_by_friction(one, 1.0 + step) for step in (-small, 0.0, small))
        return (more - less) / (2.0 * small) / same

    return each_axle(sensitivity)


@quantity("m²", "Piston area on one side", per="axle", source="limpert", shown="cm²")
def brake_piston_area(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Pistons of one side of the disc, or one piston of the wheel cylinder."""

    def area(axle: str) -> Values:
        one = of_axle(axle, front_brakes, rear_brakes)
        count = one.pistons if one.kind == "disc" else constant(1.0)
        return count * actuation.bore_area(diameter=one.piston_diameter)

    return each_axle(area)


@step("Braking force over line pressure", source="limpert")
def brake_line(
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brake_piston_area: Labelled,
    brake_factor: Labelled,
    brake_effective_radius: Labelled,
    static_radius: Labelled,
    brake_hydraulics: BrakeHydraulics,
) -> BrakeLine:
    """Two brakes an axle; without a valve its knee never comes."""
    gain = each_axle(
        lambda axle: (
            2.0
            * brake_factor[axle]
            * brake_piston_area[axle]
            * brake_effective_radius[axle]
            / static_radius[axle]
        )
    )
    valve = brake_hydraulics.has("valve_knee")
    return BrakeLine(
        gain=gain,
        threshold=each_axle(
            lambda axle: of_axle(axle, front_brakes, rear_brakes).threshold_pressure
        ),
        knee=brake_hydraulics.valve_knee if valve else constant(np.inf),
        slope=brake_hydraulics.valve_slope if valve else constant(1.0),
    )


@step("Braking force over line pressure, laden", source="limpert", aggregate=True)
def laden_brake_line(
    brake_line: BrakeLine,
    kerb_stance: Stance,
    laden_stance: Stance,
    brake_hydraulics: BrakeHydraulics,
) -> BrakeLine:
    """Take the same for a fixed valve; one that feels load or deceleration has moved its knee."""
    if not brake_hydraulics.has("valve_knee") or brake_hydraulics.valve == "fixed":
        return brake_line
    if brake_hydraulics.valve == "deceleration-sensing":
        return replace(brake_line, knee=_knee_by_rate(brake_line, kerb_stance, laden_stance))
    if brake_hydraulics.has("laden_valve_knee"):
        return replace(brake_line, knee=brake_hydraulics.laden_valve_knee)
    knee = valve.knee_by_load(
        knee=brake_line.knee,
        light_load=kerb_stance.weight * (1.0 - kerb_stance.front_share),
        load=laden_stance.weight * (1.0 - laden_stance.front_share),
    )
    return replace(brake_line, knee=knee)


@quantity("Pa", "Line pressure for a 0.9 g stop, laden", source="limpert", shown="bar")
def line_pressure_at_0_9g(laden_brake_line: BrakeLine, laden_stance: Stance) -> Values:
    """Master cylinder pressure; whether the tyres can hold it is another question."""
    return pressure_at(laden_brake_line, laden_stance, HARD_STOP)


@quantity("N·m", "Torque of one brake in a 0.9 g stop", per="axle", source="limpert")
def brake_torque(
    laden_brake_line: BrakeLine, line_pressure_at_0_9g: Values, static_radius: Labelled
) -> Labelled:
    """Laden; one of the axle's two brakes."""
    forces = {FRONT: laden_brake_line.front, REAR: laden_brake_line.rear}
    return each_axle(lambda axle: forces[axle](line_pressure_at_0_9g) * static_radius[axle] / 2.0)


@quantity("-", "Front share of braking in a 0.9 g stop", source="limpert", shown="%")
def front_brake_share(brake_line: BrakeLine, kerb_stance: Stance) -> Values:
    """At kerb weight, valve and thresholds included."""
    return share_at(brake_line, kerb_stance, HARD_STOP)


@quantity("-", "Ideal front share at 0.9 g, kerb weight", source="limpert", shown="%")
def ideal_front_brake_share(kerb_stance: Stance) -> Values:
    """Share at which both axles use the same adhesion."""
    return _ideal(kerb_stance)


@quantity("-", "Ideal front share at 0.9 g, laden", source="limpert", shown="%")
def ideal_front_brake_share_laden(laden_stance: Stance) -> Values:
    """Share at which both axles use the same adhesion."""
    return _ideal(laden_stance)


@quantity("-", "Front share beyond the ideal at 0.9 g", source="limpert", shown="%")
def front_brake_share_margin(front_brake_share: Values, ideal_front_brake_share: Values) -> Values:
    """Positive: the front axle locks first, and the car stays straight."""
    return front_brake_share - ideal_front_brake_share


@step("Adhesion that each axle needs", source="eec-71-320-read")
def adhesion_used(brake_line: BrakeLine, kerb_stance: Stance) -> dict[str, Labelled]:
    """At kerb weight, by axle and braking rate in g."""
    return _adhesion_by_rate(brake_line, kerb_stance)


@step("Adhesion that each axle needs, laden", source="eec-71-320-read")
def laden_adhesion_used(laden_brake_line: BrakeLine, laden_stance: Stance) -> dict[str, Labelled]:
    """By axle and braking rate in g."""
    return _adhesion_by_rate(laden_brake_line, laden_stance)


@quantity("-", "Adhesion the front needs", per="braking rate", source="eec-71-320-read")
def front_adhesion_used(adhesion_used: dict[str, Labelled]) -> Labelled:
    """At kerb weight, by braking rate in g."""
    return adhesion_used[FRONT]


@quantity("-", "Adhesion the rear needs", per="braking rate", source="eec-71-320-read")
def rear_adhesion_used(adhesion_used: dict[str, Labelled]) -> Labelled:
    """At kerb weight, by braking rate in g."""
    return adhesion_used[REAR]


@quantity(
    "-",
    "Adhesion that the front needs beyond the rear's",
    per="braking rate",
    source="eec-71-320-read",
)
def front_adhesion_lead(front_adhesion_used: Labelled, rear_adhesion_used: Labelled) -> Labelled:
    """Positive: the front axle locks first at that rate."""
    return {
        rate: front_adhesion_used[rate] - rear_adhesion_used[rate] for rate in front_adhesion_used
    }


@quantity(
    "-",
    "Adhesion that the front needs beyond the rear's, laden",
    per="braking rate",
    source="eec-71-320-read",
)
def laden_front_adhesion_lead(laden_adhesion_used: dict[str, Labelled]) -> Labelled:
    """Positive: the front axle locks first at that rate."""
    front, rear = (laden_adhesion_used[axle] for axle in AXLES)
    return {rate: front[rate] - rear[rate] for rate in front}


@quantity("m/s²", "Deceleration at which each axle locks, dry", per="axle", source="limpert")
def lock_deceleration(brake_line: BrakeLine, kerb_stance: Stance, tyres: Tyres) -> Labelled:
    """At kerb weight; the smaller is what the car reaches without locking."""
    return _lock(brake_line, kerb_stance, tyres.adhesion)


@quantity("m/s²", "Deceleration at which each axle locks, wet", per="axle", source="limpert")
def wet_lock_deceleration(brake_line: BrakeLine, kerb_stance: Stance, tyres: Tyres) -> Labelled:
    """At kerb weight; the smaller is what the car reaches without locking."""
    return _lock(brake_line, kerb_stance, tyres.wet_adhesion)


@quantity("m/s²", "Deceleration at which both axles lock together", source="limpert")
def critical_deceleration(front_brake_share: Values, kerb_stance: Stance) -> Values:
    """By the share at 0.9 g; below it the front locks first. Negative: always the rear."""
    rate = balance.critical_braking_rate(
        brake_share=front_brake_share,
        front_share=kerb_stance.front_share,
        height_ratio=kerb_stance.height_ratio,
    )
    return rate * STANDARD_GRAVITY


@quantity("-", "Share of the dry adhesion used before an axle locks", source="gillespie", shown="%")
def braking_efficiency(lock_deceleration: Labelled, tyres: Tyres) -> Values:
    """One on the ideal curve."""
    return _first(lock_deceleration) / STANDARD_GRAVITY / tyres.adhesion


@quantity("-", "Share of the wet adhesion used before an axle locks", source="gillespie", shown="%")
def wet_braking_efficiency(wet_lock_deceleration: Labelled, tyres: Tyres) -> Values:
    """One on the ideal curve."""
    return _first(wet_lock_deceleration) / STANDARD_GRAVITY / tyres.wet_adhesion


@quantity("-", "Braking rate before an axle locks", per="adhesion", source="eec-71-320-read")
def rate_by_adhesion(brake_line: BrakeLine, kerb_stance: Stance) -> Labelled:
    """At kerb weight, on roads of four adhesions."""
    locked = _lock(brake_line, kerb_stance, np.array(ADHESIONS)[:, np.newaxis])
    rows = _first(locked) / STANDARD_GRAVITY
    return {f"{adhesion:g}": row for adhesion, row in zip(ADHESIONS, rows, strict=True)}


@quantity("-", "Braking rate before an axle locks, laden", per="adhesion", source="eec-71-320-read")
def laden_rate_by_adhesion(laden_brake_line: BrakeLine, laden_stance: Stance) -> Labelled:
    """On roads of four adhesions."""
    locked = _lock(laden_brake_line, laden_stance, np.array(ADHESIONS)[:, np.newaxis])
    rows = _first(locked) / STANDARD_GRAVITY
    return {f"{adhesion:g}": row for adhesion, row in zip(ADHESIONS, rows, strict=True)}


@quantity("-", "Least braking rate of the older directive", per="adhesion", source="eec-71-320")
def least_rate_by_adhesion() -> Labelled:
    """0.1 + 0.85 (k − 0.2)."""
    return {
        f"{adhesion:g}": balance.least_rate_eec_71_320(adhesion=constant(adhesion))
        for adhesion in ADHESIONS
    }


@quantity("m/s²", "Deceleration the laden car's tyres allow, dry", source="limpert")
def attainable_deceleration(
    laden_brake_line: BrakeLine, laden_stance: Stance, tyres: Tyres
) -> Values:
    """Before the first axle locks."""
    return attainable(laden_brake_line, laden_stance, tyres.adhesion)


@quantity("m/s²", "Deceleration the laden car's tyres allow, wet", source="limpert")
def wet_attainable_deceleration(
    laden_brake_line: BrakeLine, laden_stance: Stance, tyres: Tyres
) -> Values:
    """Before the first axle locks."""
    return attainable(laden_brake_line, laden_stance, tyres.wet_adhesion)


def _stance(load: Labelled, height: Values, wheelbase: Values) -> Stance:
    total = load[FRONT] + load[REAR]
    return Stance(
        weight=total * STANDARD_GRAVITY,
        front_share=load[FRONT] / total,
        height_ratio=height / wheelbase,
    )


def _radius(one: AxleBrakes) -> Values:
    if one.kind != "disc":
        return one.rotor_diameter / 2.0
    if one.has("effective_radius"):
        return one.effective_radius
    outer = one.rotor_diameter / 2.0
    return friction.effective_radius_uniform_wear(
        outer_radius=outer, inner_radius=outer - one.pad_height
    )


def _factor(one: AxleBrakes) -> Values:
    if one.kind != "disc" and one.has("brake_factor"):
        return one.brake_factor
    return _by_friction(one, 1.0)


def _by_friction(one: AxleBrakes, scale: float) -> Values:
    """Return the factor from friction and arms, with the friction scaled."""
    if one.kind == "disc":
        return friction.disc_brake_factor(friction=one.friction * scale)
    return drum_factor(one, one.kind, one.friction * scale)


def drum_factor(one: AxleBrakes, kind: str, coefficient: Values) -> Values:
    """Return the factor of a drum of some kind with this brake's arms."""
    arms = {
        "friction": coefficient,
        "actuation_arm": one.shoe_actuation,
        "normal_arm": one.shoe_normal,
        "friction_arm": one.shoe_friction,
    }
    if kind == "duo-servo":
        return friction.duo_servo_factor(**arms)
    if one.shoes == "pinned":
        leading, trailing = shoes.pinned_shoe_factors(
            friction=coefficient,
            actuation_arm=one.shoe_actuation,
            hinge_radius=one.shoe_normal,
            lining_arc=one.lining_arc,
        )
    else:
        leading = friction.leading_shoe_factor(**arms)
        trailing = friction.trailing_shoe_factor(**arms)
    if kind == "duplex":
        return friction.duplex_factor(leading=leading)
    return friction.simplex_factor(leading=leading, trailing=trailing)


def pressure_at(line: BrakeLine, car: Stance, rate: float | Values) -> Values:
    """Return the line pressure for a braking rate, or a row for each of several."""
    return pressures.pressure_for_force(
        force=rate * car.weight, force_at=line.total, kinks=line.kinks
    )


def attainable(line: BrakeLine, car: Stance, adhesion: Values) -> Values:
    """Return the deceleration before the first axle locks. [m/s²]."""
    return _first(_lock(line, car, adhesion))


def share_at(line: BrakeLine, car: Stance, rate: float | Values) -> Values:
    """Return the front share of braking at a braking rate, or a row for each of several."""
    pressure = pressure_at(line, car, rate)
    return line.front(pressure) / line.total(pressure)


def _knee_by_rate(line: BrakeLine, kerb: Stance, laden: Stance) -> Values:
    """Return the pressure at which the laden car brakes as the light one does at its knee."""
    rate = line.total(line.knee) / kerb.weight
    free = replace(line, knee=constant(np.inf), slope=constant(1.0))
    return pressure_at(free, laden, rate)


def _adhesion_by_rate(line: BrakeLine, car: Stance) -> dict[str, Labelled]:
    both = adhesions_at(line, car, np.array(RATES)[:, np.newaxis])
    names = [f"{rate:g} g" for rate in RATES]
    return {
        axle: dict(zip(names, rows, strict=True)) for axle, rows in zip(AXLES, both, strict=True)
    }


def _ideal(car: Stance) -> Values:
    return balance.ideal_front_share(
        front_share=car.front_share, height_ratio=car.height_ratio, braking_rate=HARD_STOP
    )


def adhesions_at(line: BrakeLine, car: Stance, rate: Values) -> tuple[Values, Values]:
    """Return the adhesion that front and rear need at a braking rate, or at several."""
    share = share_at(line, car, rate)
    front = balance.front_adhesion_used(
        front_force=share * rate,
        front_share=car.front_share,
        height_ratio=car.height_ratio,
        braking_rate=rate,
    )
    rear = balance.rear_adhesion_used(
        rear_force=(1.0 - share) * rate,
        front_share=car.front_share,
        height_ratio=car.height_ratio,
        braking_rate=rate,
    )
    return front, rear


def _lock(line: BrakeLine, car: Stance, adhesion: Values) -> Labelled:
    found = {}
    for place, axle in enumerate(AXLES):
        pressure = pressures.lock_pressure(
            front_force_at=line.front,
            rear_force_at=line.rear,
            kinks=line.kinks,
            axle=place,
            adhesion=adhesion,
            weight=car.weight,
            front_share=car.front_share,
            height_ratio=car.height_ratio,
        )
        found[axle] = line.total(pressure) / car.weight * STANDARD_GRAVITY
    return found


def _first(locked: Labelled) -> Values:
    """Return the smaller deceleration; an axle that never locks does not limit."""
    return np.fmin(locked[FRONT], locked[REAR])
