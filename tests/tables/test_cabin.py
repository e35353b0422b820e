"""Belt rules and hoop tubes: bounds in order, rules that are there, refused ones."""

from __future__ import annotations

import math

import pytest

from drybuild.errors import TableError
from drybuild.tables.cabin import belt_rule, roll_bar_tubes
from drybuild.tables.table import read_table


def test_every_rules_bounds_are_in_order() -> None:
    for row in read_table("cabin_belt_rule").rows:
        low, high = belt_rule(row["rule"], row["item"])
        assert high is None or low <= high, row


def test_angles_come_in_radians() -> None:
    low, high = belt_rule("fmvss", "lap angle")
    assert high is not None
    assert 0.0 < low < high < math.pi / 2.0


def test_every_listed_tube_has_a_wall_that_leaves_a_bore() -> None:
    tubes = roll_bar_tubes("main hoop")
    assert tubes
    assert all(0.0 < wall < outside / 2.0 for outside, wall in tubes)


def test_a_rule_that_is_not_listed_is_refused_and_a_use_has_no_tubes() -> None:
    with pytest.raises(TableError, match="lap angle"):
        belt_rule("house rule", "lap angle")
    assert roll_bar_tubes("curtain rail") == ()
