"""Full-throttle acceleration from rest, for all samples at once.

The integral runs over speed, not time: with the best gear known at each speed, the time is
∫ dv/a and the distance ∫ v dv/a. Where the gear changes, or the clutch stops slipping, a jumps: the
points of the grid on both sides are moved to that speed, so that no step runs across a jump.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.drives import Drive
from drybuild.physics.sampled import between, blend, last_zero, position

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]
Values = float | Array

SPEED_STEPS, CONVERTER_SPEED_STEPS = 80, 128
"""Points of the speed grid; forty times as many change times and a quarter mile by 0.01 s or so.

The pull through a converter bends more often.
"""

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
    for ratio in overall_ratios[::-1]:
        speed = reach / ratio
        if np.all(best >= speed[-1]):
            continue  # even at the engine's limit this gear is slower
        force = drive.torque * ratio * efficiency / rolling_radius
        surplus = force - constant_load - (linear_load + quadratic_load * speed) * speed
        best = np.fmax(best, last_zero(along=speed, surplus=surplus))
    return best


def full_throttle_run(
    *,
    drive: Drive,
    overall_ratios: Array,
    greatest_speed: Array,
    engine_inertia: Values,
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
    engine_inertia : float or array
        Inertia of the engine with flywheel, and clutch or impeller. [kg·m²]
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
    car = _Car.of(
        mass=mass,
        inertia=mass + np.asarray(rotating_mass),
        constant=constant_load,
        linear=linear_load,
        quadratic=quadratic_load,
        traction=traction_force,
        engine_inertia=engine_inertia,
        efficiency=efficiency,
        shift_time=shift_time,
        greatest_speed=greatest_speed,
    )
    drive = drive.over_samples(len(car.mass))
    ways = _ways(drive, car, overall_ratios / rolling_radius)
    known = np.isfinite(car.greatest_speed)
    steps = CONVERTER_SPEED_STEPS if drive.converts else SPEED_STEPS
    speed = _grid(steps)[:, None] * NEAR_TOP * np.where(known, car.greatest_speed, 1.0)
    pull, way = _best(drive, car, ways, speed)
    jumps = _jumps(drive, car, ways, way, speed=speed, pull=pull)
    paid = np.zeros_like(speed)
    paid[jumps.after] = jumps.cost
    for point, one in ((jumps.after, jumps.new_pull), (jumps.before, jumps.old_pull)):
        speed[point], pull[point] = jumps.speed, one
    pull = np.where((pull > 0.0) & known, pull, np.nan)
    return Run(
        speed=np.where(known, speed, np.nan),
        time=_accumulate(1.0 / pull, speed, paid),
        distance=_accumulate(speed / pull, speed, paid * speed),
        gear=np.maximum(way - 1, 0),
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
class _Car:
    """The car, one value a sample."""

    mass: Array
    inertia: Array
    """Mass with what stands for wheels, axle and propshaft spinning up."""
    constant: Array
    linear: Array
    quadratic: Array
    traction: Array
    engine_inertia: Array
    efficiency: Array
    shift_time: Array
    greatest_speed: Array

    @classmethod
    def of(cls, **values: Values) -> _Car:
        """Give every value as many samples as the widest has."""
        return cls(**dict(zip(values, np.broadcast_arrays(*values.values()), strict=True)))

    def at(self, samples: Places) -> _Car:
        """Return what some samples have."""
        return _Car(**{name: one[samples] for name, one in vars(self).items()})

    def load(self, speed: Array) -> Array:
        """Return the road load."""
        found: Array = self.constant + (self.linear + self.quadratic * speed) * speed
        return found


@dataclass(frozen=True, kw_only=True)
class _Ways:
    """Ways to be driven on: first gear with the clutch slipping, then each gear; a row each."""

    start: Array
    """Speed of the car from which a way may be used."""
    end: Array
    """Speed of the car up to which it may be used."""
    share: Array
    """Speed of the gearbox input over its limit, at standstill."""
    share_rise: Array
    """How that grows with the speed of the car."""
    push: Array
    """Drive force over torque into the gearbox."""
    spin: Array
    """Mass that stands for the engine spinning up."""

    def at(self, way: Places | int, samples: Places | slice) -> _Ways:
        """Return some ways of some samples."""
        return _Ways(**{name: one[way, samples] for name, one in vars(self).items()})

    def usable(self, speed: Array) -> npt.NDArray[np.bool_]:
        """Return whether a way may be used at some speeds."""
        return (speed >= self.start) & (speed < self.end)


def _ways(drive: Drive, car: _Car, levers: Array) -> _Ways:
    """Return the ways to be driven on; while the clutch slips, the engine keeps its speed."""
    levers = np.broadcast_to(levers, (len(levers), len(car.mass)))
    lever = np.concatenate([levers[:1], levers])
    slips = np.arange(len(lever))[:, None] == 0
    start = np.concatenate([drive.slip_speed / levers[:1], drive.least_speed / levers[1:]])
    return _Ways(
        start=np.concatenate([np.zeros_like(start[:1]), start]),
        end=np.concatenate([start[:1], drive.limit_speed / levers * (1.0 + 1e-9)]),
        share=np.where(slips, drive.slip_speed / drive.limit_speed, 0.0),
        share_rise=np.where(slips, 0.0, lever / drive.limit_speed),
        push=lever * car.efficiency,
        spin=np.where(slips, 0.0, car.engine_inertia * car.efficiency * lever**2),
    )


def _grid(steps: int) -> Array:
    """Return shares of the last speed, dense where the pull fades; both ends stand twice."""
    even = np.linspace(0.0, 1.0, steps)
    return np.pad(np.sin(0.5 * np.pi * even), 1, mode="edge")


def _best(drive: Drive, car: _Car, ways: _Ways, speed: Array) -> tuple[Array, Places]:
    """Return the greatest acceleration and its way; gears only go up, nan where none pulls."""
    load = car.load(speed)
    gripped = (car.traction - load) / car.mass
    best, way = np.full(speed.shape, -np.inf), np.zeros(speed.shape, dtype=np.int64)
    for number, rows in enumerate(_rows_within(ways, speed)):
        one = ways.at(number, slice(None))
        found = np.minimum(_driven(drive, car.inertia, one, speed[rows], load[rows]), gripped[rows])
        better = one.usable(speed[rows]) & (found > best[rows])
        np.copyto(best[rows], found, where=better)
        np.copyto(way[rows], number, where=better)
    kept = np.maximum.accumulate(way, axis=0)
    held = np.nonzero(kept != way)
    samples = held[1]
    if samples.size:
        one, along = ways.at(kept[held], samples), speed[held]
        found = _driven(drive, car.inertia[samples], one, along, load[held], samples)
        best[held] = np.where(one.usable(along), np.minimum(found, gripped[held]), np.nan)
    return best, kept


def _rows_within(ways: _Ways, speed: Array) -> list[slice]:
    """Return for each way the rows of a grid at whose speeds some sample may use it."""
    share = speed[:, 0] / speed[-1, 0]
    start = np.fmin.reduce(ways.start / speed[-1], axis=1) * (1.0 - 1e-9)
    end = np.fmax.reduce(ways.end / speed[-1], axis=1) * (1.0 + 1e-9)
    first, last = np.searchsorted(share, start), np.searchsorted(share, end, "right")
    return [slice(*one) for one in zip(first.tolist(), last.tolist(), strict=True)]


def _driven(
    drive: Drive,
    inertia: Array,
    ways: _Ways,
    speed: Array,
    load: Array,
    samples: Places | None = None,
) -> Array:
    """Return the acceleration that the drive gives, whether or not a way may be used there."""
    below, weight = position(share=ways.share + ways.share_rise * speed, points=len(drive.torque))
    found = blend(table=drive.torque, below=below, weight=weight, samples=samples) * ways.push
    spin = ways.spin
    if drive.converts:
        spin = spin * blend(table=drive.spin, below=below, weight=weight, samples=samples)
    found -= load
    found /= inertia + spin
    return found


@dataclass(frozen=True, kw_only=True)
class _Jumps:
    """Where the way to be driven on changes, and the acceleration with it."""

    before: tuple[Places, Places]
    """Points of the grid before them, with their samples."""
    after: tuple[Places, Places]
    speed: Array
    old_pull: Array
    new_pull: Array
    cost: Array
    """Time that a shift takes, less what the engine's spin gives back."""


