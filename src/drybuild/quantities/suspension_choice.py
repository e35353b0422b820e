"""Rates to order: springs, bars and dampers for the ride, roll and damping that the brief wants."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics import coil_springs, spring_choice
from drybuild.physics.anti_roll_bars import BarShape, bar_diameter_for, bar_shape
from drybuild.physics.dampers import DamperCurve, damper_curve
from drybuild.physics.springs import coil_shear_stress, leaf_spring_rate, wahl_factor
from drybuild.physics.suspension import independent_roll_stiffness
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.suspension import Dampers, FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.suspension import spring_base
from drybuild.quantities.suspension_springs import bar_line
from drybuild.tables.suspension import Layout

CYCLES = 1.0
"""Both ends come into step after so many cycles of the front."""
LEAD = 0.05
"""Front share of the roll stiffness over its share of the weight; Milliken's start value."""
COIL_DIAMETER = 0.115
"""Mean diameter of a coil where none is given: room inside for a damper; common practice. [m]"""


@quantity("Hz", "Ride frequency wanted, laden", per="axle", source="gillespie-ride")
def wanted_ride_frequency(brief: Brief, wheelbase: Values) -> Labelled:
    """Return the front's from the brief; the rear's brings both into step after a bump."""
    front = brief.ride_frequency
    ratio = spring_choice.flat_ride_frequency_ratio(
        front_frequency=front, wheelbase=wheelbase, speed=brief.cruise_speed, cycles=CYCLES
    )
    return {FRONT: front, REAR: np.asarray(front * ratio)}


@quantity("N/m", "Rate to order at each wheel", per="axle", source="gillespie-ride", shown="N/mm")
def wanted_wheel_rate(
    wanted_ride_frequency: Labelled, laden_sprung_axle_load: Labelled, tyre_vertical_rate: Labelled
) -> Labelled:
    """Return the rate that bounces the laden body at the wanted frequency on these tyres."""
    return each_axle(
        lambda axle: spring_choice.wheel_rate_for_frequency(
            frequency=wanted_ride_frequency[axle],
            sprung_mass=laden_sprung_axle_load[axle] / 2.0,
            tyre_rate=tyre_vertical_rate[axle],
        )
    )


@quantity("N/m", "Spring to order", per="axle", source="milliken", shown="N/mm")
def wanted_spring_rate(wanted_wheel_rate: Labelled, motion_ratio: Labelled) -> Labelled:
    """Return the rate along the spring."""
    return each_axle(lambda axle: wanted_wheel_rate[axle] / motion_ratio[axle] ** 2)


@step("Roll stiffness that the bars are to bring", source="milliken")
def bars_wanted(
    brief: Brief,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    suspension_layouts: dict[str, Layout],
    wanted_wheel_rate: Labelled,
    tyre_vertical_rate: Labelled,
    laden_sprung_axle_load: Labelled,
    roll_arm: Values,
    track: Labelled,
    laden_front_axle_share: Values,
) -> Labelled:
    """Share the car's roll stiffness by weight, the front leading, and take springs off."""
    suspensions = _ends(front_suspension, rear_suspension)
    mass = laden_sprung_axle_load[FRONT] + laden_sprung_axle_load[REAR]
    whole = spring_choice.roll_stiffness_for_gradient(
        sprung_mass=mass, roll_arm=roll_arm, gradient=brief.roll_gradient
    )
    shares = {FRONT: laden_front_axle_share + LEAD, REAR: 1.0 - laden_front_axle_share - LEAD}

    def bar(axle: str) -> Values:
        base = spring_base(suspensions[axle], suspension_layouts[axle], track[axle])
        springs = independent_roll_stiffness(rate=wanted_wheel_rate[axle], track=base)
        tyres = independent_roll_stiffness(rate=tyre_vertical_rate[axle], track=track[axle])
        return np.asarray(
            spring_choice.bar_roll_stiffness_for(
                axle_stiffness=shares[axle] * whole,
                tyre_stiffness=tyres,
                spring_stiffness=springs,
            )
        )

    return each_axle(bar)


