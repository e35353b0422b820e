from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.paint import (
    allowed_waviness,
    blasting_time,
    cure_time,
    film_mass,
    fresnel_reflectance,
    paint_volume,
    reflection_contrast,
    spray_airflow,
    spreading_rate,
    thinned_solids,
)


def test_what_is_sprayed_without_loss_is_film_over_solids() -> None:
    volume = paint_volume(area=1.0, dry_film=50e-6, volume_solids=0.5, transfer_efficiency=1.0)
    assert volume * 0.5 == pytest.approx(50e-6)


def test_thinning_keeps_the_solids() -> None:
    assert thinned_solids(volume_solids=0.5, thinner=1.0) == pytest.approx(0.25)
    assert thinned_solids(volume_solids=0.5, thinner=0.0) == 0.5


def test_solids_above_one_are_refused() -> None:
    with pytest.raises(InputError):
        spreading_rate(volume_solids=1.2, dry_film=50e-6)


def test_mass_and_time_grow_with_the_area() -> None:
    assert film_mass(area=2.0, dry_film=1e-3, dry_density=1500.0) == pytest.approx(3.0)
    assert blasting_time(area=20.0, rate=10.0 / 3600.0) == pytest.approx(7200.0)


def test_glass_like_film_mirrors_four_per_cent_and_air_none() -> None:
    assert fresnel_reflectance(refractive_index=1.5) == pytest.approx(0.04)
    assert fresnel_reflectance(refractive_index=1.0) == 0.0


def test_darker_and_glossier_shows_more() -> None:
    colours = reflection_contrast(mirror=0.04, gloss=0.95, body_reflectance=np.array([0.8, 0.03]))
    assert colours[1] > 5 * colours[0]
    gloss = reflection_contrast(mirror=0.04, gloss=np.array([0.05, 0.95]), body_reflectance=0.03)
    assert gloss[1] > gloss[0]


def test_what_shows_more_hides_less() -> None:
    depth = allowed_waviness(wave_length=0.3, allowed_slope=1e-3, contrast=np.array([0.1, 0.5]))
    assert depth[0] == pytest.approx(5 * depth[1])


def test_cold_doubles_the_cure_time_and_frost_has_none() -> None:
    cool, frost = cure_time(time_at_20_celsius=16 * 3600.0, temperature=np.array([283.15, 273.15]))
    assert cool == pytest.approx(32 * 3600.0)
    assert np.isnan(frost)
    with pytest.raises(InputError):
        cure_time(time_at_20_celsius=16 * 3600.0, temperature=-20.0)


def test_airflow_is_cross_section_times_speed() -> None:
    assert spray_airflow(width=4.0, height=2.5, speed=0.5) == pytest.approx(5.0)
