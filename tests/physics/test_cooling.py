from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.cooling import (
    converter_heat,
    effectiveness_counterflow,
    effectiveness_larger_mixed,
    effectiveness_smaller_mixed,
    effectiveness_unmixed,
    four_stroke_power,
    friction_pressure_barnes_moss,
    fuel_heat,
    fuel_heat_willans,
    heat_exchanged,
    temperature_in_balance,
)

FORMS = (
    effectiveness_unmixed,
    effectiveness_larger_mixed,
    effectiveness_smaller_mixed,
    effectiveness_counterflow,
)


@pytest.mark.parametrize("form", FORMS)
def test_effectiveness_is_that_of_a_boiler_when_one_side_has_no_end(form) -> None:
    units = np.array([0.1, 1.0, 3.0])
    found = form(transfer_units=units, capacity_ratio=1e-6)
    assert found == pytest.approx(1.0 - np.exp(-units), abs=1e-5)


@pytest.mark.parametrize("form", FORMS)
def test_effectiveness_rises_with_conductance_and_stays_below_one(form) -> None:
    found = form(transfer_units=np.linspace(0.0, 5.0, 50), capacity_ratio=0.6)
    assert found[0] == pytest.approx(0.0, abs=1e-12)
    assert np.all(np.diff(found) > 0.0)
    assert found[-1] < 1.0


def test_counterflow_is_continuous_at_equal_rates() -> None:
    near = effectiveness_counterflow(transfer_units=2.0, capacity_ratio=1.0 - 1e-6)
    assert near == pytest.approx(2.0 / 3.0, rel=1e-5)
    assert effectiveness_counterflow(transfer_units=2.0, capacity_ratio=1.0) == pytest.approx(2 / 3)


@pytest.mark.parametrize("ratio", [0.0, -0.1, 1.1])
@pytest.mark.parametrize("form", FORMS)
def test_capacity_ratio_out_of_range_is_refused(form, ratio: float) -> None:
    with pytest.raises(InputError, match="capacity_ratio"):
        form(transfer_units=1.0, capacity_ratio=ratio)


def test_balance_temperature_sheds_the_heat_again() -> None:
    warm = temperature_in_balance(air_temperature=313.0, heat=30e3, heat_per_kelvin=500.0)
    again = heat_exchanged(
        effectiveness=0.5, smaller_capacity_rate=1000.0, temperature_difference=warm - 313.0
    )
    assert again == pytest.approx(30e3)


def test_willans_line_burns_fuel_at_no_load() -> None:
    idle = fuel_heat_willans(brake_power=0.0, friction_power=1500.0, indicated_efficiency=0.3)
    assert idle == pytest.approx(5000.0)
    with pytest.raises(InputError, match="indicated_efficiency"):
        fuel_heat_willans(brake_power=0.0, friction_power=1.0, indicated_efficiency=1.2)


def test_friction_pressure_of_barnes_moss() -> None:
    # 0.97 + 0.15·3 + 0.05·9 = 1.87 bar at 3000 rpm.
    found = friction_pressure_barnes_moss(engine_speed=3000.0 * 2.0 * np.pi / 60.0)
    assert found == pytest.approx(1.87e5)


def test_mean_pressure_of_one_bar_in_two_litres_at_6000_rpm_is_10_kilowatts() -> None:
    power = four_stroke_power(mean_pressure=1e5, displacement=2e-3, engine_speed=200.0 * np.pi)
    assert power == pytest.approx(10e3)


def test_locked_converter_gives_no_heat_and_a_stalled_one_all_of_it() -> None:
    assert converter_heat(input_power=50e3, speed_ratio=1.0, torque_ratio=1.0) == 0.0
    assert converter_heat(input_power=50e3, speed_ratio=0.0, torque_ratio=2.0) == 50e3
    with pytest.raises(InputError, match="speed_ratio"):
        converter_heat(input_power=1.0, speed_ratio=0.9, torque_ratio=1.5)


def test_negative_fuel_flow_is_refused() -> None:
    with pytest.raises(InputError, match="fuel_flow"):
        fuel_heat(fuel_flow=-1.0, heating_value=43e6)