@quantity("N·m/rad", "Bar to order, at the wheels", per="axle", source="milliken",
          shown="N·m/deg")  # fmt: skip
def wanted_bar_stiffness(bars_wanted: Labelled) -> Labelled:
    """Return the roll stiffness that the bar must bring; none where the springs are enough."""
    return bars_wanted


@quantity("m", "Diameter of the bar to order, solid", per="axle", source="sae-spring-manual",
          shown="mm")  # fmt: skip
def wanted_bar_diameter(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    wanted_bar_stiffness: Labelled,
    linkage_ratios: dict[str, Labelled],
    track: Labelled,
) -> Labelled:
    """Keep the bar's own line, or a usual one: arms of 0.25 m, bushes at 60 % of the track."""
    suspensions = _ends(front_suspension, rear_suspension)

    def diameter(axle: str) -> Values:
        bar = suspensions[axle].anti_roll_bar
        ratio = linkage_ratios["bar"].get(axle)
        ratio = bar.motion_ratio if ratio is None else ratio
        rate = 2.0 * wanted_bar_stiffness[axle] / (ratio * track[axle]) ** 2
        found = bar_diameter_for(
            shape=bar_line(bar) if bar.has("line") else usual_bar(track[axle]),
            rate=rate,
            bush_rate=bar.bush_rate,
            youngs_modulus=bar.youngs_modulus,
            shear_modulus=bar.shear_modulus,
        )
        return np.asarray(found)

    return each_axle(diameter)


def _ends(front: FrontSuspension, rear: RearSuspension) -> dict[str, Suspension]:
    return {FRONT: front, REAR: rear}


def _on_coils(one: Suspension) -> bool:
    """Whether it stands on coils, as far as is told."""
    leaves = one.layout.endswith("on leaf springs") or one.has("leaf")
    return not (leaves or one.has("torsion_bar") or one.has("air_spring"))


def _some(found: Labelled) -> Labelled:
    if not found:
        raise DoesNotApply("options.front_suspension.coil", "neither end stands on coils")
    return found


def usual_bar(track: Values) -> BarShape:
    """Return a plain bar across the car: level arms of 0.25 m, bends just outside its bushes."""
    half = np.asarray(track) * 0.30
    zero = np.zeros_like(half)
    line = np.array(
        [[zero + 0.25, half + 0.07, zero], [zero, half + 0.02, zero], [zero, zero, zero]]
    )
    return bar_shape(line=line, bush=half)


@quantity("-", "Working coils of the spring to order, by wire", per="axle and wire",
          source="shigley-springs")  # fmt: skip
def wanted_coils(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    wanted_spring_rate: Labelled,
) -> Labelled:
    """Return the working coils of each usual wire, on the coil's own or a usual diameter."""
    suspensions = _ends(front_suspension, rear_suspension)
    found: Labelled = {}
    for axle, rate in wanted_spring_rate.items():
        if not _on_coils(suspensions[axle]):
            continue
        coil = suspensions[axle].coil
        diameter = coil.mean_diameter if coil.has("mean_diameter") else np.array([COIL_DIAMETER])
        for wire in WIRES:
            found[f"{axle} {wire * 1e3:g} mm"] = np.asarray(
                coil_springs.working_coils(
                    rate=rate,
                    wire_diameter=wire,
                    mean_diameter=diameter,
                    shear_modulus=coil.shear_modulus,
                )
            )
    return _some(found)


@quantity("Pa", "Shear of the spring to order at full bump, by wire", per="axle and wire",
          source="shigley-springs", shown="MPa")  # fmt: skip
