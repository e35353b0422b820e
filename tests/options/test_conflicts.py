from __future__ import annotations

from itertools import chain, combinations

from hypothesis import given
from hypothesis import strategies as st
from tests.options.networks import quick

from drybuild.options.conflicts import all_clashes, preferred_conflict, ways_out


def subsets(places: range) -> list[frozenset[int]]:
    return [
        frozenset(chosen)
        for chosen in chain.from_iterable(combinations(places, n) for n in range(len(places) + 1))
    ]


@st.composite
def oracles(draw):
    """Wishes 0..n-1 and conflicts among them; a set fits unless it holds a conflict."""
    number = draw(st.integers(1, 7))
    sets = draw(
        st.lists(st.frozensets(st.integers(0, number - 1), min_size=1, max_size=4), max_size=5)
    )
    return number, sets


def fits_under(conflicts):
    return lambda kept: not any(conflict <= set(kept) for conflict in conflicts)


def minimal(sets):
    return {one for one in sets if not any(other < one for other in sets)}


@quick
@given(oracles())
def test_preferred_conflict_is_a_minimal_conflict(case):
    number, conflicts = case
    fits = fits_under(conflicts)
    found = preferred_conflict(range(number), fits)
    if found is None:
        assert fits(tuple(range(number)))
    else:
        assert frozenset(found) in minimal(conflicts)


@quick
@given(oracles())
def test_preferred_conflict_gives_up_the_most_important_wish_last(case):
    # Junker 2004: the preferred conflict is the smallest in the order that compares sets by their
    # least important member first, the earlier the better.
    number, conflicts = case
    found = preferred_conflict(range(number), fits_under(conflicts))
    if found is not None:
        best = min(minimal(conflicts), key=lambda c: sorted(c, reverse=True))
        assert tuple(sorted(best)) == found


@quick
@given(oracles())
def test_all_clashes_agrees_with_trying_every_subset(case):
    number, conflicts = case
    fits = fits_under(conflicts)
    found = all_clashes(range(number), fits)
    every = subsets(range(number))
    outs = minimal({gone for gone in every if fits(tuple(set(range(number)) - gone))})
    assert {frozenset(c) for c in found.conflicts} == minimal(conflicts)
    assert {frozenset(w) for w in found.ways_out} == outs
    assert found.complete


@quick
@given(oracles(), st.lists(st.integers(1, 9), min_size=7, max_size=7))
def test_ways_out_are_the_lightest_of_all(case, weights):
    number, conflicts = case
    fits = fits_under(conflicts)
    every = subsets(range(number))
    outs = minimal({gone for gone in every if fits(tuple(set(range(number)) - gone))})
    found = ways_out(range(number), fits, weights[:number], most=4)
    lightest = sorted(sum(weights[place] for place in gone) for gone in outs)[:4]
    assert [sum(weights[place] for place in gone) for gone in found] == lightest
    assert {frozenset(gone) for gone in found} <= outs


def test_nothing_fits_at_all():
    assert preferred_conflict("ab", lambda kept: False) == ()
    assert ways_out("ab", lambda kept: False, [1.0, 1.0]) == []


def test_no_wishes_that_fit_are_no_conflict():
    assert preferred_conflict((), lambda kept: True) is None


def test_the_limit_is_told():
    wishes = range(8)
    found = all_clashes(wishes, lambda kept: len(kept) < 4, most=5)
    assert not found.complete
    assert len(found.conflicts) + len(found.ways_out) == 5
