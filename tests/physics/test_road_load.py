"""Road load: what stands still, what adds up, what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.road_load import (
    coast_down_force,
    drag_force,
    frontal_area_from_mass,
    road_load_force,
    rolling_coefficient_cross_ply,
    rolling_coefficient_radial,
)


def test_air_takes_four_times_the_force_at_twice_the_speed() -> None:
    slow = drag_force(speed=20.0, drag_area=0.8, air_density=1.2)
    assert drag_force(speed=40.0, drag_area=0.8, air_density=1.2) == pytest.approx(4.0 * slow)


def test_tyres_and_air_are_a_coast_down_without_a_linear_part() -> None:
    speed = np.array([0.0, 15.0, 30.0])
    model = road_load_force(
        speed=speed, weight=12e3, rolling_coefficient=0.015, drag_area=0.8, air_density=1.2
    )
    fitted = coast_down_force(
        speed=speed, constant=0.015 * 12e3, linear=0.0, quadratic=0.5 * 1.2 * 0.8
    )
    assert model == pytest.approx(fitted)


def test_cross_ply_tyres_roll_harder_at_every_speed() -> None:
    speed = np.linspace(0.0, 40.0, 9)
    radial = rolling_coefficient_radial(speed=speed)
    assert np.all(rolling_coefficient_cross_ply(speed=speed) > radial)
    assert np.all(np.diff(radial) > 0.0)


def test_heavier_cars_are_larger() -> None:
    assert frontal_area_from_mass(mass=1600.0) > frontal_area_from_mass(mass=800.0)


def test_a_negative_drag_area_is_refused() -> None:
    with pytest.raises(InputError, match="drag_area"):
        drag_force(speed=20.0, drag_area=-0.1, air_density=1.2)
