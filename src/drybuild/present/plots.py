"""Plots as SVG text, in one quiet style: lines, distributions, bars, shares, months, spans.

Every line is told apart by dash and label as well as colour (after Okabe and Ito's colours, which
colour-blind readers can tell apart), and nothing is said by colour alone. They are drawn by
hand on `Drawing`: a book of twenty plots takes a plot library longer than all its sums.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from drybuild.present.axes import (
    DASHES,
    SERIES,
    SMALL,
    Frame,
    Scale,
    frame,
    month_ticks,
    numbers,
    round_ticks,
)
from drybuild.present.drawing import WIDTH, Drawing, fitted, text_width
from drybuild.present.live import Plot, across, curve, plot_data
from drybuild.present.numbers import as_text
from drybuild.project.samples import Values

TALLEST = 640.0
"""What a page holds with its caption. [pt]"""
ROW = 14.0
SPAN_ROW = 11.5
LABEL = 1.12 * SMALL
"""What a label is reckoned at where it may be bold. [pt]"""
FILLS = ("pale-green", "pale-amber", "pale-orange", "pale-blue", "pale-purple")


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of a plot."""

    label: str
    """In the legend; empty: not there."""
    x: Any  # array-like
    y: Any  # array-like
    tag: str = ""
    """Words at the line's highest point."""
    name: str = ""
    """What it is called where a page reads it off; its label, where it has one."""


@dataclass(frozen=True, kw_only=True)
class Mark:
    """A line across with words: a limit, a percentile, today."""

    at: float
    words: str


def lines_plot(
    lines: Sequence[Line],
    *,
    x_label: str,
    y_label: str,
    marks: Sequence[Mark] = (),
    levels: Sequence[Mark] = (),
    from_zero: bool = True,
    points: Sequence[tuple[float, float, str]] = (),
    height: float = 235.0,
) -> str:
    """Return lines over a common axis; `points` are single ones with words."""
    x_low, x_high = _reach([line.x for line in lines], [one.at for one in marks])
    y_low, y_high = _reach([line.y for line in lines], [one.at for one in levels])
    if from_zero:
        x_low, y_low = min(x_low, 0.0) if x_low < 0.3 * x_high else x_low, min(y_low, 0.0)
    looks = _looks(lines)
    legend = [(line.label, *look) for line, look in zip(lines, looks, strict=True) if line.label]
    found = frame(
        x_ticks=numbers(x_low, x_high, 8),
        y_ticks=numbers(y_low, y_high),
        x_label=x_label,
        y_label=y_label,
        legend=legend if len(legend) > 1 else (),
        height=height,
        top=8.0 if not marks else 16.0,
    )
    for line, (tone, dash) in zip(lines, looks, strict=True):
        places = [found.at(x, y) for x, y in zip(line.x, line.y, strict=True)]
        found.drawing.line(places, tone=tone, dash=dash, weight=1.6)
        if line.tag:
            _tag(found, line, tone)
    for x, y, words in points:
        found.drawing.circle(found.at(x, y), 2.4, fill="ink", weight=0.4)
        place = found.at(x, y)
        found.drawing.words((place[0] + 5.0, place[1] - 4.0), words, size=SMALL, ground=True)
    _levels(found, levels)
    _marks(found, marks)
    data = plot_data(
        [curve(line.name or line.label or line.tag, line.x, line.y) for line in lines],
        x_label=x_label,
        y_label=y_label,
        marks=across((one.at, one.words) for one in marks),
        levels=across((one.at, one.words) for one in levels),
        points=[{"x": x, "y": y, "words": words} for x, y, words in points],
        zero=from_zero,
    )
    return Plot(found.drawing.svg(), data)


