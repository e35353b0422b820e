"""How the car stands on its springs: adjusters, new weight, coils at full bump, bump stops."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics import coil_springs
from drybuild.physics.bump_stops import bump_stop_force
from drybuild.physics.rigid_body import RigidBody
from drybuild.physics.springs import coil_shear_stress, wahl_factor
from drybuild.project.body import Body
from drybuild.project.handbook import given_or_handbook
from drybuild.project.samples import Values
from drybuild.project.suspension import CoilSpring, FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.body import signed
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.suspension_linkage import Linkages, spring_ratio_of
from drybuild.quantities.suspension_springs import motion_ratio_of, rate_from_dimensions
from drybuild.tables.suspension import layout_of
from drybuild.units import STANDARD_GRAVITY

DEAD_COILS = 2.0
"""Coils that do not work at squared ends; Shigley, table 10-1."""


@step("Axle loads of the car as it stands", source="definition")
def standing_axle_load(standing_car: RigidBody, body: Body) -> Labelled:
    """Split the car's mass as measured over its axles."""
    front = np.asarray(standing_car.mass * (1.0 + standing_car.x / body.wheelbase))
    return {FRONT: front, REAR: np.asarray(standing_car.mass) - front}


@step("Rise of the front body by springs and adjusters", source="definition")
def front_adjusted(
    front_suspension: FrontSuspension, front_linkage: Linkages, standing_axle_load: Labelled
) -> Values:
    """Ask the front alone, so that what needs no more of it does not hang on the rear."""
    return _risen(FRONT, front_suspension, front_linkage, standing_axle_load)


@step("Rise of the rear body by springs and adjusters", source="definition")
def rear_adjusted(
    rear_suspension: RearSuspension, rear_linkage: Linkages, standing_axle_load: Labelled
) -> Values:
    """Ask the rear alone, so that what needs no more of it does not hang on the front."""
    return _risen(REAR, rear_suspension, rear_linkage, standing_axle_load)


@quantity("m", "Rise of the body by springs and adjusters", per="axle", source="definition",
          shown="mm")  # fmt: skip
def adjusted_height(front_adjusted: Values, rear_adjusted: Values) -> Labelled:
    """Add packing, blocks and shackles, and a coil of known free length against its seats.

    The load is the car's as measured; a kit's own `ride_height_change` stands in for its springs.
    """
    return {FRONT: front_adjusted, REAR: rear_adjusted}


@quantity("m", "Sill seam over the road with the new weight", per="axle", source="definition",
          shown="mm")  # fmt: skip
def settled_ride_height(
    ride_height: Labelled, axle_load: Labelled, standing_axle_load: Labelled, wheel_rate: Labelled
) -> Labelled:
    """Let the springs give to what the car weighs more at the kerb than it did as measured."""

    def settled(axle: str) -> Values:
        more = (axle_load[axle] - standing_axle_load[axle]) / 2.0
        return ride_height[axle] - more * STANDARD_GRAVITY / wheel_rate[axle]

    return each_axle(settled)


@quantity("N", "Force of each spring, laden", per="axle", source="definition")
def laden_spring_force(laden_sprung_axle_load: Labelled, motion_ratio: Labelled) -> Labelled:
    """Return the sprung load of a wheel over the motion ratio."""
    return each_axle(
        lambda axle: laden_sprung_axle_load[axle] * STANDARD_GRAVITY / 2.0 / motion_ratio[axle]
    )


@quantity("m", "Stroke left to the coils' touching at full bump", per="axle",
          source="shigley-springs", shown="mm")  # fmt: skip
def coil_stroke_left(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    laden_spring_force: Labelled,
    spring_rate: Labelled,
    motion_ratio: Labelled,
    bump_travel_left: Labelled,
) -> Labelled:
    """Take the full bump off the laden length, down to the coils on each other."""
    found: Labelled = {}
    for axle, coil in _coils(front_suspension, rear_suspension, "free_length").items():
        total = coil.total_coils if coil.has("total_coils") else coil.active_coils + DEAD_COILS
        solid = coil_springs.solid_length(
            wire_diameter=coil.wire_diameter, total_coils=total, ground=True
        )
        laden = coil.free_length - laden_spring_force[axle] / spring_rate[axle]
        bump = np.maximum(bump_travel_left[axle], 0.0) * motion_ratio[axle]
        found[axle] = np.asarray(laden - bump - solid)
    return found


