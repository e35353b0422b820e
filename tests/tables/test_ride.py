from __future__ import annotations

import pytest

from drybuild.tables.ride import road_class_roughness, road_use, road_uses


@pytest.mark.parametrize("kind", road_uses())
def test_every_kind_of_road_is_found_by_its_own_name(kind: str) -> None:
    road = road_use(kind)
    assert road
    assert 5.0 < road.speed < 50.0


def test_a_name_that_holds_the_leading_word_will_do() -> None:
    assert road_use("Mountain passes") == road_use("mountain road")
    assert road_use("moon dust") is None


def test_streets_are_rougher_than_fast_roads() -> None:
    town, fast = road_use("town"), road_use("motorway")
    assert town
    assert fast
    assert town.roughness > fast.roughness == road_class_roughness("A")
