"""The work plan in tables: odds, orders, decisions, cash, drivers, jobs; and as JSON."""

from __future__ import annotations

import datetime
from typing import Any

from rich.table import Table

from drybuild.planning.baseline import Baseline
from drybuild.planning.forecast import Forecast
from drybuild.present.numbers import as_text

MOST = 12


def odds_table(found: Forecast, currency: str, baseline: Baseline | None) -> Table:
    """Return cost and end: half and eight of ten first, the bare plan last."""
    table = Table(title="Cost and finish", title_justify="left")
    for column in ("", "cost", "finish", "weeks"):
        table.add_column(column, justify="left" if column in ("", "finish") else "right")
    cost, end = found.cost, found.finish
    for words, money, days in (
        ("half of the runs stay below", cost.p50, end.p50),
        ("8 in 10 runs stay below", cost.p80, end.p80),
        ("9 in 10 runs stay below", cost.p90, end.p90),
        ("mean of the runs", cost.mean, end.mean),
        ("the plan: likely figures, nothing found", cost.plan, end.plan),
    ):
        table.add_row(words, money_text(money, currency), str(found.day(days)), f"{days / 7.0:.0f}")
    table.add_row(
        "to set aside above the plan (8 in 10)",
        money_text(cost.contingency, currency),
        "",
        f"{end.contingency / 7.0:.0f}",
    )
    if baseline:
        told = "shortest possible" if baseline.proven else f"within {baseline.gap * 100:.1f} %"
        table.add_row(
            f"best order of work found for the plan ({told})",
            "",
            str(found.day(baseline.finish_day)),
            f"{baseline.finish_day / 7.0:.0f}",
        )
    return table


def money_text(money: float, currency: str) -> str:
    """Return money to three figures: more would claim too much."""
    if abs(money) < 1.0:
        return f"0 {currency}"
    return f"{as_text(float(f'{money:.3g}'))} {currency}"


def orders_table(found: Forecast) -> Table:
    """Return the latest safe day to order each part."""
    table = Table(title="Order by (late in one run of ten)", title_justify="left")
    for column in ("part", "system", "order by", "wanted", "late if ordered as planned"):
        table.add_column(column, overflow="fold")
    for one in sorted(found.orders, key=lambda one: one.safe_day):
        clash = " cannot be in time" if one.clash else ""
        table.add_row(
            one.part,
            one.system,
            f"{found.day(one.safe_day)}{clash}",
            str(found.day(one.needed_day)),
            f"{one.chance_late * 100:.0f} % of runs",
        )
    return table


def decisions_table(found: Forecast) -> Table:
    """Return the latest day to decide each system."""
    table = Table(title="Decide by", title_justify="left")
    for column in ("system", "decide by", "because of"):
        table.add_column(column, overflow="fold")
    for one in sorted(found.decisions, key=lambda one: one.safe_day):
        table.add_row(one.system, str(found.day(one.safe_day)), one.because)
    return table


def cash_table(found: Forecast, currency: str) -> Table:
    """Return the money that must have been paid by the end of each quarter."""
    table = Table(title="Money paid by the end of each month", title_justify="left")
    for column in ("month", "half of the runs", "8 in 10 runs"):
        table.add_column(column, justify="right")
    shown = _until_steady(found)
    every = max(1, shown // 18)
    for place in range(0, shown, every):
        table.add_row(
            found.months[place],
            money_text(found.cash[1, place], currency),
            money_text(found.cash[2, place], currency),
        )
    return table


def _until_steady(found: Forecast) -> int:
    """Return how many months pass before nearly all has been paid in eight runs of ten."""
    last = found.cash[2, -1]
    return int((found.cash[2] < 0.995 * last).sum()) + 1


def drivers_table(found: Forecast, currency: str) -> Table:
    """Return what moves the end most."""
    table = Table(title="What moves the end most", title_justify="left")
    for column in ("what", "kind", "weeks", "money", "odds"):
        table.add_column(column, overflow="fold")
    for one in found.drivers[:MOST]:
        table.add_row(
            one.name,
            one.kind,
            f"{one.days / 7.0:+.1f}",
            money_text(one.money, currency),
            f"{one.odds * 100:.0f} %",
        )
    return table


def jobs_table(found: Forecast, currency: str) -> Table:
    """Return the jobs in the order of the plan."""
    table = Table(title="Jobs", title_justify="left")
    for column in ("job", "hours", "cost", "start", "end", "begun in 8 of 10 by", "critical"):
        table.add_column(column, overflow="fold")
    for one in found.jobs:
        table.add_row(
            one.name,
            f"{one.hours:.0f}",
            money_text(one.cost, currency),
            str(one.start),
            str(one.end),
            str(one.start_p80),
            f"{one.critical * 100:.0f} %",
        )
    return table


def forecast_json(found: Forecast, currency: str, baseline: Baseline | None) -> dict[str, Any]:
    """Return the forecast as JSON (free-form data); dates in ISO form."""

    def date(days: float) -> str:
        return str(found.day(days))

    return {
        "currency": currency,
        "start": str(found.start),
        "cost": {
            "plan": found.cost.plan,
            "mean": found.cost.mean,
            "p50": found.cost.p50,
            "p80": found.cost.p80,
            "p90": found.cost.p90,
            "contingency": found.cost.contingency,
        },
        "finish": {
            "plan": date(found.finish.plan),
            "mean": date(found.finish.mean),
            "p50": date(found.finish.p50),
            "p80": date(found.finish.p80),
            "p90": date(found.finish.p90),
            "contingency_days": found.finish.contingency,
        },
        "baseline": baseline
        and {
            "finish": date(baseline.finish_day),
            "bound": date(baseline.bound_day),
            "proven": baseline.proven,
        },
        "cash": [
            {"month": month, "plan": plan, "p50": middle, "p80": high}
            for month, plan, middle, high in zip(found.months, *found.cash.tolist(), strict=True)
        ],
        "orders": [
            {
                "part": one.part,
                "system": one.system,
                "order_by": date(one.safe_day),
                "wanted": date(one.needed_day),
                "chance_late": one.chance_late,
            }
            for one in found.orders
        ],
        "decisions": [
            {"system": one.system, "decide_by": date(one.safe_day), "because": one.because}
            for one in found.decisions
        ],
        "drivers": [vars(one) for one in found.drivers],
        "jobs": [_plain(vars(one)) for one in found.jobs],
    }


def _plain(one: dict[str, Any]) -> dict[str, Any]:
    return {
        name: str(value) if isinstance(value, datetime.date) else value
        for name, value in one.items()
    }
