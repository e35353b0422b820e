"""Springs, bars and dampers at the wheels: rates, frequencies, damping, travel, roll stiffness."""

from __future__ import annotations

import numpy as np

from drybuild.physics import suspension as physics
from drybuild.physics.rigid_body import RigidBody
from drybuild.physics.springs import series_rate
from drybuild.project.body import Body
from drybuild.project.handbook import given_or_handbook
from drybuild.project.samples import Values
from drybuild.project.suspension import Dampers, FrontSuspension, RearSuspension, Suspension
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.body import signed
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.suspension_springs import (
    bar_end_rate,
    motion_ratio_of,
    rate_from_dimensions,
)
from drybuild.tables.ranges import scaled
from drybuild.tables.suspension import Layout, layout_of
from drybuild.units import STANDARD_GRAVITY


@step("Suspension of each axle", source="the-build-file")
def suspensions(
    front_suspension: FrontSuspension, rear_suspension: RearSuspension
) -> dict[str, Suspension]:
    """Return both picks by axle."""
    return {FRONT: front_suspension, REAR: rear_suspension}


@step("What each layout implies", source="common-practice")
def suspension_layouts(
    front_suspension: FrontSuspension, rear_suspension: RearSuspension
) -> dict[str, Layout]:
    """Look both layouts up."""
    return {FRONT: layout_of(front_suspension.layout), REAR: layout_of(rear_suspension.layout)}


@quantity("-", "Spring travel over wheel travel", per="axle", source="milliken")
def motion_ratio(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    linkage_ratios: dict[str, Labelled],
) -> Labelled:
    """Take the hardpoints' ratio, else the one given, else what the layout usually has."""
    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}
    known = linkage_ratios["spring"]
    return each_axle(lambda axle: known[axle] if axle in known else motion_ratio_of(ends[axle]))


@step("Sprung mass of each wheel of the car as it stands", source="definition")
def standing_sprung_wheel(standing_axle_load: Labelled) -> Labelled:
    """Take the usual unsprung mass off what each wheel carries before any change."""
    return {axle: (load - UNSPRUNG_SHARE * load) / 2.0 for axle, load in standing_axle_load.items()}


UNSPRUNG_SHARE = 0.15
"""Part of an axle's load that is unsprung, for finding a rate from a frequency: 11 % of three
measured cars with independent wheels (Althoff and Würsching 2020), more with a live axle."""


@quantity("N/m", "Rate at each wheel without bar and tyre", per="axle", source="milliken",
          shown="N/mm")  # fmt: skip
def wheel_rate(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    standing_sprung_wheel: Labelled,
    motion_ratio: Labelled,
    linkage_ratios: dict[str, Labelled],
) -> Labelled:
    """Take the wheel's rate, else spring rate or dimensions, else what the usual frequency asks."""
    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}
    slopes = linkage_ratios["spring slope"]
    return each_axle(
        lambda axle: _wheel_rate(
            ends[axle], standing_sprung_wheel[axle], motion_ratio[axle], slopes.get(axle, 0.0)
        )
    )


@quantity("N/m", "Rate of each spring", per="axle", source="milliken", shown="N/mm")
def spring_rate(wheel_rate: Labelled, motion_ratio: Labelled) -> Labelled:
    """Return the rate along the spring that gives the wheel's rate."""
    return each_axle(lambda axle: wheel_rate[axle] / motion_ratio[axle] ** 2)


@quantity("N/m", "Vertical rate of each tyre", per="axle", source="commonroad-vehicles",
          shown="N/mm")  # fmt: skip
def tyre_vertical_rate(tyres: Tyres) -> Labelled:
    """Return the tyres' own springing under load."""
    rate = tyres.vertical_rate
    return {FRONT: rate, REAR: rate}


@quantity("N/m", "Ride rate: spring and tyre together", per="axle", source="gillespie-ride",
          shown="N/mm")  # fmt: skip
def ride_rate(wheel_rate: Labelled, tyre_vertical_rate: Labelled) -> Labelled:
    """Put suspension and tyre in series."""
    return each_axle(
        lambda axle: physics.ride_rate(
            wheel_rate=wheel_rate[axle], tyre_rate=tyre_vertical_rate[axle]
        )
    )


