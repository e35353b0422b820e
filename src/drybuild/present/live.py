"""What a plot shows, as data beside its SVG text: for pages where it can be pointed at."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

Data = dict[str, Any]  # JSON is free-form
DIGITS = 6
"""More than any screen can show."""


class Plot(str):
    """A plot as SVG text that still knows its figures."""

    __slots__ = ("data",)
    data: Data

    def __new__(cls, svg: str, data: Data) -> Plot:
        """Keep the figures beside the drawing."""
        found = super().__new__(cls, svg)
        found.data = data
        return found

    def __getnewargs__(self) -> tuple[str, Data]:  # type: ignore[override]  # for copies
        """Give a copy its figures too."""
        return str(self), self.data


def curve(label: str, x: Any, y: Any) -> Data:  # array-like
    """Return one line of a plot as data."""
    return {"label": label, "x": _numbers(x), "y": _numbers(y)}


def across(marks: Iterable[tuple[float, str]]) -> list[Data]:
    """Return lines across a plot, with their words."""
    return [{"at": _number(at), "words": words} for at, words in marks]


def plot_data(
    curves: Sequence[Data], *, x_label: str, y_label: str, **more: Any
) -> Data:  # free-form
    """Return a plot as data: curves, what runs along, and what else is drawn."""
    return {"curves": list(curves), "x": x_label, "y": y_label, **more}


def _numbers(values: Any) -> list[float | None]:  # array-like
    return [_number(one) for one in np.ravel(np.asarray(values, dtype=float))]


def _number(value: float) -> float | None:
    """Return a number that JSON has, short; nothing where it has none."""
    return float(f"{float(value):.{DIGITS}g}") if math.isfinite(value) else None
