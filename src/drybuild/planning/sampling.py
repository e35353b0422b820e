"""Draws for a plan: seeded by the item's name, stratified, correlated; index 0 is the plan."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
import numpy.typing as npt

from drybuild.planning.estimates import NOTHING, ThreePoint
from drybuild.planning.jobs import Discovery, Job, Order, Plan
from drybuild.planning.spread import NORMAL, at_scores
from drybuild.project.samples import normal_scores

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]


@dataclass(frozen=True, kw_only=True)
class Draws:
    """Every figure of a plan in every run; rows in the plan's own order, last axis = runs.

    Index 0 is the plan: each figure at its likely value, each discovery at its best grade unless
    another is certain.
    """

    hours: Array
    cost: Array
    cure_days: Array
    away_days: Array
    grade: Whole
    grade_hours: Array
    grade_cost: Array
    grade_lead_days: Array
    price: Array
    order_lead_days: Array
    hours_kept: Array

    def some(self, which: slice) -> Draws:
        """Return the draws of some of the runs."""
        return Draws(**{name: rows[..., which] for name, rows in vars(self).items()})

    def beside(self, other: Draws) -> Draws:
        """Return these draws with those of another behind them."""
        both = {
            name: np.concatenate((rows, getattr(other, name)), axis=-1)
            for name, rows in vars(self).items()
        }
        return Draws(**both)

    @property
    def runs(self) -> int:
        """The length of the last axis, the plan included."""
        return int(self.hours_kept.size)


def correlated_scores(name: str, shares: Mapping[str, float], runs: int) -> Array:
    """Return normal scores that share factors with other items (one-layer Gaussian copula).

    The scores of each item and factor are stratified and seeded by its name, so an item has the
    same luck in every plan that it is part of (common random numbers).

    Notes
    -----
    z = Σ √ρ_k F_k + √(1 − Σ ρ_k) e, where `shares` gives ρ_k for each factor's name. Two items
    with the same shares have correlation Σ ρ_k between their scores.

    """
    own = 1.0 - sum(shares.values())
    shared = _shared(tuple(shares.items()), runs)
    return math.sqrt(max(own, 0.0)) * normal_scores(name, runs) + shared


@lru_cache(maxsize=64)
def _shared(shares: tuple[tuple[str, float], ...], runs: int) -> Array:
    """Return what a few factors bring to the scores of every item that shares them."""
    scores = np.zeros(runs)
    for factor, share in shares:
        if share > 0.0:
            scores += math.sqrt(share) * _factor(factor, runs)
    return scores


@cache
def _factor(name: str, runs: int) -> Array:
    return normal_scores(f"factor/{name}", runs)


def sample(figure: ThreePoint, name: str, shares: Mapping[str, float], runs: int) -> Array:
    """Return a figure in the plan (index 0) and in `runs` runs."""
    if figure.certain or runs == 0:
        return np.full(runs + 1, figure.likely)
    drawn = at_scores(figure, correlated_scores(name, shares, runs))
    return np.concatenate([[figure.likely], drawn])


def draw(plan: Plan, runs: int, known: Mapping[str, Array] | None = None) -> Draws:
    """Draw every figure of a plan.

    Parameters
    ----------
    plan : Plan
        A plan without faults.
    runs : int
        How many runs, the plan itself not counted.
    known : mapping, optional
        Grades by discovery that were drawn elsewhere, one a run; what stands at index 0 is not
        looked at.

    """
    jobs, orders, found = plan.jobs, plan.orders, plan.discoveries
    rows = [_grade(d, runs, (known or {}).get(d.name)) for d in found]
    grades = np.array(rows, np.int64).reshape(-1, runs + 1)
    return Draws(
        hours=_rows([_job(plan, j, "hours", j.hours, runs) for j in jobs], runs),
        cost=_rows([_job_cost(plan, j, runs) for j in jobs], runs),
        cure_days=_rows([_job(plan, j, "cure", j.cure_days, runs) for j in jobs], runs),
        away_days=_rows([_job(plan, j, "away", j.away_days, runs) for j in jobs], runs),
        grade=grades,
        **_graded(plan, grades, runs),
        price=_rows([_order(plan, o, "price", o.price, runs) for o in orders], runs),
        order_lead_days=_rows([_order(plan, o, "lead", o.lead_days, runs) for o in orders], runs),
        hours_kept=sample(plan.calendar.hours_kept, "hours kept", {}, runs),
    )


def _rows(rows: list[Array], runs: int) -> Array:
    return np.array(rows).reshape(len(rows), runs + 1)


def _shares(plan: Plan, kind: str, trade: str) -> dict[str, float]:
    """Return the factors that a figure shares: hours with hours, prices with prices."""
    shares = {kind: plan.correlation.common}
    if trade:
        shares[f"{kind}/{trade}"] = plan.correlation.trade
    return shares


FACTOR = {"hours": "work", "cost": "money", "price": "money"}
"""Which common factor moves a figure; all others are waits and move with the supply."""


def _job(plan: Plan, job: Job, what: str, figure: ThreePoint, runs: int) -> Array:
    shares = _shares(plan, FACTOR.get(what, "supply"), job.trade)
    return sample(figure, f"job/{job.name}/{what}", shares, runs)


def _job_cost(plan: Plan, job: Job, runs: int) -> Array:
    cost = _job(plan, job, "cost", job.cost, runs)
    if job.hired_rate == 0.0:
        return cost
    hired = sample(job.hired_hours, f"job/{job.name}/hired", _shares(plan, "work", job.trade), runs)
    return cost + job.hired_rate * hired


def _order(plan: Plan, order: Order, what: str, figure: ThreePoint, runs: int) -> Array:
    shares = _shares(plan, FACTOR.get(what, "supply"), "")
    return sample(figure, f"order/{order.part}/{what}", shares, runs)


def _grade(discovery: Discovery, runs: int, known: Array | None) -> Whole:
    """Return the grade in each run: a hidden condition against the odds' normal thresholds."""
    certain = [i for i, grade in enumerate(discovery.grades) if grade.odds >= 1.0]
    planned = certain[0] if certain else 0
    if known is not None:
        return np.concatenate([[planned], known[1:]]).astype(np.int64)
    shares = {f"cause/{name}": loading**2 for name, loading in discovery.causes}
    hidden = correlated_scores(f"discovery/{discovery.name}", shares, runs)
    odds = np.cumsum([grade.odds for grade in discovery.grades])[:-1]
    edges = [_score(chance) for chance in odds]
    return np.concatenate([[planned], np.searchsorted(edges, hidden)]).astype(np.int64)


