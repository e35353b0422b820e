from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.electrics import (
    adiabatic_constant,
    adiabatic_current,
    area_for_drop,
    awg_diameter,
    conductor_resistance,
    conductor_temperature,
    free_air_ampacity,
    fuse_rating_wanted,
    voltage_drop,
)

WIRE = {"resistance_at_20c": 7.6e-3, "outside_diameter": 3.0e-3}


def test_area_for_a_drop_gives_that_drop() -> None:
    area = area_for_drop(current=15.0, length=6.0, voltage_drop=0.4, temperature=330.0)
    resistance = conductor_resistance(length=6.0, area=area, temperature=330.0)
    assert voltage_drop(current=15.0, resistance=resistance) == pytest.approx(0.4)


def test_wire_without_current_is_as_warm_as_the_air() -> None:
    found = conductor_temperature(current=0.0, air_temperature=313.0, bundle_factor=1.0, **WIRE)
    assert found == pytest.approx(313.0, abs=1e-3)


def test_bundle_warms_a_wire() -> None:
    alone = conductor_temperature(current=15.0, air_temperature=313.0, bundle_factor=1.0, **WIRE)
    among = conductor_temperature(current=15.0, air_temperature=313.0, bundle_factor=0.5, **WIRE)
    assert among > alone > 313.0


def test_current_beyond_all_reason_has_no_temperature() -> None:
    found = conductor_temperature(current=500.0, air_temperature=313.0, bundle_factor=1.0, **WIRE)
    assert np.isnan(found)


def test_no_current_is_allowed_where_the_air_is_too_warm() -> None:
    found = free_air_ampacity(
        conductor_temperature=np.array([358.0, 370.0]), air_temperature=363.0, **WIRE
    )
    assert np.isnan(found[0])
    assert found[1] > 0.0


def test_three_gauges_halve_the_area() -> None:
    ratio = (awg_diameter(gauge=10.0) / awg_diameter(gauge=13.0)) ** 2
    assert ratio == pytest.approx(2.0, rel=0.01)


def test_short_circuit_current_falls_with_the_root_of_time() -> None:
    constant = adiabatic_constant(start_temperature=343.15, end_temperature=433.15)
    one = adiabatic_current(area=1e-6, duration=1.0, constant=constant)
    four = adiabatic_current(area=1e-6, duration=4.0, constant=constant)
    assert one == pytest.approx(2.0 * four)


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(InputError, match="area"):
        conductor_resistance(length=1.0, area=0.0, temperature=293.0)
    with pytest.raises(InputError, match="bundle_factor"):
        conductor_temperature(current=1.0, air_temperature=300.0, bundle_factor=1.5, **WIRE)
    with pytest.raises(InputError, match="loading"):
        fuse_rating_wanted(current=1.0, loading=0.0)
    with pytest.raises(InputError, match="end_temperature"):
        adiabatic_constant(start_temperature=433.0, end_temperature=343.0)
