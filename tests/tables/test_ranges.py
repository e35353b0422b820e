"""Ranges out of tables: read with their unit and source, and scaled with their order kept."""

from __future__ import annotations

import pytest

from drybuild.tables.ranges import Range, range_of, scaled
from drybuild.tables.table import read_table

SHARE = Range(low=0.2, value=0.3, high=0.5, unit="-", source_id="common-practice", locator="")


def test_a_range_is_read_with_unit_and_source() -> None:
    table = read_table("mass_place")
    row = table.row("item", "any")
    found = range_of(table, row, "up")
    assert (found.low, found.value, found.high, found.unit) == (0.1, 0.3, 0.5, "m")
    assert found.source_id == "common-practice"


def test_scaling_keeps_the_order_of_the_ends() -> None:
    ahead = scaled(SHARE, -2.5, "m")
    assert (ahead.low, ahead.value, ahead.high) == pytest.approx((-1.25, -0.75, -0.5))
    assert ahead.unit == "m"
    back = scaled(ahead, -1.0 / 2.5, "-")
    assert (back.low, back.value, back.high) == pytest.approx((0.2, 0.3, 0.5))
