"""Plots as SVG text, in one quiet style: lines, distributions, bars, spans of time.

Every line is told apart by dash and label as well as colour (Okabe and Ito's colours, which
colour-blind readers can tell apart), and nothing is said by colour alone.
"""

from __future__ import annotations

import hashlib
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

INK, FAINT, RULE = "#1d2a2f", "#5b6b70", "#c9d2d3"
COLOURS = ("#0072b2", "#d55e00", "#009e73", "#cc79a7", "#56b4e9", "#e69f00", "#444444")
DASHES = ("-", "--", "-.", ":", (0, (5, 1)), (0, (3, 1, 1, 1)), (0, (1, 1)))
SIZE = (7.0, 3.4)
"""Inches; the book's text width by a third of its height."""


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of a plot."""

    label: str
    x: Any  # array-like
    y: Any  # array-like


@dataclass(frozen=True, kw_only=True)
class Mark:
    """A vertical line with words: a limit, a percentile, today."""

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
) -> str:
    """Return lines over a common axis, each labelled at its end."""
    figure, axes = _sheet(x_label, y_label)
    for place, line in enumerate(lines):
        axes.plot(
            line.x,
            line.y,
            color=COLOURS[place % len(COLOURS)],
            linestyle=DASHES[place % len(DASHES)],
            label=line.label,
            linewidth=1.6,
        )
    if from_zero:
        axes.set_ylim(bottom=0.0)
    for mark in marks:
        axes.axvline(mark.at, color=FAINT, linewidth=0.8, linestyle=":")
        axes.annotate(
            mark.words, (mark.at, 1.0), xycoords=("data", "axes fraction"), **_note(rotation=90)
        )
    for level in levels:
        axes.axhline(level.at, color=FAINT, linewidth=0.8, linestyle=":")
        axes.annotate(
            level.words, (0.0, level.at), xycoords=("axes fraction", "data"), **_note(above=True)
        )
    if len(lines) > 1:
        axes.legend(frameon=False, fontsize=8, loc="best")
    return _svg(figure)


def distribution_plot(
    values: Any,  # array-like
    *,
    x_label: str,
    marks: Sequence[Mark] = (),
    as_dates: bool = False,
) -> str:
    """Return how likely a figure is: a histogram, and the share of runs at or below each value."""
    figure, axes = _sheet(x_label, "share of runs [%]")
    found = np.asarray(values, dtype=float)
    found = found[np.isfinite(found)]
    shown = found.astype("datetime64[D]") if as_dates else found
    weights = np.full(found.size, 100.0 / max(found.size, 1))
    axes.hist(shown, bins=40, weights=weights, color="#d5e3ea", edgecolor="#9fb9c6", linewidth=0.4)
    other = axes.twinx()
    other.plot(np.sort(shown), np.linspace(0.0, 100.0, found.size), color=COLOURS[0], linewidth=1.4)
    other.set_ylabel("at or below [%]", fontsize=8, color=COLOURS[0])
    other.set_ylim(0.0, 100.0)
    other.tick_params(labelsize=8)
    other.spines["top"].set_visible(False)
    for mark in marks:
        at = np.datetime64(round(mark.at), "D") if as_dates else mark.at
        other.axvline(at, color=COLOURS[1], linewidth=1.0, linestyle="--")
        other.annotate(
            mark.words, (at, 1.0), xycoords=("data", "axes fraction"), **_note(rotation=90)
        )
    if as_dates:
        figure.autofmt_xdate(rotation=0, ha="center")
    return _svg(figure)


def bars_plot(
    labels: Sequence[str],
    values: Sequence[float],
    *,
    x_label: str,
    low: Sequence[float] | None = None,
    high: Sequence[float] | None = None,
    limits: Sequence[float | None] | None = None,
) -> str:
    """Return horizontal bars, first on top, with bands and limit marks where given."""
    figure, axes = _sheet(x_label, "", height=0.7 + 0.27 * max(len(labels), 2))
    places = np.arange(len(labels))[::-1]
    axes.barh(places, values, height=0.62, color="#b9d0dc", edgecolor=COLOURS[0], linewidth=0.6)
    if low is not None and high is not None:
        middle = np.asarray(values)
        spread = np.abs(np.vstack((middle - low, np.asarray(high) - middle)))
        axes.errorbar(
            values, places, xerr=spread, fmt="none", ecolor=INK, elinewidth=0.9, capsize=2
        )
    for place, limit in zip(places, limits or (), strict=False):
        if limit is not None:
            axes.plot([limit, limit], [place - 0.42, place + 0.42], color=COLOURS[1], linewidth=2.0)
    axes.set_yticks(places, labels, fontsize=8)
    axes.axvline(0.0, color=RULE, linewidth=0.8)
    axes.grid(axis="x", color=RULE, linewidth=0.5)
    return _svg(figure)


def months_plot(
    months: Sequence[str],
    middle: Sequence[float],
    high: Sequence[float],
    *,
    y_label: str,
    words: tuple[str, str] = ("half of the runs stay below", "8 in 10 runs stay below"),
) -> str:
    """Return a cumulative curve by month with its band."""
    figure, axes = _sheet("", y_label)
    places = np.arange(len(months))
    axes.fill_between(places, middle, high, color="#d5e3ea", step="mid")
    axes.step(places, middle, where="mid", color=COLOURS[0], linewidth=1.5, label=words[0])
    axes.step(
        places, high, where="mid", color=COLOURS[1], linewidth=1.2, linestyle="--", label=words[1]
    )
    every = max(1, len(months) // 12)
    axes.set_xticks(places[::every], list(months)[::every], fontsize=7)
    axes.set_ylim(bottom=0.0)
    axes.legend(frameon=False, fontsize=8, loc="upper left")
    return _svg(figure)


def spans_plot(
    labels: Sequence[str],
    starts: Sequence[float],
    ends: Sequence[float],
    *,
    bold: Sequence[bool] = (),
    latest: Sequence[float] | None = None,
) -> str:
    """Return spans of time, first on top; days since 1970-01-01; `bold` marks the critical ones."""
    figure, axes = _sheet("", "", height=0.6 + 0.165 * max(len(labels), 3))
    places = np.arange(len(labels))[::-1]
    for place, start, end, heavy in zip(
        places, starts, ends, list(bold) or [False] * len(labels), strict=True
    ):
        day = np.datetime64(round(start), "D")
        width = np.timedelta64(max(round(end - start), 1), "D")
        look = (
            {"color": "#e9b08f", "edgecolor": COLOURS[1], "hatch": "///"}
            if heavy
            else {"color": "#b9d0dc", "edgecolor": COLOURS[0]}
        )
        axes.barh(place, width, left=day, height=0.66, linewidth=0.6, **look)
    for place, late in zip(places, latest if latest is not None else (), strict=False):
        if np.isfinite(late):
            axes.plot(np.datetime64(round(late), "D"), place, marker="|", color=INK, markersize=7)
    axes.set_yticks(places, labels, fontsize=6.2)
    axes.set_ylim(-0.8, len(labels) - 0.2)
    axes.grid(axis="x", color=RULE, linewidth=0.5)
    axes.tick_params(axis="x", labelsize=7)
    return _svg(figure)


def _sheet(x_label: str, y_label: str, height: float = SIZE[1]) -> tuple[Any, Any]:
    # Any: the plot library's types spell out every setting by name
    from matplotlib.figure import Figure  # noqa: PLC0415  loading takes most of a second

    figure = Figure(figsize=(SIZE[0], height), layout="constrained")
    axes = figure.subplots()
    axes.set_xlabel(x_label, fontsize=8, color=INK)
    axes.set_ylabel(y_label, fontsize=8, color=INK)
    axes.tick_params(labelsize=8, colors=INK)
    axes.grid(axis="y", color=RULE, linewidth=0.5)
    axes.set_axisbelow(True)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(FAINT)
    return figure, axes


def _note(*, rotation: int = 0, above: bool = False) -> dict[str, Any]:  # annotate's own words
    look: dict[str, Any] = {"fontsize": 7, "color": FAINT, "rotation": rotation}
    if above:
        return {
            **look,
            "va": "bottom",
            "ha": "left",
            "xytext": (3, 1),
            "textcoords": "offset points",
        }
    return {**look, "va": "top", "ha": "right", "xytext": (-1, -2), "textcoords": "offset points"}


def _svg(figure: Any) -> str:  # Any: as in _sheet
    """Return the figure as SVG that is the same every time and scales with the page."""
    import matplotlib as mpl  # noqa: PLC0415  as above

    page = io.StringIO()
    look = {"svg.fonttype": "path", "svg.hashsalt": "drybuild", "font.family": "DejaVu Sans"}
    with mpl.rc_context(look):
        figure.savefig(
            page, format="svg", metadata={"Date": None, "Creator": None}, transparent=True
        )
    text = page.getvalue()
    text = text[text.index("<svg") :]
    salt = hashlib.blake2b(text.encode(), digest_size=4).hexdigest()
    return _own_names(text, salt)


def _own_names(text: str, salt: str) -> str:
    """Give the ids of one figure names of their own: many figures share one HTML page."""
    names = set(re.findall(r'id="([^"]+)"', text))
    for name in sorted(names, key=len, reverse=True):
        text = text.replace(f'id="{name}"', f'id="f{salt}{name}"')
        text = text.replace(f'"#{name}"', f'"#f{salt}{name}"')
        text = text.replace(f"url(#{name})", f"url(#f{salt}{name})")
    return text
