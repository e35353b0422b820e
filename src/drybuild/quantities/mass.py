"""What the car weighs and where, item by item: as it stands, as it will stand, and laden."""

from __future__ import annotations

import numpy as np

from drybuild.physics.mass import axle_masses, cross_weight_share
from drybuild.physics.rigid_body import RigidBody, joined
from drybuild.project.body import Body
from drybuild.project.brief import Brief
from drybuild.project.handbook import given_or_handbook
from drybuild.project.mass import Mass
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import AXLES, FRONT, REAR
from drybuild.quantities.graph import Parts
from drybuild.quantities.mass_items import (
    changes_of,
    load_at,
    standing_body,
    wheel_side_changes,
    with_fuel_and_without_people,
)
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.suspension import layout_of
from drybuild.units import STANDARD_GRAVITY


@step("The car as it stands, fuelled and empty", source="nhtsa-lvipd")
def standing_car(mass: Mass, body: Body) -> RigidBody:
    """Take the weighing where there is one, else what cars of its kind and size weigh."""
    return with_fuel_and_without_people(standing_body(mass, body), mass, body)


@step("What comes off and goes on", source="parallel-axis", aggregate=True)
def mass_changes(parts: Parts, mass: Mass, body: Body) -> dict[str, list[RigidBody]]:
    """Return what each picked option takes off and puts on, by system."""
    return changes_of(parts, mass, body)


@step("The car as it will stand, fuelled and empty", source="parallel-axis", aggregate=True)
def kerb_car(standing_car: RigidBody, mass_changes: dict[str, list[RigidBody]]) -> RigidBody:
    """Join the car as it stands with all that comes off and goes on."""
    bodies = [body for system in mass_changes.values() for body in system]
    return joined(bodies=[standing_car, *bodies])


@step("The car with people and luggage aboard", source="parallel-axis", aggregate=True)
def laden_car(kerb_car: RigidBody, body: Body, mass: Mass, brief: Brief) -> RigidBody:
    """Seat two people in front, the others behind; put the luggage in its space."""
    in_front = np.minimum(brief.occupants, 2.0) * brief.occupant_mass
    behind = np.maximum(brief.occupants - 2.0, 0.0) * brief.occupant_mass
    aboard = [
        load_at(mass, "front_seats", body, in_front),
        load_at(mass, "rear_seats", body, behind),
        load_at(mass, "luggage_space", body, brief.luggage),
    ]
    return joined(bodies=[kerb_car, *aboard])


@quantity("kg", "Mass, fuelled, nobody aboard", source="definition", aggregate=True)
def kerb_mass(kerb_car: RigidBody) -> Values:
    """Weigh the finished car: tank full, nobody in it."""
    return np.asarray(kerb_car.mass)


@quantity("kg", "Mass on a usual journey", source="definition", aggregate=True)
def laden_mass(laden_car: RigidBody) -> Values:
    """Add the people and the luggage of the brief."""
    return np.asarray(laden_car.mass)


@quantity("kg", "Mass of the car as it stands, fuelled", source="definition")
def standing_mass(standing_car: RigidBody) -> Values:
    """Weigh the car before any change, fuelled."""
    return np.asarray(standing_car.mass)


@quantity("kg", "Mass that each system adds", per="system", source="definition", aggregate=True)
def mass_change(mass_changes: dict[str, list[RigidBody]], standing_car: RigidBody) -> Labelled:
    """Compare with the car as it stands; only systems that change are listed."""
    none = np.zeros_like(standing_car.mass)
    return {
        system: none + sum(np.asarray(body.mass) for body in bodies)
        for system, bodies in mass_changes.items()
    } or {"none": none}


@quantity("kg", "Load of each axle, empty", per="axle", source="gillespie-mass")
def axle_load(kerb_car: RigidBody, body: Body) -> Labelled:
    """Share the mass between the axles by the lever rule."""
    return _axles(kerb_car, body)


