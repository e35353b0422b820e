from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.condition import (
    GRADES,
    Discovery,
    Zone,
    bayes_odds,
    believe,
    draw_grades,
    expected_three_point,
    left_over_loading,
    shifted_odds,
)

ODDS = (0.5, 0.3, 0.2)
BAD_LOOK = (0.1, 0.5, 0.8)


def discovery(**changed: object) -> Discovery:
    fields: dict[str, object] = {
        "name": "sill",
        "odds": dict(zip(GRADES, ODDS, strict=True)),
        "loading": 0.6,
        "hours": dict.fromkeys(GRADES, (0.0, 1.0, 2.0)),
        "cost": dict.fromkeys(GRADES, (0.0, 0.0, 0.0)),
        "revealed_by": "strip",
    }
    return Discovery(**(fields | changed))  # type: ignore[arg-type]  # a test of refusals too


def test_no_shift_gives_the_reference_odds_back() -> None:
    sound, patch, replace = shifted_odds(patch=0.3, replace=0.2, shift=0.0)
    assert (sound, patch, replace) == pytest.approx(ODDS)


def test_a_worse_life_makes_replacement_likelier() -> None:
    shift = np.array([-1.0, 0.0, 1.0])
    sound, patch, replace = shifted_odds(patch=0.3, replace=0.2, shift=shift)
    assert np.all(np.diff(sound) < 0.0)
    assert np.all(np.diff(replace) > 0.0)
    assert sound + patch + replace == pytest.approx(1.0)


def test_odds_above_one_are_refused() -> None:
    with pytest.raises(InputError):
        shifted_odds(patch=0.7, replace=0.4, shift=0.0)


def test_a_look_that_says_nothing_changes_nothing() -> None:
    assert bayes_odds(odds=ODDS, likelihood=(0.3, 0.3, 0.3)) == pytest.approx(ODDS)
    belief = believe(zones=[Zone(name="sill", odds=ODDS, loading=0.6)])
    assert belief.odds["sill"] == pytest.approx(ODDS, abs=2e-4)
    assert belief.factor_sd == pytest.approx(1.0, abs=2e-3)


def test_an_impossible_look_is_refused() -> None:
    with pytest.raises(InputError):
        bayes_odds(odds=(1.0, 0.0, 0.0), likelihood=(0.0, 1.0, 1.0))


def test_without_common_cause_each_zone_follows_bayes_alone() -> None:
    zones = [
        Zone(name="sill", odds=ODDS, loading=0.0, seen=BAD_LOOK),
        Zone(name="roof", odds=ODDS, loading=0.0),
    ]
    belief = believe(zones=zones)
    assert belief.odds["sill"] == pytest.approx(bayes_odds(odds=ODDS, likelihood=BAD_LOOK))
    assert belief.odds["roof"] == pytest.approx(ODDS, abs=2e-4)


def test_a_rotten_zone_darkens_its_link_more_than_the_rest() -> None:
    zones = [
        Zone(name="scuttle", odds=ODDS, loading=0.5, link="wet", link_loading=0.6, seen=BAD_LOOK),
        Zone(name="floor", odds=ODDS, loading=0.5, link="wet", link_loading=0.6),
        Zone(name="boot", odds=ODDS, loading=0.5),
    ]
    belief = believe(zones=zones)
    assert belief.odds["floor"][2] > belief.odds["boot"][2] > ODDS[2]
    assert belief.factor_mean > 0.0
    assert belief.factor_sd < 1.0
    assert belief.link_sd["wet"] < 1.0


def test_the_grid_agrees_with_drawn_bodies() -> None:
    zones = [
        Zone(name="scuttle", odds=ODDS, loading=0.5, link="wet", link_loading=0.6, seen=BAD_LOOK),
        Zone(name="floor", odds=ODDS, loading=0.5, link="wet", link_loading=0.6),
    ]
    rng = np.random.default_rng(5)
    common, linked, own_1, own_2 = rng.standard_normal((4, 400_000))
    wet = discovery(loading=0.5, link="wet", link_loading=0.6)
    scuttle = draw_grades(discovery=wet, common=common, linked=linked, own=own_1)
    floor = draw_grades(discovery=wet, common=common, linked=linked, own=own_2)
    weight = np.asarray(BAD_LOOK)[scuttle]
    drawn = [float((weight * (floor == grade)).sum() / weight.sum()) for grade in range(3)]
    assert believe(zones=zones).odds["floor"] == pytest.approx(drawn, abs=4e-3)


def test_drawn_grades_keep_the_odds_whatever_the_loadings() -> None:
    rng = np.random.default_rng(1)
    draws = rng.standard_normal((3, 200_000))
    for loading in (0.0, 0.9):
        grades = draw_grades(
            discovery=discovery(loading=loading), common=draws[0], linked=draws[1], own=draws[2]
        )
        shares = [float((grades == grade).mean()) for grade in range(3)]
        assert shares == pytest.approx(ODDS, abs=5e-3)


def test_certain_odds_draw_one_grade() -> None:
    certain = discovery(odds={"sound": 0.0, "patch": 0.0, "replace": 1.0})
    draws = np.linspace(-3.0, 3.0, 7)
    assert np.all(draw_grades(discovery=certain, common=draws, linked=draws, own=draws) == 2)


def test_a_discovery_refuses_odds_that_do_not_add_up_and_full_loadings() -> None:
    with pytest.raises(InputError):
        discovery(odds={"sound": 0.5, "patch": 0.3, "replace": 0.3})
    with pytest.raises(InputError):
        discovery(loading=0.8, link_loading=0.7)


def test_a_known_factor_links_nothing_more() -> None:
    assert left_over_loading(loading=0.6, factor_sd=1.0) == pytest.approx(0.6)
    assert left_over_loading(loading=0.6, factor_sd=0.0) == 0.0


def test_the_mean_of_three_points_lies_between_and_refuses_disorder() -> None:
    assert expected_three_point(low=1.0, likely=2.0, high=9.0) == pytest.approx(3.0)
    with pytest.raises(InputError):
        expected_three_point(low=3.0, likely=2.0, high=9.0)
