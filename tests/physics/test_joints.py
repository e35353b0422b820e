"""Universal joints and shafts: straight joints, turns that add up, inverses, refused shafts."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.joints import (
    joint_angle_for_excitation,
    joint_excitation,
    joint_phase_error,
    joint_speed_fluctuation,
    joint_speed_ratio,
    shaft_torsional_stiffness,
)

ANGLE = np.radians(12.0)


def test_a_straight_joint_runs_even() -> None:
    turn = np.linspace(0.0, 2.0 * np.pi, 50)
    assert joint_speed_ratio(joint_angle=0.0, turn=turn) == pytest.approx(1.0)
    assert joint_phase_error(joint_angle=0.0) == pytest.approx(0.0)
    assert joint_excitation(shaft_speed=500.0, joint_angle=0.0) == 0.0


def test_the_output_turns_as_often_as_the_input() -> None:
    turn = np.linspace(0.0, 2.0 * np.pi, 20_001)[:-1]
    ratio = joint_speed_ratio(joint_angle=ANGLE, turn=turn)
    assert np.mean(ratio) == pytest.approx(1.0, abs=1e-9)
    assert np.ptp(ratio) == pytest.approx(joint_speed_fluctuation(joint_angle=ANGLE), rel=1e-6)


def test_the_phase_error_is_the_greatest_lead_of_the_integrated_speed() -> None:
    turn = np.linspace(0.0, 2.0 * np.pi, 200_001)
    ratio = np.asarray(joint_speed_ratio(joint_angle=ANGLE, turn=turn))
    output = np.concatenate(([0.0], np.cumsum((ratio[1:] + ratio[:-1]) / 2.0 * np.diff(turn))))
    assert np.max(output - turn) == pytest.approx(joint_phase_error(joint_angle=ANGLE), rel=1e-4)


def test_angle_and_excitation_are_inverse() -> None:
    shaken = joint_excitation(shaft_speed=400.0, joint_angle=0.05)
    again = joint_angle_for_excitation(shaft_speed=400.0, excitation=shaken)
    assert again == pytest.approx(0.05)


def test_two_shafts_end_to_end_twist_like_one_of_both_lengths() -> None:
    tube = {"outside_diameter": 0.06, "inside_diameter": 0.056, "shear_modulus": 79e9}
    half = shaft_torsional_stiffness(length=0.5, **tube)
    assert shaft_torsional_stiffness(length=1.0, **tube) == pytest.approx(half / 2.0)


def test_a_tube_whose_bore_leaves_no_wall_is_refused() -> None:
    with pytest.raises(InputError, match="inside_diameter"):
        shaft_torsional_stiffness(
            outside_diameter=0.05, inside_diameter=0.05, length=1.0, shear_modulus=79e9
        )
