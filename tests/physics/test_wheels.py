"""Wheel geometry and fasteners: limits, symmetry, refusals."""

from __future__ import annotations

import pytest

from drybuild.errors import InputError
from drybuild.physics.fastenings import thread_stress_area
from drybuild.physics.wheels import (
    backspacing,
    fastener_preload,
    inner_lip_move,
    largest_rotor_in_barrel,
    offset_from_backspacing,
    outer_lip_move,
    proof_share,
    radial_rotor_clearance,
    tightening_torque,
    track_change,
)


def test_offset_and_backspacing_are_inverse() -> None:
    back = backspacing(rim_width=0.178, offset=0.025, flange_thickness=0.0127)
    again = offset_from_backspacing(rim_width=0.178, backspacing=back, flange_thickness=0.0127)
    assert again == pytest.approx(0.025)


def test_lips_move_apart_by_the_width() -> None:
    move = {"old_width": 0.15, "old_offset": 0.013, "new_width": 0.20, "new_offset": -0.004}
    assert inner_lip_move(**move) + outer_lip_move(**move) == pytest.approx(0.05)
    assert inner_lip_move(**move) - outer_lip_move(**move) == pytest.approx(2 * (-0.017))


def test_a_spacer_is_an_offset() -> None:
    spaced = track_change(old_offset=0.02, new_offset=0.02, spacer=0.01)
    assert spaced == track_change(old_offset=0.02, new_offset=0.01, spacer=0.0)


def test_the_largest_rotor_has_just_its_clearance() -> None:
    barrel = {"bead_seat_diameter": 0.4366, "well_depth": 0.0165, "wall_thickness": 0.0065}
    rotor = largest_rotor_in_barrel(**barrel, caliper_bridge=0.026, clearance=0.003)
    left = radial_rotor_clearance(**barrel, caliper_bridge=0.026, rotor_diameter=rotor)
    assert left == pytest.approx(0.003)


def test_torque_and_preload_are_inverse() -> None:
    force = fastener_preload(torque=100.0, torque_coefficient=0.2, diameter=0.012)
    assert tightening_torque(
        preload=force, torque_coefficient=0.2, diameter=0.012
    ) == pytest.approx(100.0)


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(InputError):
        backspacing(rim_width=0.0, offset=0.0, flange_thickness=0.0127)
    with pytest.raises(InputError):
        thread_stress_area(diameter=0.001, pitch=0.0015)
    with pytest.raises(InputError):
        proof_share(preload=1.0, stress_area=0.0, proof_stress=1.0)
    with pytest.raises(InputError):
        track_change(old_offset=0.0, new_offset=0.0, spacer=-0.01)
