from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.options.networks import (
    all_builds,
    holding,
    networks_with_picks,
    quick,
    weigh,
    weights_for,
)

from drybuild.options.diagram import compile_network
from drybuild.options.pareto import additive_front, front


@quick
@given(networks_with_picks(), st.integers(0, 9))
def test_additive_front_agrees_with_weighing_every_build(case, seed):
    network, picks = case
    price, mass = weights_for(network, seed), weights_for(network, seed + 100)
    sums = {
        (weigh(price, build), weigh(mass, build)) for build in holding(all_builds(network), picks)
    }
    best = sorted(
        one
        for one in sums
        if not any(other != one and other[0] <= one[0] and other[1] <= one[1] for other in sums)
    )
    found = additive_front(compile_network(network), price, mass, picks)
    assert [candidate.sums for candidate in found] == [pytest.approx(pair) for pair in best]
    for candidate in found:
        assert weigh(mass, candidate.build) == pytest.approx(candidate.sums[1])


@quick
@given(st.lists(st.tuples(*[st.integers(0, 4)] * 3), max_size=12))
def test_front_agrees_with_comparing_all_pairs(rows):
    def beaten(place):
        return any(
            (all(x <= y for x, y in zip(other, rows[place], strict=True)) and other != rows[place])
            or (other == rows[place] and at < place)
            for at, other in enumerate(rows)
        )

    kept = front(np.array(rows, dtype=float).reshape(-1, 3))
    assert kept.tolist() == [place for place in range(len(rows)) if not beaten(place)]


def test_what_is_not_known_is_left_out():
    assert front([[1.0, np.nan], [2.0, 2.0]]).tolist() == [1]
