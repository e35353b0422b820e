"""How the laden car rolls, understeers and answers the steering wheel."""

from __future__ import annotations

import numpy as np

from drybuild.physics import handling as physics
from drybuild.physics.load_transfer import LoadTransfer
from drybuild.physics.load_transfer import lateral_load_transfer as transfer_of_axle
from drybuild.physics.load_transfer import roll_gradient as roll_per_acceleration
from drybuild.physics.tyre_force import SideTyre
from drybuild.physics.tyre_force import cornering_stiffness as stiffness_of
from drybuild.project.handbook import given_or_handbook, handbook
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.suspension import Suspension
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.suspension import Layout
from drybuild.units import STANDARD_GRAVITY

MODERATE = 0.4 * STANDARD_GRAVITY
"""Lateral acceleration at which load transfer and understeer are given. [m/s²]"""
FAST = 100.0 / 3.6
"""Speed at which the answer to the steering wheel is given. [m/s]"""


@quantity("m", "Sprung centre of gravity over the roll axis", source="gillespie-handling",
          shown="mm")  # fmt: skip
def roll_arm(
    laden_cg_height: Values,
    laden_mass: Values,
    unsprung_mass: Labelled,
    static_radius: Labelled,
    laden_sprung_axle_load: Labelled,
    roll_centre_height: Labelled,
) -> Values:
    """Take the unsprung masses, at wheel-centre height, out of the car's centre of gravity."""
    front, rear = laden_sprung_axle_load[FRONT], laden_sprung_axle_load[REAR]
    low = sum(unsprung_mass[axle] * static_radius[axle] for axle in (FRONT, REAR))
    sprung_height = (laden_mass * laden_cg_height - low) / (front + rear)
    axis = roll_centre_height[FRONT] * front + roll_centre_height[REAR] * rear
    return np.asarray(sprung_height - axis / (front + rear))


@quantity("rad·s²/m", "Body roll per lateral acceleration", source="barton-fieldhouse",
          shown="deg/g")  # fmt: skip
def roll_gradient(
    laden_sprung_axle_load: Labelled, roll_arm: Values, roll_stiffness: Labelled
) -> Values:
    """Roll the laden body on springs, bars and tyres."""
    return np.asarray(
        roll_per_acceleration(
            sprung_mass=laden_sprung_axle_load[FRONT] + laden_sprung_axle_load[REAR],
            roll_arm=roll_arm,
            roll_stiffness=roll_stiffness[FRONT] + roll_stiffness[REAR],
        )
    )


@step("Load transfer of each axle per lateral acceleration", source="gillespie-handling")
def transfer_per_acceleration(
    roll_gradient: Values,
    roll_stiffness: Labelled,
    track: Labelled,
    laden_sprung_axle_load: Labelled,
    roll_centre_height: Labelled,
    unsprung_mass: Labelled,
    static_radius: Labelled,
) -> dict[str, LoadTransfer]:
    """Add the elastic, geometric and unsprung parts for one unit of acceleration."""
    return {
        axle: transfer_of_axle(
            lateral_acceleration=1.0,
            roll_angle=roll_gradient,
            axle_roll_stiffness=roll_stiffness[axle],
            track=track[axle],
            sprung_mass_on_axle=laden_sprung_axle_load[axle],
            roll_centre_height=roll_centre_height[axle],
            unsprung_mass=unsprung_mass[axle],
            unsprung_height=static_radius[axle],
        )
        for axle in (FRONT, REAR)
    }


@quantity("N", "Load that moves to the outer wheel at 0.4 g", per="axle",
          source="gillespie-handling")  # fmt: skip
def lateral_load_transfer(transfer_per_acceleration: dict[str, LoadTransfer]) -> Labelled:
    """Return the sum of all three parts."""
    return each_axle(lambda axle: transfer_per_acceleration[axle].total * MODERATE)


@quantity("-", "Front share of the lateral load transfer", source="milliken", shown="%")
def front_load_transfer_share(lateral_load_transfer: Labelled) -> Values:
    """Return the front axle's part."""
    front, rear = lateral_load_transfer[FRONT], lateral_load_transfer[REAR]
    return front / (front + rear)


@quantity("-", "Front load transfer share less front weight share", source="milliken", shown="%")
def load_transfer_lead(front_load_transfer_share: Values, laden_front_axle_share: Values) -> Values:
    """Return how far the load transfer is biased to the front against the weight."""
    return front_load_transfer_share - laden_front_axle_share


@quantity("N/rad", "Cornering stiffness of each axle at 0.4 g", per="axle",
          source="pacejka", shown="kN/rad")  # fmt: skip
