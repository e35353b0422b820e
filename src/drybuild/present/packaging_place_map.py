"""Maps of where an engine may sit: the room to spare over two directions, drawn as squares."""

from __future__ import annotations

from itertools import groupby

import numpy as np

from drybuild.present.axes import SMALL, Frame, Scale, frame, numbers
from drybuild.present.numbers import in_units, unit_for
from drybuild.quantities.packaging_place_search import PlaceMap

BANDS = (
    (-np.inf, "pale-orange", "room lacks"),
    (0.0, "pale-amber", "up to 5 mm to spare"),
    (0.005, "pale-green", "5 mm and more"),
    (0.015, "pale-blue", "15 mm and more"),
)
"""From this margin on, a square's tone and what it says. [m]"""
LABELS = {
    "x": ("m", "mm", "rear face of the block, forward of the front wheels"),
    "z": ("m", "mm", "its height at the crankshaft, over the sill seam"),
    "pitch": ("rad", "deg", "tilt, nose up"),
}
SIGN = {"pitch": -1.0}
"""A person counts the tilt nose up; the sums count it nose down."""


def place_map(
    one: PlaceMap, now: tuple[float, float], best: tuple[float, float], units: str
) -> str:
    """Return a map with where the engine stands and where it sits best, as SVG.

    Parameters
    ----------
    one : PlaceMap
        The margin over two directions.
    now : pair of float
        Where it stands, in the map's directions. [m, rad]
    best : pair of float
        Where it sits best. [m, rad]
    units : str
        The units that the person reads.

    """
    xs, x_label = _along(one.across, one.xs, units)
    ys, y_label = _along(one.up, one.ys, units)
    found = frame(
        x_ticks=numbers(float(xs.min()), float(xs.max()), 8),
        y_ticks=numbers(float(ys.min()), float(ys.max()), 7),
        x_label=x_label,
        y_label=y_label,
        height=262.0,
        top=18.0,
    )
    _squares(found, xs, ys, one)
    _legend(found)
    marks = [(now, "in the file", "paper"), (best, "best", "ink")]
    if np.allclose(now, best, atol=1e-4):
        marks = [(best, "in the file, and best", "ink")]
    for at, words, fill in marks:
        x = _along(one.across, np.array([at[0]]), units)[0][0]
        y = _along(one.up, np.array([at[1]]), units)[0][0]
        place = found.at(float(x), float(y))
        found.drawing.circle(place, 3.2, fill=fill, weight=1.0)
        lift = -6.0 if fill == "ink" else 11.0
        found.drawing.words(
            (place[0] + 5.0, place[1] + lift), words, size=SMALL, bold=True, ground=True
        )
    return found.drawing.svg()


def map_words(one: PlaceMap) -> str:
    """Return what a map shows, for those who do not see it."""
    fits = (one.margins >= 0.0) & (one.kept > 0.5)
    share = f"{float(np.mean(fits)):.0%}".replace("%", " %")
    names = {"x": "fore and aft", "z": "height", "pitch": "tilt"}
    both = f"{names[one.across]} and {names[one.up]}"
    if not fits.any():
        return f"Map of {both}: no place has its room and keeps the limits."
    return f"Map of {both}: {share} of it has its room and keeps the limits."


def _squares(found: Frame, xs: np.ndarray, ys: np.ndarray, one: PlaceMap) -> None:
    lefts, rights = _edges(xs, found.x)
    lows, tops = _edges(ys, found.y)
    lacking = []
    for j in range(len(ys)):
        top, foot = found.y.at(tops[j]), found.y.at(lows[j])
        sides = [(found.x.at(a), found.x.at(b)) for a, b in zip(lefts, rights, strict=True)]
        tones = [_tone(margin) for margin in one.margins[j]]
        for tone, run in groupby(range(len(xs)), key=tones.__getitem__):
            across = sorted(x for i in run for x in sides[i])
            wide = across[-1] - across[0]
            found.drawing.box(across[0], top, wide, foot - top, tone="", fill=tone, weight=0.0)
        for i, (x, end) in enumerate(sides):
            if one.margins[j, i] < 0.0:  # told without colour too
                lacking.append(((x + end) / 2.0, (top + foot) / 2.0))
            elif one.kept[j, i] < 0.5:
                box = (x, top, end - x, foot - top)
                found.drawing.hatch(box, tone="faint", step=6.0, up=True)
    found.drawing.dots(lacking, 0.95, tone="orange")


def _edges(middles: np.ndarray, scale: Scale) -> tuple[list[float], list[float]]:
    """Return where the squares about some values begin and end, within the plot."""
    half = abs(float(middles[1] - middles[0])) / 2.0
    lows = np.maximum(middles - half, scale.low)
    return lows.tolist(), np.minimum(middles + half, scale.high).tolist()


def _tone(margin: float) -> str:
    return next(tone for bound, tone, _ in reversed(BANDS) if margin >= bound)


def _legend(found: Frame) -> None:
    x, y = found.x.start, 4.0
    for _, tone, words in BANDS:
        found.drawing.box(x, y, 9.0, 7.0, tone="faint", fill=tone, weight=0.4)
        if words == "room lacks":
            found.drawing.circle((x + 4.5, y + 3.5), 0.8, tone="orange", fill="orange", weight=0.3)
        found.drawing.words((x + 12.0, y + 6.5), words, size=SMALL)
        x += 95.0
    found.drawing.hatch((x, y, 9.0, 7.0), tone="faint", step=4.0, up=True)
    found.drawing.words((x + 12.0, y + 6.5), "a limit is broken", size=SMALL)


def _along(name: str, values: np.ndarray, units: str) -> tuple[np.ndarray, str]:
    si, shown, words = LABELS[name]
    told = in_units(SIGN.get(name, 1.0) * np.asarray(values, float), si, shown, units)
    return np.asarray(told), f"{words} [{unit_for(shown, units, '')}]"
