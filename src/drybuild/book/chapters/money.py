"""Money and time: how likely each cost and finish is, cash by month, and what drives them."""

from __future__ import annotations

import numpy as np

from drybuild.book.figures import labelled_bars
from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet, Words
from drybuild.book.sheets import figures
from drybuild.planning.forecast import Forecast
from drybuild.present.numbers import EPOCH
from drybuild.present.plots import Mark, bars_plot, distribution_plot, months_plot
from drybuild.present.schedule_tables import MOST, money_text
from drybuild.session import Session

MONEY = (
    "parts_cost",
    "jobs_cost",
    "finds_cost",
    "total_cost",
    "planned_cost",
    "cost_at_80",
    "contingency",
    "budget",
    "dearest_month",
    "labour_worth",
    "time_contingency",
)
TITLE = "Money and time"
INTRO = (
    "Each run of the plan has its own prices, hours, delivery times and finds. The plan on paper "
    "is seldom met: look at the figures that eight of ten stay below."
)


def money_chapter(session: Session) -> Chapter:
    """Return the distributions of cost and finish, and what moves them."""
    found = session.forecast
    if found is None:
        return Chapter(title=TITLE, intro=INTRO, blocks=(Words(text="There is no plan yet."),))
    blocks: list[Block] = [
        _odds(session, found),
        Section(title="Money"),
        _cost(session, found),
        *_cash(session, found),
        Section(title="Time"),
        _finish(found),
        *labelled_bars(session, "hours_by_trade", caption="Your own hours by trade."),
        *_drivers(session, found),
    ]
    blocks += figures(session, "What it comes to", MONEY)
    return Chapter(title=TITLE, intro=INTRO, blocks=tuple(blocks))


def _odds(session: Session, found: Forecast) -> Sheet:
    currency, cost, end = session.build.currency, found.cost, found.finish
    rows = [
        (words, money_text(money, currency), str(found.day(days)), f"{days / 7.0:.0f}")
        for words, money, days in (
            ("the plan on paper: likely figures, nothing found", cost.plan, end.plan),
            ("half of the runs stay below (P50)", cost.p50, end.p50),
            ("8 in 10 runs stay below (P80)", cost.p80, end.p80),
            ("9 in 10 runs stay below (P90)", cost.p90, end.p90),
        )
    ]
    rows.append(
        (
            "to set aside above the plan (P80)",
            money_text(max(cost.contingency, 0.0), currency),
            "",
            f"{max(end.contingency, 0.0) / 7.0:.0f}",
        )
    )
    return Sheet(
        title="Cost and finish",
        columns=("", "cost", "finish", "weeks"),
        rows=tuple(rows),
        numeric=(1, 3),
        widths=(3.0, 1.2, 1.2, 0.7),
        total=True,
    )


def _cost(session: Session, found: Forecast) -> Figure:
    currency, cost = session.build.currency, found.cost
    marks = [
        Mark(at=value, words=f"{words} {money_text(value, currency)}")
        for words, value in (
            ("half below", cost.p50), ("8 in 10 below", cost.p80), ("9 in 10 below", cost.p90)
        )
    ]  # fmt: skip
    return Figure(
        svg=distribution_plot(found.total[1:], x_label=f"cost [{currency}]", marks=marks),
        caption=f"Cost of the whole build in {found.total.size - 1} runs.",
        words="; ".join(mark.words for mark in marks),
    )


def _finish(found: Forecast) -> Figure:
    start = float((found.start - EPOCH).days)
    end = found.finish
    marks = [
        Mark(at=start + days, words=f"{words} {found.day(days)}")
        for words, days in (("half by", end.p50), ("8 in 10 by", end.p80), ("9 in 10 by", end.p90))
    ]
    return Figure(
        svg=distribution_plot(
            start + found.weeks[1:] * 7.0, x_label="", marks=marks, as_dates=True
        ),
        caption=f"Day on which it is done, in {found.weeks.size - 1} runs.",
        words="; ".join(mark.words for mark in marks),
    )


def _cash(session: Session, found: Forecast) -> list[Block]:
    if found.cash.shape[1] < 2:
        return []
    last = found.cash[2, -1]
    shown = min(int((found.cash[2] < 0.995 * last).sum()) + 1, found.cash.shape[1])
    shown = max(shown, 2)
    currency = session.build.currency
    months = found.months[:shown]
    every = max(1, shown // 12)
    rows = [
        (months[k], money_text(found.cash[1, k], currency), money_text(found.cash[2, k], currency))
        for k in range(0, shown, every)
    ]
    return [
        Figure(
            svg=months_plot(months, found.cash[1, :shown], found.cash[2, :shown], y_label=currency),
            caption="Money paid by the end of each month.",
            words=f"By {months[-1]} half of the runs have paid "
            f"{money_text(found.cash[1, shown - 1], currency)}.",
        ),
        Sheet(
            title="Cash to have ready",
            columns=("by the end of", "half of the runs", "8 in 10 runs"),
            rows=tuple(rows),
            numeric=(1, 2),
            widths=(1.0, 1.0, 1.0),
        ),
    ]


def _drivers(session: Session, found: Forecast) -> list[Block]:
    drivers = found.drivers[:MOST]
    if not drivers:
        return []
    currency = session.build.currency
    weeks = np.array([one.days / 7.0 for one in drivers])
    svg = bars_plot(
        [f"{one.name} ({one.kind})" for one in drivers],
        weeks.tolist(),
        x_label="weeks that it moves the end",
        texts=[money_text(one.money, currency) if abs(one.money) >= 1.0 else "" for one in drivers],
    )
    words = "; ".join(
        f"{one.name} {one.days / 7.0:+.1f} weeks, {money_text(one.money, currency)}"
        for one in drivers
    )
    return [
        Section(title="What moves them"),
        Figure(
            svg=svg,
            caption="What moves the end most: mean of the runs on its bad side less the others. "
            "Beside each bar: what it adds to the cost.",
            words=words,
        ),
    ]