@quantity("kg", "Sprung mass on each axle on a journey", per="axle", source="definition")
def laden_sprung_axle_load(laden_axle_load: Labelled, unsprung_mass: Labelled) -> Labelled:
    """Take the unsprung mass off each axle's laden load."""
    return each_axle(lambda axle: laden_axle_load[axle] - unsprung_mass[axle])


@quantity("Hz", "Ride frequency on a usual journey", per="axle", source="gillespie-ride")
def ride_frequency(ride_rate: Labelled, laden_sprung_axle_load: Labelled) -> Labelled:
    """Let the laden body bounce on spring and tyre, each axle by itself."""
    return each_axle(
        lambda axle: physics.natural_frequency(
            rate=2.0 * ride_rate[axle], mass=laden_sprung_axle_load[axle]
        )
    )


@quantity("Hz", "Ride frequency, empty", per="axle", source="gillespie-ride")
def empty_ride_frequency(ride_rate: Labelled, sprung_axle_load: Labelled) -> Labelled:
    """Let the empty body bounce on spring and tyre."""
    return each_axle(
        lambda axle: physics.natural_frequency(
            rate=2.0 * ride_rate[axle], mass=sprung_axle_load[axle]
        )
    )


@quantity("-", "Rear ride frequency over front", source="gillespie-ride")
def flat_ride_ratio(ride_frequency: Labelled) -> Values:
    """Return the ratio that lets the body settle flat after a bump when it is above one."""
    return ride_frequency[REAR] / ride_frequency[FRONT]


@quantity("m", "Sag of the springs under the laden body", per="axle", source="gillespie-ride",
          shown="mm")  # fmt: skip
def static_deflection(wheel_rate: Labelled, laden_sprung_axle_load: Labelled) -> Labelled:
    """Return load over rate, as if the springs were straight-line down to no load."""
    return each_axle(
        lambda axle: laden_sprung_axle_load[axle] * STANDARD_GRAVITY / (2.0 * wheel_rate[axle])
    )


@quantity("Hz", "Wheel hop frequency", per="axle", source="gillespie-ride")
def wheel_hop_frequency(
    wheel_rate: Labelled, tyre_vertical_rate: Labelled, unsprung_mass: Labelled
) -> Labelled:
    """Let the wheels bounce between spring and tyre, the body at rest."""
    return each_axle(
        lambda axle: physics.natural_frequency(
            rate=2.0 * (wheel_rate[axle] + tyre_vertical_rate[axle]), mass=unsprung_mass[axle]
        )
    )


@step("Bounce and pitch of the laden body", source="wong-ride")
def body_modes(
    ride_rate: Labelled,
    laden_sprung_axle_load: Labelled,
    laden_car: RigidBody,
    body: Body,
) -> physics.BodyModes:
    """Let the sprung body move on both axles; its pitch inertia is in the car's proportion."""
    front, rear = laden_sprung_axle_load[FRONT], laden_sprung_axle_load[REAR]
    sprung = front + rear
    behind = body.wheelbase * rear / sprung
    gyration = np.sqrt(np.asarray(laden_car.pitch_inertia) / np.asarray(laden_car.mass))
    return physics.bounce_and_pitch(
        front_rate=2.0 * ride_rate[FRONT],
        rear_rate=2.0 * ride_rate[REAR],
        sprung_mass=sprung,
        front_distance=behind,
        rear_distance=body.wheelbase - behind,
        gyration_radius=gyration,
    )


@quantity("Hz", "Bounce and pitch of the laden body", per="motion", source="wong-ride")
def body_frequency(body_modes: physics.BodyModes) -> Labelled:
    """Call the motion whose still point lies outside the wheelbase bounce, the other pitch."""
    slow_bounces = np.abs(body_modes.slow_node) >= np.abs(body_modes.fast_node)
    slow, fast = np.asarray(body_modes.slow_frequency), np.asarray(body_modes.fast_frequency)
    return {
        "bounce": np.where(slow_bounces, slow, fast),
        "pitch": np.where(slow_bounces, fast, slow),
    }