@quantity("kg", "Load of each axle on a usual journey", per="axle", source="gillespie-mass")
def laden_axle_load(laden_car: RigidBody, body: Body) -> Labelled:
    """Share the laden mass between the axles by the lever rule."""
    return _axles(laden_car, body)


@quantity("-", "Share of the mass on the front axle, empty", source="gillespie-mass", shown="%")
def front_axle_share(kerb_car: RigidBody, body: Body) -> Values:
    """Return the front axle's part of the empty mass."""
    return np.asarray(1.0 + kerb_car.x / body.wheelbase)


@quantity("-", "Share of the mass in front on a journey", source="gillespie-mass", shown="%")
def laden_front_axle_share(laden_car: RigidBody, body: Body) -> Values:
    """Return the front axle's part of the laden mass."""
    return np.asarray(1.0 + laden_car.x / body.wheelbase)


@quantity(
    "m", "Centre of gravity over the road, empty", source="iso-10392", shown="mm", aggregate=True
)
def cg_height(kerb_car: RigidBody, ride_height: Labelled, front_axle_share: Values) -> Values:
    """Count from the road below the centre of gravity."""
    return np.asarray(kerb_car.z) + _ground(ride_height, front_axle_share)


@quantity(
    "m",
    "Centre of gravity over the road on a journey",
    source="iso-10392",
    shown="mm",
    aggregate=True,
)
def laden_cg_height(
    laden_car: RigidBody, ride_height: Labelled, laden_front_axle_share: Values
) -> Values:
    """Count from the road below the centre of gravity; sag under the load is left out."""
    return np.asarray(laden_car.z) + _ground(ride_height, laden_front_axle_share)


@quantity("m", "Centre of gravity from the origin", per="direction", source="iso-10392", shown="mm")
def cg_position(kerb_car: RigidBody) -> Labelled:
    """Return x ahead of the front wheel centres, y to the left, z over the sill seam."""
    place = {"x": kerb_car.x, "y": kerb_car.y, "z": kerb_car.z}
    return {label: np.asarray(value) for label, value in place.items()}


@quantity("m", "Centre of gravity behind the front axle, empty", source="iso-10392", shown="mm")
def cg_behind_front_axle(kerb_car: RigidBody) -> Values:
    """Return the distance along the car."""
    return np.asarray(-kerb_car.x)


@quantity("kg", "Load of each wheel, empty", per="wheel", source="iso-10392")
def wheel_load(axle_load: Labelled, kerb_car: RigidBody, track: Labelled) -> Labelled:
    """Give each axle its share of the sideways moment; twist of the springs is left out."""
    found = {}
    for axle, load in axle_load.items():
        aside = load * kerb_car.y / track[axle]
        found[f"{axle} left"] = load / 2.0 + aside
        found[f"{axle} right"] = load / 2.0 - aside
    return found


@quantity("-", "Cross weight of the car on the scales", source="milliken", shown="%")
def cross_weight(mass: Mass) -> Values:
    """Return the share of right front and left rear together, as weighed."""
    return np.asarray(
        cross_weight_share(
            front_left=mass.front_left,
            front_right=mass.front_right,
            rear_left=mass.rear_left,
            rear_right=mass.rear_right,
        )
    )


@quantity("kg·m²", "Moment of inertia in yaw, empty", source="nhtsa-lvipd")
def yaw_inertia(kerb_car: RigidBody) -> Values:
    """Return it about the centre of gravity; new parts count as points."""
    return np.asarray(kerb_car.yaw_inertia)


@quantity("kg·m²", "Moment of inertia in pitch, empty", source="nhtsa-lvipd")
def pitch_inertia(kerb_car: RigidBody) -> Values:
    """Return it about the centre of gravity; new parts count as points."""
    return np.asarray(kerb_car.pitch_inertia)


