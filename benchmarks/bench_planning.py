"""Time the planner on an invented build of 80 jobs, 15 discoveries and 20 orders.

Run it with ``.venv/bin/python benchmarks/bench_planning.py``.
"""

from __future__ import annotations

import time
from datetime import date

import numpy as np

from drybuild.planning.baseline import baseline
from drybuild.planning.calendar import Calendar, Span
from drybuild.planning.estimates import NOTHING, ThreePoint, exactly
from drybuild.planning.jobs import Discovery, Grade, Job, Order, Plan
from drybuild.planning.sampling import draw
from drybuild.planning.simulate import simulate


def invented_plan(jobs: int = 80, discoveries: int = 15, orders: int = 20) -> Plan:
    """Return a plan with the shape of a one-person rebuild; every figure is invented."""
    rng = np.random.default_rng(1)
    trades = ("body", "engine", "chassis", "cabin", "electrics")
    made = [_job(rng, i, trades[i * len(trades) // jobs]) for i in range(jobs)]
    found = [_discovery(rng, i, made) for i in range(discoveries)]
    bought = [_order(rng, i, made) for i in range(orders)]
    calendar = Calendar(
        start=date(2025, 1, 6),
        hours_a_week=12.0,
        weekdays=(0, 2, 0, 2, 0, 5, 3),
        spans=(Span(first=date(2025, 7, 14), last=date(2025, 8, 3)),),
        helper_hours_a_week=4.0,
        hours_kept=ThreePoint(0.7, 0.9, 1.0),
    )
    return Plan(calendar=calendar, jobs=tuple(made), discoveries=tuple(found), orders=tuple(bought))


def _job(rng: np.random.Generator, i: int, trade: str) -> Job:
    hours = float(rng.uniform(2.0, 20.0))
    before = rng.choice(np.arange(max(0, i - 15), i), size=min(i, 2), replace=False)
    return Job(
        name=f"job {i}",
        hours=ThreePoint(0.7 * hours, hours, 1.8 * hours),
        cost=ThreePoint(20.0, 60.0, 150.0),
        after=tuple(f"job {j}" for j in before),
        place=("bay", "bench", "")[i % 3],
        helpers=int(i % 9 == 4),
        trade=trade,
        cure_days=exactly(7.0) if i % 13 == 5 else NOTHING,
        away_days=ThreePoint(14.0, 28.0, 60.0) if i % 17 == 6 else NOTHING,
    )


def _discovery(rng: np.random.Generator, i: int, jobs: list[Job]) -> Discovery:
    at = int(rng.integers(2, len(jobs) // 2))
    hours = float(rng.uniform(5.0, 40.0))
    return Discovery(
        name=f"zone {i}",
        revealed_by=f"job {at}",
        before=(f"job {at + 16}",),
        causes=(("rust", 0.6),),
        place="bay",
        trade="body",
        grades=(
            Grade(name="sound", odds=0.6),
            Grade(
                name="patch",
                odds=0.25,
                hours=ThreePoint(0.5 * hours, hours, 2.0 * hours),
                cost=ThreePoint(30.0, 60.0, 150.0),
            ),
            Grade(
                name="replace",
                odds=0.15,
                hours=ThreePoint(hours, 2.0 * hours, 4.0 * hours),
                cost=ThreePoint(200.0, 350.0, 700.0),
                lead_days=ThreePoint(7.0, 21.0, 60.0),
            ),
        ),
    )


def _order(rng: np.random.Generator, i: int, jobs: list[Job]) -> Order:
    price = float(rng.uniform(100.0, 3000.0))
    return Order(
        part=f"part {i}",
        price=ThreePoint(0.9 * price, price, 1.2 * price),
        lead_days=ThreePoint(7.0, 21.0, 70.0),
        deposit_share=0.3,
        needed_by=(jobs[int(rng.integers(len(jobs) // 4, len(jobs)))].name,),
        placed_day=float(rng.integers(0, 200)),
    )


def main() -> None:
    """Print the times."""
    plan = invented_plan()
    for runs in (2_000, 10_000):
        began = time.perf_counter()
        draws = draw(plan, runs)
        drawn = time.perf_counter()
        outcome = simulate(plan, draws)
        done = time.perf_counter()
        weeks = outcome.finish_day / 7.0
        low, middle, high = np.quantile(weeks[1:], [0.1, 0.5, 0.8])
        print(
            f"{runs:6d} runs: draws {drawn - began:.2f} s, runs {done - drawn:.2f} s; plan "
            f"{weeks[0]:.0f} weeks, P10/50/80 {low:.0f}/{middle:.0f}/{high:.0f}"
        )
    began = time.perf_counter()
    base = baseline(plan, seconds=5.0)
    print(
        f"baseline: {time.perf_counter() - began:.2f} s, list {base.list_day:.1f} d, "
        f"best {base.finish_day:.1f} d, bound {base.bound_day:.1f} d"
    )


if __name__ == "__main__":
    main()
