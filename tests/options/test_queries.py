from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from tests.options.networks import all_builds, holding, networks, networks_with_picks, quick

from drybuild.options.diagram import compile_network
from drybuild.options.network import Network, all_but
from drybuild.options.queries import consistent, decide_first, remaining, rules_out, together


@quick
@given(networks_with_picks())
def test_counts_agree_with_listing_every_build(case):
    network, picks = case
    builds = all_builds(network)
    left = remaining(compile_network(network), picks)
    assert left.total == len(holding(builds, picks))
    for system, counts in left.counts.items():
        others = {s: o for s, o in picks.items() if s != system}
        for option, count in counts.items():
            assert count == len(holding(builds, {**others, system: option}))


@quick
@given(networks_with_picks())
def test_consistency_agrees_with_listing_every_build(case):
    network, picks = case
    assert consistent(compile_network(network), picks) == bool(holding(all_builds(network), picks))


@quick
@given(networks_with_picks())
def test_together_and_rules_out_agree_with_listing_every_build(case):
    network, picks = case
    diagram = compile_network(network)
    left = holding(all_builds(network), picks)
    pairs = together(diagram, picks)
    for one, place in network.place.items():
        for other, at in network.place.items():
            shown = any({one, other} <= build.items() for build in left)
            assert pairs[place, at] == shown
    lost = rules_out(diagram, picks)
    for (system, option), others in lost.items():
        with_it = holding(left, {system: option})
        for other in network.labels:
            if other[0] != system:
                possible = any(other in build.items() for build in left)
                still = any(other in build.items() for build in with_it)
                assert (other in others) == (possible and not still)


@quick
@given(networks())
def test_any_order_and_any_batch_give_the_same_counts(network):
    plain = remaining(compile_network(network), {})
    turned = remaining(compile_network(network, order=network.systems[::-1], batch=1), {})
    at_once = remaining(compile_network(network, order=network.systems, batch=99), {})
    assert plain.counts == turned.counts == at_once.counts


def test_forced_options_are_told():
    options = {"wheels": ("15 in", "16 in"), "brakes": ("small", "large")}
    table = all_but(options, [{"wheels": "15 in", "brakes": "large"}], id="fit", reason="no room")
    left = remaining(
        compile_network(Network(options=options, tables=(table,))), {"brakes": "large"}
    )
    assert left.forced() == {"wheels": "16 in"}
    assert left.counts["brakes"] == {"small": 2, "large": 1}


def test_decide_first_names_the_system_that_narrows_most():
    options = {"a": ("1", "2", "3", "4"), "b": ("1", "2"), "c": ("only",)}
    order = decide_first(remaining(compile_network(Network(options=options)), {}), {})
    assert [narrowing.system for narrowing in order] == ["a", "b"]
    assert order[0].expected == pytest.approx(2.0)  # 8 builds, a quarter left
    assert order[0].bits == pytest.approx(2.0)


def test_totals_beyond_64_bits_are_exact():
    options = {f"s{i}": tuple(str(j) for j in range(10)) for i in range(40)}
    tables = [
        all_but(options, [{"s0": "0", "s39": "0"}], id="ends", reason="no"),
    ]
    left = remaining(compile_network(Network(options=options, tables=tuple(tables))), {})
    assert left.total == 10**40 - 10**38
    assert left.counts["s0"]["0"] == 9 * 10**38
    assert left.counts["s5"]["7"] == (10**40 - 10**38) // 10


def test_a_network_without_any_build_counts_nothing():
    options = {"a": ("1", "2"), "b": ("1", "2")}
    none = all_but(
        options, [{"a": x, "b": y} for x in "12" for y in "12"], id="none", reason="nothing fits"
    )
    diagram = compile_network(Network(options=options, tables=(none,)))
    assert diagram.empty
    assert remaining(diagram, {"a": "1"}).total == 0
    assert not together(diagram, {}).any()
    assert rules_out(diagram, {}) == {}
    assert np.all([not any(c.values()) for c in remaining(diagram, {}).counts.values()])