def _jumps(
    drive: Drive, car: _Car, ways: _Ways, way: Places, *, speed: Array, pull: Array
) -> _Jumps:
    """Find where the new way pulls as much as the old, or where the old one ends."""
    before, samples = np.nonzero(way[1:] > way[:-1])
    after = before + 1
    pair = np.stack([way[before, samples], way[after, samples]])
    here, old_and_new = car.at(samples), ways.at(pair, samples)

    def pulls(along: Array) -> Array:
        load = here.load(along)
        found = _driven(drive, here.inertia, old_and_new, along, load, samples)
        return np.minimum(found, (here.traction - load) / here.mass)

    low, high = speed[before, samples], speed[after, samples]
    old_at_high, new_at_low = pulls(np.stack([high, low]))
    lead = np.maximum(pull[before, samples] - new_at_low, 0.0)
    both = lead + np.maximum(pull[after, samples] - old_at_high, 0.0)
    met = low + (high - low) * lead / np.where(both > 0.0, both, np.inf)
    least, most = np.maximum(low, old_and_new.start[1]), np.minimum(high, old_and_new.end[0])
    at = np.clip(met, least, most)
    old, new = pulls(at)
    return _Jumps(
        before=(before, samples),
        after=(after, samples),
        speed=at,
        old_pull=old,
        new_pull=new,
        cost=np.where(pair[1] > 1, _shift_cost(drive, here, old_and_new, at, new, samples), 0.0),
    )


def _shift_cost(
    drive: Drive, car: _Car, old_and_new: _Ways, speed: Array, pull: Array, samples: Places
) -> Array:
    """Return the time that an upshift costs, less what the engine's spin gives back."""
    share = old_and_new.share + old_and_new.share_rise * speed
    below, weight = position(share=share, points=len(drive.torque))
    fast, slow = blend(table=drive.engine_speed, below=below, weight=weight, samples=samples)
    drag = drive.drag_torque[samples] * car.shift_time
    left = np.maximum((fast - slow) * car.engine_inertia - drag, 0.0)
    gained = left * old_and_new.push[1] / car.inertia
    lost = car.shift_time * (1.0 + car.load(speed) / (car.mass * pull))
    cost: Array = lost - gained / pull
    return cost


def _accumulate(rate: Array, speed: Array, paid: Array) -> Array:
    """Integrate over speed by trapezoids, and add what is paid at each point."""
    steps = 0.5 * (rate[1:] + rate[:-1]) * np.diff(speed, axis=0) + paid[1:]
    total = np.concatenate([np.zeros_like(rate[:1]), np.cumsum(steps, axis=0)])
    return np.maximum.accumulate(total, axis=0)
