"""Limits, symmetry and refused input of the acceleration run and road load."""

from __future__ import annotations

import time

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from drybuild.errors import InputError
from drybuild.physics import acceleration
from drybuild.physics.acceleration import (
    Run,
    full_throttle_run,
    speed_at_distance,
    time_to_distance,
    time_to_speed,
    top_speed,
)
from drybuild.physics.drives import Drive, clutch_drive, converter_drive
from drybuild.physics.engine import cubic_torque, curve_speeds
from drybuild.physics.performance import (
    top_speed_from_power,
    traction_limit_live_axle,
    traction_limit_two_wheel,
)
from drybuild.physics.road_load import (
    drag_force,
    rolling_coefficient_cross_ply,
    rolling_coefficient_radial,
)

RATED = 5500 * np.pi / 30.0
QUARTER_MILE = 402.336
SIXTY = 26.8224


def manual(power: float | np.ndarray = 90e3) -> Drive:
    limit = np.full(np.shape(power) or 1, 1.1 * RATED)
    curve = cubic_torque(
        engine_speed=curve_speeds(limit_speed=limit), peak_power=power, rated_speed=RATED
    )
    return clutch_drive(
        limit_speed=limit,
        torque=np.asarray(curve),
        launch_speed=0.5 * RATED,
        idle_speed=0.15 * RATED,
        drag_torque=20.0,
    )


def automatic() -> Drive:
    limit = np.array([1.1 * RATED])
    curve = cubic_torque(
        engine_speed=curve_speeds(limit_speed=limit), peak_power=90e3, rated_speed=RATED
    )
    return converter_drive(
        limit_speed=limit,
        torque=np.asarray(curve),
        stall_speed=0.45 * RATED,
        stall_torque_ratio=2.0,
        coupling_ratio=0.87,
    )


def run_of(**car: object) -> Run:
    loads = ("constant_load", "linear_load", "quadratic_load")
    needed = ("drive", "overall_ratios", "efficiency", "rolling_radius", *loads)
    top = top_speed(**{name: car[name] for name in needed})
    return full_throttle_run(greatest_speed=top, **car)


def run(drive: Drive, **change: object) -> Run:
    car = {
        "overall_ratios": np.array([3.5, 2.1, 1.38, 1.0])[:, None] * 3.9,
        "engine_inertia": 0.15,
        "efficiency": 0.9,
        "rolling_radius": 0.3,
        "mass": 1200.0,
        "rotating_mass": 48.0,
        "constant_load": 170.0,
        "linear_load": 0.0,
        "quadratic_load": 0.51,
        "traction_force": 5500.0,
        "shift_time": 0.5,
    }
    return run_of(drive=drive, **{**car, **change})


def seconds(found: Run, speed: float = SIXTY) -> float:
    return float(time_to_speed(run=found, speed=speed)[0])


def test_against_a_step_by_step_integration_in_time() -> None:
    # One gear, slipping clutch, no shifts: the same equation solved by scipy in time.
    ratio, radius, moving = 6.0, 0.3, 1248.0

    def rate(_: float, state: np.ndarray) -> list[float]:
        speed = state[1]
        engine = speed * ratio / radius
        slips = engine < 0.5 * RATED
        at = max(engine, 0.5 * RATED)
        x = at / RATED
        torque = 90e3 / RATED * (1 + x - x * x)
        force = torque * ratio * 0.9 / radius - 170.0 - 0.51 * speed**2
        heavy = moving + (0.0 if slips else 0.15 * 0.9 * (ratio / radius) ** 2)
        return [speed, min(force / heavy, (5500.0 - 170.0 - 0.51 * speed**2) / 1200.0)]

    def arrived(_: float, state: np.ndarray) -> float:
        return float(state[1] - SIXTY)

    arrived.terminal = True  # type: ignore[attr-defined]  # scipy's way to stop at an event
    solved = solve_ivp(rate, (0, 60), [0.0, 0.0], events=arrived, rtol=1e-8, max_step=0.02)
    found = run(manual(), overall_ratios=np.array([[ratio]]))
    assert seconds(found) == pytest.approx(solved.t[-1], rel=2e-3)
    covered = float(time_to_distance(run=found, distance=solved.y[0, -1])[0])
    assert covered == pytest.approx(solved.t[-1], rel=2e-3)


def test_the_grid_is_fine_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    for drive in (manual(), automatic()):
        coarse = float(time_to_distance(run=run(drive), distance=QUARTER_MILE)[0])
        with monkeypatch.context() as patch:
            patch.setattr(acceleration, "SPEED_STEPS", 3200)
            patch.setattr(acceleration, "CONVERTER_SPEED_STEPS", 3200)
            fine = float(time_to_distance(run=run(drive), distance=QUARTER_MILE)[0])
        assert coarse == pytest.approx(fine, abs=0.02)


def test_a_shift_stands_at_its_own_speed_and_takes_its_time() -> None:
    # Top of first gear: limit speed x radius / ratio. No step runs across it, so time and distance
    # change there by the shift alone.
    found = run(manual(), engine_inertia=0.0)
    shift = 1.1 * RATED * 0.3 / (3.5 * 3.9)
    after = int(np.argmax(found.gear[:, 0] == 1))
    assert found.speed[after - 1 : after + 1, 0] == pytest.approx(shift)
    taken = found.time[after, 0] - found.time[after - 1, 0]
    assert 0.5 < taken < 0.55  # the shift time, and that to win back what the road takes in it
    covered = found.distance[after, 0] - found.distance[after - 1, 0]
    assert covered == pytest.approx(shift * taken)


