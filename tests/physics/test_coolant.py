from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.coolant import (
    coolant_boiling_temperature,
    coolant_density,
    coolant_freezing_temperature,
    water_saturation_temperature,
)


def test_outside_the_range_of_temperature_there_is_no_value() -> None:
    found = coolant_density(temperature=np.array([363.0, 390.0]), glycol_fraction=0.5)
    assert np.isfinite(found[0])
    assert np.isnan(found[1])


def test_plain_water_boils_at_100_and_glycol_raises_it() -> None:
    fractions = np.linspace(0.0, 0.6, 7)
    found = coolant_boiling_temperature(pressure=101325.0, glycol_fraction=fractions)
    assert found[0] == pytest.approx(373.124, abs=0.01)
    assert np.all(np.diff(found) > 0.0)


def test_glycol_lowers_the_freezing_point() -> None:
    found = coolant_freezing_temperature(glycol_fraction=np.linspace(0.0, 0.6, 13))
    assert found[0] == pytest.approx(273.15, abs=0.5)
    assert np.all(np.diff(found) < 0.0)


def test_pressure_raises_the_boiling_point() -> None:
    found = water_saturation_temperature(pressure=np.array([8e4, 1e5, 2e5]))
    assert np.all(np.diff(found) > 0.0)


@pytest.mark.parametrize("fraction", [-0.1, 0.7])
def test_mixture_outside_the_tables_is_refused(fraction: float) -> None:
    with pytest.raises(InputError, match="glycol_fraction"):
        coolant_density(temperature=350.0, glycol_fraction=fraction)
