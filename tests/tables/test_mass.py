from __future__ import annotations

import pytest

from drybuild.project.catalogue import SYSTEMS
from drybuild.tables.mass import ANYWHERE, place_of
from drybuild.tables.table import read_table

ITEMS = [row["item"] for row in read_table("mass_place").rows]


@pytest.mark.parametrize("item", ITEMS)
def test_places_are_in_order_and_within_reach_of_a_car(item: str) -> None:
    place = place_of(item)
    assert place.behind.low <= place.behind.value <= place.behind.high
    assert place.up.low <= place.up.value <= place.up.high
    assert -0.5 < place.behind.value < 1.5
    assert 0.0 <= place.unsprung_front + place.unsprung_rear <= 1.0


def test_every_system_has_a_place() -> None:
    assert set(SYSTEMS) <= set(ITEMS)


def test_what_nobody_knows_sits_in_the_middle_of_the_car() -> None:
    assert place_of("picnic box") == place_of(ANYWHERE)
