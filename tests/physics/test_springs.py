from __future__ import annotations

import math

import pytest

from drybuild.errors import InputError
from drybuild.physics.springs import (
    anti_roll_bar_rate,
    coil_spring_rate,
    cut_coil_spring_rate,
    leaf_spring_rate,
    series_rate,
    torsion_bar_twist_rate,
)

BAR = {
    "diameter": 0.02,
    "bore": 0.0,
    "arm_length": 0.25,
    "lever": 0.25,
    "centre_length": 0.9,
    "bush_spacing": 0.9,
    "youngs_modulus": 206e9,
    "shear_modulus": 79.3e9,
}


def test_cutting_a_coil_is_the_same_as_winding_a_shorter_spring() -> None:
    spring = {"wire_diameter": 0.013, "mean_diameter": 0.12, "shear_modulus": 79.3e9}
    whole = coil_spring_rate(active_coils=7.0, **spring)
    cut = cut_coil_spring_rate(rate=whole, active_coils=7.0, coils_removed=1.5)
    assert cut == pytest.approx(coil_spring_rate(active_coils=5.5, **spring))


def test_two_equal_springs_in_series_are_half_as_stiff() -> None:
    assert series_rate(first=20e3, second=20e3) == pytest.approx(10e3)
    assert series_rate(first=20e3, second=0.0) == 0.0


def test_a_leaf_spring_does_not_care_which_end_is_in_front() -> None:
    leaf = {"inertia_sum": 4.5e-9, "youngs_modulus": 206e9, "stiffening_factor": 1.1}
    there = leaf_spring_rate(front_length=0.5, rear_length=0.7, **leaf)
    assert there == pytest.approx(leaf_spring_rate(front_length=0.7, rear_length=0.5, **leaf))


def test_a_tube_loses_the_rate_of_its_bore() -> None:
    bar = {"length": 1.0, "shear_modulus": 79.3e9}
    tube = torsion_bar_twist_rate(diameter=0.024, bore=0.012, **bar)
    solid = torsion_bar_twist_rate(diameter=0.024, bore=0.0, **bar)
    assert tube == pytest.approx(solid * (1.0 - 0.5**4))


def test_soft_bushes_soften_the_anti_roll_bar() -> None:
    hard = anti_roll_bar_rate(bush_rate=math.inf, **BAR)
    soft = anti_roll_bar_rate(bush_rate=1e6, **BAR)
    assert 1.0 / soft - 1.0 / hard == pytest.approx(1e-6)


def test_refused_springs() -> None:
    with pytest.raises(InputError, match="wire_diameter"):
        coil_spring_rate(wire_diameter=0.0, mean_diameter=0.1, active_coils=6.0, shear_modulus=79e9)
    with pytest.raises(InputError, match="coils_removed"):
        cut_coil_spring_rate(rate=2e4, active_coils=6.0, coils_removed=6.0)
    with pytest.raises(InputError, match="lever"):
        anti_roll_bar_rate(bush_rate=math.inf, **{**BAR, "lever": 0.3})
