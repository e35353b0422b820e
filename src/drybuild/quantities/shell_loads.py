"""Loads that a body meets, as pulls at its hardpoints: road, kerb, rope, jack, engine, belts.

A wheel's force at the road reaches the body as the same force and the same moment. Led by arms, it
pulls upright at the spring and sideways and fore-and-aft at the joints above and below. A beam axle
pulls upright at both springs, sideways and fore-and-aft at the lower joint.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.physics.shell import kerb_strike_force
from drybuild.project.samples import Values
from drybuild.quantities.shell_points import Car, Loads, Pull, Pulled
from drybuild.tables.shell import load_cases
from drybuild.units import STANDARD_GRAVITY

TOWED = 0.5
"""Pull of the tow rope over the weight; common practice, no source."""
PULLED_UP = np.deg2rad(10.0)
"""Straps are pulled forward and this much upward; UN R14 par. 6.4.1.3, from memory."""
AXLES = ("front", "rear")
Wheels = dict[tuple[str, int], tuple[float, float, float]]
"""Force on each wheel at the road along x, y, z; the sides are 1 (left) and −1."""


@dataclass
class _Sum:
    """Pulls added up."""

    loads: dict[Pull, float]

    def add(self, node: str, axis: str, value: float) -> None:
        if value:
            self.loads[node, axis] = self.loads.get((node, axis), 0.0) + value


def wheel_loads(pulled: Pulled, car: Car, wheels: Wheels) -> Loads:
    """Return the pulls at the hardpoints that wheels' forces at the road come to."""
    found = _Sum({})
    for number, axle in enumerate(AXLES):
        forces = {side: wheels.get((axle, side), (0.0, 0.0, 0.0)) for side in (1, -1)}
        led = pulled.points[f"{axle} high"].wheel
        (_by_arms if led == "arms" else _by_beam)(
            found, pulled, axle, car.tracks[number] / 2.0, -car.ride_height, forces
        )
    return found.loads


def standing(car: Car, factor: float = 1.0) -> Wheels:
    """Return the static load of every wheel, or so many times of it."""
    shares = {"front": car.front_share, "rear": 1.0 - car.front_share}
    weight = factor * car.mass * STANDARD_GRAVITY
    return {
        (axle, side): (0.0, 0.0, weight * share / 2.0)
        for axle, share in shares.items()
        for side in (1, -1)
    }


def road_cases(pulled: Pulled, car: Car) -> dict[str, Loads]:
    """Return the pulls of every load case by its name."""
    factors = load_cases()
    kinds: Mapping[str, Callable[[Car, float], Wheels]] = {
        "bump one side": _one_bump,
        "braking": _braking,
        "cornering": _cornering,
        "longitudinal bump": _pothole,
        "kerb strike": _kerb,
    }
    top = factors["bump both sides"].high
    found = {"bump both sides": wheel_loads(pulled, car, standing(car, top))}
    for name, wheels in kinds.items():
        found[name] = wheel_loads(pulled, car, wheels(car, factors[name].value))
    if pulled.has("tow"):
        found["towing"] = _towing(pulled, car)
    if pulled.has("jack"):
        found["jacking"] = _jacking(pulled, car)
    return found


def engine_torque_loads(pulled: Pulled, car: Car, torque: float) -> Loads:
    """Return the standing car with a torque of the engine unit about the car's length.

    The unit's mounts take it; the axle turns the other way and leans on its springs.
    """
    found = _Sum(dict(wheel_loads(pulled, car, standing(car))))
    for point, sign in (("engine", 1.0), ("rear high", -1.0)):
        nodes = pulled.nodes_of(point)
        if len(nodes) == 1:
            found.add(nodes[0], "turn x", sign * torque)
            continue
        width = float(pulled.place(nodes[0])[1] - pulled.place(nodes[1])[1])
        found.add(nodes[0], "z", sign * torque / width)
        found.add(nodes[1], "z", -sign * torque / width)
    return found.loads


def belt_loads(pulled: Pulled, lap: float, shoulder: float) -> Loads:
    """Return the pulls of both front belts in an approval test, forward and a little up.

    Half of a strap's force goes to each of its ends; the shoulder strap's lower end is the lap
    strap's inner one.
    """
    found = _Sum({})
    shares = {
        "belt outer": lap / 2.0,
        "belt inner": lap / 2.0 + shoulder / 2.0,
        "belt shoulder": shoulder / 2.0,
    }
    for point, force in shares.items():
        if force == 0.0:
            continue
        nodes = pulled.nodes_of(point)
        for node in nodes:
            each = force * 2.0 / len(nodes)
            found.add(node, "x", each * float(np.cos(PULLED_UP)))
            found.add(node, "z", each * float(np.sin(PULLED_UP)))
    return found.loads


def seat_loads(pulled: Pulled, force: float) -> Loads:
    """Return the pulls of both front seats in a seat test: half at the sill, half at the tunnel."""
    found = _Sum({})
    for point in ("seat", "belt inner"):
        nodes = pulled.nodes_of(point)
        for node in nodes:
            found.add(node, "x", force / len(nodes))
    return found.loads


