"""The engine in its bay to scale, from one side: outlines, sections, the tightest gaps, a title."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.checks.verdicts import State
from drybuild.physics.solids.outlines import parted
from drybuild.present.drawing import WIDTH, Drawing, Point, fitted
from drybuild.present.packaging_pairs import Pair, pair_cells
from drybuild.present.packaging_paper import (
    AXES,
    BEYOND,
    Paper,
    draw_bodies,
    draw_datum,
    draw_lines,
    draw_number,
    draw_standing,
    draw_walls,
    edges_of,
    free_place,
    outline,
    scale_for,
    way_words,
)
from drybuild.present.packaging_views import PLAN, SIDE, View
from drybuild.project.build import Build
from drybuild.quantities.packaging_scene import BELL

MARGIN = 0.03
"""Room drawn round the engine and what stands near it. [m]"""
REACH = 0.22
"""How far beyond the engine what stands in the bay is still drawn. [m]"""
STYLES = {
    State.FAILS: (2.0, ""), State.TIGHT: (1.3, "5 2"),
    State.OPEN: (1.3, "1 2"), State.GOOD: (0.9, ""),
}  # fmt: skip
"""Weight and dashes of a gap's line by its verdict."""
ENDS = ("radiator", "bulkhead")
Told = Callable[[float], str]


@dataclass(frozen=True, kw_only=True)
class Titles:
    """What a drawing says of itself."""

    build: str
    engine: str
    told: Told
    """A length in metres in the reader's unit."""
    row: Callable[[Pair], str]
    """A gap in words: against what, gap, spread, need, verdict."""


def titles_of(build: Build, told: Told) -> Titles:
    """Return the titles of a build's drawings."""

    def row(pair: Pair) -> str:
        against, gap, band, need, verdict, *_ = pair_cells(pair, build.units, build.currency)
        return f"{against}: {gap} ({band}), needs {need}: {verdict}; {pair.where}"

    engine = build.assumed_picks().get("engine") or "engine"
    return Titles(build=build.name, engine=f"engine: {engine}", told=told, row=row)


def fit_drawing(view: View, titles: Titles) -> str:
    """Return a view as SVG, at a round scale where a point of the drawing is a point of paper."""
    low, high = _window(view)
    scale, ratio = scale_for(low, high)
    rows = max(len(view.gaps), 1)
    foot = (high[1] - low[1]) * scale + 16.0
    drawing = Drawing(foot + 20.0 + rows * 11.0 + 42.0)
    left = (WIDTH - (high[0] - low[0]) * scale) / 2.0
    paper = Paper(
        drawing=drawing, look=view.look, low=low, high=high, scale=scale, left=left, top=12.0
    )
    draw_walls(paper, view.walls)
    for wheel in view.wheels:
        outline(paper, edges_of(wheel), tone="faint", weight=0.6, dash=BEYOND)
    draw_bodies(paper, view.moving)
    draw_standing(paper, view)
    draw_lines(paper, view)
    _names(paper, view)
    _dimensions(paper, view, titles.told)
    draw_datum(paper)
    _gaps(paper, view.gaps)
    _list(drawing, view.gaps, titles, foot + 8.0)
    _title(drawing, view, titles, ratio)
    return drawing.svg()


def _window(view: View) -> tuple[Point, Point]:
    """Return what of the view is drawn: the engine, what stands near, the gaps, the road."""
    points = np.concatenate(
        [one for seen in view.moving if not seen.separate for one in seen.polygons]
    )
    low, high = points.min(axis=0), points.max(axis=0)
    near = [points]
    others = [*view.standing, *(seen for seen in view.moving if seen.separate)]
    for polygon in (one for seen in others for one in seen.polygons):
        least, most = polygon.min(axis=0), polygon.max(axis=0)
        if (least < high + REACH).all() and (most > low - REACH).all():
            near.append(np.clip(polygon, low - REACH, high + REACH))
    for _, pair in view.gaps:
        at = pair.gap.nominal.at_fixed[list(view.look.axes)]
        if (at < low - REACH).any() or (at > high + REACH).any():
            continue
        near.append(np.clip(at, low - REACH, high + REACH)[None, :])
    if "road" in view.lines:
        (_, first), (_, last) = view.lines["road"]
        near.append(np.array([[low[0], max(min(first, last), low[1] - REACH)]]))
    if view.look.axes[0] == 0:
        ends = [wall.face[:, :, 0] for wall in view.walls if wall.name in ENDS and len(wall.face)]
        near += [np.array([[float(np.clip(one.mean(), -0.8, 0.8)), low[1]]]) for one in ends]
        near.append(np.array([[0.0, low[1]]]))
    every = np.concatenate(near)
    least, most = every.min(axis=0) - MARGIN, every.max(axis=0) + MARGIN
    return (float(least[0]), float(least[1])), (float(most[0]), float(most[1]))


