"""Leaf springs under the axle's torque and load: windup, stress, and friction of the leaves."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics import leaf_springs as physics
from drybuild.project.samples import Values
from drybuild.project.suspension import LeafSpring, RearSuspension
from drybuild.quantities.axles import REAR
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.units import STANDARD_GRAVITY

HARD_STOP = 0.9
"""Deceleration of a hard stop. [g]"""


def _rear_leaf(rear: RearSuspension) -> LeafSpring:
    if not (rear.layout.endswith("on leaf springs") and rear.has("leaf")):
        raise DoesNotApply(
            "options.rear_suspension.leaf", "no leaf springs by their dimensions hold the axle"
        )
    return rear.leaf


@quantity("N·m/rad", "Windup rate of the rear leaf springs together", source="sae-spring-manual",
          shown="N·m/deg")  # fmt: skip
def leaf_windup_rate(rear_suspension: RearSuspension, spring_rate: Labelled) -> Values:
    """Return what both springs hold against the axle's turning; arms beside them stiffen it."""
    leaf = _rear_leaf(rear_suspension)
    return 2.0 * np.asarray(
        physics.leaf_windup_rate(
            front_length=leaf.front_length, rear_length=leaf.rear_length, rate=spring_rate[REAR]
        )
    )


@quantity("rad", "Windup of the rear axle", per="case", source="sae-spring-manual", shown="deg")
def axle_windup(
    leaf_windup_rate: Values, axle_reaction_torque: Values, rear_brake_torque_hard: Values
) -> Labelled:
    """Turn the axle's nose up under drive and down under brakes."""
    return {
        "drive": axle_reaction_torque / leaf_windup_rate,
        "brakes": rear_brake_torque_hard / leaf_windup_rate,
    }


@quantity("N·m", "Torque of the rear brakes in a hard stop, both wheels",
          source="definition")  # fmt: skip
def rear_brake_torque_hard(
    laden_mass: Values, front_brake_share: Values, static_radius: Labelled
) -> Values:
    """Take the rear's share of 0.9 g, tyres permitting."""
    force = HARD_STOP * STANDARD_GRAVITY * laden_mass * (1.0 - front_brake_share)
    return np.asarray(force * static_radius[REAR])


@quantity("Pa", "Stress of the rear leaves", per="case", source="khurmi-gupta", shown="MPa")
def leaf_stress(
    rear_suspension: RearSuspension,
    laden_sprung_axle_load: Labelled,
    spring_rate: Labelled,
    axle_reaction_torque: Values,
    bump_travel_left: Labelled,
) -> Labelled:
    """Return it laden, at full bump, and laden with the drive's torque; all leaves alike."""
    leaf = _rear_leaf(rear_suspension)
    sizes = {"leaves": leaf.leaves, "width": leaf.leaf_width, "thickness": leaf.leaf_thickness}
    halves = {"front_length": leaf.front_length, "rear_length": leaf.rear_length}
    load = laden_sprung_axle_load[REAR] * STANDARD_GRAVITY / 2.0
    more = spring_rate[REAR] * np.maximum(bump_travel_left[REAR], 0.0)
    laden, bumped = (
        np.asarray(physics.leaf_stress(load=one, **halves, **sizes)) for one in (load, load + more)
    )
    span = leaf.front_length + leaf.rear_length
    torque = physics.leaf_torque_stress(
        torque=axle_reaction_torque / 2.0,
        longer_half=np.maximum(leaf.front_length, leaf.rear_length),
        span=span,
        **sizes,
    )
    return {"laden": laden, "full bump": bumped, "laden, full drive": laden + np.asarray(torque)}


@quantity("N", "Force by which a rear leaf spring's rubbing holds it", source="common-practice")
def leaf_friction(rear_suspension: RearSuspension, laden_sprung_axle_load: Labelled) -> Values:
    """Return it laden; bumps of less pass the spring by."""
    leaf = _rear_leaf(rear_suspension)
    load = laden_sprung_axle_load[REAR] * STANDARD_GRAVITY / 2.0
    return np.asarray(physics.leaf_friction_force(load=load, friction_share=leaf.friction))
