from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.charging import (
    alternator_output,
    battery_resistance,
    cranking_voltage,
    parked_time,
    reserve_time,
    shaft_power,
)

RPM = 2.0 * np.pi / 60.0
ALTERNATOR = {"cut_in_speed": 1000.0 * RPM, "rated_output": 70.0, "rated_speed": 6000.0 * RPM}


def test_alternator_gives_nothing_at_cut_in_and_its_rating_at_6000() -> None:
    found = alternator_output(speed=np.array([500.0, 1000.0, 6000.0]) * RPM, **ALTERNATOR)
    assert found == pytest.approx([0.0, 0.0, 70.0])


def test_alternator_gives_about_half_of_its_rating_at_idle() -> None:
    # Practice: 40 to 60 % of the rating at 1800 to 2000 rpm of the alternator; from memory.
    found = alternator_output(speed=np.array([1800.0, 2000.0]) * RPM, **ALTERNATOR)
    assert np.all((found / 70.0 >= 0.40) & (found / 70.0 <= 0.601))


def test_reserve_is_the_rating_at_25_amps() -> None:
    assert reserve_time(reserve_capacity=4800.0, current=25.0, exponent=1.2) == pytest.approx(
        4800.0
    )
    half = reserve_time(reserve_capacity=4800.0, current=50.0, exponent=1.0)
    assert half == pytest.approx(2400.0)


def test_parked_battery() -> None:
    # 50 Ah, half of it, 50 mA: 500 h.
    found = parked_time(capacity=50.0 * 3600.0, usable_share=0.5, drain=0.05)
    assert found / 3600.0 == pytest.approx(500.0)


def test_battery_holds_the_limit_of_its_cold_test() -> None:
    # SAE J537: 7.2 V at the rated cold cranking current.
    found = cranking_voltage(
        rest_voltage=12.6,
        current=450.0,
        internal_resistance=battery_resistance(cold_cranking_current=450.0),
        loop_resistance=0.0,
    )
    assert found == pytest.approx(7.2)


def test_belt_power() -> None:
    assert shaft_power(voltage=14.0, current=50.0, efficiency=0.5) == pytest.approx(1400.0)


def test_impossible_inputs_are_refused() -> None:
    with pytest.raises(InputError, match="rated_speed"):
        alternator_output(speed=1.0, cut_in_speed=100.0, rated_output=50.0, rated_speed=50.0)
    with pytest.raises(InputError, match="drain"):
        parked_time(capacity=1.0, usable_share=0.5, drain=0.0)
    with pytest.raises(InputError, match="cold_cranking_current"):
        battery_resistance(cold_cranking_current=0.0)