def cornering_stiffness(
    side_tyres: dict[str, SideTyre], laden_axle_weight: Labelled, lateral_load_transfer: Labelled
) -> Labelled:
    """Add both tyres at their own loads; the transfer costs stiffness."""

    def pair(axle: str) -> Values:
        mean, moved = laden_axle_weight[axle] / 2.0, lateral_load_transfer[axle]
        outer = stiffness_of(load=mean + moved, tyre=side_tyres[axle])
        return outer + stiffness_of(load=mean - moved, tyre=side_tyres[axle])

    return each_axle(pair)


@quantity("-", "Lean of the wheels to the road per roll", per="axle", source="gillespie-handling")
def wheel_lean(
    suspensions: dict[str, Suspension],
    suspension_layouts: dict[str, Layout],
    track: Labelled,
    linkage_roll: dict[str, Labelled],
) -> Labelled:
    """Take the hardpoints' camber gain, else the one given, else what the layout usually leaves."""

    def lean(axle: str) -> Values:
        suspension = suspensions[axle]
        if axle in linkage_roll["lean"]:
            return linkage_roll["lean"][axle]
        if suspension.has("camber_gain"):
            return 1.0 - suspension.camber_gain * track[axle] / 2.0
        return handbook(suspension, "camber_gain", suspension_layouts[axle].lean, least=None)

    return each_axle(lean)


@quantity("-", "Roll steer, positive to understeer", per="axle", source="gillespie-handling")
def roll_steer(
    suspensions: dict[str, Suspension],
    suspension_layouts: dict[str, Layout],
    linkage_roll: dict[str, Labelled],
) -> Labelled:
    """Take the hardpoints', else the one given, else what the layout usually has."""
    solved = linkage_roll["steer"]
    return each_axle(
        lambda axle: (
            solved[axle]
            if axle in solved
            else given_or_handbook(
                suspensions[axle], "roll_steer", suspension_layouts[axle].roll_steer, least=None
            )
        )
    )


@quantity("rad·s²/m", "Understeer by cause", per="cause", source="gillespie-handling",
          shown="deg/g")  # fmt: skip
def understeer_terms(
    tyres: Tyres,
    steering_axis: Labelled,
    steering: Steering,
    laden_axle_weight: Labelled,
    cornering_stiffness: Labelled,
    roll_gradient: Values,
    roll_steer: Labelled,
    wheel_lean: Labelled,
    wheelbase: Values,
) -> Labelled:
    """Split the understeer gradient by what causes it."""
    front, rear = cornering_stiffness[FRONT], cornering_stiffness[REAR]
    weight = laden_axle_weight[FRONT] + laden_axle_weight[REAR]
    terms = {
        "tyres": physics.tyre_understeer_gradient(
            front_load=laden_axle_weight[FRONT],
            rear_load=laden_axle_weight[REAR],
            front_stiffness=front,
            rear_stiffness=rear,
        ),
        "roll steer": physics.roll_steer_understeer(
            front_roll_steer=roll_steer[FRONT],
            rear_roll_steer=roll_steer[REAR],
            roll_gradient=roll_gradient,
        ),
        "camber": physics.camber_thrust_understeer(
            front_camber_per_roll=wheel_lean[FRONT],
            rear_camber_per_roll=wheel_lean[REAR],
            front_camber_ratio=tyres.camber_ratio,
            rear_camber_ratio=tyres.camber_ratio,
            roll_gradient=roll_gradient,
        ),
        "tyre trail": physics.aligning_torque_understeer(
            car_mass=weight / STANDARD_GRAVITY,
            pneumatic_trail=tyres.pneumatic_trail,
            wheelbase=wheelbase,
            front_stiffness=front,
            rear_stiffness=rear,
        ),
        "steering give": physics.steering_compliance_understeer(
            front_axle_mass=laden_axle_weight[FRONT] / STANDARD_GRAVITY,
            mechanical_trail=steering_axis["trail"],
            pneumatic_trail=tyres.pneumatic_trail,
            steering_stiffness=steering.stiffness,
        ),
    }
    return {cause: np.asarray(value) for cause, value in terms.items()}


@quantity("rad·s²/m", "Understeer gradient at the road wheels", source="gillespie-handling",
          shown="deg/g")  # fmt: skip
def understeer_gradient(understeer_terms: Labelled) -> Values:
    """Add the causes; positive understeers. Given at 0.4 g, on a usual journey."""
    return np.asarray(sum(understeer_terms.values()))


@quantity("rad·s²/m", "Understeer gradient at the steering wheel", source="gillespie-handling",
          shown="deg/g")  # fmt: skip
def steering_wheel_gradient(understeer_gradient: Values, steering_ratio: Values) -> Values:
    """Return the turn of the steering wheel that each unit of acceleration asks for."""
    return understeer_gradient * steering_ratio