@quantity("-", "Faster over slower of bounce and pitch", source="gillespie-ride")
def bounce_pitch_ratio(body_frequency: Labelled) -> Values:
    """Return the ratio that should stay near one for an even ride."""
    bounce, pitch = body_frequency["bounce"], body_frequency["pitch"]
    return np.maximum(bounce, pitch) / np.minimum(bounce, pitch)


@quantity("N·s/m", "Damping at each wheel", per="axle", source="gillespie-ride")
def wheel_damping(
    dampers: Dampers,
    motion_ratio: Labelled,
    wheel_rate: Labelled,
    standing_sprung_wheel: Labelled,
    linkage_ratios: dict[str, Labelled],
) -> Labelled:
    """Take the dampers' coefficient, else what the usual damping ratio asks.

    A damper moves as its hardpoints say; without them and a motion ratio of its own, as the spring.
    """
    known = linkage_ratios["damper"]
    return each_axle(
        lambda axle: _wheel_damping(
            dampers,
            axle,
            known.get(axle),
            motion_ratio[axle],
            wheel_rate[axle],
            standing_sprung_wheel[axle],
        )
    )


@quantity("-", "Damping ratio of the laden body", per="axle", source="gillespie-ride")
def damping_ratio(
    wheel_damping: Labelled, wheel_rate: Labelled, laden_sprung_axle_load: Labelled
) -> Labelled:
    """Return the damping as a share of the critical."""
    return each_axle(
        lambda axle: physics.damping_ratio(
            wheel_damping=wheel_damping[axle],
            wheel_rate=wheel_rate[axle],
            sprung_mass=laden_sprung_axle_load[axle] / 2.0,
        )
    )


@quantity("m", "Bump travel left on a journey", per="axle", source="definition", shown="mm")
def bump_travel_left(
    suspensions: dict[str, Suspension],
    wheel_rate: Labelled,
    axle_load: Labelled,
    laden_axle_load: Labelled,
    adjusted_height: Labelled,
) -> Labelled:
    """Take the sag under people and luggage off the bump travel; lowering too, if not measured."""

    def left(axle: str) -> Values:
        suspension = suspensions[axle]
        travel = suspension.bump_travel - _sag(
            laden_axle_load[axle] - axle_load[axle], wheel_rate[axle]
        )
        if suspension.has("bump_travel"):
            return travel
        told = signed(suspension, "ride_height_change", travel)
        return travel + np.minimum(told + adjusted_height[axle], 0.0)

    return each_axle(left)


@quantity("m", "Wheel travel, stop to droop", per="axle", source="definition", shown="mm")
def suspension_travel(suspensions: dict[str, Suspension]) -> Labelled:
    """Add bump and droop."""
    return each_axle(lambda axle: suspensions[axle].bump_travel + suspensions[axle].droop_travel)


@quantity("N/m", "Anti-roll bar at its ends", per="axle", source="sae-spring-manual",
          shown="N/mm")  # fmt: skip
def anti_roll_bar_rate(front_suspension: FrontSuspension, rear_suspension: RearSuspension
                       ) -> Labelled:  # fmt: skip
    """Return the bars that are described, by rate or dimensions; open where none is."""
    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}
    found = {axle: bar_end_rate(end) for axle, end in ends.items() if end.has("anti_roll_bar")}
    return found or {FRONT: bar_end_rate(front_suspension)}


@quantity("N·m/rad", "Roll stiffness of the bars at the wheels", per="axle", source="milliken",
          shown="N·m/deg")  # fmt: skip
def anti_roll_bar_stiffness(
    suspensions: dict[str, Suspension], track: Labelled, linkage_ratios: dict[str, Labelled]
) -> Labelled:
    """Take the described bar, else the stiffness given, else what such cars have."""

    def stiffness(axle: str) -> Values:
        suspension = suspensions[axle]
        if not suspension.has("anti_roll_bar"):
            return suspension.bar_roll_stiffness
        solved = linkage_ratios["bar"].get(axle)
        return np.asarray(
            physics.anti_roll_bar_roll_stiffness(
                end_rate=bar_end_rate(suspension),
                motion_ratio=suspension.anti_roll_bar.motion_ratio if solved is None else solved,
                track=track[axle],
            )
        )

    return each_axle(stiffness)


