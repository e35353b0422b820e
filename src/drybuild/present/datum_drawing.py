"""The datum points on drawings of the body: numbered from above, and their heights from the side.

Lengths that were measured are drawn full, those that are still to be measured dashed.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from drybuild.present.body_shape import WHEEL, BodyShape
from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.tables.datum import PointPair, length_ends

MARGIN, TOP, KEY, BALL = 18.0, 20.0, 22.0, 6.2
DATUM_BELOW = 0.08
"""How far below the road's clearance the level line is drawn. [m]"""


def plan_drawing(
    shape: BodyShape,
    pairs: tuple[PointPair, ...],
    lengths: Collection[str],
    measured: Collection[str],
    odd: Collection[str] = (),
) -> str:
    """Return the points from above with the lengths between them; front to the left, left below.

    Parameters
    ----------
    shape : BodyShape
        The body.
    pairs : tuple
        The numbered pairs.
    lengths : collection
        All lengths that the sheet asks for, by their points.
    measured : collection
        Those that are measured.
    odd : collection
        Those that do not fit.

    """
    scale = _scale(shape)
    half = shape.width * scale / 2.0
    middle = TOP + half
    drawing = Drawing(height=middle + half + KEY + 10.0)
    drawing.words((MARGIN, TOP - 8.0), "From above, front to the left", size=7.5, tone="faint")
    drawing.box(
        MARGIN, TOP, shape.length * scale, 2.0 * half, tone="rule", round_=0.3 * half
    )  # fmt: skip
    for station in (1.0, 2.0):
        for edge in (TOP + 2.0, middle + half - 0.2 * half - 2.0):
            wide = 2.0 * WHEEL * scale
            left = MARGIN + shape.along(station) * scale - wide / 2.0
            drawing.box(left, edge, wide, 0.2 * half, tone="rule", round_=3.0)
    places = {
        f"{one.number} {side}": (
            MARGIN + shape.along(one.station) * scale,
            middle + way * one.across * half,
        )
        for one in pairs
        for side, way in (("left", 1.0), ("right", -1.0))
    }
    for name in dict.fromkeys((*lengths, *measured)):
        ends = length_ends(name)
        if ends and set(ends) <= set(places):
            _length(drawing, places, ends, known=name in measured, odd=name in odd)
    for name, place in places.items():
        _ball(drawing, place, name.partition(" ")[0])
    base = drawing.height - 8.0
    for at, words, tone, dash in (
        (MARGIN, "measured", "blue", ""),
        (MARGIN + 90.0, "to be measured", "faint", "3 2"),
        (MARGIN + 200.0, "does not fit: measure again", "orange", ""),
    ):
        drawing.line([(at, base - 2.5), (at + 18.0, base - 2.5)], tone=tone, dash=dash, weight=1.2)
        drawing.words((at + 22.0, base), words, size=7.5)
    return drawing.svg()


def side_drawing(shape: BodyShape, pairs: tuple[PointPair, ...], heights: Mapping[str, str]) -> str:
    """Return the points from the side over the level line, with the heights that were measured."""
    scale = _scale(shape)
    ground = TOP + shape.height * scale
    drawing = Drawing(height=ground + 58.0)
    drawing.words((MARGIN, TOP - 8.0), "From the left", size=7.5, tone="faint")
    outline = [(MARGIN + x * scale, ground - z * scale) for x, z in shape.outline()]
    drawing.line(outline, tone="rule", closed=True)
    level = ground - max(shape.ground_clearance - DATUM_BELOW, 0.02) * scale
    for station in (1.0, 2.0):
        at = (MARGIN + shape.along(station) * scale, ground - WHEEL * scale)
        drawing.circle(at, WHEEL * scale, tone="rule", fill="paper")
    ends = (MARGIN, MARGIN + shape.length * scale)
    drawing.line([(x, level) for x in ends], tone="blue", dash="6 2 1 2")
    drawing.words((ends[1], level + 9.0), "level line", size=7.0, tone="blue", anchor="end")
    for place, one in enumerate(pairs):
        x = MARGIN + shape.along(one.station) * scale
        y = ground - shape.ride_height * scale - (0.0 if one.seam else 9.0)
        drawing.line([(x, level), (x, y)], tone="faint", weight=0.5)
        _ball(drawing, (x, y), one.number)
        told = [heights.get(f"{one.number} {side}", "?") for side in ("left", "right")]
        down = ground + 16.0 + 18.0 * (place % 2)
        drawing.words((x, down), f"L {told[0]}", size=6.6, anchor="middle")
        drawing.words((x, down + 8.0), f"R {told[1]}", size=6.6, anchor="middle")
    return drawing.svg()


def _scale(shape: BodyShape) -> float:
    return min((WIDTH - 2.0 * MARGIN) / shape.length, 230.0 / shape.width)


def _length(
    drawing: Drawing,
    places: Mapping[str, Point],
    ends: tuple[str, str],
    *,
    known: bool,
    odd: bool,
) -> None:
    tone = "orange" if odd else "blue" if known else "faint"
    weight = 1.4 if odd else 0.8 if known else 0.5
    points = [places[end] for end in ends]
    drawing.line(points, tone=tone, weight=weight, dash="" if known else "3 2")


def _ball(drawing: Drawing, place: Point, number: str) -> None:
    drawing.circle(place, BALL, fill="paper", weight=0.9)
    drawing.words((place[0], place[1] + 2.7), number, size=7.5, anchor="middle", bold=True)