@quantity("kg·m²", "Moment of inertia in roll, empty", source="nhtsa-lvipd")
def roll_inertia(kerb_car: RigidBody) -> Values:
    """Return it about the centre of gravity; new parts count as points."""
    return np.asarray(kerb_car.roll_inertia)


@quantity("kg·m²", "Moment of inertia in yaw on a journey", source="nhtsa-lvipd")
def laden_yaw_inertia(laden_car: RigidBody) -> Values:
    """Return it about the centre of gravity; people count as points."""
    return np.asarray(laden_car.yaw_inertia)


@quantity("-", "Yaw gyration squared over the axle distances", source="nhtsa-lvipd")
def yaw_dynamic_index(kerb_car: RigidBody, body: Body) -> Values:
    """Return what says how lively a car turns: about one for a usual car."""
    behind = -np.asarray(kerb_car.x)
    return np.asarray(kerb_car.yaw_inertia / (kerb_car.mass * behind * (body.wheelbase - behind)))


@step("What wheels, tyres and brakes add to the axles", source="definition", aggregate=True)
def unsprung_change(parts: Parts) -> dict[str, Values]:
    """Add up what moves with the wheels, over all systems that change."""
    return wheel_side_changes(parts)


@quantity("kg", "Unsprung mass of each axle", per="axle", source="common-practice")
def unsprung_mass(
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    unsprung_change: dict[str, Values],
) -> Labelled:
    """Add what the picked wheels, tyres and brakes weigh more to the suspension's own."""
    ends = {FRONT: front_suspension, REAR: rear_suspension}
    return {axle: _unsprung(ends[axle], unsprung_change, axle) for axle in AXLES}


@quantity("kg", "Sprung mass on each axle, empty", per="axle", source="definition")
def sprung_axle_load(axle_load: Labelled, unsprung_mass: Labelled) -> Labelled:
    """Take the unsprung mass off each axle's load."""
    return {axle: load - unsprung_mass[axle] for axle, load in axle_load.items()}


@quantity("kg", "Greatest load that each axle may carry", per="axle", source="the-build-file")
def axle_load_limit(
    mass: Mass, front_suspension: FrontSuspension, rear_suspension: RearSuspension
) -> Labelled:
    """Take the suspension's own limit where it has one, else the car's."""
    front, rear = front_suspension, rear_suspension
    return {
        FRONT: front.axle_load_limit if front.has("axle_load_limit") else mass.front_axle_limit,
        REAR: rear.axle_load_limit if rear.has("axle_load_limit") else mass.rear_axle_limit,
    }


@quantity("kg", "Greatest mass that the car may have", source="the-build-file")
def gross_mass_limit(mass: Mass) -> Values:
    """Return the limit on the car's plate or papers."""
    return mass.gross_limit


@quantity("N", "Weight of each axle on a usual journey", per="axle", source="definition")
def laden_axle_weight(laden_axle_load: Labelled) -> Labelled:
    """Return the laden axle loads as forces."""
    return {axle: load * STANDARD_GRAVITY for axle, load in laden_axle_load.items()}


def _axles(car: RigidBody, body: Body) -> Labelled:
    mass, behind = np.asarray(car.mass)[np.newaxis], -np.asarray(car.x)[np.newaxis]
    front, rear = axle_masses(
        mass=mass, distance_behind_front_axle=behind, wheelbase=body.wheelbase
    )
    return {FRONT: np.asarray(front), REAR: np.asarray(rear)}


def _unsprung(suspension: Suspension, change: dict[str, Values], axle: str) -> Values:
    layout = layout_of(suspension.layout)
    own = given_or_handbook(suspension, "unsprung_mass", layout.unsprung)
    total = own + change[axle]
    return total + change["final drive"] if layout.carries_final_drive else total


def _ground(ride_height: Labelled, front_share: Values) -> Values:
    """Return how far the sill seam's line is over the road below the centre of gravity."""
    return ride_height[FRONT] * front_share + ride_height[REAR] * (1.0 - front_share)
