"""What the runs say: contingency, what drives the end and the cost, what is critical, cash."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.planning.bench import FROM_THE_START
from drybuild.planning.sampling import Array, Whole
from drybuild.planning.simulate import Outcome


@dataclass(frozen=True, kw_only=True)
class Spread:
    """A total: the plan's, the mean, and the quantiles that people ask for."""

    plan: float
    mean: float
    p50: float
    p80: float
    p90: float

    @property
    def contingency(self) -> float:
        """What to set aside above the plan to be safe in eight runs of ten.

        Notes
        -----
        P80 of the total, discoveries and correlation included, less the plan; never a sum of
        each item's own P80. The level of 80 % is the owner's choice, not a rule.
        """
        return self.p80 - self.plan


def spread(total: Array) -> Spread:
    """Return the spread of a total whose index 0 is the plan."""
    runs = total[1:]
    p50, p80, p90 = (float(q) for q in np.quantile(runs, [0.5, 0.8, 0.9]))
    return Spread(plan=float(total[0]), mean=float(runs.mean()), p50=p50, p80=p80, p90=p90)


def quantile_error(runs: Array, at: float) -> float:
    """Return the standard error of a quantile of some runs.

    Notes
    -----
    √(q (1 − q)/n)/f(x_q), with the density from the quantiles a little to either side.

    """
    reach = min(0.5 * at, 0.5 * (1.0 - at), 2.0 * runs.size**-0.4)
    low, high = np.quantile(runs, [at - reach, at + reach])
    return float(np.sqrt(at * (1.0 - at) / runs.size) * (high - low) / (2.0 * reach))


@dataclass(frozen=True, kw_only=True)
class Driver:
    """Something that moves the end or the cost, and by how much."""

    name: str
    kind: str
    """discovery, hours, price, lead time, time away, or hours kept."""
    days: float
    """Mean end when it is found (or in its upper half), less the mean end otherwise."""
    money: float
    """Likewise for the cost."""
    odds: float
    """Share of runs on the bad side: those that found it, or half."""
    rank_correlation: float
    """Spearman's, with the end."""


def drivers(outcome: Outcome) -> tuple[Driver, ...]:
    """Return what drives the end, the strongest first."""
    finish, cost = outcome.finish_day[1:], outcome.cost[1:]
    ranks = _ranked(finish)[0]
    found = [
        _driver(name, kind, values[1:], finish, cost, ranks)
        for name, kind, values in _inputs(outcome)
        if np.ptp(values[1:]) > 0.0
    ]
    return tuple(sorted(found, key=lambda driver: -abs(driver.days)))


def _driver(
    name: str, kind: str, values: Array, finish: Array, cost: Array, finish_ranks: Array
) -> Driver:
    ranks, median = _ranked(values)
    bad = values > 0.0 if kind == "discovery" else values > median
    if kind == "hours kept":
        bad = values < median
    share = float(bad.mean())
    whole = share in (0.0, 1.0)
    return Driver(
        name=name,
        kind=kind,
        days=0.0 if whole else float(finish[bad].mean() - finish[~bad].mean()),
        money=0.0 if whole else float(cost[bad].mean() - cost[~bad].mean()),
        odds=share,
        rank_correlation=_correlation(ranks, finish_ranks),
    )


def _inputs(outcome: Outcome) -> Iterator[tuple[str, str, Array]]:
    plan, draws = outcome.plan, outcome.draws
    for row, found in enumerate(plan.discoveries):
        beyond = np.maximum(draws.grade[row] - draws.grade[row, 0], 0)
        yield found.name, "discovery", beyond.astype(float)
    for row, job in enumerate(plan.jobs):
        yield job.name, "hours", draws.hours[row]
        yield job.name, "time away", draws.away_days[row]
    for row, order in enumerate(plan.orders):
        yield order.part, "price", draws.price[row]
        yield order.part, "lead time", draws.order_lead_days[row]
    yield "hours a week", "hours kept", draws.hours_kept


