from __future__ import annotations

import math

import pytest

from drybuild.errors import InputError
from drybuild.physics.steering import (
    ackermann_outer_angle,
    ackermann_share,
    moment_of_side_force,
    moment_of_vertical_load,
    parking_moment_with_offset,
    rack_steering_ratio,
    rim_force,
    steering_wheel_turns,
)


def test_one_turn_of_a_rack_moves_the_arm_by_its_travel() -> None:
    # 150 mm arm, 50 mm a turn: a turn swings the wheel about 1/3 rad, so the ratio is 6π.
    assert rack_steering_ratio(steering_arm=0.15, rack_travel_per_turn=0.05) == pytest.approx(
        6.0 * math.pi
    )


def test_turns_from_lock_to_lock() -> None:
    turns = steering_wheel_turns(
        inner_angle=math.radians(38.0), outer_angle=math.radians(32.0), steering_ratio=18.0
    )
    assert turns == pytest.approx(18.0 * 70.0 / 360.0)


def test_wheels_on_one_axis_steer_alike() -> None:
    outer = ackermann_outer_angle(inner_angle=0.5, wheelbase=2.5, kingpin_track=0.0)
    assert outer == pytest.approx(0.5)


def test_parallel_steering_has_no_ackermann_and_the_ideal_has_all() -> None:
    car = {"wheelbase": 2.5, "kingpin_track": 1.3}
    ideal = ackermann_outer_angle(inner_angle=0.5, **car)
    assert ackermann_share(inner_angle=0.5, outer_angle=0.5, **car) == 0.0
    assert ackermann_share(inner_angle=0.5, outer_angle=ideal, **car) == pytest.approx(1.0)


def test_straight_ahead_on_even_wheels_the_load_does_nothing() -> None:
    moment = moment_of_vertical_load(
        outer_load=3000.0,
        inner_load=3000.0,
        kingpin_offset=0.04,
        kingpin_inclination=0.15,
        caster=0.05,
        steer_angle=0.0,
    )
    assert moment == 0.0


def test_effort_is_shared_out_by_assistance() -> None:
    wheel = {"steering_ratio": 16.0, "efficiency": 0.8, "rim_diameter": 0.38}
    alone = rim_force(kingpin_moment=400.0, assistance=0.0, **wheel)
    helped = rim_force(kingpin_moment=400.0, assistance=0.75, **wheel)
    assert helped == pytest.approx(alone / 4.0)
    assert alone == pytest.approx(400.0 / 16.0 / 0.8 / 0.19)


def test_side_force_without_trail_is_not_felt() -> None:
    assert moment_of_side_force(side_force=4000.0, trail=0.0) == 0.0


def test_refused_input() -> None:
    with pytest.raises(InputError, match="assistance"):
        rim_force(
            kingpin_moment=1.0,
            assistance=1.2,
            steering_ratio=16.0,
            efficiency=0.8,
            rim_diameter=0.38,
        )
    with pytest.raises(InputError, match="load"):
        parking_moment_with_offset(friction=0.7, load=0.0, tyre_width=0.2, kingpin_offset=0.0)
