"""Ride of the laden car over the roads of the brief."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics import ride as physics
from drybuild.physics.rigid_body import RigidBody
from drybuild.project.body import Body
from drybuild.project.brief import Brief
from drybuild.project.mass import Mass
from drybuild.project.samples import Values
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.mass_items import load_at
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.ride import road_use, road_uses
from drybuild.units import STANDARD_GRAVITY

FREQUENCIES = np.geomspace(0.4, 80.0, 72)
"""Third octaves of ISO 2631-1 run from 0.5 Hz to 80 Hz. [Hz]"""
USUAL_ROAD = "country road"
"""What a brief without roads is taken for."""
FAST_ROAD = "motorway"
"""The road on which the brief's own cruising speed counts."""
THREE_SIGMA = 3.0
"""A stroke that a Gaussian road exceeds 0.3 % of the time."""


@dataclass(frozen=True, kw_only=True)
class Road:
    """One kind of road of the brief."""

    share: float
    """Of the distance. [-]"""
    speed: Values
    """[m/s]"""
    roughness: float
    """[m³]"""


@step("Roads of the brief", source="iso-8608")
def road_mix(brief: Brief) -> dict[str, Road]:
    """Return share, speed and roughness of each kind of road; fast roads at the brief's speed."""
    found = {}
    for kind, share in (brief.use or {USUAL_ROAD: 1.0}).items():
        road = road_use(kind)
        if road is None:
            known = ", ".join(road_uses())
            raise MissingInput(f"brief.use.{kind}", f"this kind of road is not known; {known} are")
        fast = kind == FAST_ROAD
        speed = brief.cruise_speed if fast else np.array([road.speed])
        found[kind] = Road(share=share, speed=speed, roughness=road.roughness)
    return found


@step("Wheels of each axle on the road", source="definition")
def axle_wheels(
    wheel_rate: Labelled,
    tyre_vertical_rate: Labelled,
    wheel_damping: Labelled,
    unsprung_mass: Labelled,
) -> dict[str, physics.SprungWheel]:
    """Gather both wheels of each axle as one."""
    return {
        axle: physics.SprungWheel(
            unsprung_mass=unsprung_mass[axle],
            spring_rate=2.0 * wheel_rate[axle],
            damping=2.0 * wheel_damping[axle],
            tyre_rate=2.0 * tyre_vertical_rate[axle],
        )
        for axle in (FRONT, REAR)
    }


@step("The laden car seen from the side", source="wong-ride")
def half_car(
    axle_wheels: dict[str, physics.SprungWheel],
    laden_sprung_axle_load: Labelled,
    laden_car: RigidBody,
    body: Body,
) -> physics.HalfCar:
    """Put the sprung body on both axles; its pitch inertia is in the car's proportion."""
    front, rear = laden_sprung_axle_load[FRONT], laden_sprung_axle_load[REAR]
    sprung = front + rear
    behind = body.wheelbase * rear / sprung
    return physics.HalfCar(
        front=axle_wheels[FRONT],
        rear=axle_wheels[REAR],
        sprung_mass=sprung,
        pitch_inertia=laden_car.pitch_inertia * sprung / laden_car.mass,
        front_distance=behind,
        rear_distance=body.wheelbase - behind,
    )


@quantity("m/s²", "Weighted acceleration under the front seats", per="road", source="iso-2631-1")
def seat_acceleration(
    half_car: physics.HalfCar,
    road_mix: dict[str, Road],
    mass: Mass,
    body: Body,
) -> Labelled:
    """Drive each road at its speed; both axles meet the same road, the seat's foam is left out."""
    seat = load_at(mass, "front_seats", body, body.wheelbase).x + half_car.front_distance
    frequency = FREQUENCIES[:, np.newaxis]
    shares = physics.half_car_shares(frequency=frequency, car=half_car, point_ahead=seat)
    found = {}
    for kind, road in road_mix.items():
        response = physics.both_axles_on_one_road(
            frequency=frequency, shares=shares, speed=road.speed
        )
        level = physics.road_velocity_level(roughness=road.roughness, speed=road.speed)
        found[kind] = np.asarray(
            physics.weighted_acceleration_iso_2631(
                frequency=FREQUENCIES, response=response, velocity_level=level
            )
        )
    return found


@quantity("m/s²", "Ride: weighted acceleration on the brief's roads", source="iso-2631-1")
def ride_comfort(seat_acceleration: Labelled, road_mix: dict[str, Road]) -> Values:
    """Add the squares by the time spent on each road; less is better, and it only ranks cars."""
    times = {kind: road.share / road.speed for kind, road in road_mix.items()}
    whole = sum(times.values())
    square = sum(np.square(seat_acceleration[kind]) * time for kind, time in times.items())
    return np.sqrt(np.asarray(square) / whole)


@step("Each wheel of the laden car on the roughest road", source="james-nichols-phillips")
def wheels_on_road(
    axle_wheels: dict[str, physics.SprungWheel],
    laden_sprung_axle_load: Labelled,
    road_mix: dict[str, Road],
) -> dict[str, physics.QuarterCarOnRoad]:
    """Drive each axle by itself over the road of the brief that shakes it most."""
    levels = [
        np.asarray(physics.road_velocity_level(roughness=road.roughness, speed=road.speed))
        for road in road_mix.values()
    ]
    level = max(levels, key=lambda one: float(one[0]))
    return {
        axle: physics.quarter_car_on_random_road(
            car=physics.QuarterCar(sprung_mass=laden_sprung_axle_load[axle], wheel=wheel),
            velocity_level=level,
        )
        for axle, wheel in axle_wheels.items()
    }


@quantity(
    "-",
    "Change of the wheel load over the load, roughest road",
    per="axle",
    source="james-nichols-phillips",
    shown="%",
)
def dynamic_wheel_load_share(
    wheels_on_road: dict[str, physics.QuarterCarOnRoad], laden_axle_load: Labelled
) -> Labelled:
    """Return the root mean square; above a third the wheel leaves the road at times."""
    return each_axle(
        lambda axle: wheels_on_road[axle].tyre_force / (laden_axle_load[axle] * STANDARD_GRAVITY)
    )


@quantity(
    "m",
    "Spring travel in use, roughest road",
    per="axle",
    source="james-nichols-phillips",
    shown="mm",
)
def travel_in_use(wheels_on_road: dict[str, physics.QuarterCarOnRoad]) -> Labelled:
    """Return three times the root mean square, one way."""
    return each_axle(lambda axle: THREE_SIGMA * wheels_on_road[axle].stroke)


@quantity(
    "m", "Bump travel in hand on the roughest road", per="axle", source="definition", shown="mm"
)
def travel_in_hand(bump_travel_left: Labelled, travel_in_use: Labelled) -> Labelled:
    """Take the travel in use off what is left up to the stop."""
    return each_axle(lambda axle: bump_travel_left[axle] - travel_in_use[axle])


@quantity(
    "m/s²",
    "Body acceleration over each axle, roughest road",
    per="axle",
    source="james-nichols-phillips",
)
def axle_body_acceleration(wheels_on_road: dict[str, physics.QuarterCarOnRoad]) -> Labelled:
    """Return the root mean square over all frequencies, not weighted."""
    return each_axle(lambda axle: wheels_on_road[axle].body_acceleration)
