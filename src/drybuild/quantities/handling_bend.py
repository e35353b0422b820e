"""The laden car in a steady bend, up to its limit, and braked in one."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, TypeVar

import numpy as np

from drybuild.physics.braked_corner import BrakedAxle, braking_limit_in_bend
from drybuild.physics.load_transfer import LoadTransfer
from drybuild.physics.steady_corner import Bend, CornerAxle, SteadyCorner, steady_corner
from drybuild.physics.steering import moment_of_vertical_load
from drybuild.physics.tyre_force import SideTyre
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.steering import ASSISTED, rim_forces
from drybuild.units import STANDARD_GRAVITY

T = TypeVar("T")
POINTS = 25
"""Of a curve over lateral acceleration."""
DRAWS = 200
"""Samples behind a curve's band; single figures rest on all."""
RADIUS = 100.0
"""Of the bend; the standard's usual circle. [m]"""
AIR_DENSITY = 1.2
"""20 °C at sea level. [kg/m³]"""
NEAR = 0.9
"""Share of the limit that a brisk driver may meet. [-]"""
STEP = 0.04
"""Share of the limit over which the slope before it is taken. [-]"""
BRISK = 0.4 * STANDARD_GRAVITY
"""Lateral acceleration of the bend in which the car is braked. [m/s²]"""


@step("Side force of each axle's tyres", source="pacejka")
def side_tyres(tyres: Tyres, tyre_reference_load: Labelled) -> dict[str, SideTyre]:
    """Gather what the sums of cornering know of a tyre."""
    return {
        axle: SideTyre(
            reference_load=tyre_reference_load[axle],
            cornering_coefficient=tyres.cornering_coefficient,
            friction=tyres.side_friction,
            cornering_loss=tyres.cornering_load_loss,
            friction_loss=tyres.friction_load_loss,
            camber_ratio=tyres.camber_ratio,
            camber_friction_loss=tyres.camber_friction_loss,
            pneumatic_trail=tyres.pneumatic_trail,
        )
        for axle in (FRONT, REAR)
    }


@step("The laden car in a bend of 100 m", source="iso-4138")
def bend(
    side_tyres: dict[str, SideTyre],
    static_camber: Labelled,
    static_toe_in: Labelled,
    steering: Steering,
    body: Body,
    laden_axle_weight: Labelled,
    transfer_per_acceleration: dict[str, LoadTransfer],
    track: Labelled,
    wheel_lean: Labelled,
    roll_steer: Labelled,
    roll_gradient: Values,
    steering_axis: Labelled,
    wheelbase: Values,
) -> Bend:
    """Gather loads, geometry and tyres of both axles; the air lifts by the square of speed."""
    air = 0.5 * AIR_DENSITY * body.frontal_area * RADIUS
    lifts = {FRONT: body.front_lift_coefficient, REAR: body.rear_lift_coefficient}

    def axle_of(axle: str) -> CornerAxle:
        steered = axle == FRONT
        return CornerAxle(
            tyre=side_tyres[axle],
            wheel_load=laden_axle_weight[axle] / 2.0,
            transfer=transfer_per_acceleration[axle].total,
            lift=air * lifts[axle],
            track=track[axle],
            camber=static_camber[axle],
            lean=wheel_lean[axle],
            toe_in=static_toe_in[axle] / 2.0,
            roll_steer=roll_steer[axle],
            give=1.0 / steering.stiffness if steered else 0.0 * roll_gradient,
            mechanical_trail=steering_axis["trail"] if steered else 0.0 * roll_gradient,
        )

    return Bend(front=axle_of(FRONT), rear=axle_of(REAR), roll=roll_gradient, wheelbase=wheelbase)


@step("The bend near its limit", source="iso-4138")
def bend_near_limit(bend: Bend, cornering_limit: Values) -> dict[str, SteadyCorner]:
    """Solve at nine tenths of the limit and a little before."""
    return {
        name: steady_corner(bend=bend, acceleration=share * cornering_limit)
        for name, share in (("before", NEAR - STEP), ("at", NEAR))
    }


@quantity("rad", "Steer beyond the bend's own at nine tenths of the limit", source="iso-4138",
          shown="deg")  # fmt: skip
def understeer_near_limit(bend_near_limit: dict[str, SteadyCorner]) -> Values:
    """Return the understeer angle at the front wheels."""
    return bend_near_limit["at"].understeer_angle


@quantity("rad·s²/m", "Understeer gradient at nine tenths of the limit", source="iso-4138",
          shown="deg/g")  # fmt: skip
def understeer_gradient_near_limit(bend_near_limit: dict[str, SteadyCorner]) -> Values:
    """Return the slope up to there; below zero the car turns in by itself near its limit."""
    before, at = bend_near_limit["before"], bend_near_limit["at"]
    rise = at.understeer_angle - before.understeer_angle
    return np.asarray(rise / (at.acceleration - before.acceleration))


@quantity("rad", "Body roll at nine tenths of the limit", source="barton-fieldhouse", shown="deg")
def roll_near_limit(bend_near_limit: dict[str, SteadyCorner]) -> Values:
    """Return how far the body leans."""
    return bend_near_limit["at"].roll


@quantity("N", "Load left on the inner wheel at nine tenths of the limit", per="axle",
          source="milliken")  # fmt: skip
