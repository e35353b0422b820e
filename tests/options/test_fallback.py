from __future__ import annotations

from hypothesis import given
from tests.options.networks import all_builds, allows, holding, networks_with_picks, quick

from drybuild.options.fallback import Clauses


@quick
@given(networks_with_picks())
def test_possible_options_agree_with_listing_every_build(case):
    network, picks = case
    builds = all_builds(network)
    clauses = Clauses(network)
    found = clauses.possible(picks)
    for system, options in network.options.items():
        others = {s: o for s, o in picks.items() if s != system}
        for option in options:
            shown = bool(holding(builds, {**others, system: option}))
            assert (option in found[system]) == shown
    some = clauses.build(picks)
    assert (some is None) == (not holding(builds, picks))
    if some is not None:
        assert some in builds


@quick
@given(networks_with_picks())
def test_conflict_of_tables_is_minimal(case):
    network, picks = case
    clauses = Clauses(network)
    blamed = clauses.conflict(picks)
    every = all_builds(network.with_tables(()))

    def fits(tables):
        return any(allows(network, build, set(tables)) for build in holding(every, picks))

    if blamed:
        assert not fits(blamed)
        assert all(fits(set(blamed) - {table}) for table in blamed)
    else:
        assert holding(all_builds(network), picks)