def _score(chance: float) -> float:
    if chance <= 0.0 or chance >= 1.0:
        return -np.inf if chance <= 0.0 else np.inf
    return NORMAL.inv_cdf(chance)


def _graded(plan: Plan, grades: Whole, runs: int) -> dict[str, Array]:
    """Return the figures of each discovery at the grade that each run found."""
    tables = {what: np.zeros((len(grades), runs + 1)) for what in ("hours", "cost", "lead_days")}
    for row, discovery in enumerate(plan.discoveries):
        for index, grade in enumerate(discovery.grades):
            found = (grades[row] == index).nonzero()[0]
            for what, table in tables.items():
                figure: ThreePoint = getattr(grade, what)
                if found.size and figure != NOTHING:
                    name = f"discovery/{discovery.name}/{grade.name}/{what}"
                    shares = _shares(plan, FACTOR.get(what, "supply"), discovery.trade)
                    table[row, found] = _sample_some(figure, name, shares, runs, found)
    return {f"grade_{what}": table for what, table in tables.items()}


def _sample_some(
    figure: ThreePoint, name: str, shares: Mapping[str, float], runs: int, which: Whole
) -> Array:
    """Return a figure in some of the runs only, the same as `sample` would."""
    values = np.full(which.size, figure.likely)
    drawn = which > 0
    if not figure.certain and drawn.any():
        scores = correlated_scores(name, shares, runs)
        values[drawn] = at_scores(figure, scores[which[drawn] - 1])
    return values
