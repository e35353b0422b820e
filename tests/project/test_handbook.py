"""Published ranges that stand in for what is not given, noted under the entry's own name."""

from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

from drybuild.project.handbook import published
from drybuild.project.readings import Origin
from drybuild.tables.ranges import Range
from drybuild.tables.suspension import layout_of, usual_layout

RANGE = Range(
    low=20.0, value=30.0, high=50.0, unit="mm", source_id="common-practice", locator="a row"
)


def test_a_published_reading_is_in_si_and_keeps_unit_source_and_words() -> None:
    found = published(RANGE, "m", least=0.0)
    assert (found.low, found.value, found.high) == pytest.approx((0.02, 0.03, 0.05))
    assert found.origin is Origin.HANDBOOK
    assert (found.unit, found.text) == ("mm", "20 to 50 mm")
    assert (found.source, found.note, found.least) == ("common-practice", "a row", 0.0)


def test_the_layout_stands_in_under_the_name_of_the_entry() -> None:
    car = evaluate(BARE)
    known = layout_of(usual_layout("front")).unsprung
    assert car.value("unsprung_mass", "front") == pytest.approx(known.value)
    inputs = car.result("unsprung_mass").inputs
    assert "options.front_suspension.as it stands.unsprung_mass" in inputs


def test_what_is_given_goes_first() -> None:
    text = f"{BARE}options: {{front_suspension: {{own: {{unsprung_mass: 71 kg}}}}}}\n"
    assert evaluate(text).value("unsprung_mass", "front") == pytest.approx(71.0)


def test_an_engines_own_consumption_goes_before_that_of_its_kind() -> None:
    text = f"{BARE}options: {{engine: {{own: {{power: 60 kW, specific_consumption: USE}}}}}}\n"
    thirsty = evaluate(text.replace("USE", "320 g/kWh"))
    assert thirsty.problems == ()
    assert thirsty.value("specific_fuel_consumption") == pytest.approx(320e-3 / 3.6e6)
    assert thirsty.value("fuel_flow_at_power") == pytest.approx(60.0 * 0.320 / 3600.0)
