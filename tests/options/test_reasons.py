from __future__ import annotations

import pytest
from hypothesis import given
from tests.options.networks import all_builds, allows, holding, networks_with_picks, quick

from drybuild.options.diagram import compile_network
from drybuild.options.network import Network, all_but
from drybuild.options.queries import Standing, remaining, together
from drybuild.options.reasons import Reasons


@quick
@given(networks_with_picks())
def test_reasons_are_minimal_and_complete(case):
    network, picks = case
    diagram = compile_network(network)
    left = remaining(diagram, picks)
    reasons = Reasons(network, Standing(diagram), together(diagram, {}))
    every = all_builds(network.with_tables(()))
    found = reasons.why_not(network.labels, picks)
    assert set(found) == set(left.impossible())

    def fits(labels, tables):
        return any(allows(network, build, tables) for build in holding(every, dict(labels)))

    for target, reason in found.items():
        tables = {table.id for table in reason.tables}
        assert reason.picks[-1] == target
        assert set(reason.picks[:-1]) <= set(picks.items())
        assert not fits(reason.picks, tables)
        for table in tables:
            assert fits(reason.picks, tables - {table})
        for pick in reason.picks[:-1]:
            assert fits([kept for kept in reason.picks if kept != pick], tables)


@quick
@given(networks_with_picks())
def test_a_conflict_of_picks_is_minimal(case):
    network, picks = case
    diagram = compile_network(network)
    found = Reasons(network, Standing(diagram)).conflict(picks)
    builds = all_builds(network)
    assert (found is None) == bool(holding(builds, picks))
    if found is not None and not builds:
        assert found.picks == ()
        assert found.tables
    elif found is not None:
        assert not holding(builds, dict(found.picks))
        for pick in found.picks:
            assert holding(builds, dict(kept for kept in found.picks if kept != pick))


@pytest.fixture
def wheels_and_brakes() -> Network:
    options = {"wheels": ("15 in", "16 in"), "brakes": ("280 mm", "330 mm"), "kit": ("a", "b")}
    room = all_but(
        options,
        [{"wheels": "15 in", "brakes": "330 mm"}],
        id="room",
        reason=lambda picks: f"{picks.get('brakes')} does not go inside {picks.get('wheels')}",
    )
    stop = all_but(options, [{"kit": "b", "brakes": "280 mm"}], id="stop", reason="kit b is heavy")
    return Network(options=options, tables=(room, stop))


def test_a_reason_names_the_rule_and_the_pick(wheels_and_brakes):
    reasons = Reasons(wheels_and_brakes, Standing(compile_network(wheels_and_brakes)))
    found = reasons.why_not([("brakes", "330 mm")], {"wheels": "15 in"})
    reason = found["brakes", "330 mm"]
    assert reason.sentences() == ("330 mm does not go inside 15 in",)
    assert reason.picks == (("wheels", "15 in"), ("brakes", "330 mm"))


def test_a_reason_follows_a_chain_of_rules(wheels_and_brakes):
    reasons = Reasons(wheels_and_brakes, Standing(compile_network(wheels_and_brakes)))
    reason = reasons.why_not([("kit", "b")], {"wheels": "15 in"})["kit", "b"]
    assert {table.id for table in reason.tables} == {"room", "stop"}
    assert reason.sentences()[1] == "kit b is heavy"


def test_picks_that_do_not_fit_are_named(wheels_and_brakes):
    reasons = Reasons(wheels_and_brakes, Standing(compile_network(wheels_and_brakes)))
    clash = reasons.conflict({"wheels": "15 in", "brakes": "280 mm", "kit": "b"})
    assert clash is not None
    # 15 in leaves only 280 mm, so the wheels clash with the kit, and they are named before it.
    assert clash.picks == (("wheels", "15 in"), ("kit", "b"))
