"""Flow in pipes: laminar and rough limits, losses that add up, refused flow."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.pipes import (
    bore_for_velocity,
    friction_factor_churchill,
    pipe_pressure_loss,
    pipe_velocity,
    reynolds_number,
)

FLOW = {
    "volume_flow": 3e-5,
    "bore": 0.008,
    "roughness": 1.5e-6,
    "density": 745.0,
    "viscosity": 0.5e-3,
}


def test_slow_flow_is_laminar() -> None:
    found = friction_factor_churchill(reynolds=np.array([50.0, 500.0]), relative_roughness=1e-4)
    assert found == pytest.approx([64.0 / 50.0, 64.0 / 500.0], rel=1e-6)


def test_fast_flow_in_a_rough_pipe_no_longer_asks_for_its_speed() -> None:
    slower = friction_factor_churchill(reynolds=1e8, relative_roughness=0.01)
    faster = friction_factor_churchill(reynolds=1e9, relative_roughness=0.01)
    assert faster == pytest.approx(slower, rel=1e-3)


def test_bore_and_velocity_are_inverse() -> None:
    bore = bore_for_velocity(volume_flow=2e-3, velocity=3.0)
    assert pipe_velocity(volume_flow=2e-3, bore=bore) == pytest.approx(3.0)


def test_the_reynolds_number_has_no_scale() -> None:
    small = reynolds_number(velocity=2.0, diameter=0.01, density=1000.0, viscosity=1e-3)
    large = reynolds_number(velocity=1.0, diameter=0.02, density=1000.0, viscosity=1e-3)
    assert small == pytest.approx(large)


def test_losses_of_two_lengths_add_up() -> None:
    half = pipe_pressure_loss(length=2.0, loss_coefficient=1.5, **FLOW)
    assert pipe_pressure_loss(length=4.0, loss_coefficient=3.0, **FLOW) == pytest.approx(2.0 * half)


def test_flow_backwards_and_a_pipe_without_a_bore_are_refused() -> None:
    with pytest.raises(InputError, match="volume_flow"):
        pipe_velocity(volume_flow=-1e-3, bore=0.01)
    with pytest.raises(InputError, match="bore"):
        pipe_velocity(volume_flow=1e-3, bore=0.0)
