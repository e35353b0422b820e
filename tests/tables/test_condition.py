"""Zones of a body and what a look at them tells: odds that add up, better looks, refused words."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.condition import ZONE_KINDS, life_shift, lives, look, looks, zones

UNSEEN, *SEEN = looks()


@pytest.mark.parametrize("kind", ZONE_KINDS)
def test_every_zone_has_odds_and_hours_in_order(kind: str) -> None:
    for name, zone in zones(kind).items():
        assert zone.patch >= 0.0, name
        assert zone.replace >= 0.0, name
        assert zone.patch + zone.replace <= 1.0, name
        assert zone.loading**2 + zone.link_loading**2 < 1.0, name
        for hours in (zone.patch_hours, zone.replace_hours):
            assert list(hours) == sorted(hours), name
        assert zone.stage in ("strip", "blast"), name


def test_a_zone_that_nobody_saw_says_nothing() -> None:
    assert set(look(UNSEEN).values()) == {(1.0, 1.0, 1.0)}


@pytest.mark.parametrize("judged", SEEN)
def test_what_a_look_finds_adds_up_whatever_is_true(judged: str) -> None:
    for odds in look(judged).values():
        assert sum(odds) == pytest.approx(1.0)
        assert min(odds) >= 0.0


def test_a_better_look_finds_rot_more_often() -> None:
    found = [look(judged)["replace"][2] for judged in SEEN]
    assert found == sorted(found)


def test_every_life_has_its_shift() -> None:
    for group in ("climate", "storage", "repairs", "drains", "proofing"):
        assert lives(group)
        for life in lives(group):
            assert -3.0 < life_shift(group, life) < 3.0


def test_words_that_the_tables_do_not_have_are_refused() -> None:
    with pytest.raises(TableError, match="spaceframe"):
        zones("spaceframe")
    with pytest.raises(TableError, match="dreamt of"):
        look("dreamt of")
    with pytest.raises(TableError, match="lunar"):
        life_shift("climate", "lunar")
