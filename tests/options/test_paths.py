from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.options.networks import (
    all_builds,
    allows,
    holding,
    networks,
    networks_with_picks,
    picks_of,
    quick,
    weigh,
    weights_for,
)

from drybuild.options.diagram import compile_network
from drybuild.options.labels import row_of_weights
from drybuild.options.network import Network, NetworkError, all_but
from drybuild.options.paths import (
    build_at,
    cheapest,
    cheapest_with,
    fewest_changes,
    k_cheapest,
    least_worst,
    random_builds,
)


@quick
@given(networks_with_picks(), st.integers(0, 9))
def test_cheapest_agrees_with_weighing_every_build(case, seed):
    network, picks = case
    weights = weights_for(network, seed)
    left = sorted(weigh(weights, build) for build in holding(all_builds(network), picks))
    diagram = compile_network(network)
    best = cheapest(diagram, weights, picks)
    assert (best is None) == (not left)
    if best is not None:
        assert best.sums == (pytest.approx(left[0]),)
        assert weigh(weights, best.build) == pytest.approx(left[0])
        assert allows(network, best.build)
        assert picks.items() <= best.build.items()
    several = k_cheapest(diagram, weights, 7, picks)
    assert [candidate.sums[0] for candidate in several] == pytest.approx(left[:7])
    assert len({tuple(sorted(c.build.items())) for c in several}) == len(several)


@quick
@given(networks_with_picks(), st.integers(0, 9))
def test_least_worst_agrees_with_looking_at_every_build(case, seed):
    network, picks = case
    times, prices = weights_for(network, seed), weights_for(network, seed + 1)
    left = holding(all_builds(network), picks)
    found = least_worst(compile_network(network), times, picks, then=prices)
    assert (found is None) == (not left)
    if found is not None:
        slowest = {tuple(b.items()): max(times[s][o] for s, o in b.items()) for b in left}
        least = min(slowest.values())
        assert found.sums == (least,)
        best = min(weigh(prices, dict(b)) for b, slow in slowest.items() if slow == least)
        assert weigh(prices, found.build) == pytest.approx(best)


@quick
@given(networks_with_picks(), st.integers(0, 9))
def test_cheapest_with_each_option_agrees_with_weighing_every_build(case, seed):
    network, picks = case
    weights = weights_for(network, seed)
    left = holding(all_builds(network), picks)
    found = cheapest_with(compile_network(network), weights, picks)
    for system, option in network.labels:
        sums = [weigh(weights, build) for build in left if build[system] == option]
        if sums:
            assert found[system][option] == pytest.approx(min(sums))
        else:
            assert option not in found[system]


@quick
@given(networks(), st.data())
def test_fewest_changes_agrees_with_trying_every_build(network, data):
    wishes = data.draw(picks_of(network, most=6))
    importance = {system: float(data.draw(st.integers(1, 5))) for system in wishes}
    builds = all_builds(network)
    found = fewest_changes(compile_network(network), wishes, importance)
    if not builds:
        assert found is None
        return
    assert found is not None
    costs = [sum(importance[s] for s, o in wishes.items() if b[s] != o) for b in builds]
    assert found.weight == pytest.approx(min(costs))
    assert sum(importance[system] for system in found.dropped) == pytest.approx(found.weight)
    assert found.build in builds


@quick
@given(networks_with_picks())
def test_each_rank_is_another_build(case):
    network, picks = case
    left = holding(all_builds(network), picks)
    found = build_at(compile_network(network), range(len(left)), picks)
    assert sorted(map(str, map(sorted, map(dict.items, found)))) == sorted(
        map(str, map(sorted, map(dict.items, left)))
    )


def test_ranks_outside_are_refused():
    diagram = compile_network(Network(options={"a": ("1", "2")}))
    with pytest.raises(IndexError):
        build_at(diagram, [2])


def test_random_builds_come_with_equal_odds():
    options = {"a": ("1", "2"), "b": ("1", "2", "3")}
    table = all_but(options, [{"a": "1", "b": "2"}, {"a": "1", "b": "3"}], id="t", reason="no")
    diagram = compile_network(Network(options=options, tables=(table,)))
    drawn = Counter(tuple(build.values()) for build in random_builds(diagram, 4000, seed=1))
    assert len(drawn) == 4
    assert max(abs(count - 1000) for count in drawn.values()) < 130  # 4.7 standard deviations


def test_random_builds_of_a_space_beyond_64_bits():
    options = {f"s{i}": tuple(str(j) for j in range(10)) for i in range(30)}
    found = random_builds(compile_network(Network(options=options)), 5, seed=3)
    assert len({tuple(build.items()) for build in found}) == 5
    assert build_at(compile_network(Network(options=options)), [10**30 - 1])[0]["s7"] == "9"


def test_weights_must_be_numbers_of_known_options():
    network = Network(options={"a": ("1", "2")})
    with pytest.raises(NetworkError, match="nan"):
        row_of_weights(network, {"a": {"1": float("nan")}})
    with pytest.raises(NetworkError, match="no option"):
        row_of_weights(network, {"a": {"3": 1.0}})
