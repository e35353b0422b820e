"""Plots: round ticks, words that fit, nothing of the person's that is markup."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import numpy as np
import pytest

from drybuild.present import plots
from drybuild.present.axes import month_ticks, round_ticks
from drybuild.present.drawing import Drawing, fitted, text_width

HOSTILE = '<script>alert(1)</script> & "$x$" \x08 #import'


def texts(svg: str) -> list[str]:
    root = ElementTree.fromstring(svg)
    return [one.text or "" for one in root.iter("{http://www.w3.org/2000/svg}text")]


# Worked out by hand: the first of 1, 2, 2.5 and 5 times a power of ten that needs few steps.
@pytest.mark.parametrize(
    ("low", "high", "ticks"),
    [
        (0.0, 1.0, [0.0, 0.2, 0.4, 0.6, 0.8, 1.0]),
        (0.0, 6700.0, [0.0, 2000.0, 4000.0, 6000.0, 8000.0]),
        (-11.0, 14.0, [-15.0, -10.0, -5.0, 0.0, 5.0, 10.0, 15.0]),
    ],
)
def test_ticks_are_round_and_cover(low: float, high: float, ticks: list[float]) -> None:
    assert round_ticks(low, high, 6) == pytest.approx(ticks)


@pytest.mark.parametrize("reach", [(3.0, 3.0), (0.0, math.inf), (math.nan, 1.0)])
def test_ticks_of_no_reach_do_not_fail(reach: tuple[float, float]) -> None:
    assert len(round_ticks(*reach)) == 2


def test_months_are_named_by_their_first_day() -> None:
    first, last = 365.0 * 57, 365.0 * 58
    found = month_ticks(first, last, 8)
    assert 3 <= len(found) <= 8
    for day, name in found:
        assert str(np.datetime64(0, "D") + np.timedelta64(round(day), "D")) == f"{name}-01"


def test_what_does_not_fit_is_cut() -> None:
    cut = fitted("a very long name of a job that goes on", 8.0, 60.0)
    assert cut.endswith("…")
    assert text_width(cut, 8.0) <= 60.0
    assert fitted("short", 8.0, 60.0) == "short"


def test_a_line_breaks_where_there_is_no_value() -> None:
    drawing = Drawing(10.0)
    drawing.line([(0, 0), (1, 1), (math.nan, 2), (3, 3), (4, 4), (5, math.inf)])
    assert drawing.svg().count("M") == 2
    assert "nan" not in drawing.svg()


@pytest.mark.parametrize(
    "svg",
    [
        plots.bars_plot([HOSTILE], [1.0], x_label=HOSTILE, texts=[HOSTILE]),
        plots.shares_plot([HOSTILE], {HOSTILE: [1.0]}, x_label=HOSTILE),
        plots.spans_plot([HOSTILE], [20000.0], [20010.0]),
        plots.lines_plot(
            [plots.Line(label=HOSTILE, x=[0, 1], y=[0, 1], tag=HOSTILE)] * 2,
            x_label=HOSTILE,
            y_label=HOSTILE,
            marks=[plots.Mark(at=0.5, words=HOSTILE)],
        ),
    ],
)
def test_words_stay_words(svg: str) -> None:
    assert "<script" not in svg
    told = " ".join(texts(svg))
    assert "<script>" in told
    assert "\x08" not in svg


def test_a_distribution_shows_every_run_below_its_last_mark() -> None:
    drawn = np.random.default_rng(7).lognormal(10.0, 0.2, 4000)
    mark = plots.Mark(at=float(np.quantile(drawn, 0.995)), words="far out")
    svg = plots.distribution_plot(drawn, x_label="EUR", marks=[mark])
    assert "far out" in texts(svg)
    assert len(re.findall("<rect", svg)) == 40


@pytest.mark.parametrize("values", [[], [math.nan, math.nan], [5.0]])
def test_a_distribution_of_nothing_does_not_fail(values: list[float]) -> None:
    assert plots.distribution_plot(values, x_label="EUR").startswith("<svg")


def test_bars_below_nothing_have_their_axis() -> None:
    told = texts(plots.bars_plot(["a", "b"], [-3.0, -1.0], x_label="kg"))
    assert "0" in told
    assert any(one.startswith("−") for one in told)


def test_every_line_has_its_own_dash() -> None:
    lines = [plots.Line(label=str(k), x=[0, 1], y=[k, k + 1]) for k in range(7)]
    svg = plots.lines_plot(lines, x_label="x", y_label="y")
    dashes = re.findall(r'stroke-width="1.6"(?: stroke-dasharray="([^"]*)")?', svg)
    assert len(set(dashes)) == 7
