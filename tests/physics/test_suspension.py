from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.roll_centres import (
    roll_centre_from_instant_centre,
    roll_centre_height,
)
from drybuild.physics.suspension import (
    anti_roll_bar_roll_stiffness,
    bounce_and_pitch,
    independent_roll_stiffness,
    natural_frequency,
    ride_rate,
    wheel_rate,
)


def test_a_stiff_tyre_leaves_the_wheel_rate() -> None:
    assert ride_rate(wheel_rate=20e3, tyre_rate=1e12) == pytest.approx(20e3, rel=1e-6)


def test_the_motion_ratio_counts_twice() -> None:
    rate = wheel_rate(
        spring_rate=50e3, motion_ratio=0.6, spring_force=4000.0, motion_ratio_slope=0.0
    )
    assert rate == pytest.approx(18e3)


def test_a_car_with_even_springs_and_mass_bounces_and_pitches_apart() -> None:
    modes = bounce_and_pitch(
        front_rate=40e3,
        rear_rate=40e3,
        sprung_mass=1000.0,
        front_distance=1.25,
        rear_distance=1.25,
        gyration_radius=1.0,
    )
    assert modes.slow_frequency == pytest.approx(natural_frequency(rate=80e3, mass=1000.0))
    assert modes.fast_frequency == pytest.approx(1.25 * modes.slow_frequency)
    assert modes.fast_node == 0.0


def test_wheels_sprung_one_by_one_match_a_bar_of_the_same_rate() -> None:
    springs = independent_roll_stiffness(rate=20e3, track=1.4)
    bar = anti_roll_bar_roll_stiffness(end_rate=20e3, motion_ratio=1.0, track=1.4)
    assert springs == pytest.approx(bar)


def test_roll_centre_by_velocity_equals_the_construction() -> None:
    # A wheel that turns about (-1.9, 0.33): its contact at 0.74 moves square to that arm.
    by_centre = roll_centre_from_instant_centre(
        contact_offset=0.74, centre_offset=-1.9, centre_height=0.33
    )
    by_velocity = roll_centre_height(
        contact_offset=0.74, contact_side_velocity=0.33, contact_rise_velocity=0.74 + 1.9
    )
    assert by_centre == pytest.approx(by_velocity)


def test_arrays_of_samples_go_through() -> None:
    assert ride_rate(wheel_rate=np.full(7, 2e4), tyre_rate=np.full(7, 2e5)).shape == (7,)


def test_refused_input() -> None:
    with pytest.raises(InputError, match="mass"):
        natural_frequency(rate=20e3, mass=0.0)
    with pytest.raises(InputError, match="motion_ratio"):
        wheel_rate(spring_rate=5e4, motion_ratio=0.0, spring_force=0.0, motion_ratio_slope=0.0)
    with pytest.raises(InputError, match="centre_offset"):
        roll_centre_from_instant_centre(contact_offset=0.7, centre_offset=0.7, centre_height=0.1)
