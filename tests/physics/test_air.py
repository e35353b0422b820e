"""Air as a gas: what must hold at the sea, higher up and hotter; what lies outside the fits."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.air import (
    air_conductivity,
    air_density,
    air_viscosity,
    atmospheric_pressure,
    speed_of_sound,
)


def test_the_fits_return_their_own_reference_values() -> None:
    assert air_viscosity(temperature=273.0) == pytest.approx(1.716e-5)
    assert air_conductivity(temperature=273.0) == pytest.approx(0.0241)
    assert atmospheric_pressure(altitude=0.0) == pytest.approx(101325.0)


def test_density_goes_with_pressure_and_against_temperature() -> None:
    once = air_density(pressure=1e5, temperature=300.0)
    assert air_density(pressure=2e5, temperature=600.0) == pytest.approx(once)


def test_hot_gas_is_thicker_and_sound_in_it_faster() -> None:
    heat = np.array([250.0, 400.0, 900.0])
    assert np.all(np.diff(air_viscosity(temperature=heat)) > 0.0)
    assert np.all(np.diff(air_conductivity(temperature=heat)) > 0.0)
    assert speed_of_sound(temperature=4.0 * 300.0, heat_ratio=1.4) == pytest.approx(
        2.0 * speed_of_sound(temperature=300.0, heat_ratio=1.4)
    )


@pytest.mark.parametrize("altitude", [-3000.0, 12_000.0])
def test_heights_outside_the_lowest_layer_are_refused(altitude: float) -> None:
    with pytest.raises(InputError, match="altitude"):
        atmospheric_pressure(altitude=altitude)


@pytest.mark.parametrize("temperature", [100.0, 2500.0])
def test_temperatures_outside_the_fits_are_refused(temperature: float) -> None:
    with pytest.raises(InputError, match="temperature"):
        air_viscosity(temperature=temperature)
