"""Tyre sums: limits, symmetry, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.tyres import (
    largest_outside_diameter,
    outside_diameter,
    pressure_for_load,
    rolling_circumference,
    rolling_radius,
    section_height,
    section_width_on_rim,
    speedometer_error,
    standing_radius,
    turns_per_length,
)


def test_an_exact_half_millimetre_rounds_up() -> None:
    # 205 · 0.50 = 102.5 and 195 · 0.70 = 136.5, whatever binary fractions make of them.
    assert section_height(section_width=0.205, aspect=0.50) == pytest.approx(0.103)
    assert section_height(section_width=0.195, aspect=0.70) == pytest.approx(0.137)


def test_the_measuring_rim_leaves_the_width_alone() -> None:
    assert section_width_on_rim(
        section_width=0.2, measuring_rim_width=0.15, rim_width=0.15
    ) == pytest.approx(0.2)


def test_the_largest_diameter_grows_only_the_section() -> None:
    assert largest_outside_diameter(
        rim_diameter=0.4, section_height=0.1, growth_factor=1.04
    ) == pytest.approx(0.608)


def test_a_rigid_wheel_rolls_its_circumference() -> None:
    assert rolling_radius(rolling_circumference=2 * math.pi) == pytest.approx(1.0)
    assert turns_per_length(rolling_circumference=2.0) == pytest.approx(0.5)


def test_the_whole_section_stands_at_the_free_radius() -> None:
    free = outside_diameter(rim_diameter=0.4, section_height=0.1) / 2
    stood = standing_radius(rim_diameter=0.4, section_height=0.1, height_share=1.0)
    assert stood == pytest.approx(free)


def test_full_load_needs_the_reference_pressure() -> None:
    at = pressure_for_load(load=500.0, capacity=500.0, reference_pressure=250e3, exponent=0.8)
    assert at == pytest.approx(250e3)


def test_a_larger_tyre_reads_low() -> None:
    assert speedometer_error(fitted_circumference=2.0, original_circumference=1.9) > 0.0


def test_arrays_broadcast() -> None:
    heights = section_height(section_width=np.array([0.155, 0.205]), aspect=np.array([0.8, 0.55]))
    assert heights == pytest.approx([0.124, 0.113])


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(InputError):
        section_height(section_width=-0.2, aspect=0.5)
    with pytest.raises(InputError):
        outside_diameter(rim_diameter=0.4, section_height=0.0)
    with pytest.raises(InputError):
        rolling_circumference(outside_diameter=0.6, rolling_factor=3.2)
    with pytest.raises(InputError):
        standing_radius(rim_diameter=0.4, section_height=0.1, height_share=1.2)
