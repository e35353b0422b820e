"""Bayes by textbook figures, the survey's tables against what the trade knows."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from drybuild.physics.condition import (
    Zone,
    bayes_odds,
    believe,
    expected_three_point,
    shifted_odds,
)
from drybuild.tables.condition import GRADES, life_shift, lives, look, looks, zones


def test_bayes_on_the_textbook_screening_test() -> None:
    # Screening example of the textbooks (from memory): 1 % ill, 80 % found, 9.6 % false alarms:
    # a positive test means 7.8 %.
    after = bayes_odds(odds=(0.99, 0.01), likelihood=(0.096, 0.80))
    assert after[1] == pytest.approx(0.078, abs=5e-4)


def test_the_mean_of_a_pert_estimate() -> None:
    # Malcolm and others 1959: (a + 4m + b)/6; 2, 3, 10 gives 4 (worked by hand).
    assert expected_three_point(low=2.0, likely=3.0, high=10.0) == pytest.approx(4.0)


def test_shifted_odds_agree_with_scipy() -> None:
    # scipy.stats.norm as the independent normal distribution.
    shift = np.array([-0.9, 0.0, 0.9])
    sound, _, replace = shifted_odds(patch=0.3, replace=0.2, shift=shift)
    assert sound == pytest.approx(norm.cdf(norm.ppf(0.5) - shift))
    assert replace == pytest.approx(norm.sf(norm.ppf(0.8) - shift))


def test_joint_odds_agree_with_the_bivariate_normal() -> None:
    # scipy.stats.multivariate_normal: both zones replaced, correlation a² + b² = 0.61.
    odds = (0.5, 0.3, 0.2)
    pair = {"loading": 0.5, "link": "wet", "link_loading": 0.6, "odds": odds}
    zones_ = [
        Zone(name="scuttle", seen=(0.0, 0.0, 1.0), **pair),  # type: ignore[arg-type]
        Zone(name="floor", **pair),  # type: ignore[arg-type]
    ]
    limit = norm.ppf(0.8)
    both = multivariate_normal.cdf([-limit, -limit], cov=[[1.0, 0.61], [0.61, 1.0]])
    assert believe(zones=zones_).odds["floor"][2] == pytest.approx(both / 0.2, abs=2e-3)


@pytest.mark.parametrize("kind", ["unitary", "ladder", "backbone"])
def test_damage_is_not_known_before_the_shell_is_blasted(kind: str) -> None:
    # common practice, no source: a look at paint that says "sound" leaves real doubt on the zones
    # that rust, bare metal hardly any.
    for zone in zones(kind).values():
        odds = (1.0 - zone.patch - zone.replace, zone.patch, zone.replace)
        after = {
            way: bayes_odds(odds=odds, likelihood=[look(way)[grade][0] for grade in GRADES])
            for way in ("looked", "blasted")
        }
        assert after["blasted"][0] > 0.9
        if zone.patch + zone.replace > 0.4:
            assert after["looked"][0] < 0.8


@pytest.mark.parametrize("kind", ["unitary", "ladder", "backbone"])
def test_zones_are_whole(kind: str) -> None:
    for name, zone in zones(kind).items():
        assert 0.0 < zone.patch + zone.replace < 1.0, name
        assert zone.loading**2 + zone.link_loading**2 < 1.0, name
        assert zone.patch_hours == tuple(sorted(zone.patch_hours)), name
        assert zone.replace_hours == tuple(sorted(zone.replace_hours)), name
        assert (zone.link == "") == (zone.link_loading == 0.0), name


def test_looks_are_chances_and_get_better() -> None:
    right = []
    for way in looks():
        rows = look(way)
        if way == "not seen":
            continue
        for state in GRADES:
            assert sum(rows[state]) == pytest.approx(1.0)
        right.append(sum(rows[state][k] for k, state in enumerate(GRADES)))
    assert right == sorted(right)


def test_hours_hold_the_trade_ranges() -> None:
    # Sheet-metal defaults of the trade (common practice, no source): floor half 10-16 h, outer
    # sill 12-20 h, wing repair 6-12 h, battery tray 4-8 h.
    body = zones("unitary")
    for zone, low, high in (
        ("front floor left", 10, 16),
        ("outer sill left", 12, 20),
        ("battery tray", 4, 8),
    ):
        assert low <= body[zone].replace_hours[1] / 3600.0 <= high
    assert 6 <= body["front wing left"].patch_hours[1] / 3600.0 <= 12


def test_salt_is_worse_than_rain_and_a_garage_better_than_a_field() -> None:
    # common practice, no source.
    assert life_shift("climate", "salted roads") > life_shift("climate", "temperate")
    assert life_shift("storage", "garage") < 0.0 < life_shift("storage", "field")
    assert set(lives("repairs")) == {"known good", "none known", "covered up"}
