"""Rounds of repair: nothing together that clashes, what carries first, one side at a time."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from drybuild.planning.repair_order import Wanted, open_together, rounds, waits
from drybuild.tables.condition import ZONE_KINDS, zones
from drybuild.tables.condition_order import forbidden, split, turn_of


def clash(one: str, other: str) -> bool:
    return forbidden(one, other) is not None


def wanted(names: list[str]) -> list[Wanted]:
    return [
        Wanted(name=name, rank=turn_of(name).rank, side=split(name)[1], weight=float(len(name)))
        for name in names
    ]


@settings(max_examples=30, deadline=None)
@given(
    st.sampled_from(ZONE_KINDS).flatmap(lambda kind: st.sets(st.sampled_from(list(zones(kind)))))
)
def test_rounds_hold_everything_once_and_nothing_that_clashes(names: set[str]) -> None:
    order = rounds(wanted(sorted(names)), clash)
    listed = [name for one in order for name in one.names]
    assert sorted(listed) == sorted(names)
    assert [one.rank for one in order] == sorted(one.rank for one in order)
    for one in order:
        assert not any(clash(a, b) for a, b in combinations(one.names, 2))
        assert len({split(name)[1] for name in one.names}) == 1
    behind = waits(order, clash)
    for later, earlier in behind.items():
        assert all(listed.index(one) < listed.index(later) for one in earlier)


def test_the_worse_side_goes_first_all_the_way() -> None:
    names = ["inner sill left", "inner sill right", "front floor left", "front floor right"]
    heavy = [
        Wanted(name=n, rank=turn_of(n).rank, side=split(n)[1], weight=2.0 if "right" in n else 1.0)
        for n in names
    ]
    assert [one.names[0] for one in rounds(heavy, clash)] == [
        "inner sill right", "inner sill left", "front floor right", "front floor left",
    ]  # fmt: skip


def test_what_a_plan_leaves_open_together() -> None:
    opens = {
        "left": ("inner sill left",),
        "right": ("inner sill right",),
        "both": ("outer sill left", "outer sill right", "roof skin"),
    }
    behind = {
        "left": frozenset(),
        "right": frozenset({"left"}),
        "both": frozenset({"left", "right"}),
    }
    found = open_together(opens, lambda name: behind[name], clash)
    assert found == (("both", "outer sill left", "both", "outer sill right"),)
    loose = open_together(opens, lambda name: frozenset(), clash)
    assert ("left", "inner sill left", "right", "inner sill right") in loose


def test_the_rules_are_the_trades() -> None:
    # common practice, no source: both sills, a sill with its pillar and its floor are never open
    # together; a sill and the other side's pillar may be; bolted skins never matter.
    assert forbidden("inner sill left", "outer sill right")
    assert not forbidden("inner sill left", "outer sill left")  # one side, from the inside out
    assert forbidden("outer sill left", "rear door pillar foot left")
    assert not forbidden("outer sill left", "rear door pillar foot right")
    assert forbidden("inner sill left", "front floor left")
    assert not forbidden("door skin left", "door skin right")
    assert forbidden("front rail left", "front cross-member")