def test_an_even_pull_is_exact() -> None:
    # The tyres hold less than the engine gives, no load: v = a t, s = v t / 2.
    found = run(
        manual(),
        overall_ratios=np.array([[6.0]]),
        traction_force=1200.0,
        constant_load=0.0,
        quadratic_load=0.0,
    )
    assert seconds(found, 15.0) == pytest.approx(15.0)
    assert found.distance == pytest.approx(found.speed * found.time / 2.0)


def test_more_power_is_quicker_and_more_mass_slower() -> None:
    assert (
        seconds(run(manual(120e3))) < seconds(run(manual())) < seconds(run(manual(), mass=1500.0))
    )


def test_less_grip_longer_shifts_and_a_heavier_flywheel_are_slower() -> None:
    usual = seconds(run(manual()))
    assert usual < seconds(run(manual(), traction_force=3500.0))
    assert usual < seconds(run(manual(), shift_time=0.9))
    assert usual < seconds(run(manual(), engine_inertia=0.4))


def test_samples_are_independent() -> None:
    both = run(manual(np.array([90e3, 110e3])))
    assert time_to_speed(run=both, speed=SIXTY) == pytest.approx(
        [seconds(run(manual())), seconds(run(manual(110e3)))]
    )


def test_two_thousand_samples_take_a_fifth_of_a_second_or_so() -> None:
    drive = manual(90e3 * np.linspace(0.9, 1.1, 2001))
    started = time.perf_counter()
    run(drive)
    assert time.perf_counter() - started < 2.0  # 0.03 s on an idle machine


def test_a_car_too_weak_to_move_has_no_times() -> None:
    found = run(manual(), constant_load=1e5)
    assert np.isnan(time_to_speed(run=found, speed=SIXTY)).all()
    assert np.isnan(time_to_distance(run=found, distance=QUARTER_MILE)).all()


def test_a_speed_beyond_the_top_is_never_reached_but_a_distance_is() -> None:
    slow = run(manual(15e3))
    assert np.isnan(time_to_speed(run=slow, speed=60.0)).all()
    far = time_to_distance(run=slow, distance=20e3)
    assert far == pytest.approx(20e3 / slow.speed[-1], rel=0.05)
    assert speed_at_distance(run=slow, distance=20e3) == pytest.approx(slow.speed[-1])


def test_time_and_distance_only_grow() -> None:
    for drive in (manual(), automatic()):
        found = run(drive)
        assert np.all(np.diff(found.time, axis=0) >= 0.0)
        assert np.all(np.diff(found.distance, axis=0) >= 0.0)
        assert np.all(np.diff(found.gear, axis=0) >= 0)


def test_a_converter_multiplies_at_rest_and_couples_at_speed() -> None:
    drive, engine = automatic(), manual()
    stall = np.interp(0.45 * RATED, engine.engine_speed[:, 0], engine.torque[:, 0])
    assert drive.torque[0, 0] == pytest.approx(2.0 * stall, rel=1e-3)
    assert drive.engine_speed[0, 0] == pytest.approx(0.45 * RATED)
    slip = 1.0 - np.linspace(0, 1, 65)[-8] * 1.1 * RATED / drive.engine_speed[-8, 0]
    assert 0.0 < slip < 0.06


def test_geared_top_speed_is_below_what_the_power_allows() -> None:
    drive = manual()
    geared = top_speed(
        drive=drive,
        overall_ratios=np.linspace(3.0, 5.0, 21)[:, None],
        efficiency=0.9,
        rolling_radius=0.3,
        constant_load=170.0,
        linear_load=0.0,
        quadratic_load=0.51,
    )
    ideal = top_speed_from_power(
        wheel_power=81e3,
        weight=17000.0,
        rolling_coefficient=0.01,
        drag_area=0.85,
        air_density=1.2,
    )
    assert geared <= ideal
    assert geared == pytest.approx(ideal, rel=2e-3)


def test_a_live_axle_holds_less_and_no_more_than_an_independent_one() -> None:
    road = {"weight": 12e3, "friction": 0.85, "height_over_wheelbase": 0.21}
    both = traction_limit_two_wheel(driven_share=0.46, rear_driven=True, **road)
    live = traction_limit_live_axle(
        rear_share=0.46,
        rolling_radius=0.3,
        final_drive=3.5,
        track=1.35,
        front_roll_share=np.array([0.0, 0.65]),
        **road,
    )
    assert live[0] == pytest.approx(both)
    assert live[1] < both


def test_a_rear_engined_car_on_glue_lifts_its_front() -> None:
    force = traction_limit_two_wheel(
        weight=1.0, friction=2.0, driven_share=0.7, height_over_wheelbase=0.3, rear_driven=True
    )
    assert np.isnan(force)


def test_rolling_resistance() -> None:
    assert rolling_coefficient_radial(speed=0.0) == pytest.approx(0.0136)
    assert rolling_coefficient_cross_ply(speed=30.0) > rolling_coefficient_radial(speed=30.0)
    with pytest.raises(InputError, match="drag_area"):
        drag_force(speed=30.0, drag_area=0.0, air_density=1.2)


def test_refuses_a_massless_car_and_a_launch_above_the_limit() -> None:
    with pytest.raises(InputError, match="mass"):
        run(manual(), mass=0.0)
    with pytest.raises(InputError, match="launch_speed"):
        clutch_drive(
            limit_speed=500.0,
            torque=np.ones((65, 1)),
            launch_speed=600.0,
            idle_speed=80.0,
            drag_torque=10.0,
        )
