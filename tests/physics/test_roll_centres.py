"""Roll centres: level arms, lines that meet, a Panhard rod that swings as it should."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.roll_centres import (
    camber_gain,
    four_link_roll_centre_height,
    lines_meet,
    panhard_roll_centre_height,
    panhard_sideways_shift,
    roll_centre_from_instant_centre,
)


def test_lines_meet_on_both_of_them() -> None:
    y, z = lines_meet(
        first_start=(0.7, 0.2), first_end=(0.3, 0.25),
        second_start=(0.65, 0.5), second_end=(0.35, 0.45),
    )  # fmt: skip
    assert (z - 0.2) / (y - 0.7) == pytest.approx(0.05 / -0.4)
    assert (z - 0.5) / (y - 0.65) == pytest.approx(-0.05 / -0.3)


def test_parallel_lines_meet_nowhere() -> None:
    y, _ = lines_meet(
        first_start=(0.7, 0.2), first_end=(0.3, 0.2),
        second_start=(0.7, 0.5), second_end=(0.3, 0.5),
    )  # fmt: skip
    assert not np.isfinite(y)


def test_a_pivot_on_the_road_puts_the_roll_centre_there() -> None:
    found = roll_centre_from_instant_centre(
        contact_offset=0.7, centre_offset=-0.5, centre_height=0.0
    )
    assert found == pytest.approx(0.0)


def test_a_longer_swing_arm_gains_less_camber() -> None:
    gain = camber_gain(contact_offset=0.7, centre_offset=np.array([0.2, -2.0]))
    assert gain == pytest.approx([1.0 / 0.5, 1.0 / 2.7])


def test_a_level_panhard_rod_holds_the_axle_at_its_own_height() -> None:
    level = panhard_roll_centre_height(
        axle_end_height=0.3, body_end_height=0.3, axle_end_offset=0.4, rod_span=0.9
    )
    assert level == pytest.approx(0.3)


def test_a_panhard_rod_pulls_by_half_its_travel_squared_over_its_length() -> None:
    # The first term of the circle: z²/2l; alike up and down; nothing beyond the rod's end.
    travel = np.array([-0.02, 0.02, 1.5])
    shift = np.asarray(panhard_sideways_shift(rod_length=1.0, travel=travel))
    assert shift[:2] == pytest.approx(0.0002, rel=1e-3)
    assert np.isnan(shift[2])


def test_level_lower_links_put_the_roll_centre_where_the_upper_ones_meet() -> None:
    found = four_link_roll_centre_height(
        meeting_height=0.4, meeting_position=0.2, lower_link_slope=0.0
    )
    assert found == pytest.approx(0.4)
