"""The measuring sheet's drawings: the bay with numbered lines where the tape goes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np

from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.present.packaging_paper import (
    Paper,
    draw_bodies,
    draw_datum,
    draw_lines,
    draw_number,
    draw_standing,
    draw_walls,
    free_place,
    scale_for,
)
from drybuild.present.packaging_tape import Tape
from drybuild.present.packaging_views import FRONT, PLAN, SIDE, BayScene, Look, View, view_of

MARGIN = 0.05
"""Room round the lines and the engine. [m]"""
NEAR = 0.15
"""A height so near to the car's middle (m) shows from the side, others from the front."""
BESIDE = 8.0
"""Lines over one another are drawn so far apart. [pt]"""
LEAST = 3.0
"""A shorter line on the page is drawn as a point. [pt]"""
Numbered = tuple[int, Tape]
Links = Mapping[str, str]
"""Where the entry of each reading is, by its path."""
NOWHERE: Links = MappingProxyType({})


def look_for(tape: Tape) -> Look | None:
    """Return the direction that shows a reading's line best; None where it has no line."""
    if tape.ends is None:
        return None
    way = np.abs(tape.ends[1] - tape.ends[0])
    axis = int(np.argmax(way))
    if axis == 0:
        return SIDE
    if axis == 1:
        return PLAN
    return SIDE if abs(float(tape.ends[1][1])) < NEAR else FRONT


def tape_drawings(scene: BayScene, tapes: Sequence[Tape], links: Links = NOWHERE) -> dict[str, str]:
    """Return a drawing for each direction that some line shows in, by the direction's title.

    Parameters
    ----------
    scene : BayScene
        The bay at the nominal readings.
    tapes : sequence of Tape
        The readings, numbered in this order.
    links : mapping
        Where each reading's entry is; a line without one leads nowhere.

    """
    numbered = list(enumerate(tapes, start=1))
    found = {}
    for look in (SIDE, FRONT, PLAN):
        shown = [(k, one) for k, one in numbered if look_for(one) is look]
        if shown:
            found[look.title] = _drawing(view_of(scene, look, ()), shown, links)
    return found


def _drawing(view: View, shown: Sequence[Numbered], links: Links) -> str:
    low, high = _window(view, shown)
    scale, ratio = scale_for(low, high)
    height = (high[1] - low[1]) * scale
    drawing = Drawing(height + 30.0)
    left = (WIDTH - (high[0] - low[0]) * scale) / 2.0
    paper = Paper(
        drawing=drawing, look=view.look, low=low, high=high, scale=scale, left=left, top=4.0
    )
    draw_walls(paper, view.walls)
    draw_bodies(paper, view.moving)
    draw_standing(paper, view)
    draw_lines(paper, view)
    draw_datum(paper)
    _tapes(paper, shown, links)
    words = f"{view.look.title}, scale 1 : {ratio:g} in print. 0: the datum; x from the front wheel"
    words += " centres, y from the car's middle, z from the sill seam."
    drawing.words((WIDTH / 2.0, height + 20.0), words, size=7.0, tone="faint", anchor="middle")
    return drawing.svg()


def _window(view: View, shown: Sequence[Numbered]) -> tuple[Point, Point]:
    axes = list(view.look.axes)
    points = [end[axes][None, :] for _, one in shown if one.ends for end in one.ends]
    points += [polygon for seen in view.moving if not seen.separate for polygon in seen.polygons]
    every = np.concatenate([*points, np.zeros((1, 2))])
    low, high = every.min(axis=0) - MARGIN, every.max(axis=0) + MARGIN
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _tapes(paper: Paper, shown: Sequence[Numbered], links: Links) -> None:
    """Draw each line as a dimension with its number beside it."""
    taken: list[Point] = []
    drawn: list[tuple[Point, Point]] = []
    for number, tape in shown:
        if tape.ends is None:
            continue
        ends = paper.flat(tape.ends[0]), paper.flat(tape.ends[1])
        words = f"{number}: {tape.what}, {tape.value}"
        with paper.drawing.linked(links.get(tape.path, ""), words, classes="measure"):
            start, end = _apart(paper, ends, drawn)
            drawn.append((start, end))
            taken.append(_line(paper.drawing, (start, end), number, taken))


def _line(
    drawing: Drawing, ends: tuple[Point, Point], number: int, taken: Sequence[Point]
) -> Point:
    """Draw a line with bars at its ends, or a point, and its number; return where that stands."""
    start, end = ends
    along = (end[0] - start[0], end[1] - start[1])
    long = float(np.hypot(*along))
    aside = (-along[1] / long, along[0] / long) if long > LEAST else (0.0, 1.0)
    if long > LEAST:
        drawing.dimension(start, end, "", tone="orange")
        for x, y in ends:
            bar = [(x + way * aside[0], y + way * aside[1]) for way in (-4.0, 4.0)]
            drawing.line(bar, tone="orange", weight=1.4)
    else:
        drawing.circle(end, 2.0, tone="orange", fill="orange")
    share = 0.35 + 0.1 * (number % 4)
    at = (start[0] + share * along[0], start[1] + share * along[1])
    to = free_place(at, aside, taken)
    drawing.line([at, to], tone="orange", weight=0.5)
    draw_number(drawing, to, number)
    return to


def _apart(
    paper: Paper, ends: tuple[Point, Point], drawn: Sequence[tuple[Point, Point]]
) -> tuple[Point, Point]:
    """Move a line aside until none lies over it, and join it to its places by thin lines."""
    level = abs(ends[1][0] - ends[0][0]) > abs(ends[1][1] - ends[0][1])
    across, along = (1, 0) if level else (0, 1)
    spans = [sorted((one[0][along], one[1][along])) for one in drawn]
    low, high = sorted((ends[0][along], ends[1][along]))

    def free(place: float) -> bool:
        return not any(
            abs(one[0][across] - place) < BESIDE - 0.5
            and abs(one[0][across] - one[1][across]) < 1.0
            and span[0] < high
            and span[1] > low
            for one, span in zip(drawn, spans, strict=True)
        )

    ways = [BESIDE * k * sign for k in range(8) for sign in (1.0, -1.0)]
    shift = next((one for one in ways if free(ends[0][across] + one)), 0.0)
    moved = [(x, y + shift) if level else (x + shift, y) for x, y in ends]
    if shift:
        for at, to in zip(ends, moved, strict=True):
            paper.drawing.line([at, to], tone="orange", weight=0.4)
    return moved[0], moved[1]
