"""Full-throttle acceleration from rest, for all samples at once.

The integral runs over speed, not time: with the best gear known at each speed, the time is
∫ dv/a and the distance ∫ v dv/a.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.drives import Drive
from drybuild.physics.sampled import between, blend, last_zero, position

Array = npt.NDArray[np.float64]
Values = float | Array

SPEED_STEPS = 160
"""Points of the speed grid; twenty times as many change a quarter mile by 0.02 s."""

NEAR_TOP = 0.998
"""Share of the top speed where the grid ends; beyond it the car is taken to run steadily."""


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
    share = np.linspace(0.0, 1.0, len(drive.torque))[:, None]
    reach = share * drive.limit_speed * rolling_radius
    best: Array = np.full(1, np.nan)
    for ratio in overall_ratios:
        speed = reach / ratio
        force = drive.torque * ratio * efficiency / rolling_radius
        surplus = force - constant_load - (linear_load + quadratic_load * speed) * speed
        best = np.fmax(best, last_zero(along=speed, surplus=surplus))
    return best


def full_throttle_run(
    *,
    drive: Drive,
    overall_ratios: Array,
    greatest_speed: Array,
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
    greatest_speed : array
        Greatest speed that any gear holds on the level, as `top_speed` gives it. [m/s]
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
    wide = np.broadcast_shapes(
        greatest_speed.shape, *map(np.shape, (mass, rotating_mass, traction_force, shift_time))
    )
    known = np.broadcast_to(np.isfinite(greatest_speed), wide)
    along = np.sin(0.5 * np.pi * np.linspace(0.0, 1.0, SPEED_STEPS))
    speed = along[:, None] * NEAR_TOP * np.where(known, greatest_speed, 1.0)
    load = constant_load + (linear_load + quadratic_load * speed) * speed
    rolling = _Rolling(
        along=along,
        speed=speed,
        load=load,
        efficiency=efficiency,
        mass=mass,
        inertia=mass + rotating_mass,
        gripped=(traction_force - load) / mass,
    )
    levers = np.broadcast_to(overall_ratios / rolling_radius, (len(overall_ratios), *wide))
    pull, gear = _best(drive, rolling, levers)
    paid = _paid(drive, rolling, levers, pull, gear, shift_time)
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
class _Rolling:
    """The car along the speeds of its run."""

    along: Array
    """Share of the last speed."""
    speed: Array
    load: Array
    efficiency: Values
    mass: Values
    inertia: Values
    """Mass with what stands for the wheels spinning up."""
    gripped: Array
    """Greatest acceleration that the tyres hold."""


def _best(drive: Drive, rolling: _Rolling, levers: Array) -> tuple[Array, npt.NDArray[np.int64]]:
    """Return the greatest acceleration and its gear; gears only go up, nan where none pulls."""
    shape = rolling.gripped.shape
    pulls = np.full((len(levers), *shape), np.nan)
    best, gear = np.full(shape, -np.inf), np.zeros(shape, dtype=np.int64)
    for number, lever in enumerate(levers):
        rows = _usable_rows(drive, rolling, lever, first=number == 0)
        one = pulls[number, rows]
        one[:] = _pull(drive, rolling, lever, rows, first=number == 0)
        better = one > best[rows]
        np.copyto(best[rows], one, where=better)
        np.copyto(gear[rows], number, where=better)
    gear = np.maximum.accumulate(gear, axis=0)
    pull = pulls.reshape(-1).take(gear * best.size + np.arange(best.size).reshape(shape))
    return np.where(pull > 0.0, pull, np.nan), gear


def _usable_rows(drive: Drive, rolling: _Rolling, lever: Array, *, first: bool) -> slice:
    """Return the speeds at which some sample may use a gear, with a little to spare."""
    last = rolling.speed[-1] * lever
    end = np.fmax.reduce(drive.limit_speed / last, axis=None) * (1.0 + 1e-6)
    start = 0.0 if first else np.fmin.reduce(drive.least_speed / last, axis=None) * (1.0 - 1e-6)
    return slice(*np.searchsorted(rolling.along, (start, end)))


def _pull(drive: Drive, rolling: _Rolling, lever: Array, rows: slice, *, first: bool) -> Array:
    """Return the acceleration in a gear; nan where the gear cannot be used."""
    wanted = rolling.speed[rows] * lever
    slips = wanted < drive.slip_speed if first else np.False_
    at = np.where(slips, drive.slip_speed, wanted) if first else wanted
    share = at / drive.limit_speed
    usable = share <= 1.0 + 1e-9
    if not first:
        usable &= wanted >= drive.least_speed
    below, weight = position(share=share, points=len(drive.torque))
    torque = blend(table=drive.torque, below=below, weight=weight)
    inertia: Array = drive.inertia[0]
    if np.any(drive.inertia != inertia):
        inertia = blend(table=drive.inertia, below=below, weight=weight)
    if first:
        inertia = np.where(slips, 0.0, inertia)
    pull = torque * rolling.efficiency * lever - rolling.load[rows]
    pull /= rolling.inertia + inertia * rolling.efficiency * lever**2
    return np.where(usable, np.minimum(pull, rolling.gripped[rows]), np.nan)


def _paid(
    drive: Drive,
    rolling: _Rolling,
    levers: Array,
    pull: Array,
    gear: npt.NDArray[np.int64],
    shift_time: Values,
) -> Array:
    """Return the time that each upshift costs, less what the engine's spin gives back."""
    rows, samples = np.nonzero(np.diff(gear, axis=0, prepend=gear[:1]) > 0)

    def at(one: Values) -> Array:
        return np.broadcast_to(one, gear.shape)[rows, samples]

    def engine_speed(number: npt.NDArray[np.int64]) -> Array:
        wanted = at(rolling.speed) * levers[number, samples]
        slips = (number == 0) & (wanted < at(drive.slip_speed))
        share = np.where(slips, at(drive.slip_speed), wanted) / at(drive.limit_speed)
        below, weight = position(share=share, points=len(drive.torque))
        table = np.broadcast_to(drive.engine_speed, (len(drive.torque), gear.shape[1]))
        low, high = table[below, samples], table[below + 1, samples]
        return low + weight * (high - low)

    fall = engine_speed(gear[rows - 1, samples]) - engine_speed(gear[rows, samples])
    left = fall * at(drive.engine_inertia) - at(drive.drag_torque) * at(shift_time)
    given = np.clip(left, 0.0, None) * levers[gear[rows, samples], samples]
    gained = given * at(rolling.efficiency) / at(rolling.inertia)
    paid = np.zeros(gear.shape)
    lost = at(rolling.load) / (at(rolling.mass) * at(pull))
    paid[rows, samples] = at(shift_time) * (1.0 + lost) - gained / at(pull)
    return paid


def _accumulate(rate: Array, speed: Array, paid: Array) -> Array:
    """Integrate over speed by trapezoids, and add what is paid at each point."""
    steps = 0.5 * (rate[1:] + rate[:-1]) * np.diff(speed, axis=0) + paid[1:]
    total = np.concatenate([np.zeros_like(rate[:1]), np.cumsum(steps, axis=0)])
    return np.maximum.accumulate(total, axis=0)
