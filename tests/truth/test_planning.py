"""Schedules, risk and the value of information against textbooks and open instances."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from drybuild.next_steps.value import (
    best_now,
    partial_information,
    perfect_information,
    sample_information,
    two_actions,
    unit_normal_loss,
)
from drybuild.planning.calendar import Calendar
from drybuild.planning.estimates import ThreePoint, exactly
from drybuild.planning.jobs import Correlation, Discovery, Grade, Job, Plan
from drybuild.planning.network import classic_pert, critical_path, early_finishes
from drybuild.planning.sampling import correlated_scores, draw, sample
from drybuild.planning.simulate import simulate
from drybuild.planning.solver import Link, Task, Use, shortest
from drybuild.planning.spread import NORMAL, BetaPert, at_scores
from tests.truth.data import truth_data

RUNS = 40_000
Points = tuple[float, float, float]

# Hillier and Lieberman, Introduction to Operations Research, chapter on project management: the
# 14 activities of a construction project. From memory; the sums were reproduced independently.
CONSTRUCTION: dict[str, Points] = {
    "A": (1, 2, 3),
    "B": (2, 3.5, 8),
    "C": (6, 9, 18),
    "D": (4, 5.5, 10),
    "E": (1, 4.5, 5),
    "F": (4, 4, 10),
    "G": (5, 6.5, 11),
    "H": (5, 8, 17),
    "I": (3, 7.5, 9),
    "J": (3, 9, 9),
    "K": (4, 4, 4),
    "L": (1, 5.5, 7),
    "M": (1, 2, 3),
    "N": (5, 5.5, 9),
}
CONSTRUCTION_AFTER = {
    "A": "",
    "B": "A",
    "C": "B",
    "D": "C",
    "E": "C",
    "F": "E",
    "G": "D",
    "H": "EG",
    "I": "C",
    "J": "FI",
    "K": "J",
    "L": "J",
    "M": "H",
    "N": "KL",
}

# A textbook question on PERT with 14 activities; data and the early and late dates of A to F read
# on a stored page, mean, variance and probability recomputed independently.
QUESTION: dict[str, Points] = {
    "A": (5, 5, 7),
    "B": (1, 2, 5),
    "C": (5, 5, 5),
    "D": (4, 8, 13),
    "E": (1, 10, 17),
    "F": (1, 5, 7),
    "G": (2, 6, 9),
    "H": (4, 4, 6),
    "I": (2, 7, 10),
    "J": (2, 4, 7),
    "K": (6, 10, 13),
    "L": (2, 6, 6),
    "M": (2, 2, 3),
    "N": (7, 7, 12),
}
QUESTION_AFTER = {
    "A": "",
    "B": "",
    "C": "A",
    "D": "A",
    "E": "BC",
    "F": "D",
    "G": "D",
    "H": "EF",
    "I": "GH",
    "J": "I",
    "K": "I",
    "L": "J",
    "M": "K",
    "N": "LM",
}


def limits(points: dict[str, Points]) -> dict[str, ThreePoint]:
    return {name: ThreePoint(*p, limits=True) for name, p in points.items()}


def behind(after: dict[str, str]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(before) for name, before in after.items()}


def test_pert_of_a_construction_project() -> None:
    found = classic_pert(limits(CONSTRUCTION), behind(CONSTRUCTION_AFTER))
    assert found.mean == pytest.approx(44.0)
    assert found.network.critical == tuple("ABCEFJLN")
    assert found.variance == pytest.approx(9.0)
    assert found.chance_by(47.0) == pytest.approx(0.8413, abs=5e-5)


def test_pert_of_a_textbook_question() -> None:
    found = classic_pert(limits(QUESTION), behind(QUESTION_AFTER))
    assert found.network.critical == tuple("ACEHIKMN")
    assert found.mean == pytest.approx(50.833, abs=5e-4)
    assert found.variance == pytest.approx(11.194, abs=5e-4)
    assert found.chance_by(55.0) == pytest.approx(0.8935, abs=5e-5)


# Mean, deviation and chance from an independent simulation of the same networks with beta draws:
# what PERT leaves out by following one path. Three standard errors of 40 000 runs are 0.006.
@pytest.mark.parametrize(
    ("points", "after", "deadline", "mean", "chance"),
    [
        (CONSTRUCTION, CONSTRUCTION_AFTER, 47.0, 44.34, 0.816),
        (QUESTION, QUESTION_AFTER, 55.0, None, 0.851),
    ],
)
def test_merging_paths_make_pert_too_sure(
    points: dict[str, Points],
    after: dict[str, str],
    deadline: float,
    mean: float | None,
    chance: float,
) -> None:
    drawn = {name: sample(f, name, {}, RUNS)[1:] for name, f in limits(points).items()}
    end = np.maximum.reduce(list(early_finishes(drawn, behind(after)).values()))
    assert np.mean(end <= deadline) == pytest.approx(chance, abs=0.007)
    if mean is not None:
        assert end.mean() == pytest.approx(mean, abs=0.05)
        assert end.std() == pytest.approx(2.94, abs=0.05)


def arcs(text: str) -> tuple[dict[str, float], dict[str, tuple[str, ...]]]:
    """Turn arcs between events, "1-2 7, 1-3 10", into jobs that wait for each other."""
    pairs = [arc.split() for arc in text.split(", ")]
    durations = {name: float(days) for name, days in pairs}
    after = {
        name: tuple(other for other in durations if other.split("-")[1] == name.split("-")[0])
        for name in durations
    }
    return durations, after


# Taylor, Introduction to Management Science, solutions to chapter 8: two networks of arcs between
# events; read on a stored solutions page, recomputed independently.
TAYLOR = [
    (
        "1-2 7, 1-3 10, 2-4 6, 3-4 5, 3-5 4, 4-5 3, 5-6 2",
        20.0,
        {"1-2": 2.0, "2-4": 2.0, "3-5": 4.0},
    ),
    (
        "1-2 8, 1-3 10, 1-4 9, 2-5 6, 2-6 4, 3-5 5, 4-5 0, 4-7 7, 5-7 12, 5-8 15, 6-9 18, "
        "7-8 4, 8-9 7",
        38.0,
        {
            "1-2": 1.0,
            "1-4": 6.0,
            "2-5": 1.0,
            "2-6": 8.0,
            "4-5": 6.0,
            "4-7": 11.0,
            "5-8": 1.0,
            "6-9": 8.0,
        },
    ),
]


@pytest.mark.parametrize(("network", "length", "slack"), TAYLOR)
def test_critical_paths_of_a_management_textbook(
    network: str, length: float, slack: dict[str, float]
) -> None:
    found = critical_path(*arcs(network))
    assert found.length == length
    assert {name: t.slack for name, t in found.timings.items() if t.slack > 0.0} == slack
    assert set(found.critical) == set(found.timings) - set(slack)


def test_moments_of_the_beta_pert() -> None:
    """Shape and mean: encyclopaedia page on the PERT distribution; the rest recomputed."""
    pert = BetaPert(5.0, 8.0, 14.0)
    assert pert.alpha == pytest.approx(2.3333, abs=5e-5)
    assert pert.beta == pytest.approx(3.6667, abs=5e-5)
    assert pert.mean == pytest.approx(8.5)
    assert pert.variance**0.5 == pytest.approx(1.6583, abs=5e-5)
    (p80,) = pert.at_scores(np.array([NORMAL.inv_cdf(0.8)]))
    assert p80 == pytest.approx(9.987, abs=5e-4)
    drawn = sample(ThreePoint(5.0, 8.0, 14.0, limits=True), "x", {}, RUNS)[1:]
    assert drawn.mean() == pytest.approx(8.5, abs=1e-3)
    assert drawn.std() == pytest.approx(1.6583, abs=1e-3)


def test_a_lognormal_from_its_tenth_and_ninetieth_percentile() -> None:
    """40 h and 120 h; closed form, from memory, recomputed independently."""
    figure = ThreePoint(40.0, 69.282, 120.0)
    scores = np.array([NORMAL.inv_cdf(p) for p in (0.1, 0.5, 0.8, 0.9)])
    assert at_scores(figure, scores) == pytest.approx([40.0, 69.282, 99.38, 120.0], abs=5e-3)
    drawn = sample(figure, "x", {}, RUNS)[1:]
    assert drawn.mean() == pytest.approx(75.948, abs=0.05)
    assert np.log(drawn).std() == pytest.approx(0.42863, abs=2e-4)


def test_the_later_of_two_normals() -> None:
    """Clark, Operations Research 9, 1961 (from memory): mean 1/√π, variance 1 − 1/π."""
    a, b = (correlated_scores(name, {}, RUNS) for name in "ab")
    later = np.maximum(a, b)
    assert later.mean() == pytest.approx(0.5642, abs=0.01)
    assert later.var() == pytest.approx(0.6817, abs=0.015)


@pytest.mark.parametrize(("rho", "deviation"), [(0.0, 3.162), (0.3, 6.083)])
def test_correlation_widens_a_sum_of_ten(rho: float, deviation: float) -> None:
    """√(10 + 90 ρ): closed form."""
    total = sum(correlated_scores(f"task {i}", {"all": rho}, RUNS) for i in range(10))
    assert np.std(total) == pytest.approx(deviation, rel=0.015)


# Exact, by adding up the eight outcomes of three independent discoveries: odds and hours.
DISCOVERIES = ((0.3, 8.0), (0.2, 20.0), (0.5, 3.0))
OUTCOMES = {0: 0.28, 3: 0.28, 8: 0.12, 11: 0.12, 20: 0.07, 23: 0.07, 28: 0.03, 31: 0.03}


def test_branching_discoveries_have_their_exact_distribution() -> None:
    plan = Plan(
        calendar=Calendar(start=np.datetime64("2025-01-06").item(), hours_a_week=7.0),
        jobs=(Job(name="strip"),),
        discoveries=tuple(
            Discovery(
                name=f"zone {i}",
                revealed_by="strip",
                grades=(
                    Grade(name="sound", odds=1.0 - odds),
                    Grade(name="rotten", odds=odds, hours=exactly(hours)),
                ),
            )
            for i, (odds, hours) in enumerate(DISCOVERIES)
        ),
        correlation=Correlation(common=0.0, trade=0.0),
    )
    done = simulate(plan, draw(plan, RUNS))
    assert done.finish_day[0] == 0.0
    hours = done.finish_day[1:]  # at an hour a day
    assert hours.mean() == pytest.approx(7.9, abs=0.1)
    for outcome, chance in OUTCOMES.items():
        assert np.mean(np.abs(hours - outcome) < 1e-6) == pytest.approx(chance, abs=0.008)
    # P80 sits on the edge between 11 h and 20 h; to either side of it the quantile is sure.
    assert np.quantile(hours, 0.75) == pytest.approx(11.0)
    assert np.quantile(hours, 0.85) == pytest.approx(20.0)


# Raiffa, Decision Analysis, 1968, 34-36, as quoted in course notes: an oil well costs 70 (k$);
# dry, wet and soaking bring 0, 120, 270. The seismic test's joint probabilities are given.
DRILLER = [[-70.0, 50.0, 200.0], [0.0, 0.0, 0.0]]
DRILLER_ODDS = [0.5, 0.3, 0.2]
SEISMIC = np.array([[0.30, 0.15, 0.05], [0.09, 0.12, 0.09], [0.02, 0.08, 0.10]])


def test_the_oil_driller() -> None:
    assert best_now(DRILLER, DRILLER_ODDS) == pytest.approx(20.0)
    assert perfect_information(DRILLER, DRILLER_ODDS) == pytest.approx(35.0)
    likelihood = SEISMIC / np.array(DRILLER_ODDS)[:, np.newaxis]
    assert sample_information(DRILLER, DRILLER_ODDS, likelihood) == pytest.approx(12.5)


def test_drill_or_sell() -> None:
    """Hillier and Lieberman, decision analysis: the prototype example.

    Payoffs seen in a stored spreadsheet page; the values of information from memory, recomputed.
    """
    payoffs, odds = [[700.0, -100.0], [90.0, 90.0]], [0.25, 0.75]
    assert best_now(payoffs, odds) == pytest.approx(100.0)
    assert perfect_information(payoffs, odds) == pytest.approx(142.5)
    survey = [[0.6, 0.4], [0.2, 0.8]]
    assert sample_information(payoffs, odds, survey) == pytest.approx(53.0)


def test_the_worth_of_knowing_one_input_only() -> None:
    """A statistics package's documentation of its decision-tree procedure (data from memory).

    Oil worth 0, 700 or 1200 k$; drilling costs 150, 300 or 500 k$.
    """
    rng = np.random.default_rng(0)
    oil = rng.choice([0.0, 700.0, 1200.0], 200_000, p=[0.5, 0.3, 0.2])
    cost = rng.choice([150.0, 300.0, 500.0], 200_000, p=[0.2, 0.6, 0.2])
    worths = np.array([oil - cost, np.zeros_like(oil)])
    assert worths.mean(axis=1).max() == pytest.approx(140.0, abs=5.0)
    assert partial_information(worths, oil) == pytest.approx(155.0, abs=3.0)
    assert partial_information(worths, cost) == pytest.approx(10.0, abs=1.5)


def test_knowing_the_cost_of_drilling_alone_by_the_table() -> None:
    """The same example; states are the three costs, the oil is at its mean of 450 k$."""
    gain = [[450.0 - cost for cost in (150.0, 300.0, 500.0)], [0.0, 0.0, 0.0]]
    assert best_now(gain, [0.2, 0.6, 0.2]) == pytest.approx(140.0)
    assert perfect_information(gain, [0.2, 0.6, 0.2]) == pytest.approx(10.0)


# Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961, table of the unit normal loss
# (from memory; recomputed independently).
LOSS = [(0.0, 0.398942), (0.5, 0.197797), (1.0, 0.083315), (1.5, 0.029307), (2.0, 0.008491)]


@pytest.mark.parametrize(("score", "loss"), LOSS)
def test_the_unit_normal_loss(score: float, loss: float) -> None:
    assert unit_normal_loss(score) == pytest.approx(loss, abs=5e-7)


def test_the_worth_of_a_normal_measurement() -> None:
    """Gain 4 ± 10, error 5, in units of 20 of money: the same book's formula, recomputed."""
    found = two_actions(gain=4.0 * 20.0, gain_sd=10.0 * 20.0, error_sd=5.0 * 20.0)
    assert found.learnt_sd / 20.0 == pytest.approx(8.9443, abs=5e-5)
    assert found.perfect == pytest.approx(46.088, abs=5e-4)
    assert found.measured == pytest.approx(38.385, abs=5e-4)