def distribution_plot(
    values: Any,  # array-like
    *,
    x_label: str,
    marks: Sequence[Mark] = (),
    as_dates: bool = False,
) -> str:
    """Return how likely a figure is: the share of runs in each of forty steps."""
    drawn = np.asarray(values, dtype=float)
    drawn = drawn[np.isfinite(drawn)]
    low, high = np.quantile(drawn, (0.002, 0.99)) if drawn.size else (0.0, 1.0)
    high = max(float(high), *(one.at for one in marks), float(low) + 1e-9)
    counts, edges = np.histogram(drawn, bins=40, range=(float(low), high))
    shares = counts * 100.0 / max(drawn.size, 1)
    x_ticks = month_ticks(float(low), high, 9) if as_dates else numbers(float(low), high, 7)
    bounds = (float(low), high) if as_dates else None
    found = frame(
        x_ticks=x_ticks,
        y_ticks=numbers(0.0, float(shares.max()) or 1.0, 4),
        x_label=x_label,
        y_label="share of runs [%]",
        height=190.0,
        top=13.0 * len(marks) + 6.0,
        x_range=bounds,
    )
    for share, start, end in zip(shares, edges[:-1], edges[1:], strict=True):
        left, top = found.at(start, share)
        right, foot = found.at(end, 0.0)
        found.drawing.box(
            left, top, right - left, foot - top, tone="blue", fill="pale-blue", weight=0.35
        )
    _marks(found, marks, stagger=True)
    data = plot_data(
        [curve("share of runs", edges, [*shares, shares[-1]])],
        x_label=x_label,
        y_label="share of runs [%]",
        marks=across((one.at, one.words) for one in marks),
        zero=True,
        steps=True,
        days=as_dates,
    )
    return Plot(found.drawing.svg(), data)


def bars_plot(
    labels: Sequence[str],
    values: Sequence[float],
    *,
    x_label: str,
    low: Sequence[float] | None = None,
    high: Sequence[float] | None = None,
    limits: Sequence[float | None] | None = None,
    limit_words: str = "limit",
    texts: Sequence[str] = (),
) -> str:
    """Return horizontal bars, first on top, with bands, limit marks and their words."""
    ends = [*values, *(low or ()), *(high or ()), *(one for one in limits or () if one is not None)]
    found, left = _bars_frame(labels, min([0.0, *ends]), max([0.0, *ends]), x_label)
    drawing, zero = found.drawing, found.x.at(0.0)
    for place, value in enumerate(values):
        y, end = 6.0 + ROW * place, found.x.at(value)
        drawing.words((left, y + 8.0), fitted(labels[place], SMALL, left), size=SMALL, anchor="end")
        drawing.box(
            min(zero, end),
            y + 1.5,
            abs(end - zero),
            ROW - 4.0,
            tone="blue",
            fill="pale-blue",
            weight=0.5,
        )
        tip = end
        if low is not None and high is not None:
            tip = _whisker(found, low[place], high[place], y + ROW / 2.0 - 0.5)
        if limits is not None and limits[place] is not None:
            at = found.x.at(limits[place] or 0.0)
            drawing.line([(at, y - 0.5), (at, y + ROW - 1.0)], tone="orange", weight=1.8)
            tip = max(tip, at)
        if texts:
            drawing.words((max(tip, zero) + 4.0, y + 8.0), texts[place], size=SMALL, ground=True)
    if any(one is not None for one in limits or ()):
        y = drawing.height - 4.0
        drawing.line([(4.0, y - 7.0), (4.0, y)], tone="orange", weight=1.8)
        drawing.words((9.0, y), limit_words, size=SMALL)
    return drawing.svg()


def shares_plot(
    labels: Sequence[str],
    parts: dict[str, Sequence[float]],
    *,
    x_label: str,
    bold: Sequence[bool] = (),
) -> str:
    """Return bars of 100 % split into named parts; figures stand in what is wide enough."""
    left = min(max((text_width(one, LABEL) for one in labels), default=0.0) + 8.0, 190.0)
    height = 20.0 + ROW * len(labels) + 26.0
    drawing = Drawing(height)
    scale = Scale(low=0.0, high=1.0, start=left, end=WIDTH - 12.0)
    x = left
    for name, fill in zip(parts, FILLS, strict=False):
        drawing.box(x, 3.0, 10.0, 8.0, tone="faint", fill=fill, weight=0.5)
        drawing.words((x + 14.0, 10.0), name, size=8.0)
        x += text_width(name, 8.0) + 30.0
    for place, label in enumerate(labels):
        y, reached = 18.0 + ROW * place, 0.0
        heavy = bool(bold) and bold[place]
        drawing.words(
            (left - 4.0, y + 9.0),
            fitted(label, LABEL, left - 6.0),
            size=SMALL,
            anchor="end",
            bold=heavy,
        )
        for values, fill in zip(parts.values(), FILLS, strict=False):
            start, end = scale.at(reached), scale.at(reached + values[place])
            reached += values[place]
            drawing.box(start, y + 1.5, end - start, ROW - 3.5, tone="faint", fill=fill, weight=0.4)
            if end - start > 22.0:
                told = f"{values[place] * 100:.0f} %"
                drawing.words(((start + end) / 2.0, y + 9.0), told, size=7.0, anchor="middle")
    middle = (scale.start + scale.end) / 2.0
    drawing.words((middle, height - 5.0), x_label, size=8.0, tone="faint", anchor="middle")
    return drawing.svg()