def inner_load_near_limit(bend_near_limit: dict[str, SteadyCorner]) -> Labelled:
    """Return nought where it hangs in the air."""
    at = bend_near_limit["at"]
    return {FRONT: at.front.inner_load, REAR: at.rear.inner_load}


@quantity("rad", "Lean of the outer wheel out of the bend, nine tenths of the limit", per="axle",
          source="milliken", shown="deg")  # fmt: skip
def outer_lean_near_limit(bend_near_limit: dict[str, SteadyCorner]) -> Labelled:
    """Return static camber and lean in roll together; a tyre grips best nearly upright."""
    at = bend_near_limit["at"]
    return {FRONT: -at.front.outer_camber, REAR: -at.rear.outer_camber}


@quantity("N", "Force at the rim at nine tenths of the limit", per="assistance",
          source="gillespie-handling")  # fmt: skip
def rim_force_near_limit(
    bend_near_limit: dict[str, SteadyCorner],
    steering: Steering,
    steering_axis: Labelled,
    steering_ratio: Values,
    scrub_radius: Values,
    wheelbase: Values,
) -> Labelled:
    """Hold the side force on both trails, and the loads on the offset of the axes."""
    moment = steering_moment(
        bend_near_limit["at"], steering_axis, scrub_radius=scrub_radius, wheelbase=wheelbase
    )
    return rim_forces(steering, moment, steering_ratio)


@step("The bend from rest to its limit", source="iso-4138")
def bend_curve(bend: Bend, cornering_limit: Values) -> SteadyCorner:
    """Solve it at accelerations up to the nominal limit, on some of the samples."""
    acceleration = np.linspace(0.0, 0.985 * float(cornering_limit[0]), POINTS)
    return steady_corner(bend=few(bend), acceleration=acceleration[:, np.newaxis])


@step("Force at the rim from rest to the limit", source="gillespie-handling")
def rim_force_curve(
    bend_curve: SteadyCorner,
    steering: Steering,
    steering_axis: Labelled,
    steering_ratio: Values,
    scrub_radius: Values,
    wheelbase: Values,
) -> Values:
    """Return the force as fitted at the same accelerations and samples."""
    axis = {name: thinned(values) for name, values in steering_axis.items()}
    moment = steering_moment(
        bend_curve, axis, scrub_radius=thinned(scrub_radius), wheelbase=thinned(wheelbase)
    )
    whole = rim_forces(steering, np.ones(1), steering_ratio)[ASSISTED]
    return moment * thinned(whole)


def thinned(values: Values) -> Values:
    """Return the nominal and every so many of the samples."""
    return values[..., :: max(1, values.shape[-1] // DRAWS)]


def few(whole: T) -> T:
    """Return a frozen dataclass of samples with the nominal and every so many of the others."""
    changed: dict[str, Any] = {}  # a field is an array or another dataclass
    for field in fields(whole):  # type: ignore[arg-type]  # callers pass dataclasses
        value = getattr(whole, field.name)
        changed[field.name] = few(value) if is_dataclass(value) else thinned(np.asarray(value))
    return replace(whole, **changed)  # type: ignore[type-var]  # as above


def steering_moment(
    corner: SteadyCorner, steering_axis: Labelled, *, scrub_radius: Values, wheelbase: Values
) -> Values:
    """Return the moment about both steering axes in a bend of 100 m. [N·m]."""
    centring = moment_of_vertical_load(
        outer_load=corner.front.outer_load,
        inner_load=corner.front.inner_load,
        kingpin_offset=scrub_radius,
        kingpin_inclination=steering_axis["inclination"],
        caster=steering_axis["caster"],
        steer_angle=wheelbase / RADIUS + corner.understeer_angle,
    )
    return np.asarray(corner.front.aligning + centring)


@dataclass(frozen=True, kw_only=True)
class Braked:
    """What braking in a bend needs beyond the bend."""

    front: BrakedAxle
    rear: BrakedAxle


@step("Brakes in a bend", source="wong-ellipse")
def braked_axles(
    front_brake_share: Values,
    laden_mass: Values,
    laden_cg_height: Values,
    wheelbase: Values,
    tyres: Tyres,
) -> Braked:
    """Share the braking as the line pressures do at 0.9 g; the load moves forward."""
    moved = laden_mass * laden_cg_height / wheelbase
    return Braked(
        front=BrakedAxle(share=front_brake_share, load_gain=moved, adhesion=tyres.adhesion),
        rear=BrakedAxle(share=1.0 - front_brake_share, load_gain=-moved, adhesion=tyres.adhesion),
    )


@quantity("m/s²", "Braking that each axle still bears in a bend of 0.4 g", per="axle",
          source="wong-ellipse", shown="g")  # fmt: skip
def braking_in_bend(bend: Bend, braked_axles: Braked, laden_mass: Values) -> Labelled:
    """Return the deceleration at which it slides: the front runs wide, the rear spins the car."""
    return each_axle(
        lambda axle: braking_limit_in_bend(
            bend=bend,
            axle=axle,
            acceleration=BRISK,
            braked=braked_axles.front if axle == FRONT else braked_axles.rear,
            mass=laden_mass,
        )
    )


@quantity("m/s²", "Rear's reserve over the front when braking in a bend", source="wong-ellipse",
          shown="g")  # fmt: skip
def braking_in_bend_balance(braking_in_bend: Labelled) -> Values:
    """Return how much harder the rear may be braked than the front; minus spins first."""
    return braking_in_bend[REAR] - braking_in_bend[FRONT]
