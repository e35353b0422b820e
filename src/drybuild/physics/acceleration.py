"""Full-throttle acceleration from rest, for all samples at once.

The integral runs over speed, not time: with the best gear known at each speed, the time is
∫ dv/a and the distance ∫ v dv/a. What the gearbox is driven by, an engine through a clutch or
through a torque converter, is a `Drive`: torque, reflected inertia and engine speed against the
speed of the gearbox input, sampled evenly so that a look-up needs no search.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.sampled import between, blend, last_zero, look_up, position, resample

Array = npt.NDArray[np.float64]
Values = float | Array

SPEED_STEPS = 160
"""Points of the speed grid; twenty times as many change a quarter mile by 0.02 s."""

NEAR_TOP = 0.998
"""Share of the top speed where the grid ends; beyond it the car is taken to run steadily."""


@dataclass(frozen=True, kw_only=True)
class Drive:
    """What drives the gearbox; curves run along the first axis, samples along the last."""

    limit_speed: Array
    """Highest speed of the gearbox input. [rad/s]"""
    torque: Array
    """Torque into the gearbox at even steps of its input speed up to the limit. [N·m]"""
    inertia: Array
    """Inertia that the gearbox input has to spin up. [kg·m²]"""
    engine_speed: Array
    """Speed of the engine. [rad/s]"""
    slip_speed: Array
    """Input speed below which the clutch slips in first gear; 0 with a converter. [rad/s]"""
    least_speed: Array
    """Input speed below which no other gear is used. [rad/s]"""
    engine_inertia: Array
    """Inertia of the engine alone. [kg·m²]"""
    drag_torque: Array
    """Torque that slows the engine while it is cut off during a shift. [N·m]"""


@dataclass(frozen=True, kw_only=True)
class Run:
    """A run from rest: each along speed on the first axis, samples on the last."""

    speed: Array
    """Speed of the car. [m/s]"""
    time: Array
    """Time since the start; nan from where the car cannot go on. [s]"""
    distance: Array
    """Distance since the start. [m]"""
    gear: npt.NDArray[np.int64]
    """Gear, counted from 0."""


def clutch_drive(
    *,
    limit_speed: Values,
    torque: Array,
    engine_inertia: Values,
    launch_speed: Values,
    idle_speed: Values,
    drag_torque: Values,
) -> Drive:
    """Return the drive of an engine through a friction clutch.

    Parameters
    ----------
    limit_speed : float or array
        Highest engine speed. [rad/s]
    torque : array
        Full-load torque at even steps from standstill to the limit. [N·m]
    engine_inertia : float or array
        Inertia of crankshaft, flywheel and clutch. [kg·m²]
    launch_speed : float or array
        Engine speed held with a slipping clutch until the car has caught up. [rad/s]
    idle_speed : float or array
        Lowest speed that the engine pulls from. [rad/s]
    drag_torque : float or array
        Torque that slows the engine while the clutch is out and the throttle shut. [N·m]

    Returns
    -------
    Drive
        Torque and inertia at the gearbox input. [N·m]

    Notes
    -----
    While the clutch slips the engine keeps its speed, so its inertia takes nothing.

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 5. From memory.

    """
    limit = np.atleast_1d(np.asarray(limit_speed, dtype=np.float64))
    require(limit > 0.0, "limit_speed", limit, "rad/s", "more than zero")
    require(np.less(launch_speed, limit), "launch_speed", launch_speed, "rad/s", "below the limit")
    share = np.linspace(0.0, 1.0, len(torque))[:, None]
    return Drive(
        limit_speed=limit,
        torque=torque,
        inertia=np.ones_like(share) * np.atleast_1d(engine_inertia),
        engine_speed=share * limit,
        slip_speed=np.atleast_1d(np.asarray(launch_speed, dtype=np.float64)),
        least_speed=np.atleast_1d(np.asarray(idle_speed, dtype=np.float64)),
        engine_inertia=np.atleast_1d(np.asarray(engine_inertia, dtype=np.float64)),
        drag_torque=np.atleast_1d(np.asarray(drag_torque, dtype=np.float64)),
    )


def converter_drive(
    *,
    limit_speed: Values,
    torque: Array,
    engine_inertia: Values,
    stall_speed: Values,
    stall_torque_ratio: Values,
    coupling_ratio: Values,
) -> Drive:
    """Return the drive of an engine through a hydrodynamic torque converter.

    Parameters
    ----------
    limit_speed : float or array
        Highest engine speed. [rad/s]
    torque : array
        Full-load torque at even steps from standstill to the limit. [N·m]
    engine_inertia : float or array
        Inertia of crankshaft, flexplate and impeller. [kg·m²]
    stall_speed : float or array
        Engine speed at full load with the turbine held. [rad/s]
    stall_torque_ratio : float or array
        Turbine torque over engine torque with the turbine held. [-]
    coupling_ratio : float or array
        Speed ratio at which the stator lets go and the torque ratio is one. [-]

    Returns
    -------
    Drive
        Torque and inertia at the gearbox input. [N·m]

    Notes
    -----
    Impeller torque C(s) ω². C is constant up to the coupling ratio s_k and falls to nothing at
    s = 1 as C_0 (1 − s)/(1 − s_k); the torque ratio falls in a straight line to one at s_k. So the
    engine holds its stall speed until the turbine has s_k of it; beyond, T(ω) = C ω² gives
    s = 1 − (1 − s_k) T/(C_0 ω²). A real engine's speed creeps up by some 20 % before coupling.
    The turbine feels the inertia I · dω/dω_t.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 3, torque converters. From memory.
    .. [2] Bosch, "Automotive Handbook", hydrodynamic converter. From memory.

    """
    limit = np.atleast_1d(np.asarray(limit_speed, dtype=np.float64))
    stall = np.atleast_1d(np.asarray(stall_speed, dtype=np.float64))
    require(np.less(stall, limit), "stall_speed", stall, "rad/s", "below the limit")
    gain = np.asarray(stall_torque_ratio)
    require(np.greater_equal(gain, 1.0), "stall_torque_ratio", gain, "-", "one or more")
    inside = np.greater(coupling_ratio, 0.0) & np.less(coupling_ratio, 1.0)
    require(inside, "coupling_ratio", coupling_ratio, "-", "between nothing and one")
    even = np.linspace(0.0, 1.0, len(torque))[:, None] * limit
    stall_torque = look_up(table=torque, share=(stall / limit)[None, :])[0]
    beyond = np.maximum(even, stall)
    load = np.where(even > stall, torque, stall_torque) / np.square(beyond)
    slip = (1.0 - coupling_ratio) * load / (stall_torque / np.square(stall))
    turbine = np.maximum.accumulate((1.0 - np.clip(slip, 0.0, 1.0)) * beyond, axis=0)
    coupled = coupling_ratio * stall
    engine = np.where(even < coupled, stall, resample(even=even, along=turbine, values=beyond))
    multiplied = gain - (gain - 1.0) * np.clip(even / coupled, 0.0, 1.0)
    slope = np.gradient(engine, axis=0) / (limit / (len(torque) - 1))
    return Drive(
        limit_speed=limit,
        torque=look_up(table=torque, share=engine / limit) * multiplied,
        inertia=np.clip(slope, 0.0, 1.5) * engine_inertia,
        engine_speed=engine,
        slip_speed=np.zeros_like(limit),
        least_speed=np.zeros_like(limit),
        engine_inertia=np.atleast_1d(np.asarray(engine_inertia, dtype=np.float64)),
        drag_torque=np.zeros_like(limit),
    )


def top_speed(
    *,
    drive: Drive,
    overall_ratios: Array,
    efficiency: Values,
    rolling_radius: Values,
    constant_load: Values,
    linear_load: Values,
    quadratic_load: Values,
) -> Array:
    """Return the greatest speed that any gear holds on the level.

    Parameters
    ----------
    drive : Drive
        What drives the gearbox. [-]
    overall_ratios : array
        Gearbox input turns for one wheel turn, a row a gear. [-]
    efficiency : float or array
        Efficiency from gearbox to tyre. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]
    constant_load : float or array
        Road load at standstill. [N]
    linear_load : float or array
        Road load that grows with the speed. [N·s/m]
    quadratic_load : float or array
        Road load that grows with the square of the speed. [N·s²/m²]

    Returns
    -------
    array
        Speed; nan where no gear moves the car. [m/s]

    Notes
    -----
    In each gear the last speed at which T N η/r ≥ A + B v + C v², by a straight line between the
    points of the curve; the limit speed where the gear is too short to use the power.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 2. From memory.

    """
    best = np.full(np.broadcast_shapes(drive.torque.shape[1:], overall_ratios.shape[1:]), np.nan)
    share = np.linspace(0.0, 1.0, len(drive.torque))[:, None]
    for ratio in overall_ratios:
        speed = share * drive.limit_speed * rolling_radius / ratio
        force = drive.torque * ratio * efficiency / rolling_radius
        surplus = force - constant_load - (linear_load + quadratic_load * speed) * speed
        best = np.fmax(best, last_zero(along=speed, surplus=surplus))
    return best


def full_throttle_run(
    *,
    drive: Drive,
    overall_ratios: Array,
    efficiency: Values,
    rolling_radius: Values,
    mass: Values,
    rotating_mass: Values,
    constant_load: Values,
    linear_load: Values,
    quadratic_load: Values,
    traction_force: Values,
    shift_time: Values,
) -> Run:
    """Return the run of a car from rest with the throttle open and the best gear at each speed.

    Parameters
    ----------
    drive : Drive
        What drives the gearbox. [-]
    overall_ratios : array
        Gearbox input turns for one wheel turn, first gear first, a row a gear. [-]
    efficiency : float or array
        Efficiency from gearbox to tyre. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]
    mass : float or array
        Mass of the laden car. [kg]
    rotating_mass : float or array
        Mass that stands for wheels, axle and propshaft spinning up. [kg]
    constant_load : float or array
        Road load at standstill. [N]
    linear_load : float or array
        Road load that grows with the speed. [N·s/m]
    quadratic_load : float or array
        Road load that grows with the square of the speed. [N·s²/m²]
    traction_force : float or array
        Greatest force of the driven tyres on the road. [N]
    shift_time : float or array
        Time without drive at each upshift. [s]

    Returns
    -------
    Run
        Speed, time, distance and gear. [-]

    Notes
    -----
    a = min[(T N η/r − R)/(m + m_rot + I η N²/r²), (F_tyre − R)/m], R = A + B v + C v². The gear
    is the one with the greatest a and never goes back. A shift costs its time t_s and the speed
    lost to R in it. When the clutch bites again, the engine is still faster than the gearbox by
    Δω − T_d t_s/I and gives that spin to the car: Δv = I (Δω − T_d t_s/I) N η/(r m). Reaction time
    and roll-out of a timing beam are not in it: the clock runs from standstill.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 2. From memory.
    .. [2] J. Y. Wong, "Theory of Ground Vehicles", ch. 3. From memory.

    """
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    require(np.greater_equal(shift_time, 0.0), "shift_time", shift_time, "s", "zero or more")
    top = top_speed(
        drive=drive,
        overall_ratios=overall_ratios,
        efficiency=efficiency,
        rolling_radius=rolling_radius,
        constant_load=constant_load,
        linear_load=linear_load,
        quadratic_load=quadratic_load,
    )
    known = np.isfinite(top)
    along = np.sin(0.5 * np.pi * np.linspace(0.0, 1.0, SPEED_STEPS))[:, None]
    speed = along * NEAR_TOP * np.where(known, top, 1.0)
    load = constant_load + (linear_load + quadratic_load * speed) * speed
    gripped = (traction_force - load) / mass
    gears = [
        _in_gear(drive, speed, ratio / rolling_radius, first=number == 0)
        for number, ratio in enumerate(overall_ratios)
    ]
    pulls = [
        np.minimum(
            (one.torque * efficiency * one.lever - load)
            / (mass + rotating_mass + one.inertia * efficiency * one.lever**2),
            gripped,
        )
        for one in gears
    ]
    pull, gear = _best(pulls)
    up = np.diff(gear, axis=0, prepend=gear[:1]) > 0
    gained = _given_back(drive, gears, gear, shift_time) * efficiency / (mass + rotating_mass)
    paid = shift_time * (1.0 + load / (mass * pull)) - gained / pull
    paid = np.where(up, paid, 0.0)
    time = _accumulate(1.0 / pull, speed, paid)
    distance = _accumulate(speed / pull, speed, paid * speed)
    return Run(
        speed=np.where(known, speed, np.nan),
        time=np.where(known, time, np.nan),
        distance=np.where(known, distance, np.nan),
        gear=gear,
    )


def time_to_speed(*, run: Run, speed: Values) -> Array:
    """Return the time from rest to a speed.

    Parameters
    ----------
    run : Run
        A run at full throttle. [-]
    speed : float or array
        Speed to reach. [m/s]

    Returns
    -------
    array
        Time; nan where the car does not reach the speed. [s]

    Notes
    -----
    A straight line between the points of the run.

    References
    ----------
    .. [1] `full_throttle_run`.

    """
    return between(along=run.speed, values=run.time, wanted=np.asarray(speed, dtype=np.float64))


def time_to_distance(*, run: Run, distance: Values) -> Array:
    """Return the time from rest over a distance.

    Parameters
    ----------
    run : Run
        A run at full throttle. [-]
    distance : float or array
        Distance to cover. [m]

    Returns
    -------
    array
        Time; nan where the car does not move. [s]

    Notes
    -----
    Beyond the end of the run, 99.8 % of the top speed, the car goes on at that speed.

    References
    ----------
    .. [1] `full_throttle_run`.

    """
    within = between(
        along=run.distance, values=run.time, wanted=np.asarray(distance, dtype=np.float64)
    )
    after = run.time[-1] + (distance - run.distance[-1]) / run.speed[-1]
    return np.where(np.greater(distance, run.distance[-1]), after, within)


def speed_at_distance(*, run: Run, distance: Values) -> Array:
    """Return the speed when a distance from rest is covered.

    Parameters
    ----------
    run : Run
        A run at full throttle. [-]
    distance : float or array
        Distance to cover. [m]

    Returns
    -------
    array
        Speed; nan where the car does not move. [m/s]

    Notes
    -----
    Beyond the end of the run, 99.8 % of the top speed, the car goes on at that speed.

    References
    ----------
    .. [1] `full_throttle_run`.

    """
    within = between(
        along=run.distance, values=run.speed, wanted=np.asarray(distance, dtype=np.float64)
    )
    return np.where(np.greater(distance, run.distance[-1]), run.speed[-1], within)


@dataclass(frozen=True, kw_only=True)
class _Gear:
    torque: Array
    inertia: Array
    engine_speed: Array
    lever: Values


def _in_gear(drive: Drive, speed: Array, lever: Values, *, first: bool) -> _Gear:
    """Look up what the drive gives at each speed; no torque (nan) where the gear cannot be used."""
    wanted = speed * lever
    slips = first & (wanted < drive.slip_speed)
    at = np.where(slips, drive.slip_speed, wanted)
    share = at / drive.limit_speed
    usable = (share <= 1.0 + 1e-9) & (first | (wanted >= drive.least_speed))
    below, weight = position(share=share, points=len(drive.torque))
    return _Gear(
        torque=np.where(usable, blend(table=drive.torque, below=below, weight=weight), np.nan),
        inertia=np.where(slips, 0.0, blend(table=drive.inertia, below=below, weight=weight)),
        engine_speed=blend(table=drive.engine_speed, below=below, weight=weight),
        lever=lever,
    )


def _best(pulls: list[Array]) -> tuple[Array, npt.NDArray[np.int64]]:
    """Return the greatest acceleration and its gear; gears only go up, nan where none pulls."""
    pull = np.full(pulls[0].shape, -np.inf)
    gear = np.zeros(pulls[0].shape, dtype=np.int64)
    for number, one in enumerate(pulls):
        better = one > pull
        pull, gear = np.where(better, one, pull), np.where(better, number, gear)
    gear = np.maximum.accumulate(gear, axis=0)
    for number, one in enumerate(pulls):
        pull = np.where(gear == number, one, pull)
    return np.where(pull > 0.0, pull, np.nan), gear


def _given_back(
    drive: Drive, gears: list[_Gear], gear: npt.NDArray[np.int64], shift_time: Values
) -> Array:
    """Return the push [N·s] that the engine's spin would give the car at each point of a shift."""
    before = np.concatenate([gear[:1], gear[:-1]])
    fall, lever = np.zeros(gear.shape), np.zeros(gear.shape)
    for number, one in enumerate(gears):
        fall += np.where(before == number, one.engine_speed, 0.0)
        fall -= np.where(gear == number, one.engine_speed, 0.0)
        lever = np.where(gear == number, one.lever, lever)
    left = fall * drive.engine_inertia - drive.drag_torque * shift_time
    return np.clip(left, 0.0, None) * lever


def _accumulate(rate: Array, speed: Array, paid: Array) -> Array:
    """Integrate over speed by trapezoids, and add what is paid at each point."""
    steps = 0.5 * (rate[1:] + rate[:-1]) * np.diff(speed, axis=0) + paid[1:]
    total = np.concatenate([np.zeros_like(rate[:1]), np.cumsum(steps, axis=0)])
    return np.maximum.accumulate(total, axis=0)
