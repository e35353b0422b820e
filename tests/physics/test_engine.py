"""Limits, symmetry and refused input of the engine curve."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.engine import (
    CURVE_POINTS,
    cubic_torque,
    curve_speeds,
    mean_effective_pressure,
    mean_piston_speed,
    rated_speed_from_piston_speed,
    speed_for_mean_pressure,
    square_stroke,
    torque_from_points,
    torque_through_peaks,
)


def through(speed: object, **change: object) -> np.ndarray:
    peaks = {
        "peak_power": 100e3,
        "rated_speed": 500.0,
        "peak_torque": 250.0,
        "band_start": 250.0,
        "band_end": 250.0,
    }
    return np.asarray(torque_through_peaks(engine_speed=speed, **{**peaks, **change}))


def test_power_peaks_at_the_rated_speed() -> None:
    speeds = np.linspace(1.0, 800.0, 800)
    power = np.asarray(cubic_torque(engine_speed=speeds, peak_power=90e3, rated_speed=500.0))
    assert speeds[np.argmax(power * speeds)] == pytest.approx(500.0, abs=1.0)
    assert (power * speeds).max() == pytest.approx(90e3)


def test_peaks_of_the_generic_curve_give_the_generic_curve() -> None:
    speeds = np.linspace(0.0, 600.0, 200)
    generic = cubic_torque(engine_speed=speeds, peak_power=100e3, rated_speed=500.0)
    assert through(speeds) == pytest.approx(generic, rel=1e-12)


def test_a_band_holds_its_torque() -> None:
    speeds = np.array([200.0, 300.0, 400.0])
    found = through(speeds, peak_torque=220.0, band_start=200.0, band_end=400.0)
    assert found == pytest.approx([220.0] * 3)


def test_contradicting_peaks_have_no_curve() -> None:
    assert np.isnan(through(300.0, peak_torque=150.0))
    assert np.isnan(through(300.0, band_start=450.0, band_end=450.0, peak_torque=300.0))
    assert np.isnan(through(300.0, band_end=600.0, peak_torque=201.0))
    assert np.isnan(through(300.0, band_start=300.0, band_end=200.0))


def test_peaks_that_all_but_agree_are_reconciled() -> None:
    # Peak torque rounded to just below what the power needs: the power still peaks as given.
    assert through(500.0, peak_torque=198.0, band_start=500.0, band_end=500.0) == pytest.approx(
        200.0
    )


def test_points_are_joined_by_straight_lines_and_not_carried_on() -> None:
    speeds = np.array([[100.0], [200.0], [400.0]])
    torques = np.array([[100.0, 110.0], [200.0, 220.0], [100.0, 110.0]])
    asked = np.array([[50.0], [150.0], [300.0], [400.0], [401.0]])
    found = np.asarray(torque_from_points(engine_speed=asked, speeds=speeds, torques=torques))
    assert found[:4, 0] == pytest.approx([100.0, 150.0, 150.0, 100.0])
    assert found[:4, 1] == pytest.approx([110.0, 165.0, 165.0, 110.0])
    assert np.isnan(found[4]).all()


def test_mean_pressure_and_speed_are_inverse() -> None:
    speed = speed_for_mean_pressure(power=80e3, swept_volume=0.002, mean_pressure=9e5)
    pressure = mean_effective_pressure(torque=80e3 / speed, swept_volume=0.002)
    assert pressure == pytest.approx(9e5)


def test_curve_speeds_run_from_standstill_to_the_limit() -> None:
    found = curve_speeds(limit_speed=np.array([500.0, 600.0]))
    assert found.shape == (CURVE_POINTS, 2)
    assert found[0].tolist() == [0.0, 0.0]
    assert found[-1].tolist() == [500.0, 600.0]


def test_refuses_an_engine_without_power() -> None:
    with pytest.raises(InputError, match="peak_power"):
        cubic_torque(engine_speed=100.0, peak_power=0.0, rated_speed=500.0)
    with pytest.raises(InputError, match="speeds"):
        torque_from_points(
            engine_speed=100.0,
            speeds=np.array([[200.0], [100.0]]),
            torques=np.array([[1.0], [1.0]]),
        )


def test_a_square_engine_has_the_volume_that_it_was_made_from() -> None:
    stroke = square_stroke(swept_volume=1.6e-3, cylinders=4.0)
    assert 4.0 * np.pi / 4.0 * stroke**2 * stroke == pytest.approx(1.6e-3)


def test_rated_speed_and_piston_speed_are_inverse_for_a_square_engine() -> None:
    speed = rated_speed_from_piston_speed(swept_volume=1.6e-3, cylinders=4.0, piston_speed=14.0)
    stroke = square_stroke(swept_volume=1.6e-3, cylinders=4.0)
    assert mean_piston_speed(engine_speed=speed, stroke=stroke) == pytest.approx(14.0)