def _names(paper: Paper, view: View) -> None:
    """Write the names of what is drawn where each has its middle, and none over another."""
    taken: list[tuple[float, float, float, float]] = []
    named: list[tuple[str, Point, str]] = []
    for seen in (*view.standing, *view.moving):
        points = np.concatenate(seen.polygons) if seen.polygons else np.zeros((0, 2))
        inside = points[
            (points >= np.array(paper.low)).all(axis=1)
            & (points <= np.array(paper.high)).all(axis=1)
        ]
        if len(inside):
            middle = (inside.min(axis=0) + inside.max(axis=0)) / 2.0
            tone = "purple" if seen in view.standing else "ink"
            named.append((seen.name, paper.at(middle), tone))
    for wall in view.walls:
        _, inside = parted(lines=wall.face, polygons=[paper.window])
        if len(inside):
            longest = max(inside, key=lambda one: float(np.linalg.norm(one[1] - one[0])))
            named.append((wall.name, paper.at(longest.mean(axis=0)), "faint"))
    for name, (x, y), tone in named:
        words = fitted(name, 6.5, 90.0)
        half = len(words) * 1.7
        for down in (0.0, 8.0, -8.0, 16.0, -16.0, 24.0):
            box = (x - half, y + down - 5.0, x + half, y + down + 3.0)
            if not any(_meet(box, other) for other in taken):
                taken.append(box)
                at = (min(max(x, half), WIDTH - half), y + down + 2.0)
                paper.drawing.words(at, words, size=6.5, tone=tone, anchor="middle", ground=True)
                break


