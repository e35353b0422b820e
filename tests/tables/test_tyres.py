"""Tyre tables: order of loads, speeds and rims; series and sizes that no list has."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.table import read_table
from drybuild.tables.tyres import (
    highest_speed,
    listed_size,
    load_capacity,
    measuring_rim_ratio,
    metric_equivalent,
    rim_width_range,
)


def test_every_index_carries_more_than_the_one_below() -> None:
    indices = [int(row["load_index"]) for row in read_table("tyre_load_index").rows]
    loads = [load_capacity(index) for index in indices]
    assert indices == sorted(set(indices))
    assert loads == sorted(set(loads))


def test_a_z_alone_counts_as_the_v_that_it_beats() -> None:
    assert highest_speed("ZR") == highest_speed("V") == pytest.approx(240 / 3.6)


@pytest.mark.parametrize("aspect", [0.45, 0.55, 0.70, 0.82])
def test_the_measuring_rim_lies_between_the_least_and_the_largest(aspect: float) -> None:
    least, largest = rim_width_range(aspect)
    assert least < measuring_rim_ratio(aspect) < largest


def test_lower_tyres_want_wider_rims() -> None:
    assert measuring_rim_ratio(0.45) > measuring_rim_ratio(0.80)


def test_what_no_list_has_is_none_and_what_no_table_can_have_is_refused() -> None:
    assert listed_size("9.99-13") is None
    assert metric_equivalent("9.99-13") is None
    with pytest.raises(TableError, match="series"):
        measuring_rim_ratio(2.0)
    with pytest.raises(TableError):
        highest_speed("?")
