"""Where to measure a car: its sizes and loads on a side, a front and a plan view.

Every measure carries its name and value and leads to its entry; those that weigh most today are
drawn strongest. A measure nobody has taken yet is drawn dashed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drybuild.present.body_shape import WHEEL, BodyShape
from drybuild.present.drawing import Drawing, Point, text_width

LENGTH, FRONT_MIDDLE, SIZE = 262.0, 428.0, 7.4
LEFT, TOP = 26.0, 24.0
DRAWN = (
    "wheelbase",
    "length",
    "width",
    "height",
    "ride_height",
    "ground_clearance",
    "front_track",
    "rear_track",
    "frontal_area",
    "drag_coefficient",
    "cg_height",
    "front_axle",
    "rear_axle",
    "front_left",
    "front_right",
    "rear_left",
    "rear_right",
)
"""The fields of the body and mass sections that have a place on the drawing."""
BELOW = 52.0
"""What the measures below the road take. [pt]"""


@dataclass(frozen=True, kw_only=True)
class Measure:
    """A measure as it is told on the drawing."""

    name: str
    value: str
    """As typed, or the typical value that stands in; empty when there is neither."""
    given: bool
    weighs: bool = False
    """Whether it is among those that weigh most today."""
    most: bool = False
    to: str = ""
    """Where its entry is."""

    @property
    def words(self) -> str:
        """Its name and value."""
        if self.given:
            return f"{self.name} {self.value}"
        return f"{self.name} ? (typical {self.value})" if self.value else f"{self.name} ?"

    @property
    def tone(self) -> str:
        """The tone of its line."""
        return "orange" if self.weighs else "ink" if self.given else "blue"

    @property
    def classes(self) -> str:
        """The classes of its link."""
        weighs, lacks = " weighs" if self.weighs else "", "" if self.given else " lacking"
        return f"measure{weighs}{lacks}"


@dataclass(frozen=True, kw_only=True)
class Views:
    """The sheet: three views of one body at one scale."""

    drawing: Drawing
    shape: BodyShape
    measures: Mapping[str, Measure]

    @property
    def scale(self) -> float:
        """Points a metre. [pt/m]."""
        shape = self.shape
        return min(LENGTH / shape.length, 104.0 / shape.width, 128.0 / shape.height)

    @property
    def ground(self) -> float:
        """Where the road is drawn in the side and front views."""
        return TOP + self.shape.height * self.scale

    @property
    def plan_top(self) -> float:
        """Where the plan begins."""
        return self.ground + BELOW + 30.0

    def side(self, along: float, up: float) -> Point:
        """Return a place on the side view; metres behind the front end and over the road."""
        return LEFT + along * self.scale, self.ground - up * self.scale

    def at(self, station: float, up: float) -> Point:
        """Return a place on the side view by station."""
        return self.side(self.shape.along(station), up)

    def front(self, left: float, up: float) -> Point:
        """Return a place on the front view; metres left of the middle: seen from ahead, right."""
        return FRONT_MIDDLE + left * self.scale, self.ground - up * self.scale

    def plan(self, station: float, left: float) -> Point:
        """Return a place on the plan; its left lies below."""
        middle = self.plan_top + self.shape.width * self.scale / 2.0
        return LEFT + self.shape.along(station) * self.scale, middle + left * self.scale


def dimension_drawing(shape: BodyShape, measures: Mapping[str, Measure]) -> str:
    """Return the three views with their measures.

    Parameters
    ----------
    shape : BodyShape
        The body.
    measures : mapping
        Measures by the field's name, those of the car's body and mass sections; what is left out
        is not drawn.

    """
    views = Views(drawing=Drawing(height=0.0), shape=shape, measures=measures)
    views.drawing.height = views.plan(0.0, shape.width / 2.0)[1] + 24.0
    _outlines(views)
    _lengths(views)
    _heights(views)
    _across(views)
    _loads(views)
    _air(views)
    return views.drawing.svg()


def _outlines(views: Views) -> None:
    drawing, shape, scale = views.drawing, views.shape, views.scale
    drawing.line([views.side(x, z) for x, z in shape.outline()], tone="ink", closed=True)
    if shape.shape != "roadster":
        drawing.line([views.side(x, z) for x, z in shape.glass()], tone="rule", closed=True)
    for station in (1.0, 2.0):
        drawing.circle(views.at(station, WHEEL), WHEEL * scale, fill="paper")
        drawing.circle(views.at(station, WHEEL), 1.6, fill="ink")
    end = views.side(shape.length + 0.1, 0.0)
    drawing.line([(LEFT - 10.0, views.ground), end], tone="rule")
    _front(views)
    _plan(views)
    for words, at in (
        ("From the side", (LEFT, TOP - 10.0)),
        ("From the front", (FRONT_MIDDLE - 52.0, TOP - 10.0)),
        ("From above", (LEFT + 10.0, views.plan(0.0, 0.0)[1] - 5.0)),
    ):
        drawing.words(at, words, size=7.0, tone="faint")


def _front(views: Views) -> None:
    drawing, shape = views.drawing, views.shape
    half, waist = shape.width / 2.0, shape.up(0.56)
    low = shape.up(0.0)
    for side in (-1.0, 1.0):
        middle = side * shape.front_track / 2.0
        left, top = views.front(middle - 0.08, 2 * WHEEL)
        right, base = views.front(middle + 0.08, 0.0)
        drawing.box(left, top, right - left, base - top, fill="band", round_=2.0)
    edge = [(-half, low), (-half, waist), (-0.62 * half, shape.height)]
    ring = [*edge, *((-y, z) for y, z in reversed(edge))]
    drawing.line([views.front(y, z) for y, z in ring], closed=True, fill="paper")
    glass = [(-0.84 * half, waist), (-0.57 * half, shape.up(0.93))]
    ring = [*glass, *((-y, z) for y, z in reversed(glass))]
    drawing.line([views.front(y, z) for y, z in ring], tone="rule", closed=True)
    drawing.line([views.front(-half - 0.1, 0.0), views.front(half + 0.1, 0.0)], tone="rule")


def _plan(views: Views) -> None:
    drawing, shape = views.drawing, views.shape
    half = shape.width / 2.0
    (left, top), (right, base) = views.plan(0.0, -half), views.plan(3.0, half)
    drawing.box(left, top, right - left, base - top, weight=0.8, round_=14.0)
    for station, track in ((1.0, shape.front_track), (2.0, shape.rear_track)):
        for side in (-1.0, 1.0):
            middle = views.plan(station, side * track / 2.0)
            wide, high = 2 * WHEEL * views.scale, 0.17 * views.scale
            drawing.box(
                middle[0] - wide / 2, middle[1] - high / 2, wide, high, fill="band", round_=2.0
            )
    drawing.line([views.plan(0.0, 0.0), views.plan(3.0, 0.0)], tone="rule", dash="6 2 1 2")


def _lengths(views: Views) -> None:
    base = views.ground
    for name, ends, below in (("wheelbase", (1.0, 2.0), 30.0), ("length", (0.0, 3.0), 46.0)):
        start, end = (views.at(one, 0.0)[0] for one in ends)
        for x in (start, end):
            views.drawing.line([(x, base + 2.0), (x, base + below + 3.0)], tone="rule", weight=0.5)
        _measure(views, name, (start, base + below), (end, base + below))


def _heights(views: Views) -> None:
    shape = views.shape
    tail = shape.length + 0.14
    _measure(views, "height", views.side(tail, 0.0), views.side(tail, shape.height), short=True)
    seam = views.at(1.22, shape.up(0.0))
    on = (seam[0] + 4.0, seam[1] - 6.0)
    _measure(views, "ride_height", views.at(1.22, 0.0), seam, short=True, on=on)
    low, (x, y) = views.at(1.5, shape.ground_clearance), views.at(1.5, 0.0)
    _measure(views, "ground_clearance", (x, y), low, short=True, on=(x - 34.0, y + 11.0))
    spot = views.at(1.72, shape.up(0.3))
    views.drawing.circle(spot, 4.0, fill="paper")
    for right, down in ((1.0, 0.0), (0.0, 1.0)):
        ends = [(spot[0] - way * 4 * right, spot[1] - way * 4 * down) for way in (1.0, -1.0)]
        views.drawing.line(ends, weight=0.6)
    on = (spot[0] - 30.0, spot[1] - 8.0)
    _measure(views, "cg_height", views.at(1.72, 0.0), (spot[0], spot[1] + 4), short=True, on=on)


def _across(views: Views) -> None:
    shape, base = views.shape, views.ground
    for name, size, below in (
        ("front_track", shape.front_track, 14.0),
        ("rear_track", shape.rear_track, 30.0),
        ("width", shape.width, 46.0),
    ):
        start, end = (views.front(side * size / 2.0, 0.0)[0] for side in (-1.0, 1.0))
        _measure(views, name, (start, base + below), (end, base + below))


def _loads(views: Views) -> None:
    for name, station in (("front_axle", 1.0), ("rear_axle", 2.0)):
        x, _ = views.at(station, 0.0)
        _arrow(views, name, (x, views.ground + 3.0), (x, views.ground + 15.0), middle=True)
    half = views.shape.width / 2.0
    for end, station in (("front", 1.0), ("rear", 2.0)):
        for side, way in (("left", 1.0), ("right", -1.0)):
            x, y = views.plan(station, way * half)
            tip = (x, y + way * 3.0)
            _arrow(views, f"{end}_{side}", tip, (x, y + way * 10.0), middle=True)


def _air(views: Views) -> None:
    shape = views.shape
    x, y = views.front(0.0, shape.up(0.26))
    _words(views, "frontal_area", (x, y), "middle")
    x, y = views.side(0.0, shape.up(0.72))
    _arrow(views, "drag_coefficient", (x + 16.0, y), (x - 14.0, y), middle=False)


def _measure(
    views: Views,
    name: str,
    start: Point,
    end: Point,
    *,
    short: bool = False,
    on: Point | None = None,
) -> None:
    """Draw a measure between two places; `short` names it without its typical value."""
    one = views.measures.get(name)
    if one is None:
        return
    drawing = views.drawing
    tone = one.tone
    with drawing.linked(one.to, one.words, classes=one.classes):
        words = one.words if one.given or not short else f"{one.name} ?"
        if on is not None:
            drawing.dimension(start, end, "", tone=tone)
            drawing.words(on, words, size=SIZE, bold=one.most)
            return
        if abs(end[0] - start[0]) > 1.0:
            room = max(abs(end[0] - start[0]) + 20.0, 100.0)
            if text_width(words, SIZE) > room and not one.given:
                words = f"{one.name} ?"
        drawing.dimension(start, end, words, tone=tone, size=SIZE, bold=one.most)


def _arrow(views: Views, name: str, tip: Point, tail: Point, *, middle: bool) -> None:
    one = views.measures.get(name)
    if one is None:
        return
    drawing = views.drawing
    with drawing.linked(one.to, one.words, classes=one.classes):
        drawing.line([tail, tip], tone=one.tone, weight=1.0)
        drawing.circle(tip, 1.8, tone=one.tone, fill=one.tone)
        down = tail[1] >= tip[1]
        x, y = tail[0], tail[1] + (8.0 if down else -3.0)
        if not middle:
            x, y = tail[0] - 6.0, tail[1] - 5.0
        words = one.words if one.given else f"{one.name} ?"
        anchor = "middle" if middle else "start"
        drawing.words((x, y), words, size=SIZE, bold=one.most, anchor=anchor, ground=True)


def _words(views: Views, name: str, at: Point, anchor: str) -> None:
    one = views.measures.get(name)
    if one is None:
        return
    with views.drawing.linked(one.to, one.words, classes=one.classes):
        for place, line in enumerate((one.name, one.value if one.given else "?")):
            spot = (at[0], at[1] + place * 9.0)
            views.drawing.words(spot, line, size=SIZE, anchor=anchor, bold=one.most)
