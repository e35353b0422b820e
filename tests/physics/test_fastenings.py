from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.fastenings import (
    bolt_shear_resistance,
    fatigue_life_iiw,
    fillet_effective_length,
    fillet_shear_strength,
    fillet_throat,
    fillet_utilisation_directional,
    spot_weld_nugget,
    thread_stress_area,
)


def test_the_stress_area_is_smaller_than_the_shank() -> None:
    assert thread_stress_area(diameter=0.01, pitch=0.0015) < np.pi / 4 * 0.01**2


def test_a_pitch_above_the_diameter_is_refused() -> None:
    with pytest.raises(InputError):
        thread_stress_area(diameter=0.01, pitch=0.02)


def test_both_fillet_methods_agree_for_shear_along_the_weld() -> None:
    strength = fillet_shear_strength(
        tensile_strength=360e6, correlation_factor=0.8, partial_factor=1.25
    )
    used = fillet_utilisation_directional(
        normal_stress=0.0,
        shear_across=0.0,
        shear_along=strength,
        tensile_strength=360e6,
        correlation_factor=0.8,
        partial_factor=1.25,
    )
    assert used == pytest.approx(1.0)


def test_a_weld_that_is_too_short_carries_nothing() -> None:
    length = fillet_effective_length(length=np.array([0.03, 0.06]), throat=0.003)
    assert np.isnan(length[0])
    assert length[1] == pytest.approx(0.054)


def test_the_fatigue_line_is_unbroken_at_the_knee() -> None:
    knee = 80e6 * (2e6 / 1e7) ** (1 / 3)
    below = fatigue_life_iiw(fatigue_class=80e6, stress_range=knee * 0.9999)
    above = fatigue_life_iiw(fatigue_class=80e6, stress_range=knee * 1.0001)
    assert below == pytest.approx(above, rel=0.01)
    assert below > above


def test_no_stress_is_refused_as_it_has_no_life() -> None:
    with pytest.raises(InputError):
        fatigue_life_iiw(fatigue_class=80e6, stress_range=0.0)


def test_shear_grows_with_the_area() -> None:
    two = bolt_shear_resistance(
        stress_area=np.array([36.6e-6, 73.2e-6]),
        tensile_strength=800e6,
        shear_factor=0.6,
        partial_factor=1.25,
    )
    assert two[1] == pytest.approx(2 * two[0])


def test_throat_and_nugget_refuse_nothing_thick() -> None:
    assert fillet_throat(leg=np.sqrt(2.0)) == pytest.approx(1.0)
    with pytest.raises(InputError):
        spot_weld_nugget(thickness=0.0, factor=5.0)
