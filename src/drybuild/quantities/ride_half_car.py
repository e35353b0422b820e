"""Ride of both axles on one road: pitch, road classes, bump stops, and the trade with grip."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np

from drybuild.physics import ride as physics
from drybuild.physics.ride_half_car import (
    HalfCarSpectra,
    crossings,
    half_car_spectra,
    pitch_shares,
    resprung,
    rms_on_road,
)
from drybuild.project.body import Body
from drybuild.project.brief import Brief
from drybuild.project.mass import Mass
from drybuild.project.samples import Values
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.mass_items import load_at
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.ride import FREQUENCIES, THREE_SIGMA, Road
from drybuild.tables.ride import road_class_roughness
from drybuild.units import STANDARD_GRAVITY

CLASSES = ("A", "B", "C", "D")
"""Roads from a new motorway to a poor lane; ISO 8608."""
SPRINGS = np.array([0.6, 0.8, 1.0, 1.25, 1.6, 2.0])
"""Factors on the spring rates of the trade."""
DAMPING = np.geomspace(0.35, 2.8, 13)
"""Factors on the damping of the trade."""
KILOMETRE = 1000.0  # [m]
RARE = 1e-4
"""A chance that is told as none."""
COLUMN = FREQUENCIES[:, np.newaxis]


@step("The roughest road of the brief", source="iso-8608")
def roughest_road(road_mix: dict[str, Road]) -> Road:
    """Return the road that shakes the wheels most at its speed."""
    return max(road_mix.values(), key=lambda one: one.roughness * float(one.speed[0]))


@quantity("rad/s²", "Pitching of the body", per="road", source="wong-ride")
def pitch_acceleration(half_car: physics.HalfCar, road_mix: dict[str, Road]) -> Labelled:
    """Return the root mean square on each road; both axles run over the same road in turn."""
    shares, found = pitch_shares(frequency=COLUMN, car=half_car), {}
    for kind, road in road_mix.items():
        pitch = physics.both_axles_on_one_road(frequency=COLUMN, shares=shares, speed=road.speed)
        level = physics.road_velocity_level(roughness=road.roughness, speed=road.speed)
        found[kind] = rms_on_road(
            frequency=FREQUENCIES, response=pitch, velocity_level=level, order=2
        )
    return found


@quantity("m/s²", "Weighted acceleration under the front seats at cruising speed", per="road class",
          source="iso-8608")  # fmt: skip
def class_acceleration(half_car: physics.HalfCar, brief: Brief, mass: Mass, body: Body) -> Labelled:
    """Return it for the mean road of classes A to D; each class is twice the one before."""
    seat = load_at(mass, "front_seats", body, body.wheelbase).x + half_car.front_distance
    shares = physics.half_car_shares(frequency=COLUMN, car=half_car, point_ahead=seat)
    speed = brief.cruise_speed
    response = physics.both_axles_on_one_road(frequency=COLUMN, shares=shares, speed=speed)
    found = {}
    for name in CLASSES:
        level = physics.road_velocity_level(roughness=road_class_roughness(name), speed=speed)
        found[name] = np.asarray(
            physics.weighted_acceleration_iso_2631(
                frequency=FREQUENCIES, response=response, velocity_level=level
            )
        )
    return found


@step("Both axles on the roughest road", source="wong-ride")
def half_car_on_roughest(half_car: physics.HalfCar, roughest_road: Road) -> HalfCarSpectra:
    """Solve springs and tyres of the whole car at every frequency."""
    return half_car_spectra(frequency=COLUMN, car=half_car, speed=roughest_road.speed)


@quantity("-", "Change of the wheel load over the load, whole car, roughest road", per="axle",
          source="wong-ride", shown="%")  # fmt: skip
def half_car_wheel_load_share(
    half_car_on_roughest: HalfCarSpectra,
    half_car: physics.HalfCar,
    roughest_road: Road,
    laden_axle_load: Labelled,
) -> Labelled:
    """Let pitch tie both axles; above the band the tyre takes the road by itself."""
    level = physics.road_velocity_level(
        roughness=roughest_road.roughness, speed=roughest_road.speed
    )
    tail = level / ((2.0 * np.pi) ** 2 * FREQUENCIES[-1])

    def share(axle: str) -> Values:
        front = axle == FRONT
        response = (half_car_on_roughest.front if front else half_car_on_roughest.rear).tyre
        rate = (half_car.front if front else half_car.rear).tyre_rate
        give = rms_on_road(frequency=FREQUENCIES, response=response, velocity_level=level, order=0)
        weight = laden_axle_load[axle] * STANDARD_GRAVITY
        return np.asarray(np.sqrt(np.square(give) + tail) * rate / weight)

    return each_axle(share)


@quantity("m", "Spring travel in use, whole car, roughest road", per="axle", source="wong-ride",
          shown="mm")  # fmt: skip
def half_car_travel_in_use(half_car_on_roughest: HalfCarSpectra, roughest_road: Road) -> Labelled:
    """Return three times the root mean square, one way."""
    level = physics.road_velocity_level(
        roughness=roughest_road.roughness, speed=roughest_road.speed
    )

    def travel(axle: str) -> Values:
        one = half_car_on_roughest.front if axle == FRONT else half_car_on_roughest.rear
        return THREE_SIGMA * rms_on_road(
            frequency=FREQUENCIES, response=one.stroke, velocity_level=level, order=0
        )

    return each_axle(travel)


@quantity("-", "Chance that a kilometre of the roughest road meets the bump stops", per="axle",
          source="rice", shown="%")  # fmt: skip
def bump_stop_chance(
    axle_wheels: dict[str, physics.SprungWheel],
    laden_sprung_axle_load: Labelled,
    roughest_road: Road,
    bump_travel_left: Labelled,
) -> Labelled:
    """Count how often a Gaussian stroke passes what is left of the travel; under `RARE` is none."""
    level = physics.road_velocity_level(
        roughness=roughest_road.roughness, speed=roughest_road.speed
    )

    def chance(axle: str) -> Values:
        car = physics.QuarterCar(sprung_mass=laden_sprung_axle_load[axle], wheel=axle_wheels[axle])
        response = physics.quarter_car_response(frequency=COLUMN, car=car).stroke
        stroke, rate = (
            rms_on_road(frequency=FREQUENCIES, response=response, velocity_level=level, order=order)
            for order in (0, 1)
        )
        room = np.maximum(bump_travel_left[axle], 0.0)
        times = crossings(motion=stroke, rate=rate, level=room) * KILOMETRE / roughest_road.speed
        found = 1.0 - np.exp(-times)
        return np.where(found < RARE, 0.0, found)

    return each_axle(chance)


@dataclass(frozen=True, kw_only=True)
class Trade:
    """Ride and hold on the road over springs and dampers, nominal; shape (springs, dampers)."""

    springs: Values
    """Factors on today's picks. [-]"""
    damping: Values
    """Factors on today's picks. [-]"""
    comfort: Values
    """Weighted acceleration on the brief's roads. [m/s²]"""
    contact: Values
    """Change of wheel load over load, the worse axle, roughest road. [-]"""


