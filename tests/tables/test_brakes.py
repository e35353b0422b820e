"""Brake tables: units, order of the temperatures, hoses between printed sizes, refused names."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import TableError
from drybuild.tables.brakes import (
    fluid_boiling_point,
    fluids,
    hose_expansion,
    linings,
    stopping_limit,
    temperature_limit,
)


def test_water_lowers_the_boiling_point_of_every_fluid() -> None:
    assert fluids()
    for fluid in fluids():
        assert fluid_boiling_point(fluid, wet=True) < fluid_boiling_point(fluid, wet=False)


def test_every_lining_bears_less_than_red_heat_and_more_than_boiling_water() -> None:
    assert linings()
    for lining in linings():
        assert 373.0 < temperature_limit(lining) < 1200.0


def test_a_low_expansion_hose_swells_less_and_both_more_under_pressure() -> None:
    regular = hose_expansion(bore=0.003175, low_expansion=False)
    stiff = hose_expansion(bore=0.003175, low_expansion=True)
    assert regular.pressure == stiff.pressure
    assert regular.volume[0] == stiff.volume[0] == 0.0
    assert np.all(np.diff(regular.volume) > 0.0)
    assert np.all(np.array(stiff.volume[1:]) < regular.volume[1:])


def test_a_bore_between_two_sizes_counts_as_the_larger_of_the_small_ones() -> None:
    between = hose_expansion(bore=0.004, low_expansion=False)
    assert between == hose_expansion(bore=0.0047625, low_expansion=False)
    assert between != hose_expansion(bore=0.003, low_expansion=False)


def test_limits_are_in_si() -> None:
    assert stopping_limit("cold").speed == pytest.approx(100.0 / 3.6)


def test_unknown_names_and_a_hose_without_a_bore_are_refused() -> None:
    with pytest.raises(TableError, match="vegetable oil"):
        fluid_boiling_point("vegetable oil", wet=False)
    with pytest.raises(TableError, match="bore"):
        hose_expansion(bore=0.0, low_expansion=False)