def months_plot(
    months: Sequence[str],
    middle: Values,
    high: Values,
    *,
    y_label: str,
    words: tuple[str, str] = ("half of the runs stay below", "8 in 10 runs stay below"),
) -> str:
    """Return a cumulative curve by month with its band."""
    every = max(1, math.ceil(len(months) / 9))
    ticks = [(float(at), months[at]) for at in range(0, len(months), every)]
    found = frame(
        x_ticks=ticks,
        y_ticks=numbers(0.0, float(np.max(high)) or 1.0),
        x_label="",
        y_label=y_label,
        legend=[(words[0], "blue", ""), (words[1], "orange", "6 2.5")],
        x_range=(0.0, max(float(len(months) - 1), 1.0)),
    )
    steps = np.repeat(np.arange(len(months), dtype=float), 2)[1:]
    below = [found.at(x, y) for x, y in zip(steps, np.repeat(middle, 2)[:-1], strict=True)]
    above = [found.at(x, y) for x, y in zip(steps, np.repeat(high, 2)[:-1], strict=True)]
    found.drawing.line([*below, *above[::-1]], tone="", fill="band", closed=True)
    found.drawing.line(below, tone="blue", weight=1.6)
    found.drawing.line(above, tone="orange", dash="6 2.5", weight=1.4)
    places = np.arange(len(months), dtype=float)
    data = plot_data(
        [curve(words[0], places, middle), curve(words[1], places, high)],
        x_label="",
        y_label=y_label,
        zero=True,
        steps=True,
        names=list(months),
    )
    return Plot(found.drawing.svg(), data)


def spans_plot(
    labels: Sequence[str],
    starts: Sequence[float],
    ends: Sequence[float],
    *,
    bold: Sequence[bool] = (),
    latest: Sequence[float] | None = None,
    reach: tuple[float, float] | None = None,
    words: tuple[str, str, str] = ("in the plan", "often sets the end", "begun by then, 8 in 10"),
) -> str:
    """Return spans of time, first on top; days since 1970-01-01.

    `bold` marks the ones that set the end; `reach` is a time scale common to several figures.
    """
    late = latest if latest is not None else [math.nan] * len(labels)
    known = [*starts, *ends, *(one for one in late if math.isfinite(one))]
    low, high = reach or (min(known), max(known))
    left = min(max((text_width(one, LABEL) for one in labels), default=0.0) + 8.0, 178.0)
    height = 18.0 + SPAN_ROW * len(labels) + 20.0
    drawing = Drawing(height)
    scale = Scale(low=low, high=max(high, low + 1.0), start=left, end=WIDTH - 8.0)
    foot = height - 18.0
    for day, name in month_ticks(low, high, 7):
        x = scale.at(day)
        drawing.line([(x, 16.0), (x, foot)], tone="rule", weight=0.5)
        drawing.words((x, foot + 11.0), name, size=SMALL, anchor="middle")
    _spans_legend(drawing, left, words, any(bold), latest is not None)
    heavy = list(bold) or [False] * len(labels)
    for place, (start, end) in enumerate(zip(starts, ends, strict=True)):
        y = 18.0 + SPAN_ROW * place
        drawing.words(
            (left - 4.0, y + 7.5),
            fitted(labels[place], LABEL, left - 6.0),
            size=SMALL,
            anchor="end",
            bold=heavy[place],
        )
        _span(drawing, scale.at(start), scale.at(end), y, heavy=heavy[place])
        if math.isfinite(late[place]):
            at = scale.at(late[place])
            drawing.line([(at, y + 0.5), (at, y + 8.5)], tone="ink", weight=1.2)
    return drawing.svg()


def _span(drawing: Drawing, start: float, end: float, y: float, *, heavy: bool) -> None:
    wide = max(end - start, 1.5)
    tone, fill, weight = ("orange", "pale-orange", 1.2) if heavy else ("blue", "pale-blue", 0.5)
    drawing.box(start, y + 1.0, wide, SPAN_ROW - 4.0, tone=tone, fill=fill, weight=weight)


