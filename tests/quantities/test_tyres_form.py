"""What a size says of a tyre's form: the standard's formula, and sizes that no list has."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.quantities.tyres_form import tyre_form

MM = 0.001


def test_a_metric_size_by_the_formula() -> None:
    # 185/70 R 14: a section height of 0.7 · 185 mm on a 14 in rim (355.6 mm): 614.6 mm.
    form = tyre_form("185/70R14 88H")
    assert form.section_width == pytest.approx(185 * MM)
    assert form.outside_diameter == pytest.approx(614.6 * MM, abs=2 * MM)
    assert form.aspect == pytest.approx(0.70)
    assert form.radial


def test_load_and_speed_are_those_of_the_service_description() -> None:
    # Load index 88 is 560 kg and the symbol H 210 km/h in every list of them.
    form = tyre_form("185/70R14 88H")
    assert form.load_capacity == pytest.approx(560.0)
    assert form.speed_rating == pytest.approx(210 / 3.6)
    bare = tyre_form("185/70R14")
    assert bare.load_capacity is None
    assert bare.speed_rating is None


def test_rims_come_in_half_inches() -> None:
    for size in ("155/80R13", "185/70R14", "205/55R16"):
        half_inches = tyre_form(size).measuring_rim_width / (0.0254 / 2.0)
        assert half_inches == pytest.approx(round(half_inches))


def test_a_size_that_no_list_has_asks_for_a_tape() -> None:
    with pytest.raises(TableError, match="outside_diameter"):
        tyre_form("9.99-13")