def wanted_coil_stress(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    wanted_spring_rate: Labelled,
    laden_spring_force: Labelled,
    motion_ratio: Labelled,
    bump_travel_left: Labelled,
) -> Labelled:
    """Return the stress with Wahl's factor, on the same diameter as the coils are counted for."""
    suspensions = _ends(front_suspension, rear_suspension)
    found: Labelled = {}
    for axle, rate in wanted_spring_rate.items():
        if not _on_coils(suspensions[axle]):
            continue
        coil = suspensions[axle].coil
        diameter = coil.mean_diameter if coil.has("mean_diameter") else np.array([COIL_DIAMETER])
        bump = np.maximum(bump_travel_left[axle], 0.0) * motion_ratio[axle]
        for wire in WIRES:
            found[f"{axle} {wire * 1e3:g} mm"] = np.asarray(
                coil_shear_stress(
                    force=laden_spring_force[axle] + rate * bump,
                    wire_diameter=wire,
                    mean_diameter=diameter,
                    stress_factor=wahl_factor(spring_index=diameter / wire),
                )
            )
    return _some(found)


@quantity("-", "Leaves of the spring to order, by thickness", per="axle and thickness",
          source="sae-spring-manual")  # fmt: skip
def wanted_leaves(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    wanted_spring_rate: Labelled,
) -> Labelled:
    """Return how many equal leaves of each usual thickness make the rate on the same halves."""
    found: Labelled = {}
    for axle, one in _ends(front_suspension, rear_suspension).items():
        if not (one.layout.endswith("on leaf springs") and one.has("leaf")):
            continue
        leaf = one.leaf
        width = leaf.leaf_width if leaf.has("leaf_width") else np.array([LEAF_WIDTH])
        for thickness in THICKNESSES:
            single = leaf_spring_rate(
                front_length=leaf.front_length,
                rear_length=leaf.rear_length,
                inertia_sum=width * thickness**3 / 12.0,
                youngs_modulus=leaf.youngs_modulus,
                stiffening_factor=leaf.stiffening,
            )
            found[f"{axle} {thickness * 1e3:g} mm"] = np.asarray(wanted_spring_rate[axle] / single)
    if not found:
        raise DoesNotApply("options.rear_suspension.leaf", "no leaf's halves are told")
    return found


THICKNESSES = (0.006, 0.007, 0.008)
"""Leaves that car springs are made of. [m]"""
LEAF_WIDTH = 0.055
"""Width of a leaf where none is given; common practice. [m]"""
WIRES = (0.010, 0.011, 0.012, 0.013, 0.014, 0.015)
"""Wires that car springs are wound of. [m]"""


@step("Dampers to order", source="gillespie-ride")
def dampers_wanted(
    brief: Brief,
    dampers: Dampers,
    wheel_rate: Labelled,
    laden_sprung_axle_load: Labelled,
    motion_ratio: Labelled,
    linkage_ratios: dict[str, Labelled],
) -> dict[str, DamperCurve]:
    """Return both curves on the springs as picked: the brief's ratio, the usual split and knee."""
    known = linkage_ratios["damper"]

    def ratio(axle: str) -> Values:
        if axle in known:
            return known[axle]
        own = f"{axle}_motion_ratio"
        value: Values = getattr(dampers, own) if dampers.has(own) else motion_ratio[axle]
        return value

    return {
        axle: damper_curve(
            damping_ratio=brief.damping_ratio,
            wheel_rate=wheel_rate[axle],
            sprung_mass=laden_sprung_axle_load[axle] / 2.0,
            motion_ratio=ratio(axle),
            rebound_over_bump=dampers.rebound_over_bump,
            wheel_knee=dampers.knee_speed,
            beyond=dampers.beyond_knee,
        )
        for axle in (FRONT, REAR)
    }


@quantity("N·s/m", "Damper to order, below its knee", per="axle and way", source="gillespie-ride")
def wanted_damping(dampers_wanted: dict[str, DamperCurve]) -> Labelled:
    """Return the coefficients in bump and rebound at the damper."""
    return {
        f"{axle} {way}": np.asarray(getattr(curve, way))
        for axle, curve in dampers_wanted.items()
        for way in ("bump", "rebound")
    }
