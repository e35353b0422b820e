from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.fuel import fuel_named, fuels


def test_every_fuel_is_plausible() -> None:
    for one in fuels().values():
        assert 500.0 < one.density < 900.0
        assert 15e6 < one.heating_value < 50e6
        assert one.atmospheric.low < one.atmospheric.value < one.atmospheric.high


def test_thermal_efficiency_at_full_power_is_that_of_engines() -> None:
    # Heywood, Table 12.1: spark ignition 25 to 28 % brake (30 % at best), Diesel 34 to 38 %.
    petrol, diesel = fuel_named("petrol"), fuel_named("diesel")
    assert 0.25 < 1.0 / (petrol.atmospheric.value * petrol.heating_value) < 0.30
    assert 0.34 < 1.0 / (diesel.charged.value * diesel.heating_value) < 0.39


def test_unknown_fuel_is_refused() -> None:
    with pytest.raises(TableError, match="coal"):
        fuel_named("coal")
