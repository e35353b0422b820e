"""Steering: ratio, turns, turning circle, and the effort at the rim."""

from __future__ import annotations

import numpy as np

from drybuild.physics import steering as physics
from drybuild.physics.load_transfer import LoadTransfer
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.steering import EffortLimit, effort_limit
from drybuild.units import STANDARD_GRAVITY

DRY = 0.8
"""Friction of a standing tyre on dry asphalt; common practice, no source."""
BEND = 0.3 * STANDARD_GRAVITY
"""A brisk bend, for effort on the road. [m/s²]"""
ASSISTED, UNASSISTED = "as fitted", "assistance failed"


@quantity("-", "Steering ratio", source="reimpell-steering")
def steering_ratio(
    steering: Steering, locks: tuple[Values, Values], linkage_steering: Labelled
) -> Values:
    """Take the ratio, else rack and hardpoints or arm, else turns over locks, else the usual."""
    if steering.has("ratio"):
        return steering.ratio
    if linkage_steering and steering.has("rack_travel_per_turn"):
        return 2.0 * np.pi / (steering.rack_travel_per_turn * linkage_steering["rate"])
    if steering.has("rack_travel_per_turn") and steering.has("steering_arm"):
        return np.asarray(
            physics.rack_steering_ratio(
                steering_arm=steering.steering_arm,
                rack_travel_per_turn=steering.rack_travel_per_turn,
            )
        )
    if steering.has("turns"):
        return np.asarray(steering.turns * 2.0 * np.pi / (locks[0] + locks[1]))
    return steering.ratio


@quantity("m", "Distance between the steering axes on the road", source="definition", shown="mm")
def kingpin_track(steering: Steering, scrub_radius: Values, track: Labelled) -> Values:
    """Take it as given, else the track less both scrub radii."""
    if steering.has("kingpin_track"):
        return steering.kingpin_track
    return track[FRONT] - 2.0 * scrub_radius


@quantity("m", "Scrub radius on these wheels", source="definition", shown="mm")
def scrub_radius(steering_axis: Labelled, track_change: Labelled) -> Values:
    """Add half of the track that the wheels' offset brings; positive outside the axis."""
    return steering_axis["scrub"] + track_change[FRONT] / 2.0


@quantity("rad", "Outer wheel's angle without scrub, at full lock", source="reimpell-steering",
          shown="deg")  # fmt: skip
def ideal_outer_lock(steering: Steering, wheelbase: Values, kingpin_track: Values) -> Values:
    """Point both front wheels at one centre."""
    return np.asarray(
        physics.ackermann_outer_angle(
            inner_angle=steering.inner_lock, wheelbase=wheelbase, kingpin_track=kingpin_track
        )
    )


@step("Angles of inner and outer wheel at full lock", source="reimpell-steering")
def locks(
    steering: Steering, ideal_outer_lock: Values, linkage_steering: Labelled
) -> tuple[Values, Values]:
    """Take the outer angle as measured, else the hardpoints', else the usual share of the ideal."""
    inner = steering.inner_lock
    if steering.has("outer_lock"):
        return inner, steering.outer_lock
    if linkage_steering:
        return linkage_steering["inner"], linkage_steering["outer"]
    return inner, inner - steering.ackermann * (inner - ideal_outer_lock)


@quantity("rad", "Wheel angles at full lock", per="wheel", source="the-build-file", shown="deg")
def lock_angles(locks: tuple[Values, Values]) -> Labelled:
    """Return the inner and the outer wheel's."""
    return {"inner": locks[0], "outer": locks[1]}


@quantity("-", "Share of the ideal difference between the wheels", source="dixon-suspension",
          shown="%")  # fmt: skip
def ackermann_share(
    locks: tuple[Values, Values], wheelbase: Values, kingpin_track: Values
) -> Values:
    """Compare the linkage at full lock with free rolling."""
    return np.asarray(
        physics.ackermann_share(
            inner_angle=locks[0],
            outer_angle=locks[1],
            wheelbase=wheelbase,
            kingpin_track=kingpin_track,
        )
    )


@quantity("-", "Turns of the steering wheel, lock to lock", source="definition")
def steering_wheel_turns(
    steering: Steering, locks: tuple[Values, Values], steering_ratio: Values
) -> Values:
    """Take them as given, else the locks times the ratio."""
    if steering.has("turns"):
        return steering.turns
    return np.asarray(
        physics.steering_wheel_turns(
            inner_angle=locks[0], outer_angle=locks[1], steering_ratio=steering_ratio
        )
    )