def _by_arms(
    found: _Sum,
    pulled: Pulled,
    axle: str,
    half_track: float,
    road: float,
    forces: Mapping[int, tuple[float, float, float]],
) -> None:
    for node_high, node_low in zip(
        pulled.nodes_of(f"{axle} high"), pulled.nodes_of(f"{axle} low"), strict=True
    ):
        high, low = pulled.place(node_high), pulled.place(node_low)
        side = 1 if high[1] > 0.0 else -1
        ahead, left, up = forces[side]
        gap = float(high[2] - low[2])
        found.add(node_high, "z", up)
        # moment about x: y F_z − z F_y at the road is that of spring, low and high joint together
        wanted = side * half_track * up - road * left - float(high[1]) * up
        above = (-wanted - float(low[2]) * left) / gap
        found.add(node_high, "y", above)
        found.add(node_low, "y", left - above)
        above = ahead * (road - float(low[2])) / gap
        found.add(node_high, "x", above)
        found.add(node_low, "x", ahead - above)


def _by_beam(
    found: _Sum,
    pulled: Pulled,
    axle: str,
    half_track: float,
    road: float,
    forces: Mapping[int, tuple[float, float, float]],
) -> None:
    highs, lows = pulled.nodes_of(f"{axle} high"), pulled.nodes_of(f"{axle} low")
    springs = float(pulled.place(highs[0])[1])
    joint = float(pulled.place(lows[0])[2])
    up = {side: force[2] for side, force in forces.items()}
    left = sum(force[1] for force in forces.values())
    tips = half_track * (up[1] - up[-1]) + (joint - road) * left
    both = up[1] + up[-1]
    for side, node_high, node_low in zip((1, -1), highs, lows, strict=True):
        found.add(node_high, "z", both / 2.0 + side * tips / (2.0 * springs))
        found.add(node_low, "y", left / 2.0)
        ahead = forces[side][0]
        found.add(node_low, "x", ahead)
        found.add(node_low, "turn y", ahead * (road - joint))


def _one_bump(car: Car, factor: float) -> Wheels:
    wheels = standing(car)
    up = wheels["front", 1][2]
    more = (factor - 1.0) * up
    return {
        **wheels,
        ("front", 1): (0.0, 0.0, up + more),
        ("front", -1): (0.0, 0.0, up - more),
    }


def _braking(car: Car, factor: float) -> Wheels:
    moved = factor * car.mass * STANDARD_GRAVITY * car.cg_over_road / car.wheelbase / 2.0
    sign = {"front": 1.0, "rear": -1.0}
    found: Wheels = {}
    for (axle, side), (_, _, up) in standing(car).items():
        load = max(up + sign[axle] * moved, 0.0)
        found[axle, side] = (-factor * load, 0.0, load)
    return found


def _cornering(car: Car, factor: float) -> Wheels:
    """Turn to the left: the right wheels take more."""
    found: Wheels = {}
    tracks = dict(zip(AXLES, car.tracks, strict=True))
    for (axle, side), (_, _, up) in standing(car).items():
        moved = factor * 2.0 * up * car.cg_over_road / tracks[axle]
        load = max(up - side * moved, 0.0)
        found[axle, side] = (0.0, factor * load, load)
    return found


def _pothole(car: Car, factor: float) -> Wheels:
    wheels = standing(car)
    up = wheels["front", 1][2]
    return {**wheels, ("front", 1): (-factor * up, 0.0, up)}


def _kerb(car: Car, factor: float) -> Wheels:
    """Slide to the left until the left wheels meet a kerb that tips the car."""
    force = float(
        kerb_strike_force(
            mass=car.mass,
            factor=factor,
            track=car.tracks[0],
            cg_height=car.cg_over_road,
            gravity=STANDARD_GRAVITY,
        )
    )
    shares = {"front": car.front_share, "rear": 1.0 - car.front_share}
    return {
        (axle, side): (
            0.0,
            -force * shares[axle] if side == 1 else 0.0,
            car.mass * STANDARD_GRAVITY * shares[axle] if side == 1 else 0.0,
        )
        for axle in AXLES
        for side in (1, -1)
    }


def _towing(pulled: Pulled, car: Car) -> Loads:
    found = _Sum(dict(wheel_loads(pulled, car, standing(car))))
    nodes = pulled.nodes_of("tow")
    found.add(nodes[0], "x", TOWED * car.mass * STANDARD_GRAVITY)
    return found.loads


def _jacking(pulled: Pulled, car: Car) -> Loads:
    """Lift one side by its jacking point; the other wheels stand."""
    node = pulled.nodes_of("jack")[0]
    place, weight = pulled.place(node), car.mass * STANDARD_GRAVITY
    half = 0.5 * (car.tracks[0] + car.tracks[1]) / 2.0
    lift = weight * half / (float(place[1]) + half)
    rest = weight - lift
    # moments about y: what is left stands on front and rear so that the centre of mass is held
    middle = -(1.0 - car.front_share) * car.wheelbase
    at = (weight * middle - lift * float(place[0])) / rest
    rear = float(np.clip(-at / car.wheelbase, 0.0, 1.0)) * rest
    wheels: Wheels = {("front", -1): (0.0, 0.0, rest - rear), ("rear", -1): (0.0, 0.0, rear)}
    found = _Sum(dict(wheel_loads(pulled, car, wheels)))
    found.add(node, "z", lift)
    return found.loads


def scaled(stress: float, mass: Values) -> Values:
    """Return a stress of the nominal car for every sample of its mass."""
    return np.asarray(stress * mass / mass[0])