def _ranked(values: Array) -> tuple[Array, float]:
    """Return ranks about their mean, where equal values share theirs, and the median."""
    order = values.argsort()
    rising = values[order]
    edges = np.flatnonzero(rising[1:] != rising[:-1]) + 1
    first, behind = np.append(0, edges), np.append(edges, values.size)
    ranks = np.empty(values.size)
    ranks[order] = (0.5 * (first + behind - values.size)).repeat(behind - first)
    middle = values.size // 2
    return ranks, float(0.5 * (rising[middle] + rising[-middle - 1]))


def _correlation(one: Array, other: Array) -> float:
    """Return the correlation of two rows whose means are zero."""
    return float(one @ other / np.sqrt((one @ one) * (other @ other)))


@dataclass(frozen=True, kw_only=True)
class Criticality:
    """In which share of the runs each thing was on the chain that set the end."""

    nodes: Array
    """A share a node of the layout."""
    orders: Array
    """A share an order: runs whose chain began with waiting for it."""


def criticality(outcome: Outcome) -> Criticality:
    """Follow each run from its last node back through what each had to wait for."""
    runs = outcome.draws.runs
    across = np.arange(runs)
    node: Whole = outcome.out_day.argmax(axis=0)
    root, share = node.copy(), np.zeros(outcome.layout.size)
    going = np.ones(runs, bool)
    going[0] = runs == 1  # the plan itself is no run
    while going.any():
        live = across[going]
        share += np.bincount(node[live], minlength=share.size)
        root[live] = node[live]
        before = outcome.bound_by[node[live], live]
        node[live] = before
        going[live] = before != FROM_THE_START
    counted = max(runs - 1, 1)
    return Criticality(nodes=share / counted, orders=_roots(outcome, root, across) / counted)


def _roots(outcome: Outcome, root: Whole, across: Whole) -> Array:
    """Count, for each order, the runs whose chain begins with its arrival."""
    start = outcome.start_day[root, across]
    counts = np.zeros(len(outcome.plan.orders))
    first = 1 if across.size > 1 else 0
    for row, item in enumerate(outcome.plan.orders):
        nodes = [outcome.layout.index(name) for name in item.needed_by]
        waited = np.isin(root, nodes) & (np.abs(outcome.arrival_day[row] - start) < 1e-6)
        counts[row] = waited[first:].sum()
    return counts


def cash_by_month(outcome: Outcome) -> Array:
    """Return the money paid in each calendar month of each run: one row a month.

    Notes
    -----
    Jobs and repairs are paid when they are done, parts by their deposit when they are ordered
    and the rest when they come.

    """
    months = outcome.clock.months
    last = int(months[int(np.ceil(outcome.finish_day.max(initial=0.0)))])
    cash = np.zeros((last + 1, outcome.draws.runs))
    for node in range(outcome.layout.size):
        _pay(cash, months, outcome.end_day[node], outcome.work.cost[node])
    for row, item in enumerate(outcome.plan.orders):
        deposit = item.deposit_share * outcome.draws.price[row]
        _pay(cash, months, outcome.placed_day[row], deposit)
        _pay(cash, months, outcome.arrival_day[row], outcome.draws.price[row] - deposit)
    return cash


def _pay(cash: Array, months: Whole, day: Array, money: Array) -> None:
    """Book payments; those after the last month, for parts that nothing waits for, go into it."""
    index = np.clip(day.astype(np.int64), 0, months.size - 1)
    month = np.minimum(months[index], len(cash) - 1)
    cash[month, np.arange(day.size)] += money


def cash_bands(outcome: Outcome, at: Sequence[float] = (0.5, 0.8)) -> Array:
    """Return the cumulated money by month: the plan's, then one row a quantile.

    A band joins the quantiles of single months; it is not the course of any one run.
    """
    total = cash_by_month(outcome).cumsum(axis=0)
    bands = np.quantile(total[:, 1:], at, axis=1) if total.shape[1] > 1 else total[:, :1].T
    return np.vstack([total[:, 0], bands])