@quantity("N·m/rad", "Roll stiffness of springs and bar", per="axle", source="gillespie-ride",
          shown="N·m/deg")  # fmt: skip
def suspension_roll_stiffness(
    suspensions: dict[str, Suspension],
    suspension_layouts: dict[str, Layout],
    wheel_rate: Labelled,
    anti_roll_bar_stiffness: Labelled,
    track: Labelled,
) -> Labelled:
    """Let a rigid axle roll on its springs' own spacing, other wheels on the track."""

    def stiffness(axle: str) -> Values:
        base = spring_base(suspensions[axle], suspension_layouts[axle], track[axle])
        springs = physics.independent_roll_stiffness(rate=wheel_rate[axle], track=base)
        return np.asarray(springs + anti_roll_bar_stiffness[axle])

    return each_axle(stiffness)


@quantity("N·m/rad", "Roll stiffness with the tyres", per="axle", source="gillespie-ride",
          shown="N·m/deg")  # fmt: skip
def roll_stiffness(
    suspension_roll_stiffness: Labelled, tyre_vertical_rate: Labelled, track: Labelled
) -> Labelled:
    """Put suspension and tyres in series."""
    return each_axle(
        lambda axle: series_rate(
            first=suspension_roll_stiffness[axle],
            second=physics.independent_roll_stiffness(
                rate=tyre_vertical_rate[axle], track=track[axle]
            ),
        )
    )


@quantity("-", "Front share of the roll stiffness", source="milliken", shown="%")
def front_roll_stiffness_share(roll_stiffness: Labelled) -> Values:
    """Return the front axle's part, tyres included."""
    return roll_stiffness[FRONT] / (roll_stiffness[FRONT] + roll_stiffness[REAR])


@quantity("m", "Roll centre over the road", per="axle", source="reimpell-steering", shown="mm")
def roll_centre_height(
    suspensions: dict[str, Suspension],
    suspension_layouts: dict[str, Layout],
    linkage_roll: dict[str, Labelled],
) -> Labelled:
    """Take the hardpoints' height, else the one given, else what the layout usually has."""
    solved = linkage_roll["centre"]
    return each_axle(
        lambda axle: (
            solved[axle]
            if axle in solved
            else given_or_handbook(
                suspensions[axle],
                "roll_centre_height",
                suspension_layouts[axle].roll_centre,
                least=None,
            )
        )
    )


def _wheel_rate(
    suspension: Suspension, sprung: Values, ratio: Values, slope: Values | float
) -> Values:
    if suspension.has("wheel_rate"):
        return suspension.wheel_rate
    rate = rate_from_dimensions(suspension, sprung, ratio)
    if rate is None:
        omega = 2.0 * np.pi * suspension.body_frequency
        return np.asarray(omega**2 * sprung)
    if suspension.has("torsion_bar") and not suspension.has("spring_rate"):
        return rate
    return np.asarray(
        physics.wheel_rate(
            spring_rate=rate,
            motion_ratio=ratio,
            spring_force=sprung * STANDARD_GRAVITY / ratio,
            motion_ratio_slope=slope,
        )
    )


def _wheel_damping(
    dampers: Dampers,
    axle: str,
    solved: Values | None,
    spring_ratio: Values,
    rate: Values,
    sprung: Values,
) -> Values:
    if dampers.has(f"{axle}_damping"):
        own = dampers.has(f"{axle}_motion_ratio")
        ratio: Values = getattr(dampers, f"{axle}_motion_ratio") if own else spring_ratio
        ratio = ratio if solved is None else solved
        coefficient: Values = getattr(dampers, f"{axle}_damping")
        return coefficient * ratio**2
    share: Values = getattr(dampers, f"{axle}_damping_ratio")
    return np.asarray(2.0 * share * np.sqrt(rate * sprung))


def spring_base(suspension: Suspension, layout: Layout, track: Values) -> Values:
    """Return what an axle rolls on: the spacing of its springs if it is rigid, else the track."""
    if not layout.rigid:
        return track
    known = scaled(layout.spacing, float(track[0]), "m")
    return given_or_handbook(suspension, "spring_spacing", known)


def _sag(load: Values, rate: Values) -> Values:
    return load * STANDARD_GRAVITY / (2.0 * rate)