@step("Ride against grip over springs and dampers", source="wong-ride")
def ride_trade(
    half_car: physics.HalfCar,
    road_mix: dict[str, Road],
    roughest_road: Road,
    laden_axle_load: Labelled,
    mass: Mass,
    body: Body,
) -> Trade:
    """Drive the picked car, nominal, with every factor on its springs and dampers."""
    car = resprung(car=_nominal(half_car), springs=SPRINGS[:, None], damping=DAMPING)
    frequency = FREQUENCIES[:, None, None]
    place = load_at(mass, "front_seats", body, body.wheelbase).x
    seat = float(np.ravel(place)[0]) + float(car.front_distance)
    shares = physics.half_car_shares(frequency=frequency, car=car, point_ahead=seat)
    square, time = np.zeros((SPRINGS.size, DAMPING.size)), 0.0
    for road in road_mix.values():
        speed = float(road.speed[0])
        response = physics.both_axles_on_one_road(frequency=frequency, shares=shares, speed=speed)
        level = physics.road_velocity_level(roughness=road.roughness, speed=speed)
        weighted = physics.weighted_acceleration_iso_2631(
            frequency=FREQUENCIES, response=response, velocity_level=level
        )
        square, time = square + np.square(weighted) * road.share / speed, time + road.share / speed
    return Trade(
        springs=SPRINGS,
        damping=DAMPING,
        comfort=np.sqrt(square / time),
        contact=_contact(car, roughest_road, laden_axle_load),
    )


def _contact(car: physics.HalfCar, road: Road, axle_load: Labelled) -> Values:
    """Return the worse axle's change of wheel load, as `dynamic_wheel_load_share` has it."""
    level = physics.road_velocity_level(roughness=road.roughness, speed=float(road.speed[0]))
    sprung = {
        FRONT: car.sprung_mass * car.rear_distance / (car.front_distance + car.rear_distance),
        REAR: car.sprung_mass * car.front_distance / (car.front_distance + car.rear_distance),
    }
    worst: Values = np.zeros((SPRINGS.size, DAMPING.size))
    for axle, wheel in ((FRONT, car.front), (REAR, car.rear)):
        found = physics.quarter_car_on_random_road(
            car=physics.QuarterCar(sprung_mass=sprung[axle], wheel=wheel), velocity_level=level
        )
        share = found.tyre_force / (float(axle_load[axle][0]) * STANDARD_GRAVITY)
        worst = np.maximum(worst, share)
    return worst


def _nominal(car: physics.HalfCar) -> physics.HalfCar:
    """Return the car at its nominal values alone."""

    def first(one: physics.SprungWheel) -> physics.SprungWheel:
        values = {field.name: float(np.ravel(getattr(one, field.name))[0]) for field in fields(one)}
        return replace(one, **values)

    numbers = {
        field.name: float(np.ravel(getattr(car, field.name))[0])
        for field in fields(car)
        if field.name not in ("front", "rear")
    }
    return replace(car, front=first(car.front), rear=first(car.rear), **numbers)
