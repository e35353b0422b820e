from dataclasses import replace

import numpy as np
import pytest
from tests.planning.plans import job, plan

from drybuild.planning.estimates import ThreePoint, exactly
from drybuild.planning.jobs import Correlation, Discovery, Grade
from drybuild.planning.sampling import correlated_scores, draw, sample


def test_index_0_is_the_plan_and_the_rest_is_drawn() -> None:
    figure = ThreePoint(8.0, 12.0, 20.0)
    drawn = sample(figure, "x", {}, 1000)
    assert drawn[0] == 12.0
    assert drawn.size == 1001
    assert np.quantile(drawn[1:], [0.1, 0.5, 0.9]) == pytest.approx([8.0, 12.0, 20.0], rel=0.01)


def test_an_item_has_the_same_luck_in_every_plan() -> None:
    one = plan(job("a", 1.0), job("b"))
    spread = [replace(j, hours=ThreePoint(1.0, 2.0, 4.0)) for j in one.jobs]
    small, large = draw(plan(spread[0]), 50), draw(plan(spread[1], spread[0]), 50)
    assert np.array_equal(small.hours[0], large.hours[1])
    assert not np.array_equal(large.hours[0], large.hours[1])


def test_items_of_one_factor_are_correlated_as_asked() -> None:
    shares = {"work": 0.2, "work/body": 0.1}
    a, b = (correlated_scores(name, shares, 20_000) for name in ("a", "b"))
    c = correlated_scores("c", {"work": 0.2, "work/engine": 0.1}, 20_000)
    assert np.corrcoef(a, b)[0, 1] == pytest.approx(0.3, abs=0.02)
    assert np.corrcoef(a, c)[0, 1] == pytest.approx(0.2, abs=0.02)
    assert a.std() == pytest.approx(1.0, abs=0.01)


def zone(name: str, *odds: float, loading: float = 0.0) -> Discovery:
    grades = tuple(
        Grade(name=f"grade {i}", odds=p, hours=exactly(10.0 * i)) for i, p in enumerate(odds)
    )
    return Discovery(name=name, revealed_by="look", grades=grades, causes=(("rust", loading),))


def test_grades_come_with_their_odds_whatever_the_loading() -> None:
    for loading in (0.0, 0.8):
        drawn = draw(
            plan(job("look"), discoveries=(zone("z", 0.6, 0.3, 0.1, loading=loading),)), 8000
        )
        shares = np.bincount(drawn.grade[0, 1:]) / 8000
        assert shares == pytest.approx([0.6, 0.3, 0.1], abs=0.02)
        assert np.array_equal(drawn.grade_hours[0], 10.0 * drawn.grade[0])


def test_a_common_cause_brings_discoveries_together() -> None:
    zones = (zone("a", 0.7, 0.3, loading=0.8), zone("b", 0.7, 0.3, loading=0.8))
    grade = draw(plan(job("look"), discoveries=zones), 8000).grade[:, 1:]
    assert np.corrcoef(grade)[0, 1] > 0.3


def test_the_plan_counts_on_the_best_unless_another_is_certain() -> None:
    drawn = draw(plan(job("look"), discoveries=(zone("a", 0.1, 0.9), zone("b", 0.0, 1.0))), 10)
    assert list(drawn.grade[:, 0]) == [0, 1]
    assert set(drawn.grade[1]) == {1}


def test_correlation_widens_the_sum() -> None:
    jobs = tuple(type(job("x"))(name=f"j{i}", hours=ThreePoint(5.0, 10.0, 20.0)) for i in range(20))
    loose = draw(plan(*jobs, correlation=Correlation(common=0.0, trade=0.0)), 4000)
    tied = draw(plan(*jobs), 4000)
    assert tied.hours.sum(axis=0).std() > 1.8 * loose.hours.sum(axis=0).std()
