from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.sections import (
    bredt_torsion_constant,
    closed_rectangle,
    elastic_modulus,
    open_torsion_constant,
    round_tube,
)


def test_a_square_box_is_alike_in_both_planes() -> None:
    box = closed_rectangle(width=0.05, height=0.05, thickness=0.002)
    assert box.second_moment_upright == pytest.approx(box.second_moment_sideways)


def test_a_box_follows_bredt() -> None:
    box = closed_rectangle(width=0.06, height=0.1, thickness=0.002)
    bredt = bredt_torsion_constant(enclosed_area=0.006, perimeter=0.32, thickness=0.002)
    assert box.torsion_constant == pytest.approx(bredt)


def test_a_thin_tube_follows_bredt() -> None:
    tube = round_tube(outside_diameter=0.1, wall=1e-4)
    middle = 0.1 - 1e-4
    thin = bredt_torsion_constant(
        enclosed_area=np.pi / 4 * middle**2, perimeter=np.pi * middle, thickness=1e-4
    )
    assert tube.torsion_constant == pytest.approx(thin, rel=1e-5)


def test_a_slit_takes_nearly_all_the_torsion_constant() -> None:
    box = closed_rectangle(width=0.06, height=0.1, thickness=0.002)
    slit = open_torsion_constant(developed_length=0.32, thickness=0.002)
    assert box.torsion_constant / slit > 1000


def test_sections_broadcast_over_samples() -> None:
    box = closed_rectangle(width=0.06, height=0.1, thickness=np.array([0.001, 0.002]))
    assert box.area[1] == pytest.approx(2 * box.area[0])


def test_a_full_rod_has_the_modulus_of_a_rod() -> None:
    rod = round_tube(outside_diameter=0.02, wall=0.01)
    modulus = elastic_modulus(second_moment=rod.second_moment_upright, depth=0.02)
    assert modulus == pytest.approx(np.pi * 0.02**3 / 32)


def test_a_wall_thicker_than_the_tube_is_refused() -> None:
    with pytest.raises(InputError):
        round_tube(outside_diameter=0.02, wall=0.011)
    with pytest.raises(InputError):
        closed_rectangle(width=0.06, height=0.1, thickness=0.0)
