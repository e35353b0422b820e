"""The engine in its bay to scale, from one side: outlines, sections, the tightest gaps, a title."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.checks.verdicts import State
from drybuild.physics.solids.outlines import Polygon, Segments, clipped, parted, union_edges
from drybuild.physics.solids.shapes import Array
from drybuild.present.drawing import WIDTH, Drawing, Point, fitted
from drybuild.present.packaging_pairs import Pair, pair_cells
from drybuild.present.packaging_views import PLAN, SIDE, Cut, Look, Seen, View
from drybuild.project.build import Build
from drybuild.quantities.packaging_scene import BELL

PER_METRE = 72.0 / 0.0254
"""Points of a drawing for a metre at full size."""
SCALES = (2.0, 5.0, 10.0, 12.5, 15.0, 20.0, 25.0, 50.0)
MARGIN = 0.03
"""Room drawn round the engine and what stands near it. [m]"""
REACH = 0.22
"""How far beyond the engine what stands in the bay is still drawn. [m]"""
EDGE = 3.0
"""Room for words at the sides of the view. [pt]"""
FILLS = {"hot": "pale-orange", "rotating": "pale-amber", "gearbox": "pale-purple"}
STYLES = {
    State.FAILS: (2.0, ""), State.TIGHT: (1.3, "5 2"),
    State.OPEN: (1.3, "1 2"), State.GOOD: (0.9, ""),
}  # fmt: skip
"""Weight and dashes of a gap's line by its verdict."""
HIDDEN, BEYOND, AXIS = "2.4 1.8", "6 1.5 1 1.5", "9 2 2 2"
ENDS = ("radiator", "bulkhead")
AXES = ("x", "y", "z")
WAYS = {"x": "forward", "y": "left", "z": "up"}
ARROWS = (("→", "←"), ("↑", "↓"))
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


@dataclass(frozen=True, kw_only=True)
class _Paper:
    drawing: Drawing
    look: Look
    low: Point
    high: Point
    scale: float
    left: float
    top: float

    def at(self, place: Sequence[float] | Array) -> Point:
        """Return where a place of the view is on the page."""
        across, down = (
            (place[k] - self.low[k] if turn > 0.0 else self.high[k] - place[k]) * self.scale
            for k, turn in enumerate(self.look.turns)
        )
        height = (self.high[1] - self.low[1]) * self.scale
        return self.left + across, self.top + height - down

    def flat(self, place: Array) -> Point:
        """Return where a point in space is on the page."""
        return self.at([place[k] for k in self.look.axes])

    @property
    def window(self) -> Polygon:
        (a, b), (c, d) = self.low, self.high
        return np.array([(a, b), (c, b), (c, d), (a, d)])


def fit_drawing(view: View, titles: Titles) -> str:
    """Return a view as SVG, at a round scale where a point of the drawing is a point of paper."""
    low, high = _window(view)
    scale, ratio = _scale(low, high)
    rows = max(len(view.gaps), 1)
    foot = (high[1] - low[1]) * scale + 16.0
    drawing = Drawing(foot + 20.0 + rows * 11.0 + 42.0)
    left = (WIDTH - (high[0] - low[0]) * scale) / 2.0
    paper = _Paper(
        drawing=drawing, look=view.look, low=low, high=high, scale=scale, left=left, top=12.0
    )
    _walls(paper, view.walls)
    for wheel in view.wheels:
        _outline(paper, _edges(wheel), tone="faint", weight=0.6, dash=BEYOND)
    _bodies(paper, view.moving)
    _standing(paper, view)
    _axes_lines(paper, view)
    _names(paper, view)
    _dimensions(paper, view, titles.told)
    _datum(paper)
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


def _scale(low: Point, high: Point) -> tuple[float, float]:
    """Return points for a metre, and the ratio: the largest that the page holds."""
    for ratio in SCALES:
        scale = PER_METRE / ratio
        if (high[0] - low[0]) * scale <= WIDTH - 2.0 * EDGE and (high[1] - low[1]) * scale <= 330.0:
            return scale, ratio
    return PER_METRE / SCALES[-1], SCALES[-1]


def _edges(polygon: Polygon) -> Segments:
    return np.stack([polygon, np.roll(polygon, -1, axis=0)], axis=1)


def _outline(
    paper: _Paper, lines: Segments, *, tone: str = "ink", weight: float = 0.8, dash: str = ""
) -> None:
    """Draw lines as far as the window reaches."""
    _, inside = parted(lines=lines, polygons=[paper.window])
    nan = (float("nan"), float("nan"))
    path = [point for a, b in inside for point in (paper.at(a), paper.at(b), nan)]
    paper.drawing.line(path, tone=tone, weight=weight, dash=dash)


def _fill(paper: _Paper, polygon: Polygon, fill: str, tone: str = "", weight: float = 0.3) -> None:
    kept = clipped(polygon=polygon, low=paper.low, high=paper.high)
    if len(kept) > 2:
        corners = [paper.at(one) for one in kept]
        paper.drawing.line(corners, tone=tone, weight=weight, closed=True, fill=fill)


def _walls(paper: _Paper, walls: Iterable[Cut]) -> None:
    """Draw what the plane cuts: a ground tone behind, a heavy line along the true skin."""
    every = list(walls)
    for wall in every:
        for polygon in wall.polygons:
            _fill(paper, polygon, "band")
    for wall in every:
        _outline(paper, wall.face, weight=1.6)


