"""The items that the mass of the car is made of: the car on the scales, its changes, its loads."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drybuild.physics.mass import (
    cg_distance_from_front_axle,
    cg_height_by_axle_lift_iso_10392,
    cg_height_from_stability_factor,
    cg_offset_to_the_left,
    inertia_from_dynamic_index,
    roll_inertia_from_track,
)
from drybuild.physics.rigid_body import RigidBody, joined
from drybuild.project.body import Body
from drybuild.project.build import AS_IT_STANDS
from drybuild.project.handbook import handbook
from drybuild.project.mass import Mass
from drybuild.project.option import Option
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.quantities.graph import Part, Parts
from drybuild.tables.mass import place_of
from drybuild.tables.ranges import Range, scaled

CORNERS = ("front_left", "front_right", "rear_left", "rear_right")
LIKE_FOR_LIKE = Range(
    low=0.7,
    value=1.0,
    high=1.3,
    unit="-",
    source_id="common-practice",
    locator="about what it stands against",
)
SMALL_PART = Range(
    low=1.0,
    value=4.0,
    high=15.0,
    unit="kg",
    source_id="common-practice",
    locator="an added part of unknown mass",
)


def standing_body(mass: Mass, body: Body) -> RigidBody:
    """Return the car as it was weighed, else as cars of its kind and size are."""
    front, rear = scale_readings(mass, body)
    total = front + rear
    behind = cg_distance_from_front_axle(front_axle=front, rear_axle=rear, wheelbase=body.wheelbase)
    track = (body.front_track + body.rear_track) / 2.0
    ahead = body.wheelbase - behind
    index = {"mass": total, "front_distance": behind, "rear_distance": ahead}
    yaw = (
        mass.yaw_inertia
        if mass.has("yaw_inertia")
        else inertia_from_dynamic_index(**index, dynamic_index=mass.yaw_index)
    )
    return RigidBody(
        mass=total,
        x=-behind,
        y=_offset(mass, body, total),
        z=height_over_road(mass, body, total, front) - body.ride_height,
        yaw_inertia=yaw,
        pitch_inertia=inertia_from_dynamic_index(**index, dynamic_index=mass.pitch_index),
        roll_inertia=roll_inertia_from_track(
            mass=total, track=track, gyration_share=mass.roll_gyration
        ),
    )


def scale_readings(mass: Mass, body: Body) -> tuple[Values, Values]:
    """Return front and rear axle on the scales, as far as they were weighed."""
    if all(mass.has(corner) for corner in CORNERS):
        return mass.front_left + mass.front_right, mass.rear_left + mass.rear_right
    weighed = mass.has("front_axle"), mass.has("rear_axle")
    if weighed == (True, True):
        return mass.front_axle, mass.rear_axle
    share = mass.front_share
    if weighed == (True, False):
        return mass.front_axle, mass.front_axle * (1.0 - share) / share
    if weighed == (False, True):
        return mass.rear_axle * share / (1.0 - share), mass.rear_axle
    track = (body.front_track + body.rear_track) / 2.0
    total = mass.per_footprint * body.wheelbase * track
    return total * share, total * (1.0 - share)


def height_over_road(mass: Mass, body: Body, total: Values, front: Values) -> Values:
    """Return the height of the centre of gravity: measured, from a lift, or of its kind."""
    if mass.has("cg_height"):
        return mass.cg_height
    if mass.has("lifted_front_axle") and mass.has("lift_height"):
        return np.asarray(
            cg_height_by_axle_lift_iso_10392(
                static_radius=mass.wheel_centre_height,
                wheelbase=body.wheelbase,
                mass=total,
                front_axle_level=front,
                front_axle_lifted=mass.lifted_front_axle,
                inclination=np.arcsin(mass.lift_height / body.wheelbase),
            )
        )
    track = (body.front_track + body.rear_track) / 2.0
    return np.asarray(
        cg_height_from_stability_factor(track=track, static_stability_factor=mass.stability_factor)
    )


def with_fuel_and_without_people(car: RigidBody, mass: Mass, body: Body) -> RigidBody:
    """Return the car with a full tank and nobody aboard, from how it stood on the scales.

    Where nothing is said of the fuel, the car counts as weighed with a full tank: to guess how much
    was missing would shift every mass by a figure that nobody gave.
    """
    corrections = []
    weighed = any(mass.has(one) for one in ("front_axle", "rear_axle", *CORNERS))
    if weighed and mass.has("fuel_aboard"):
        missing = mass.fuel_when_full - mass.fuel_aboard
        corrections.append(load_at(mass, "fuel_tank", body, missing))
    if mass.has("people_aboard"):
        corrections.append(load_at(mass, "front_seats", body, -mass.people_aboard))
    return joined(bodies=[car, *corrections])


def changes_of(parts: Parts, mass: Mass, body: Body) -> dict[str, list[RigidBody]]:
    """Return what each system takes off the car as weighed, and puts on it."""
    off = mass.off_the_car
    found: dict[str, list[RigidBody]] = {}
    for system, part in parts.items():
        was_there = system not in off
        if not part.changed and was_there:
            continue
        old = standing_option(part) if was_there else None
        found[system] = [
            *([_taken_off(part, old, body)] if old else []),
            _at(part, part.picked, body, mass_of(part.picked, old)),
        ]
    return found


def standing_option(part: Part) -> Option | None:
    """Return what a pick takes the place of.

    A system that every car has is taken to be there, though the file does not describe it; one
    that a car can be without (a roll bar) is taken to be new.
    """
    if part.as_is is not None or not place_of(part.system).fitted:
        return part.as_is
    picked = part.picked
    path = f"options.{part.system}.{AS_IT_STANDS}"
    return type(picked)(path=path, key=picked.key, bench=picked.bench)


def _taken_off(part: Part, old: Option, body: Body) -> RigidBody:
    away = _at(part, old, body, mass_of(old, part.picked))
    return replace(away, mass=-away.mass)


def mass_of(option: Option, other: Option | None) -> Values:
    """Return an option's mass: given, of its kind, or about that of the one it stands against.

    What an option weighs like depends on the other one, so the share is drawn, not the mass: one
    that stands against several keeps its luck and takes the mass of each.
    """
    if option.has("mass") or type(option).mass.typical_reading(option):
        return option.mass
    if other is None or not other.has("mass"):
        return handbook(option, "mass", SMALL_PART)
    return handbook(option, "mass.like", LIKE_FOR_LIKE) * other.mass


def _at(part: Part, option: Option, body: Body, mass: Values) -> RigidBody:
    """Return an option's mass where it is said to be; an unsaid one sits where the other does."""
    for one in (option, part.picked, part.as_is):
        if one is not None and one.has("position"):
            x, y, z = one.position
            return RigidBody(mass=mass, x=x, y=y, z=z)
    return _usually_at(part.picked, "position", part.system, body, mass)