def _meet(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _dimensions(paper: Paper, view: View, told: Told) -> None:
    """Draw the engine's length or width, the bay's, and the room under the sump."""
    engine = np.concatenate(
        [
            one
            for seen in view.moving
            if seen.kind != "gearbox" and seen.name != BELL and not seen.separate
            for one in seen.polygons
        ]
    )
    low, high = engine.min(axis=0), engine.max(axis=0)
    foot = paper.low[1] + 0.012
    if view.look is PLAN:
        _span(paper, (low[0], high[0]), paper.high[1] - 0.014, "engine", told)
        return
    _span(paper, (low[0], high[0]), foot + 0.032, "engine", told)
    if view.look is SIDE:
        ends = {wall.name: float(wall.face[0, 0, 0]) for wall in view.walls if len(wall.face)}
        if all(name in ends for name in ENDS):
            _span(paper, (ends["bulkhead"], ends["radiator"]), foot, "bulkhead to radiator", told)
    else:
        inner = _between(view)
        if inner is not None:
            _span(paper, inner, foot, "between the walls at the crankshaft", told)
    if "road" in view.lines:
        where = float(engine[np.argmin(engine[:, 1]), 0])
        (x1, z1), (x2, z2) = view.lines["road"]
        road = z1 + (where - x1) / (x2 - x1) * (z2 - z1)
        start, end = paper.at((where, low[1])), paper.at((where, road))
        paper.drawing.dimension(start, end, told(float(low[1]) - road), size=7.0)


def _span(paper: Paper, ends: tuple[float, float], height: float, words: str, told: Told) -> None:
    start, end = sorted(paper.at((one, height)) for one in ends)
    text = f"{words} {told(abs(ends[1] - ends[0]))}"
    paper.drawing.dimension(start, end, text, size=7.0)
    for x, y in (start, end):
        paper.drawing.line([(x, y - 4.0), (x, y + 4.0)], tone="faint", weight=0.5)


def _between(view: View) -> tuple[float, float] | None:
    """Return the walls to the right and left of the crankshaft at its height."""
    level = view.level
    crossed = [
        float(a[0] + (level - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
        for wall in view.walls
        for a, b in wall.face
        if min(a[1], b[1]) <= level <= max(a[1], b[1]) and a[1] != b[1]
    ]
    right, left = [one for one in crossed if one < 0.0], [one for one in crossed if one > 0.0]
    return (max(right), min(left)) if right and left else None


def _gaps(paper: Paper, gaps: Iterable[tuple[int, Pair]]) -> None:
    """Draw each gap between its closest points, with its number."""
    taken: list[Point] = []
    for number, pair in gaps:
        one = pair.gap.nominal
        start, end = paper.flat(one.at_moving), paper.flat(one.at_fixed)
        weight, dash = STYLES[pair.judged.state]
        drawing = paper.drawing
        drawing.line([start, end], tone="orange", weight=weight, dash=dash)
        for at in (start, end):
            drawing.circle(at, 1.3, tone="orange", fill="orange", weight=0.2)
        along = (end[0] - start[0], end[1] - start[1])
        long = max((along[0] ** 2 + along[1] ** 2) ** 0.5, 1e-6)
        middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
        to = free_place(middle, (-along[1] / long, along[0] / long), taken)
        taken.append(to)
        drawing.line([middle, to], tone="orange", weight=0.5)
        draw_number(drawing, to, number)


def _list(drawing: Drawing, gaps: Sequence[tuple[int, Pair]], titles: Titles, top: float) -> None:
    """List the gaps under the view: number, line, words."""
    if not gaps:
        drawing.words((WIDTH / 2.0, top + 6.0), "no gap here is among the tightest", size=7.5,
                      tone="faint", anchor="middle")  # fmt: skip
    for row, (number, pair) in enumerate(gaps):
        y = top + row * 11.0 + 5.0
        draw_number(drawing, (8.0, y), number)
        weight, dash = STYLES[pair.judged.state]
        drawing.line([(18.0, y), (42.0, y)], tone="orange", weight=weight, dash=dash)
        drawing.words((48.0, y + 2.6), fitted(titles.row(pair), 7.5, WIDTH - 50.0), size=7.5)


def _title(drawing: Drawing, view: View, titles: Titles, ratio: float) -> None:
    """Draw the title block: whose, what, scale, axes, datum, cut."""
    top, high = drawing.height - 38.0, 37.0
    drawing.box(0.5, top, WIDTH - 1.0, high, weight=0.9)
    for x in (176.0, 274.0):
        drawing.line([(x, top), (x, top + high)], weight=0.5)
    drawing.words((6.0, top + 12.0), fitted(titles.build, 9.0, 166.0), size=9.0, bold=True)
    drawing.words((6.0, top + 22.5), fitted(titles.engine, 7.5, 166.0), size=7.5)
    drawing.words((6.0, top + 32.0), view.look.title, size=7.5, tone="faint")
    drawing.words((182.0, top + 13.0), f"scale 1 : {ratio:g}", size=9.0, bold=True)
    drawing.words((182.0, top + 23.0), "in print at full width", size=7.0, tone="faint")
    along = ", ".join(way_words(view.look, k) for k in (0, 1))
    drawing.words((182.0, top + 32.0), along, size=7.0, tone="faint")
    cross = AXES[view.look.across]
    cut = titles.told(view.at)
    lines = (
        "Datum 0: front wheel centres, middle, sill seam.",
        f"Walls (heavy lines) are cut at {cross} = {cut}.",
        "Dashed: hidden. Long and short dashes: wheels, axes.",
    )
    for k, words in enumerate(lines):
        drawing.words((280.0, top + 11.0 + k * 10.0), fitted(words, 6.8, 200.0), size=6.8)


def words_of(view: View, titles: Titles) -> str:
    """Return a view for those who cannot see it."""
    gaps = "; ".join(f"{number}: {titles.row(pair)}" for number, pair in view.gaps)
    return f"{view.look.title}: {titles.engine} in its bay. " + (gaps or "No tight gap shows here.")
