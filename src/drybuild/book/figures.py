"""Figures of quantities: bars of a labelled one with band and limit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeVar

import numpy as np

from drybuild.book.numbers import shown_unit
from drybuild.book.pages import Block, Figure
from drybuild.present.numbers import in_units
from drybuild.present.plots import bars_plot
from drybuild.quantities.graph import summary
from drybuild.session import Session

T = TypeVar("T")


def in_pages(rows: Sequence[T], most: int) -> list[tuple[int, Sequence[T]]]:
    """Cut rows into the fewest figures that hold `most` rows each, evenly; with their places."""
    count = max(1, math.ceil(len(rows) / most))
    size = math.ceil(len(rows) / count)
    return [(start, rows[start : start + size]) for start in range(0, len(rows), max(size, 1))]


def labelled_bars(
    session: Session,
    name: str,
    *,
    caption: str,
    limit: str = "",
    limit_words: str = "limit",
) -> list[Block]:
    """Return bars of a labelled quantity, a bar a label; nothing while it is open.

    `limit` names another quantity of the same unit, single or with the same labels.
    """
    result = session.quantities.get(name)
    if result is None or result.open or not result.labelled():
        return []
    one, units = result.quantity, session.build.units
    bands = {
        label: in_units(np.array(summary(values)), one.unit, one.shown, units)
        for label, values in result.labelled().items()
    }
    limits = _limits(session, limit, list(bands), one.unit, one.shown) if limit else None
    unit = shown_unit(session, one.shown)
    svg = bars_plot(
        list(bands),
        [float(band[0]) for band in bands.values()],
        x_label=f"{one.label[:1].lower()}{one.label[1:]} [{unit}]",
        low=[float(band[1]) for band in bands.values()],
        high=[float(band[2]) for band in bands.values()],
        limits=limits,
        limit_words=limit_words,
    )
    words = "; ".join(f"{label} {band[0]:.4g} {unit}" for label, band in bands.items())
    return [Figure(svg=svg, caption=caption, words=f"{one.label}: {words}.")]


def _limits(
    session: Session, name: str, labels: list[str], si_unit: str, shown: str
) -> list[float | None]:
    found = session.quantities[name].labelled()
    units = session.build.units

    def at(label: str) -> float | None:
        values = found.get(label, found.get(""))
        if values is None or not np.isfinite(values[0]):
            return None
        return float(in_units(np.array(values[0]), si_unit, shown, units))

    return [at(label) for label in labels]
