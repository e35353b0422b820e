from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.sections import closed_rectangle
from drybuild.physics.shell import (
    bonded_panel_share,
    closed_box_torsional_stiffness,
    first_torsion_mode,
    kerb_strike_force,
    ladder_torsional_stiffness,
    midspan_bending_stiffness,
    parallel_torsional_stiffness,
    slab_roll_inertia,
    torsional_stiffness_from_corner_load,
)


def box(thicknesses: list[float]) -> float:
    return float(
        closed_box_torsional_stiffness(
            length=2.0, width=1.4, height=1.2, shear_modulus=79.6e9, thicknesses=thicknesses
        )
    )


@pytest.mark.parametrize("missing", range(6))
def test_a_box_without_any_one_face_has_no_stiffness(missing: int) -> None:
    walls = [0.9e-3] * 6
    walls[missing] = 0.0
    assert box(walls) == 0.0


def test_a_box_is_as_stiff_as_its_sheet_is_thick() -> None:
    assert box([1.8e-3] * 6) == pytest.approx(2 * box([0.9e-3] * 6))


def test_nothing_added_changes_nothing_and_order_does_not_matter() -> None:
    assert parallel_torsional_stiffness(original=3e5, added=[]) == 3e5
    one = parallel_torsional_stiffness(original=3e5, added=[1e4, np.array([2e4, 3e4])])
    other = parallel_torsional_stiffness(original=3e5, added=[np.array([2e4, 3e4]), 1e4])
    assert one == pytest.approx(other)


def test_a_part_cannot_take_away_more_than_there_is() -> None:
    with pytest.raises(InputError):
        parallel_torsional_stiffness(original=3e5, added=[-4e5])


def test_the_corner_test_is_linear_in_the_load() -> None:
    soft = torsional_stiffness_from_corner_load(load=500.0, track=1.3, deflection=0.004)
    assert soft == pytest.approx(
        torsional_stiffness_from_corner_load(load=1000.0, track=1.3, deflection=0.008)
    )


def test_a_very_heavy_half_stands_still() -> None:
    one = first_torsion_mode(stiffness=4e5, front_inertia=200.0, rear_inertia=1e12)
    assert one == pytest.approx(np.sqrt(4e5 / 200.0) / (2 * np.pi))


def test_a_ladder_of_equal_members_is_alike_lengthwise_and_crosswise() -> None:
    section = closed_rectangle(width=0.06, height=0.06, thickness=0.003)
    stiffness = ladder_torsional_stiffness(
        length=1.0,
        width=1.0,
        rail=section,
        cross_member=section,
        elastic_modulus=207e9,
        shear_modulus=79.6e9,
    )
    bend = 6 * 207e9 * section.second_moment_upright
    twist = 2 * 79.6e9 * section.torsion_constant
    assert stiffness == pytest.approx(2 * bend * twist / (bend + twist))


def test_a_longer_beam_is_softer_by_the_cube() -> None:
    short, long = midspan_bending_stiffness(
        length=np.array([1.0, 2.0]), second_moment=2e-6, elastic_modulus=207e9
    )
    assert short / long == pytest.approx(8.0)


def test_a_rigid_bead_would_let_all_through() -> None:
    share = bonded_panel_share(
        width=1.2,
        height=0.5,
        bead_shear_modulus=np.array([1e6, 1e18]),
        bead_width=0.01,
        bead_gap=0.008,
        panel_shear_modulus=29e9,
        panel_thickness=0.005,
    )
    assert share[0] < 0.01
    assert share[1] == pytest.approx(1.0)


def test_inertia_and_kerb_force_refuse_nothing_heavy() -> None:
    assert slab_roll_inertia(mass=12.0, width=1.0, height=0.0001) == pytest.approx(1.0)
    with pytest.raises(InputError):
        kerb_strike_force(mass=0.0, factor=1.75, track=1.4, cg_height=0.5, gravity=9.81)