def _bodies(paper: _Paper, moving: Sequence[Seen]) -> None:
    """Draw the engine: far pieces first, then the outline of all, then what is hidden, dashed."""
    pieces = sorted(
        (
            (depth, polygon, _tone(seen))
            for seen in moving
            for polygon, depth in zip(seen.polygons, seen.depth, strict=True)
        ),
        key=lambda one: one[0],
    )
    for _, polygon, fill in pieces:
        _fill(paper, polygon, fill, "faint", 0.3)
    for seen in sorted(moving, key=lambda one: one.nearest):
        nearer = [
            polygon
            for other in moving
            if other is not seen
            for polygon, depth in zip(other.polygons, other.depth, strict=True)
            if depth > seen.nearest
        ]
        shown, hidden = parted(lines=union_edges(polygons=seen.polygons), polygons=nearer)
        _outline(paper, shown, weight=0.8)
        _outline(paper, hidden, weight=0.5, dash=HIDDEN)


def _tone(seen: Seen) -> str:
    if seen.name == BELL:
        return "paper"
    return "pale-green" if seen.name == "sump" else FILLS.get(seen.kind, "pale-blue")


def _standing(paper: _Paper, view: View) -> None:
    """Draw what stands in the bay: whole lines where it is nearer to the eye, else dashed."""
    for seen in view.standing:
        behind = [
            polygon
            for other in view.moving
            for polygon, depth in zip(other.polygons, other.depth, strict=True)
            if depth > seen.nearest
        ]
        shown, hidden = parted(lines=union_edges(polygons=seen.polygons), polygons=behind)
        _outline(paper, shown, tone="purple", weight=1.0)
        _outline(paper, hidden, tone="purple", weight=0.8, dash=HIDDEN)


def _axes_lines(paper: _Paper, view: View) -> None:
    for name, (start, end) in view.lines.items():
        line = np.array([[start, end]])
        if name == "crankshaft":
            way = (line[0, 1] - line[0, 0]) / max(
                float(np.linalg.norm(line[0, 1] - line[0, 0])), 1e-9
            )
            line = np.array([[line[0, 0] - 0.03 * way, line[0, 1] + 0.03 * way]])
        road = name == "road"
        _outline(
            paper,
            line,
            tone="ink" if road else "blue",
            weight=1.4 if road else 0.6,
            dash="" if road else AXIS,
        )
        _, inside = parted(lines=line, polygons=[paper.window])
        if len(inside):
            ends = sorted(paper.at(one) for one in inside[0])
            at = ends[0] if road else ends[-1]
            place = (at[0] + 3.0, at[1] - 3.0) if road else (at[0] - 3.0, at[1] - 3.5)
            paper.drawing.words(
                place, name, size=6.5, tone="faint", anchor="start" if road else "end"
            )


def _datum(paper: _Paper) -> None:
    """Mark the origin, where the view shows it."""
    (a, b), (c, d) = paper.low, paper.high
    if not (a <= 0.0 <= c and b <= 0.0 <= d):
        return
    x, y = paper.at((0.0, 0.0))
    drawing = paper.drawing
    drawing.circle((x, y), 4.0, weight=0.8, fill="paper")
    for start, end in (((x - 7.0, y), (x + 7.0, y)), ((x, y - 7.0), (x, y + 7.0))):
        drawing.line([start, end], weight=0.6)
    drawing.words((x + 6.0, y + 9.0), "0", size=6.5, ground=True)


def _names(paper: _Paper, view: View) -> None:
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


def _dimensions(paper: _Paper, view: View, told: Told) -> None:
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


def _span(paper: _Paper, ends: tuple[float, float], height: float, words: str, told: Told) -> None:
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


def _gaps(paper: _Paper, gaps: Iterable[tuple[int, Pair]]) -> None:
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
        to = _free(middle, (-along[1] / long, along[0] / long), taken)
        taken.append(to)
        drawing.line([middle, to], tone="orange", weight=0.5)
        _number(drawing, to, number)


def _free(middle: Point, aside: Point, taken: Sequence[Point]) -> Point:
    """Return a place beside a gap's middle that no other number stands at."""
    tried = [
        (middle[0] + way * far * aside[0], middle[1] + way * far * aside[1])
        for far in (13.0, 24.0, 35.0)
        for way in (1.0, -1.0)
    ]
    clear = [
        one for one in tried
        if all((one[0] - x) ** 2 + (one[1] - y) ** 2 > 12.0**2 for x, y in taken)
    ]  # fmt: skip
    return (clear or tried)[0]


def _number(drawing: Drawing, at: Point, number: int) -> None:
    drawing.circle(at, 5.2, tone="orange", fill="paper", weight=0.9)
    drawing.words((at[0], at[1] + 2.6), str(number), size=7.5, anchor="middle", bold=True)


def _list(drawing: Drawing, gaps: Sequence[tuple[int, Pair]], titles: Titles, top: float) -> None:
    """List the gaps under the view: number, line, words."""
    if not gaps:
        drawing.words((WIDTH / 2.0, top + 6.0), "no gap here is among the tightest", size=7.5,
                      tone="faint", anchor="middle")  # fmt: skip
    for row, (number, pair) in enumerate(gaps):
        y = top + row * 11.0 + 5.0
        _number(drawing, (8.0, y), number)
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
    along = ", ".join(_way(view.look, k) for k in (0, 1))
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


def _way(look: Look, k: int) -> str:
    name = AXES[look.axes[k]]
    way = WAYS[name]
    return f"{name} {way} {ARROWS[k][0 if look.turns[k] > 0.0 else 1]}"


def words_of(view: View, titles: Titles) -> str:
    """Return a view for those who cannot see it."""
    gaps = "; ".join(f"{number}: {titles.row(pair)}" for number, pair in view.gaps)
    return f"{view.look.title}: {titles.engine} in its bay. " + (gaps or "No tight gap shows here.")