@quantity("m", "Turning circle between kerbs", source="reimpell-steering")
def turning_circle(locks: tuple[Values, Values], wheelbase: Values, scrub_radius: Values) -> Values:
    """Draw the outer front tyre's circle; half of the tyre's width comes on top."""
    return np.asarray(
        physics.kerb_turning_circle(
            outer_angle=locks[1], wheelbase=wheelbase, scrub_radius=scrub_radius
        )
    )


@step("Moment about both steering axes while parking", source="sharp-granger")
def parking_moment(
    laden_axle_weight: Labelled,
    tyre_pressure: Labelled,
    tyre_section_width: Labelled,
    scrub_radius: Values,
) -> Values:
    """Take the mean of two published formulas, which bracket what is measured."""
    load = laden_axle_weight[FRONT] / 2.0
    gough = physics.parking_moment_gough(friction=DRY, load=load, pressure=tyre_pressure[FRONT])
    offset = physics.parking_moment_with_offset(
        friction=DRY,
        load=load,
        tyre_width=tyre_section_width[FRONT],
        kingpin_offset=scrub_radius,
    )
    return np.asarray(gough + offset)


@quantity("N", "Force at the rim while parking", per="assistance", source="sharp-granger")
def parking_effort(steering: Steering, parking_moment: Values, steering_ratio: Values) -> Labelled:
    """Turn the standing wheels on dry asphalt."""
    return rim_forces(steering, parking_moment, steering_ratio)


@quantity("N", "Force at the rim in a bend of 0.3 g", per="assistance", source="gillespie-handling")
def cornering_effort(
    steering: Steering,
    steering_axis: Labelled,
    tyres: Tyres,
    laden_axle_load: Labelled,
    steering_ratio: Values,
) -> Labelled:
    """Hold the trail of the front tyres' side force."""
    trail = steering_axis["trail"] + tyres.pneumatic_trail
    moment = physics.moment_of_side_force(side_force=laden_axle_load[FRONT] * BEND, trail=trail)
    return rim_forces(steering, np.asarray(moment), steering_ratio)


@quantity("N", "Force at the rim into the regulation's bend", per="assistance", source="un-r79")
def turning_effort(
    steering: Steering,
    steering_axis: Labelled,
    tyres: Tyres,
    laden_axle_load: Labelled,
    transfer_per_acceleration: dict[str, LoadTransfer],
    parking_moment: Values,
    steering_ratio: Values,
    scrub_radius: Values,
    wheelbase: Values,
) -> Labelled:
    """Steer into 12 m, or 20 m without assistance, at 10 km/h.

    Adds the side force on its trail, the lift of the car on the inclined axes, and what is left
    of the standing tyres' resistance at walking pace.
    """
    trail = steering_axis["trail"] + tyres.pneumatic_trail

    def moment(limit: EffortLimit) -> Values:
        acceleration = limit.speed**2 / limit.radius
        moved = transfer_per_acceleration[FRONT].total * acceleration
        half = laden_axle_load[FRONT] * STANDARD_GRAVITY / 2.0
        centring = physics.moment_of_vertical_load(
            outer_load=half + moved,
            inner_load=half - moved,
            kingpin_offset=scrub_radius,
            kingpin_inclination=steering_axis["inclination"],
            caster=steering_axis["caster"],
            steer_angle=np.arctan(wheelbase / limit.radius),
        )
        side = physics.moment_of_side_force(
            side_force=laden_axle_load[FRONT] * acceleration, trail=trail
        )
        return np.asarray(np.abs(centring + side) + steering.rolling_share * parking_moment)

    fitted = rim_forces(steering, moment(effort_limit("intact")), steering_ratio)
    failed = rim_forces(steering, moment(effort_limit("assistance failed")), steering_ratio)
    return {ASSISTED: fitted[ASSISTED], UNASSISTED: failed[UNASSISTED]}


@quantity("N", "Greatest force at the rim that the regulation allows", per="assistance",
          source="un-r79")  # fmt: skip
def turning_effort_limit(steering: Steering) -> Labelled:
    """Return 150 N as fitted and 300 N with the assistance failed."""
    del steering
    return {
        ASSISTED: np.array([effort_limit("intact").force]),
        UNASSISTED: np.array([effort_limit("assistance failed").force]),
    }


def rim_forces(steering: Steering, moment: Values, ratio: Values) -> Labelled:
    """Return the force at the rim for a moment about both steering axes, with and without help."""
    helped = steering.assistance != "none"
    share = steering.assistance_share if helped else np.zeros(1)
    return {
        label: np.asarray(
            physics.rim_force(
                kingpin_moment=moment,
                steering_ratio=ratio,
                efficiency=steering.efficiency,
                assistance=part,
                rim_diameter=steering.wheel_diameter,
            )
        )
        for label, part in ((ASSISTED, share), (UNASSISTED, np.zeros(1)))
    }
