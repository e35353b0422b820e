from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.exhaust import (
    EXHAUST_HEAT_RATIO,
    bore_for_mach_number,
    bore_for_pressure_loss,
    exhaust_mass_flow,
    gas_mach_number,
    gas_pressure_loss,
)

GAS = {"mass_flow": 0.15, "temperature": 850.0, "pressure": 101325.0}
PIPE = {"length": 3.5, "loss_coefficient": 4.0, "roughness": 45e-6}


def test_bore_for_a_loss_gives_that_loss() -> None:
    bore = bore_for_pressure_loss(pressure_loss=8e3, **GAS, **PIPE)
    assert gas_pressure_loss(bore=bore, **GAS, **PIPE) == pytest.approx(8e3, rel=1e-4)


def test_bore_for_a_mach_number_gives_it() -> None:
    bore = bore_for_mach_number(mach_number=0.25, heat_ratio=EXHAUST_HEAT_RATIO, **GAS)
    found = gas_mach_number(bore=bore, heat_ratio=EXHAUST_HEAT_RATIO, **GAS)
    assert found == pytest.approx(0.25)


def test_loss_falls_steeply_with_bore() -> None:
    losses = gas_pressure_loss(bore=np.array([0.045, 0.055, 0.065]), **GAS, **PIPE)
    assert np.all(np.diff(losses) < 0.0)


def test_choked_pipe_has_no_value() -> None:
    assert np.isnan(gas_pressure_loss(bore=0.02, **GAS, **PIPE))


def test_no_bore_where_the_loss_cannot_be_met() -> None:
    assert np.isnan(bore_for_pressure_loss(pressure_loss=1e-6, **GAS, **PIPE))


def test_bore_takes_arrays() -> None:
    found = bore_for_pressure_loss(pressure_loss=np.array([5e3, 10e3, 20e3]), **GAS, **PIPE)
    assert np.all(np.diff(found) < 0.0)


def test_impossible_mixture_is_refused() -> None:
    with pytest.raises(InputError, match="air_fuel_ratio"):
        exhaust_mass_flow(fuel_flow=0.01, air_fuel_ratio=0.0)
