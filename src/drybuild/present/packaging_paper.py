"""A sheet with a view of the engine in its bay: its scale, and each sort of thing drawn on it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.physics.solids.outlines import Polygon, Segments, clipped, parted, union_edges
from drybuild.physics.solids.shapes import Array
from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.present.packaging_views import Cut, Look, Seen, View
from drybuild.quantities.packaging_scene import BELL

PER_METRE = 72.0 / 0.0254
"""Points of a drawing for a metre at full size."""
SCALES = (2.0, 5.0, 10.0, 12.5, 15.0, 20.0, 25.0, 50.0)
EDGE = 3.0
"""Room for words at the sides of the view. [pt]"""
FILLS = {"hot": "pale-orange", "rotating": "pale-amber", "gearbox": "pale-purple"}
HIDDEN = "2.4 1.8"
BEYOND = "6 1.5 1 1.5"
AXIS = "9 2 2 2"
AXES = ("x", "y", "z")
WAYS = {"x": "forward", "y": "left", "z": "up"}
ARROWS = (("→", "←"), ("↑", "↓"))


@dataclass(frozen=True, kw_only=True)
class Paper:
    """Where a window of a view lies on a drawing."""

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
        """Return what of the view is drawn, as a polygon (m)."""
        (a, b), (c, d) = self.low, self.high
        return np.array([(a, b), (c, b), (c, d), (a, d)])


def scale_for(low: Point, high: Point) -> tuple[float, float]:
    """Return points for a metre, and the ratio: the largest that the page holds."""
    for ratio in SCALES:
        scale = PER_METRE / ratio
        if (high[0] - low[0]) * scale <= WIDTH - 2.0 * EDGE and (high[1] - low[1]) * scale <= 330.0:
            return scale, ratio
    return PER_METRE / SCALES[-1], SCALES[-1]


def edges_of(polygon: Polygon) -> Segments:
    """Return a polygon's sides."""
    return np.stack([polygon, np.roll(polygon, -1, axis=0)], axis=1)


def outline(
    paper: Paper, lines: Segments, *, tone: str = "ink", weight: float = 0.8, dash: str = ""
) -> None:
    """Draw lines as far as the window reaches."""
    _, inside = parted(lines=lines, polygons=[paper.window])
    nan = (float("nan"), float("nan"))
    path = [point for a, b in inside for point in (paper.at(a), paper.at(b), nan)]
    paper.drawing.line(path, tone=tone, weight=weight, dash=dash)


def fill_shape(
    paper: Paper, polygon: Polygon, fill: str, tone: str = "", weight: float = 0.3
) -> None:
    """Fill a convex polygon as far as the window reaches."""
    kept = clipped(polygon=polygon, low=paper.low, high=paper.high)
    if len(kept) > 2:
        corners = [paper.at(one) for one in kept]
        paper.drawing.line(corners, tone=tone, weight=weight, closed=True, fill=fill)


def draw_walls(paper: Paper, walls: Iterable[Cut]) -> None:
    """Draw what the plane cuts: a ground tone behind, a heavy line along the true skin."""
    every = list(walls)
    for wall in every:
        for polygon in wall.polygons:
            fill_shape(paper, polygon, "band")
    for wall in every:
        outline(paper, wall.face, weight=1.6)


def draw_bodies(paper: Paper, moving: Sequence[Seen]) -> None:
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
        fill_shape(paper, polygon, fill, "faint", 0.3)
    for seen in sorted(moving, key=lambda one: one.nearest):
        nearer = [
            polygon
            for other in moving
            if other is not seen
            for polygon, depth in zip(other.polygons, other.depth, strict=True)
            if depth > seen.nearest
        ]
        shown, hidden = parted(lines=union_edges(polygons=seen.polygons), polygons=nearer)
        outline(paper, shown, weight=0.8)
        outline(paper, hidden, weight=0.5, dash=HIDDEN)


def _tone(seen: Seen) -> str:
    if seen.name == BELL:
        return "paper"
    return "pale-green" if seen.name == "sump" else FILLS.get(seen.kind, "pale-blue")


def draw_standing(paper: Paper, view: View) -> None:
    """Draw what stands in the bay: whole lines where it is nearer to the eye, else dashed."""
    for seen in view.standing:
        behind = [
            polygon
            for other in view.moving
            for polygon, depth in zip(other.polygons, other.depth, strict=True)
            if depth > seen.nearest
        ]
        shown, hidden = parted(lines=union_edges(polygons=seen.polygons), polygons=behind)
        outline(paper, shown, tone="purple", weight=1.0)
        outline(paper, hidden, tone="purple", weight=0.8, dash=HIDDEN)


def draw_lines(paper: Paper, view: View) -> None:
    """Draw crankshaft, propshaft and road."""
    for name, (start, end) in view.lines.items():
        line = np.array([[start, end]])
        if name == "crankshaft":
            way = (line[0, 1] - line[0, 0]) / max(
                float(np.linalg.norm(line[0, 1] - line[0, 0])), 1e-9
            )
            line = np.array([[line[0, 0] - 0.03 * way, line[0, 1] + 0.03 * way]])
        road = name == "road"
        outline(
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


def draw_datum(paper: Paper) -> None:
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


def free_place(middle: Point, aside: Point, taken: Sequence[Point]) -> Point:
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


def draw_number(drawing: Drawing, at: Point, number: int) -> None:
    """Draw a number in a circle."""
    drawing.circle(at, 5.2, tone="orange", fill="paper", weight=0.9)
    drawing.words((at[0], at[1] + 2.6), str(number), size=7.5, anchor="middle", bold=True)


def way_words(look: Look, k: int) -> str:
    """Say which way an axis grows on the page."""
    name = AXES[look.axes[k]]
    way = WAYS[name]
    return f"{name} {way} {ARROWS[k][0 if look.turns[k] > 0.0 else 1]}"
