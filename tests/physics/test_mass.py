from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.mass import (
    axle_masses,
    centre_of_mass,
    cg_distance_from_front_axle,
    cg_offset_to_the_left,
    cross_weight_share,
    inertia_about_common_centre,
    roll_inertia_from_track,
    yaw_inertia_from_mass,
)


def test_even_axles_put_the_centre_halfway() -> None:
    assert cg_distance_from_front_axle(
        front_axle=500.0, rear_axle=500.0, wheelbase=2.5
    ) == pytest.approx(1.25)


def test_axle_masses_give_back_the_distance_they_were_made_from() -> None:
    front, rear = axle_masses(
        mass=np.array([1000.0, 60.0]),
        distance_behind_front_axle=np.array([1.2, 3.0]),
        wheelbase=2.5,
    )
    assert front + rear == pytest.approx(1060.0)
    behind = cg_distance_from_front_axle(front_axle=front, rear_axle=rear, wheelbase=2.5)
    assert behind == pytest.approx((1000.0 * 1.2 + 60.0 * 3.0) / 1060.0)


def test_what_comes_off_and_goes_on_again_changes_nothing() -> None:
    mass = np.array([1000.0, -80.0, 80.0])
    place = np.array([1.2, 0.4, 0.4])
    none = np.zeros(3)
    own = np.array([1500.0, -2.0, 2.0])
    assert centre_of_mass(mass=mass, position=place) == pytest.approx(1.2)
    inertia = inertia_about_common_centre(
        mass=mass, first_position=place, second_position=none, own_inertia=own
    )
    assert inertia == pytest.approx(1500.0)


def test_a_dumb_bell_has_the_inertia_of_its_reduced_mass() -> None:
    inertia = inertia_about_common_centre(
        mass=np.array([3.0, 1.0]),
        first_position=np.array([0.0, 2.0]),
        second_position=np.zeros(2),
        own_inertia=np.zeros(2),
    )
    assert inertia == pytest.approx(3.0 * 1.0 / 4.0 * 2.0**2)


def test_a_crossed_car_keeps_its_centre_in_the_middle() -> None:
    crossed = {"front_left": 200.0, "front_right": 300.0, "rear_left": 300.0, "rear_right": 200.0}
    assert cg_offset_to_the_left(front_track=1.3, rear_track=1.3, **crossed) == pytest.approx(0.0)
    assert cross_weight_share(**crossed) == pytest.approx(0.6)


def test_samples_run_along_the_last_axis() -> None:
    mass = np.ones((3, 5))
    assert np.shape(centre_of_mass(mass=mass, position=mass * np.arange(5.0))) == (5,)


def test_roll_inertia_grows_with_the_square_of_the_track() -> None:
    one = roll_inertia_from_track(mass=1000.0, track=1.3, gyration_share=0.41)
    two = roll_inertia_from_track(mass=1000.0, track=2.6, gyration_share=0.41)
    assert two == pytest.approx(4.0 * one)


@pytest.mark.parametrize("mass", [700.0, 2500.0, float("nan")])
def test_the_line_through_cars_is_refused_outside_them(mass: float) -> None:
    with pytest.raises(InputError, match="815"):
        yaw_inertia_from_mass(mass=mass)


def test_a_wheelbase_of_nothing_is_refused() -> None:
    with pytest.raises(InputError, match="wheelbase"):
        cg_distance_from_front_axle(front_axle=500.0, rear_axle=500.0, wheelbase=0.0)