@quantity("Pa", "Shear of the coil's wire at full bump", per="axle", source="shigley-springs",
          shown="MPa")  # fmt: skip
def coil_stress(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    laden_spring_force: Labelled,
    spring_rate: Labelled,
    motion_ratio: Labelled,
    bump_travel_left: Labelled,
) -> Labelled:
    """Return the stress with Wahl's factor, laden and pressed to full bump."""
    found: Labelled = {}
    for axle, coil in _coils(front_suspension, rear_suspension, "wire_diameter").items():
        bump = np.maximum(bump_travel_left[axle], 0.0) * motion_ratio[axle]
        found[axle] = np.asarray(
            coil_shear_stress(
                force=laden_spring_force[axle] + spring_rate[axle] * bump,
                wire_diameter=coil.wire_diameter,
                mean_diameter=coil.mean_diameter,
                stress_factor=wahl_factor(spring_index=coil.mean_diameter / coil.wire_diameter),
            )
        )
    return found


@quantity("Pa", "Shear that a coil may have at full bump", per="axle", source="common-practice",
          shown="MPa")  # fmt: skip
def coil_stress_allowed(
    front_suspension: FrontSuspension, rear_suspension: RearSuspension
) -> Labelled:
    """Return what the maker allows, else what is usual."""
    ends = _ends(front_suspension, rear_suspension)
    found = _coils(front_suspension, rear_suspension, "wire_diameter")
    return {axle: ends[axle].spring_shear_limit for axle in found}


@quantity("-", "Wheel load at full bump over the load standing, laden", per="axle",
          source="common-practice")  # fmt: skip
def full_bump_load(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    laden_sprung_axle_load: Labelled,
    wheel_rate: Labelled,
    motion_ratio: Labelled,
    bump_travel_left: Labelled,
) -> Labelled:
    """Add spring and bump stop where the stop is told; infinite where it would be crushed."""
    found: Labelled = {}
    for axle, one in _ends(front_suspension, rear_suspension).items():
        if not one.has("bump_stop"):
            continue
        stop, bump = one.bump_stop, np.maximum(bump_travel_left[axle], 0.0)
        ratio = stop.motion_ratio if stop.has("motion_ratio") else motion_ratio[axle]
        force = bump_stop_force(
            compression=(bump - stop.gap) * ratio,
            length=stop.length,
            scale=stop.scale,
            exponent=stop.exponent,
        )
        load = laden_sprung_axle_load[axle] * STANDARD_GRAVITY / 2.0
        found[axle] = np.asarray(1.0 + (wheel_rate[axle] * bump + force * ratio) / load)
    if not found:
        raise DoesNotApply("options.front_suspension.bump_stop", "no bump stop is told")
    return found


def _ends(front: FrontSuspension, rear: RearSuspension) -> dict[str, Suspension]:
    return {FRONT: front, REAR: rear}


def _coils(front: FrontSuspension, rear: RearSuspension, entry: str) -> dict[str, CoilSpring]:
    found = {
        axle: one.coil
        for axle, one in _ends(front, rear).items()
        if one.has("coil") and one.coil.has(entry)
    }
    if not found:
        raise DoesNotApply("options.front_suspension.coil", "no coil spring's dimensions are told")
    return found


def _risen(axle: str, one: Suspension, linkage: Linkages, loads: Labelled) -> Values:
    load, ratio = loads[axle], spring_ratio_of(linkage, axle)
    if ratio is None:
        ratio = motion_ratio_of(one)
    rise = signed(one, "packing", load) / ratio
    rise = rise - signed(one, "lowering_block", load)
    rise = rise + signed(one, "shackle_change", load) * _seat_share(one)
    sat = one.has("seat_distance") and one.has("coil") and one.coil.has("free_length")
    if sat and not one.has("ride_height_change"):
        usual = layout_of(one.layout).unsprung
        sprung = (load - given_or_handbook(one, "unsprung_mass", usual)) / 2.0
        rate = rate_from_dimensions(one, sprung, ratio)
        if rate is not None:
            length = one.coil.free_length - sprung * STANDARD_GRAVITY / ratio / rate
            rise = rise + (length - one.seat_distance) / ratio
    return np.asarray(rise)


def _seat_share(one: Suspension) -> Values | float:
    """Return how far the body rises over a leaf's seat per longer shackle: by the front half."""
    if one.has("leaf") and one.leaf.has("front_length") and one.leaf.has("rear_length"):
        return one.leaf.front_length / (one.leaf.front_length + one.leaf.rear_length)
    return 0.5
