from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.cornering import (
    AxleGrip,
    axle_cornering_stiffness,
    axle_lateral_limit,
    cornering_limit,
)
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
from drybuild.physics.magic_formula import (
    LateralCoefficients1987,
    cornering_stiffness_1987,
    lateral_force_1987,
)

G = 9.80665
AXLE = AxleGrip(
    wheel_load=3000.0,
    axle_mass=6000.0 / G,
    transfer_per_acceleration=200.0,
    track=1.4,
    reference_load=4000.0,
    reference_friction=0.9,
    load_sensitivity=0.1,
)


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


def test_limit_with_tyres_that_do_not_care_for_load_is_their_friction() -> None:
    axle = replace(AXLE, load_sensitivity=0.0)
    assert cornering_limit(front=axle, rear=axle) == pytest.approx(0.9 * G)


def test_more_load_transfer_costs_grip() -> None:
    def limit(transfer: float) -> float:
        return float(
            axle_lateral_limit(
                wheel_load=3000.0,
                axle_mass=6000.0 / G,
                transfer_per_acceleration=transfer,
                reference_load=4000.0,
                reference_friction=0.9,
                load_sensitivity=0.1,
            )
        )

    assert limit(0.0) > limit(100.0) > limit(200.0)


def test_a_tall_car_tips_before_it_slides() -> None:
    # Both axles move 400 kg per unit: the inner wheels lift at 3000 N / 400 kg = 7.5 m/s².
    tall = replace(AXLE, transfer_per_acceleration=400.0, reference_friction=1.4)
    assert cornering_limit(front=tall, rear=tall) == pytest.approx(7.5)
    alone = axle_lateral_limit(
        wheel_load=3000.0,
        axle_mass=6000.0 / G,
        transfer_per_acceleration=400.0,
        reference_load=4000.0,
        reference_friction=1.4,
        load_sensitivity=0.1,
    )
    assert np.isnan(alone)


def test_a_lifted_wheel_passes_its_load_transfer_to_the_other_axle() -> None:
    # The front cannot move more than it carries; tipping needs both axles' moments either way.
    front = replace(AXLE, transfer_per_acceleration=500.0, reference_friction=1.4)
    rear = replace(AXLE, transfer_per_acceleration=300.0, reference_friction=1.4)
    assert cornering_limit(front=front, rear=rear) == pytest.approx(7.5)


def test_slope_of_the_curve_is_the_cornering_stiffness() -> None:
    tyre = LateralCoefficients1987(
        a0=1.3, a1=-22.1, a2=1011.0, a3=1078.0, a4=1.82, a5=0.208, a6=0.0, a7=-0.354, a8=0.707
    )
    force = lateral_force_1987(load=4000.0, slip_angle=1e-6, coefficients=tyre)
    assert force / 1e-6 == pytest.approx(cornering_stiffness_1987(load=4000.0, coefficients=tyre))


def test_tyres_far_beyond_their_load_have_no_stiffness_and_spoil_no_other_sample() -> None:
    # With k = 0.5 the load law peaks at 1.5 of the reference load and ends at three times it.
    stiffness = axle_cornering_stiffness(
        wheel_load=np.array([3000.0, 16_000.0]),
        load_transfer=500.0,
        reference_load=4000.0,
        reference_coefficient=10.0,
        load_sensitivity=0.5,
    )
    assert np.isfinite(stiffness).tolist() == [True, False]
    gradient = tyre_understeer_gradient(
        front_load=6000.0, rear_load=6000.0, front_stiffness=stiffness, rear_stiffness=50e3
    )
    assert np.isfinite(gradient).tolist() == [True, False]


def test_refused_input() -> None:
    with pytest.raises(InputError, match="front_stiffness"):
        tyre_understeer_gradient(
            front_load=1.0, rear_load=1.0, front_stiffness=0.0, rear_stiffness=1.0
        )
    with pytest.raises(InputError, match=r"0\.90"):
        rollover_risk_nhtsa_2003(static_stability_factor=0.9)