@quantity("m/s", "Characteristic speed", source="gillespie-handling", shown="km/h")
def characteristic_speed(wheelbase: Values, understeer_gradient: Values) -> Values:
    """Return the speed of the strongest answer to the steering wheel; none if it oversteers."""
    return np.asarray(
        physics.characteristic_speed(wheelbase=wheelbase, understeer_gradient=understeer_gradient)
    )


@quantity("rad·s²/m", "Slip of each axle per lateral acceleration", per="axle", source="milliken",
          shown="deg/g")  # fmt: skip
def cornering_compliance(
    tyres: Tyres,
    laden_axle_weight: Labelled,
    cornering_stiffness: Labelled,
    roll_gradient: Values,
    roll_steer: Labelled,
    wheel_lean: Labelled,
    understeer_terms: Labelled,
    wheelbase: Values,
) -> Labelled:
    """Add all that lets an axle drift out: tyres, roll steer, camber, trail and steering.

    The front's less the rear's is the understeer gradient.
    """
    mass = (laden_axle_weight[FRONT] + laden_axle_weight[REAR]) / STANDARD_GRAVITY
    side = {FRONT: 1.0, REAR: -1.0}

    def compliance(axle: str) -> Values:
        stiffness = cornering_stiffness[axle]
        tyre = laden_axle_weight[axle] / (stiffness * STANDARD_GRAVITY)
        trail = mass * tyres.pneumatic_trail / (wheelbase * stiffness)
        lean = tyres.camber_ratio * wheel_lean[axle] * roll_gradient
        own = tyre + lean + side[axle] * (roll_steer[axle] * roll_gradient + trail)
        return own + understeer_terms["steering give"] if axle == FRONT else own

    return each_axle(compliance)


@quantity("N/rad", "Cornering stiffness of each axle with all its give", per="axle",
          source="milliken", shown="kN/rad")  # fmt: skip
def effective_cornering_stiffness(
    laden_axle_weight: Labelled, cornering_compliance: Labelled
) -> Labelled:
    """Return the stiffness of rigid wheels on tyres that would drift as much."""
    return each_axle(
        lambda axle: laden_axle_weight[axle] / (STANDARD_GRAVITY * cornering_compliance[axle])
    )


@quantity("-", "Static margin", source="abe", shown="%")
def static_margin(
    wheelbase: Values, laden_front_axle_share: Values, effective_cornering_stiffness: Labelled
) -> Values:
    """Return how far behind the centre of gravity the tyres' side forces act, per wheelbase."""
    behind = wheelbase * (1.0 - laden_front_axle_share)
    return np.asarray(
        physics.static_margin(
            front_distance=behind,
            rear_distance=wheelbase - behind,
            front_stiffness=effective_cornering_stiffness[FRONT],
            rear_stiffness=effective_cornering_stiffness[REAR],
        )
    )


@step("Answer to the steering wheel at 100 km/h", source="abe")
def yaw_response(
    wheelbase: Values,
    laden_front_axle_share: Values,
    laden_mass: Values,
    laden_yaw_inertia: Values,
    effective_cornering_stiffness: Labelled,
) -> physics.YawResponse:
    """Turn the two-wheel model on tyres that give as much as the whole axles do at 0.4 g."""
    behind = wheelbase * (1.0 - laden_front_axle_share)
    return physics.yaw_response(
        speed=FAST,
        mass=laden_mass,
        yaw_inertia=laden_yaw_inertia,
        front_distance=behind,
        rear_distance=wheelbase - behind,
        front_stiffness=effective_cornering_stiffness[FRONT],
        rear_stiffness=effective_cornering_stiffness[REAR],
    )


@quantity("Hz", "Yaw natural frequency at 100 km/h", source="abe")
def yaw_frequency(yaw_response: physics.YawResponse) -> Values:
    """Return how quickly the car swings into a bend."""
    return np.asarray(yaw_response.natural_frequency) / (2.0 * np.pi)


@quantity("-", "Yaw damping ratio at 100 km/h", source="abe")
def yaw_damping(yaw_response: physics.YawResponse) -> Values:
    """Return how soon the swing dies away."""
    return np.asarray(yaw_response.damping_ratio)


@quantity("1/s", "Yaw velocity per steering-wheel angle at 100 km/h", source="gillespie-handling")
def yaw_gain(wheelbase: Values, understeer_gradient: Values, steering_ratio: Values) -> Values:
    """Return how strongly the car answers the steering wheel."""
    gain = physics.yaw_velocity_gain(
        speed=FAST, wheelbase=wheelbase, understeer_gradient=understeer_gradient
    )
    return np.asarray(gain / steering_ratio)
