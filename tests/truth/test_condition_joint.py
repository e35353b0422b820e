"""The joint model of all zones against exact enumeration; thickness readings in closed form."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from drybuild.physics.condition import (
    Zone,
    bayes_odds,
    believe,
    seam_length,
    thickness_likelihood,
)
from drybuild.tables.condition import ZONE_KINDS, left_by_state, life_of, look, zone_kind, zones

GRADES = ("sound", "patch", "replace")


def enumerated(cases: list[Zone]) -> dict[str, np.ndarray]:
    """Return the odds by summing all 3^n states, each a box of a multivariate normal (scipy)."""
    count = len(cases)
    loads = np.array([[one.loading] for one in cases])
    covariance = loads @ loads.T
    for i, j in product(range(count), range(count)):
        if i == j:
            covariance[i, j] = 1.0
        elif cases[i].link and cases[i].link == cases[j].link:
            covariance[i, j] += cases[i].link_loading * cases[j].link_loading
    edges = [
        [-8.0, norm.ppf(one.odds[0]), norm.ppf(one.odds[0] + one.odds[1]), 8.0] for one in cases
    ]
    found = {one.name: np.zeros(3) for one in cases}
    for states in product(range(3), repeat=count):
        low = [edges[i][state] for i, state in enumerate(states)]
        high = [edges[i][state + 1] for i, state in enumerate(states)]
        chance = multivariate_normal.cdf(
            high, cov=covariance, lower_limit=low, abseps=1e-5, releps=1e-5, rng=1
        )
        weight = float(chance) * np.prod([cases[i].seen[s] for i, s in enumerate(states)])
        for i, state in enumerate(states):
            found[cases[i].name][state] += weight
    return {name: odds / odds.sum() for name, odds in found.items()}


def body() -> list[Zone]:
    unlinked = {"odds": (0.7, 0.2, 0.1)}
    return [
        Zone(
            name="scuttle", odds=(0.53, 0.32, 0.15), loading=0.45, link="wet", link_loading=0.65,
            seen=tuple(look("probed")[grade][2] for grade in GRADES),  # type: ignore[arg-type]
        ),
        Zone(name="floor", odds=(0.38, 0.32, 0.30), loading=0.5, link="wet", link_loading=0.55),
        Zone(
            name="rail", loading=0.6, **unlinked,  # type: ignore[arg-type]
            seen=tuple(look("tapped")[grade][0] for grade in GRADES),  # type: ignore[arg-type]
        ),
        Zone(name="arch", odds=(0.4, 0.35, 0.25), loading=0.5, link="arches", link_loading=0.5),
    ]  # fmt: skip


def test_the_joint_model_agrees_with_exact_enumeration() -> None:
    # All 81 states of four zones with one common and two nearer causes; boxes of the multivariate
    # normal distribution by scipy.stats.multivariate_normal.
    exact, found = enumerated(body()), believe(zones=body()).odds
    for name, odds in exact.items():
        assert found[name] == pytest.approx(odds, abs=2e-3), name


def test_enumeration_without_a_look_gives_the_odds_back() -> None:
    # Marginals of the multivariate normal: what nobody saw changes nothing.
    unseen = [
        Zone(
            name=one.name, odds=one.odds, loading=one.loading, link=one.link,
            link_loading=one.link_loading,
        )
        for one in body()
    ]  # fmt: skip
    for name, odds in enumerated(unseen).items():
        assert odds == pytest.approx(next(one.odds for one in unseen if one.name == name), abs=1e-4)
        assert believe(zones=unseen).odds[name] == pytest.approx(odds, abs=1e-3)


def test_a_thickness_reading_is_bayes_with_normals() -> None:
    # Two normals and a normal error in closed form, scipy.stats.norm as the independent density.
    means, spreads, read, error = (0.97, 0.75, 0.45), (0.04, 0.12, 0.20), 0.83, 0.05
    density = [norm.pdf(read, m, np.hypot(s, error)) for m, s in zip(means, spreads, strict=True)]
    found = thickness_likelihood(left=read, left_spread=error, means=means, spreads=spreads)
    assert np.array(found) == pytest.approx(np.array(density) / max(density))
    after = bayes_odds(odds=(0.5, 0.3, 0.2), likelihood=found)
    weighted = np.array([0.5, 0.3, 0.2]) * density
    assert after == pytest.approx(weighted / weighted.sum())


def test_two_states_alike_in_spread_part_in_the_middle() -> None:
    # Discriminant of two normals of one variance: half way between the means the odds stay.
    found = thickness_likelihood(left=0.7, left_spread=0.02, means=(0.9, 0.5), spreads=(0.1, 0.1))
    assert found == pytest.approx((1.0, 1.0))


def test_a_poor_gauge_tells_nothing() -> None:
    # Limit of Bayes: a reading with an endless error leaves the odds as they were.
    means, spreads = left_by_state()
    found = thickness_likelihood(left=0.5, left_spread=1e6, means=means, spreads=spreads)
    assert found == pytest.approx((1.0, 1.0, 1.0))


def test_the_seam_round_a_piece() -> None:
    # Perimeter of a rectangle: 0.6 m by 0.1 m is 1.4 m; a square metre 4 m.
    assert seam_length(area=0.06, aspect=6.0) == pytest.approx(1.4)
    assert seam_length(area=1.0, aspect=1.0) == pytest.approx(4.0)


# Sheet-metal gauges of US sheet in mm (two trade guides): 14 to 22; floors are 18 to 20 gauge,
# rails and cross-members 14 to 16, outer skins 18 early and 20 later (trade guide and common
# practice, no source).
GAUGE = {14: 1.897, 16: 1.519, 18: 1.214, 20: 0.912, 22: 0.759}


@pytest.mark.parametrize(
    ("zone", "thick", "thin"),
    [("front floor left", 18, 20), ("front rail left", 14, 16), ("front wing left", 18, 22)],
)
def test_sheet_lies_within_the_trades_gauges(zone: str, thick: int, thin: int) -> None:
    found = zones("unitary")[zone].thickness * 1e3
    assert GAUGE[thin] - 0.06 <= found <= GAUGE[thick] + 0.06


def test_every_kind_of_body_has_some_sixty_zones() -> None:
    # The survey's own aim: some 60 zones a body; a roofless one has a hood and no roof.
    for kind in ZONE_KINDS:
        assert 52 <= len(zones(kind)) <= 62, kind
    assert zone_kind("unitary", "roadster") == "open"
    assert "roof skin" not in zones("open")
    assert "hood well" in zones("open")
    assert zone_kind("unitary", "saloon") == "unitary"


def test_salt_eats_from_below_and_blocked_drains_their_own_zones() -> None:
    # common practice, no source: spray reaches little above the belt; water stands in sills.
    body_ = zones("unitary")
    salt, drains = life_of("climate", "salted roads"), life_of("drains", "blocked")
    assert salt.on(body_["outer sill left"]) > 2 * salt.on(body_["roof skin"])
    assert drains.on(body_["outer sill left"]) > 0.0
    assert drains.on(body_["front rail left"]) == 0.0
