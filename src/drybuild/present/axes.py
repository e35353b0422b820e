"""The frame of a plot: scales, round ticks, grid, legend. Drawn in points on a `Drawing`."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

from drybuild.present.drawing import WIDTH, Drawing, Point, fitted, text_width
from drybuild.present.numbers import EPOCH, as_text

SMALL = 7.5
"""Size of labels. [pt]"""
SERIES = ("blue", "orange", "green", "purple", "sky", "amber", "faint")
DASHES = ("", "6 2.5", "7 2 1.5 2", "1.5 2", "10 2", "4 2 1.5 2 1.5 2", "3 3")


@dataclass(frozen=True, kw_only=True)
class Scale:
    """Values to places along one direction."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return the place of a value. [pt]."""
        reach = self.high - self.low or 1.0
        return self.start + (float(value) - self.low) / reach * (self.end - self.start)


def round_ticks(low: float, high: float, about: int = 6) -> list[float]:
    """Return round values that cover a range: steps of 1, 2, 2.5 or 5 times a power of ten."""
    reach = high - low
    if not math.isfinite(reach) or reach <= 0.0:
        return [low, low + 1.0]
    power = 10.0 ** math.floor(math.log10(reach / about))
    step = next(m * power for m in (1.0, 2.0, 2.5, 5.0, 10.0) if reach / (m * power) <= about)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [k * step for k in range(first, last + 1)]


def month_ticks(low: float, high: float, most: int = 8) -> list[tuple[float, str]]:
    """Return the first days of months, evenly apart, with their names; days since 1970."""
    start, end = (EPOCH + datetime.timedelta(days=math.floor(day)) for day in (low, high))
    months = (end.year - start.year) * 12 + end.month - start.month + 1
    step = next((one for one in (1, 2, 3, 6, 12, 24, 60) if months / one <= most), 120)
    first = start.year * 12 + start.month - 1
    first -= first % step
    found = []
    for month in range(first, end.year * 12 + end.month + step, step):
        day = float((datetime.date(month // 12, month % 12 + 1, 1) - EPOCH).days)
        if low <= day <= high:
            found.append((day, f"{month // 12}-{month % 12 + 1:02}"))
    return found


@dataclass(frozen=True, kw_only=True)
class Frame:
    """A plot's inside with its two scales."""

    drawing: Drawing
    x: Scale
    y: Scale

    def at(self, x: float, y: float) -> Point:
        """Return the place of a pair of values."""
        return self.x.at(x), self.y.at(y)


def frame(
    *,
    x_ticks: Sequence[tuple[float, str]],
    y_ticks: Sequence[tuple[float, str]],
    x_label: str,
    y_label: str,
    legend: Sequence[tuple[str, str, str]] = (),
    height: float = 235.0,
    top: float = 8.0,
    x_range: tuple[float, float] | None = None,
) -> Frame:
    """Return an empty plot with grid, ticks, labels and legend.

    Parameters
    ----------
    x_ticks, y_ticks : sequences
        Values with their words; the first and last bound the plot. [-]
    x_label, y_label : str
        What runs along, with units. [-]
    legend : sequence
        Words, tone and dash of each line. [-]
    height : float
        Of the whole plot. [pt]
    top : float
        Room kept over the inside, for marks. [pt]
    x_range : pair of float
        Bounds, where they are not those of the ticks. [-]

    """
    wide = max((text_width(words, SMALL) for _, words in y_ticks), default=0.0)
    left = wide + (18.0 if y_label else 6.0)
    rows = _legend_rows(legend)
    above = top + 13.0 * len(rows)
    below = 26.0 if x_label else 15.0
    drawing = Drawing(height)
    low, high = x_range or (x_ticks[0][0], x_ticks[-1][0])
    found = Frame(
        drawing=drawing,
        x=Scale(low=low, high=high, start=left, end=WIDTH - 12.0),
        y=Scale(low=y_ticks[0][0], high=y_ticks[-1][0], start=height - below, end=above),
    )
    _ticks(found, x_ticks, y_ticks)
    middle = (found.x.start + found.x.end) / 2.0
    drawing.words((middle, height - 4.0), x_label, size=8.0, tone="faint", anchor="middle")
    upright = (8.0, (found.y.start + found.y.end) / 2.0)
    drawing.words(upright, y_label, size=8.0, tone="faint", anchor="middle", turn=-90.0)
    _legend(drawing, rows, left, top)
    return found


def numbers(low: float, high: float, about: int = 6) -> list[tuple[float, str]]:
    """Return round ticks with their words."""
    return [(one, as_text(one)) for one in round_ticks(low, high, about)]


def _ticks(
    found: Frame, x_ticks: Sequence[tuple[float, str]], y_ticks: Sequence[tuple[float, str]]
) -> None:
    drawing, left, right = found.drawing, found.x.start, found.x.end
    foot = found.y.start
    for value, words in y_ticks:
        y = found.y.at(value)
        drawing.line([(left, y), (right, y)], tone="rule", weight=0.5)
        drawing.words((left - 4.0, y + 2.5), words, size=SMALL, anchor="end")
    for value, words in x_ticks:
        x = found.x.at(value)
        drawing.line([(x, foot), (x, foot + 3.0)], tone="faint", weight=0.6)
        drawing.words((x, foot + 11.0), words, size=SMALL, anchor="middle")
    drawing.line([(left, foot), (right, foot)], tone="faint", weight=0.8)


def _legend_rows(legend: Sequence[tuple[str, str, str]]) -> list[list[tuple[str, str, str]]]:
    rows: list[list[tuple[str, str, str]]] = []
    room = 0.0
    for words, tone, dash in legend:
        wide = text_width(words, 8.0) + 36.0
        if not rows or wide > room:
            rows.append([])
            room = WIDTH - 40.0
        rows[-1].append((words, tone, dash))
        room -= wide
    return rows


def _legend(
    drawing: Drawing, rows: Sequence[Sequence[tuple[str, str, str]]], left: float, top: float
) -> None:
    for row, entries in enumerate(rows):
        x, y = left, 9.0 + 13.0 * row
        for words, tone, dash in entries:
            drawing.line([(x, y - 2.5), (x + 20.0, y - 2.5)], tone=tone, dash=dash, weight=1.6)
            shown = fitted(words, 8.0, WIDTH - 60.0)
            drawing.words((x + 24.0, y), shown, size=8.0)
            x += text_width(shown, 8.0) + 36.0
