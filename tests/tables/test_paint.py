"""Paint tables: films and solids in order, nozzles that eat more, hazards told with their limit."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.paint import finish, finishes, hazards, limit_of, materials, nozzle, panels


def test_films_and_solids_lie_in_order_and_solids_are_shares() -> None:
    for name, one in materials().items():
        assert list(one.film) == sorted(one.film), name
        assert list(one.solids) == sorted(one.solids), name
        assert one.solids[0] > 0.0, name
        assert one.solids[2] <= 1.0, name


def test_a_wider_nozzle_asks_for_more_of_everything() -> None:
    small, large = nozzle("6.4"), nozzle("9.5")
    assert small.air < large.air
    assert small.media_flow < large.media_flow
    assert small.rate < large.rate


def test_dark_colours_and_high_gloss_show_most() -> None:
    assert finish("colour", "black") < finish("colour", "white")  # share of light scattered
    assert finish("gloss", "gloss") > finish("gloss", "matt")  # share kept sharp
    for group in ("colour", "gloss"):
        assert all(0.0 <= finish(group, name) <= 1.0 for name in finishes(group))


def test_every_hazard_is_told_with_its_limit() -> None:
    assert hazards()
    for agent in hazards():
        assert limit_of(agent).startswith(agent.capitalize())
        assert any(sign.isdigit() for sign in limit_of(agent))


def test_panels_come_once_or_in_pairs() -> None:
    assert {one.count for one in panels().values()} <= {1, 2}


def test_a_finish_or_nozzle_that_is_not_listed_is_refused() -> None:
    with pytest.raises(TableError, match="plaid"):
        finish("colour", "plaid")
    with pytest.raises(TableError, match="12"):
        nozzle("12")
