from __future__ import annotations

import math

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.handling import (
    aligning_torque_understeer,
    camber_thrust_understeer,
    characteristic_speed,
    critical_speed,
    roll_steer_understeer,
    stability_factor,
    steering_compliance_understeer,
    tyre_understeer_gradient,
    yaw_velocity_gain,
)
from drybuild.physics.load_transfer import (
    lateral_load_transfer,
    roll_gradient,
    rollover_risk_nhtsa_2003,
)

G = 9.80665


def test_moments_of_both_axles_add_up_to_the_cars() -> None:
    mass, arm, stiffness, height = 1000.0, 0.4, 40e3, 0.15
    acceleration = 5.0
    roll = roll_gradient(sprung_mass=mass, roll_arm=arm, roll_stiffness=stiffness) * acceleration
    moment = sum(
        lateral_load_transfer(
            lateral_acceleration=acceleration,
            roll_angle=roll,
            axle_roll_stiffness=share * stiffness,
            track=1.4,
            sprung_mass_on_axle=mass / 2.0,
            roll_centre_height=height,
            unsprung_mass=80.0,
            unsprung_height=0.3,
        ).total
        * 1.4
        for share in (0.6, 0.4)
    )
    outside = mass * acceleration * (height + arm) + 160.0 * acceleration * 0.3
    assert moment == pytest.approx(outside + mass * G * arm * roll)


def test_springs_too_soft_to_stand_have_no_roll_gradient() -> None:
    assert math.isnan(roll_gradient(sprung_mass=1000.0, roll_arm=0.5, roll_stiffness=4000.0))


def test_even_tyres_on_an_even_car_steer_neutrally() -> None:
    gradient = tyre_understeer_gradient(
        front_load=5000.0, rear_load=5000.0, front_stiffness=1e5, rear_stiffness=1e5
    )
    assert gradient == 0.0
    assert math.isnan(characteristic_speed(wheelbase=2.5, understeer_gradient=gradient))
    assert math.isnan(critical_speed(wheelbase=2.5, understeer_gradient=gradient))
    gain = yaw_velocity_gain(speed=20.0, wheelbase=2.5, understeer_gradient=gradient)
    assert gain == pytest.approx(20.0 / 2.5)


def test_gain_of_an_understeering_car_peaks_at_its_characteristic_speed() -> None:
    speed = np.linspace(5.0, 80.0, 1501)
    gain = yaw_velocity_gain(speed=speed, wheelbase=2.5, understeer_gradient=2e-3)
    peak = characteristic_speed(wheelbase=2.5, understeer_gradient=2e-3)
    assert speed[np.argmax(gain)] == pytest.approx(peak, abs=0.05)


def test_stability_factor_is_the_tyres_understeer_over_the_wheelbase() -> None:
    mass, a, b, front, rear = 1200.0, 1.1, 1.4, 9e4, 11e4
    gradient = tyre_understeer_gradient(
        front_load=mass * G * b / (a + b),
        rear_load=mass * G * a / (a + b),
        front_stiffness=front,
        rear_stiffness=rear,
    )
    factor = stability_factor(
        mass=mass, front_distance=a, rear_distance=b, front_stiffness=front, rear_stiffness=rear
    )
    assert factor == pytest.approx(gradient / (a + b))


def test_terms_of_understeer_have_the_right_sign() -> None:
    roll = 0.012
    assert roll_steer_understeer(front_roll_steer=0.05, rear_roll_steer=0.0, roll_gradient=roll) > 0
    live_axle_behind_struts = camber_thrust_understeer(
        front_camber_per_roll=0.8,
        rear_camber_per_roll=0.0,
        front_camber_ratio=0.08,
        rear_camber_ratio=0.08,
        roll_gradient=roll,
    )
    assert live_axle_behind_struts > 0.0
    stiff = {"front_stiffness": 1e5, "rear_stiffness": 1e5}
    assert aligning_torque_understeer(
        car_mass=1000.0, pneumatic_trail=0.03, wheelbase=2.5, **stiff
    ) == pytest.approx(1000.0 * 0.03 / 2.5 * 2e-5)
    assert steering_compliance_understeer(
        front_axle_mass=500.0, mechanical_trail=0.02, pneumatic_trail=0.03, steering_stiffness=25e3
    ) == pytest.approx(1e-3)


def test_refused_input() -> None:
    with pytest.raises(InputError, match="front_stiffness"):
        tyre_understeer_gradient(
            front_load=1.0, rear_load=1.0, front_stiffness=0.0, rear_stiffness=1.0
        )
    with pytest.raises(InputError, match=r"0\.90"):
        rollover_risk_nhtsa_2003(static_stability_factor=0.9)
