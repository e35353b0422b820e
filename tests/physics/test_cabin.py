from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.cabin import (
    distance_behind_fk_r14,
    effective_headroom_sae_j1100,
    height_above_c_r14,
    lap_belt_angle,
    mount_pull,
    roll_hoop_load,
    seat_test_force,
    strap_angle_below_level,
)


def test_a_belt_straight_down_stands_upright() -> None:
    assert lap_belt_angle(back=0.0, down=0.3) == pytest.approx(np.pi / 2)
    assert lap_belt_angle(back=0.3, down=0.0) == pytest.approx(0.0)


def test_an_anchorage_in_the_point_itself_is_refused() -> None:
    with pytest.raises(InputError):
        lap_belt_angle(back=0.0, down=0.0)


def test_point_b_lies_on_plane_fk_whatever_the_lean() -> None:
    for lean in np.deg2rad([0.0, 15.0, 25.0]):
        reach = 0.26 + 0.2
        margin = distance_behind_fk_r14(
            anchorage_back=reach * np.sin(lean),
            anchorage_up=reach * np.cos(lean),
            anchorage_aside=0.2,
            torso_angle=lean,
        )
        assert margin == pytest.approx(0.0, abs=1e-12)


def test_further_back_is_further_behind_and_further_aside_is_less() -> None:
    def behind(back: float, aside: float) -> float:
        return float(
            distance_behind_fk_r14(
                anchorage_back=back,
                anchorage_up=0.55,
                anchorage_aside=aside,
                torso_angle=np.deg2rad(25.0),
            )
        )

    assert behind(0.4, 0.2) > behind(0.3, 0.2)
    assert behind(0.3, 0.3) < behind(0.3, 0.2)


def test_c_lies_450_mm_above_the_reference_point() -> None:
    assert height_above_c_r14(anchorage_up=0.5) == pytest.approx(0.05)


def test_a_low_strap_anchorage_is_steep() -> None:
    assert strap_angle_below_level(back=0.4, down=0.4) == pytest.approx(np.pi / 4)
    assert strap_angle_below_level(back=0.4, down=-0.1) < 0.0


def test_the_pull_on_the_mounts_balances_the_push() -> None:
    pull = mount_pull(force=1000.0, height=0.25, spacing=0.4, count=2)
    assert 2 * pull * 0.4 == pytest.approx(1000.0 * 0.25)
    with pytest.raises(InputError):
        mount_pull(force=1000.0, height=0.25, spacing=0.0, count=2)


def test_forces_follow_mass() -> None:
    assert seat_test_force(seat_mass=10.0, factor=20.0, gravity=9.81) == pytest.approx(1962.0)
    light, heavy = roll_hoop_load(car_mass=np.array([850.0, 1850.0]), crew_mass=150.0, factor=7.5)
    assert heavy / light == pytest.approx(2.0)


def test_headroom_adds_the_standard_length() -> None:
    assert effective_headroom_sae_j1100(along_line=0.85) == pytest.approx(0.952)
