from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.ride import (
    HalfCar,
    QuarterCar,
    SprungWheel,
    both_axles_on_one_road,
    half_car_shares,
    quarter_car_on_random_road,
    quarter_car_response,
    road_velocity_level,
    vertical_weighting_iso_2631,
    weighted_acceleration_iso_2631,
)

WHEEL = SprungWheel(unsprung_mass=45.0, spring_rate=16e3, damping=1000.0, tyre_rate=160e3)
CAR = QuarterCar(sprung_mass=250.0, wheel=WHEEL)


def test_on_a_very_long_wave_everything_moves_together() -> None:
    found = quarter_car_response(frequency=1e-4, car=CAR)
    assert abs(found.body) == pytest.approx(1.0)
    assert abs(found.stroke) == pytest.approx(0.0, abs=1e-6)


def test_all_motions_grow_with_the_root_of_roughness_and_speed() -> None:
    slow = road_velocity_level(roughness=16e-6, speed=10.0)
    fast = road_velocity_level(roughness=64e-6, speed=10.0)
    one = quarter_car_on_random_road(car=CAR, velocity_level=slow)
    two = quarter_car_on_random_road(car=CAR, velocity_level=fast)
    assert two.body_acceleration == pytest.approx(2.0 * one.body_acceleration)
    assert two.tyre_force == pytest.approx(2.0 * one.tyre_force)


def test_grid_and_exact_result_of_the_stroke_agree() -> None:
    frequency = np.geomspace(1e-3, 1e4, 4000)
    level = road_velocity_level(roughness=64e-6, speed=20.0)
    response = quarter_car_response(frequency=frequency, car=CAR)
    per_velocity = np.abs(response.stroke) / (2.0 * np.pi * frequency)
    rms = np.sqrt(np.trapezoid(per_velocity**2, frequency) * level)
    exact = quarter_car_on_random_road(car=CAR, velocity_level=level)
    assert rms == pytest.approx(exact.stroke, rel=1e-3)


def test_samples_broadcast_against_frequencies() -> None:
    frequency = np.geomspace(0.5, 80.0, 50)
    axle = SprungWheel(
        unsprung_mass=90.0, spring_rate=np.linspace(2e4, 4e4, 9), damping=2e3, tyre_rate=32e4
    )
    car = HalfCar(
        front=axle,
        rear=axle,
        sprung_mass=900.0,
        pitch_inertia=1300.0,
        front_distance=1.2,
        rear_distance=1.3,
    )
    shares = half_car_shares(frequency=frequency[:, None], car=car, point_ahead=0.1)
    response = both_axles_on_one_road(frequency=frequency[:, None], shares=shares, speed=20.0)
    weighted = weighted_acceleration_iso_2631(
        frequency=frequency, response=response, velocity_level=1e-5
    )
    assert np.shape(weighted) == (9,)
    assert np.all(np.diff(weighted) > 0.0)


def test_the_weighting_is_greatest_between_four_and_eight_hertz() -> None:
    frequency = np.geomspace(0.5, 80.0, 400)
    peak = frequency[np.argmax(vertical_weighting_iso_2631(frequency=frequency))]
    assert 4.0 < peak < 8.0


def test_refused_input() -> None:
    with pytest.raises(InputError, match="damping"):
        SprungWheel(unsprung_mass=45.0, spring_rate=16e3, damping=0.0, tyre_rate=160e3)
    with pytest.raises(InputError, match="speed"):
        road_velocity_level(roughness=64e-6, speed=0.0)
    with pytest.raises(InputError, match="frequency"):
        vertical_weighting_iso_2631(frequency=0.0)