def _spans_legend(
    drawing: Drawing, left: float, words: tuple[str, str, str], heavy: bool, late: bool
) -> None:
    x = left
    _span(drawing, x, x + 14.0, 1.0, heavy=False)
    drawing.words((x + 18.0, 9.0), words[0], size=8.0)
    x += text_width(words[0], 8.0) + 32.0
    if heavy:
        _span(drawing, x, x + 14.0, 1.0, heavy=True)
        drawing.words((x + 18.0, 9.0), words[1], size=8.0, bold=True)
        x += text_width(words[1], 8.0) + 38.0
    if late:
        drawing.line([(x + 6.0, 1.5), (x + 6.0, 9.5)], weight=1.2)
        drawing.words((x + 11.0, 9.0), words[2], size=8.0)


def _bars_frame(
    labels: Sequence[str], low: float, high: float, x_label: str
) -> tuple[Frame, float]:
    left = min(max((text_width(one, SMALL) for one in labels), default=0.0) + 6.0, 190.0)
    ticks = round_ticks(low, high, 7)
    height = 10.0 + ROW * len(labels) + 28.0
    drawing = Drawing(height)
    scale = Scale(low=ticks[0], high=ticks[-1], start=left + 6.0, end=WIDTH - 62.0)
    foot = height - 26.0
    for tick in ticks:
        x = scale.at(tick)
        drawing.line([(x, 4.0), (x, foot)], tone="rule", weight=0.5)
        drawing.words((x, foot + 10.0), as_text(tick), size=SMALL, anchor="middle")
    drawing.line([(scale.at(0.0), 4.0), (scale.at(0.0), foot)], tone="faint", weight=0.8)
    middle = (scale.start + scale.end) / 2.0
    drawing.words((middle, height - 4.0), x_label, size=8.0, tone="faint", anchor="middle")
    upright = Scale(low=0.0, high=1.0, start=0.0, end=1.0)
    return Frame(drawing=drawing, x=scale, y=upright), left


def _whisker(found: Frame, low: float, high: float, y: float) -> float:
    start, end = found.x.at(low), found.x.at(high)
    found.drawing.line([(start, y), (end, y)], weight=0.9)
    for x in (start, end):
        found.drawing.line([(x, y - 2.2), (x, y + 2.2)], weight=0.9)
    return max(start, end)


def _tag(found: Frame, line: Line, tone: str) -> None:
    peak = int(np.nanargmax(np.asarray(line.y, dtype=float)))
    x, y = found.at(line.x[peak], line.y[peak])
    found.drawing.words((x + 3.0, y - 4.0), line.tag, size=8.0, tone=tone, bold=True)


def _levels(found: Frame, levels: Sequence[Mark]) -> None:
    for level in levels:
        y = found.y.at(level.at)
        found.drawing.line([(found.x.start, y), (found.x.end, y)], tone="faint", dash="1.5 2")
        at = (found.x.end, y - 3.0)
        found.drawing.words(at, level.words, size=SMALL, tone="faint", anchor="end", ground=True)


def _marks(found: Frame, marks: Sequence[Mark], *, stagger: bool = False) -> None:
    """Draw upright lines; words over the plot, each on its own row when they stagger."""
    for row, mark in enumerate(sorted(marks, key=lambda one: one.at)):
        x = found.x.at(mark.at)
        y = found.y.end - 5.0 - (13.0 * (len(marks) - 1 - row) if stagger else 0.0)
        found.drawing.line([(x, found.y.start), (x, y + 1.0)], tone="orange", dash="4 2")
        wide = text_width(mark.words, SMALL)
        right = x + wide + 8.0 > WIDTH
        at = (x - 3.0, y) if right else (x + 3.0, y)
        found.drawing.words(at, mark.words, size=SMALL, anchor="end" if right else "start")


def _looks(lines: Sequence[Line]) -> list[tuple[str, str]]:
    return [(SERIES[k % len(SERIES)], DASHES[k % len(DASHES)]) for k in range(len(lines))]


def _reach(curves: Sequence[Any], others: Sequence[float]) -> tuple[float, float]:
    """Return the least and greatest finite value (curves are array-like)."""
    found = np.concatenate([np.ravel(np.asarray(one, dtype=float)) for one in (*curves, others)])
    found = found[np.isfinite(found)]
    return (float(found.min()), float(found.max())) if found.size else (0.0, 1.0)