def load_at(section: Mass, name: str, body: Body, mass: Values) -> RigidBody:
    """Return a load of the car where the file says that it is, else where it usually is."""
    if section.has(name):
        x, y, z = getattr(section, name)
        return RigidBody(mass=mass, x=x, y=y, z=z)
    return _usually_at(section, name, name, body, mass)


def _usually_at(section: Section, entry: str, name: str, body: Body, mass: Values) -> RigidBody:
    place = place_of(name)
    along = scaled(place.behind, -float(body.wheelbase[0]), "m")
    x = handbook(section, f"{entry}[0]", along, least=None)
    z = handbook(section, f"{entry}[2]", place.up, least=None)
    return RigidBody(mass=mass, x=x, y=np.zeros_like(x), z=z)


def wheel_side_changes(parts: Parts) -> dict[str, Values]:
    """Return what changed wheels, tyres, brakes and final drive add to each end's wheels."""
    found: dict[str, list[Values]] = {"front": [], "rear": [], "final drive": []}
    for system, part in parts.items():
        place = place_of(system)
        old = standing_option(part)
        if not part.changed or old is None or system.endswith("_suspension"):
            continue
        gain = mass_of(part.picked, old) - mass_of(old, part.picked)
        found["front"].append(place.unsprung_front * gain)
        found["rear"].append(place.unsprung_rear * gain)
        found["final drive"].append(gain if system in ("axle", "final_drive") else 0.0 * gain)
    return {end: sum(gains, start=np.zeros(1)) for end, gains in found.items()}


def _offset(mass: Mass, body: Body, like: Values) -> Values:
    if not all(mass.has(corner) for corner in CORNERS):
        return np.zeros_like(like)
    return np.asarray(
        cg_offset_to_the_left(
            front_left=mass.front_left,
            front_right=mass.front_right,
            rear_left=mass.rear_left,
            rear_right=mass.rear_right,
            front_track=body.front_track,
            rear_track=body.rear_track,
        )
    )