# PSPLIB (Kolisch and Sprecher, EJOR 96, 1996), instances in Patterson's layout; the list of
# optima, j30opt.sm, is read from beside them. Those that the solver proves within seconds.
EASY = [
    "1_1",
    "1_2",
    "29_1",
    "17_1",
    "21_1",
    "33_1",
    "37_2",
    "41_3",
    "45_1",
    "48_1",
    "9_1",
    "25_3",
]


def patterson(path: Path) -> tuple[list[Task], list[Link], dict[str, int]]:
    """Read an instance: durations, demands and followers of each activity."""
    numbers = iter(int(word) for word in path.read_text(encoding="utf-8").split())
    count, things = next(numbers), next(numbers)
    capacity = {f"r{k}": next(numbers) for k in range(things)}
    tasks, links = [], []
    for activity in range(1, count + 1):
        length = next(numbers)
        demands = [(f"r{k}", next(numbers)) for k in range(things)]
        uses = tuple(Use(of=thing, amount=amount) for thing, amount in demands if amount)
        tasks.append(Task(name=str(activity), length=length, uses=uses))
        links += [
            Link(before=str(activity), after=str(next(numbers))) for _ in range(next(numbers))
        ]
    return tasks, links, capacity


@pytest.mark.parametrize("instance", EASY)
def test_optima_of_psplib(instance: str) -> None:
    folder = truth_data("planning/psplib")
    path = folder / "j30" / f"j30_{instance}.rcp"
    if not path.exists():
        pytest.skip(f"{path.name} is not beside this checkout")
    listed = {
        tuple(words[:2]): int(words[2])
        for line in (folder / "j30opt.sm").read_text(encoding="utf-8").splitlines()
        if (words := line.split()) and words[0].isdigit() and len(words) == 4
    }
    tasks, links, capacity = patterson(path)
    found = shortest(tasks, links, capacity, seconds=15.0)
    assert found is not None
    assert found.proven
    assert found.length == listed[tuple(instance.split("_"))]
