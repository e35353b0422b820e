"""Where to measure the room in the arches: the wheel in its arch across the car, and the lip.

A sketch, not to scale across the car; round the lip the places lie as they were measured.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drybuild.present.body_dimensions import Measure
from drybuild.present.drawing import Drawing, Point, text_width

HEIGHT, SIZE, LINE = 276.0, 7.4, 10.0
MIDDLE, GUARD, WING, EDGE = 14.0, 88.0, 250.0, 239.0
"""Across the sketch: the car's middle plane, the inner guard, the wing's skin, the lip's edge."""
TYRE = (112.0, 84.0, 100.0, 66.0)
"""Left, top, width and height of the tyre's section."""
PLANE, FACE, AXIS, CEILING = 162.0, 182.0, 214.0, 46.0
SIDES = {"front": (400.0, 84.0), "rear": (400.0, 222.0)}
"""Where the wheel's centre lies in the view of each axle from the left."""
ROUND, LIP = 33.0, 46.0
"""Radius of the wheel, and of a lip that nobody measured, in those views. [pt]"""
REACH = 48.0
"""The farthest that a lip is drawn from the wheel's centre. [pt]"""
GHOSTS = (20.0, 90.0, 160.0)
"""Where places would be taken round a lip of which none is known. [deg]"""


@dataclass(frozen=True, kw_only=True)
class LipPlace:
    """A place round the lip as it was measured."""

    angle: float
    """Round the wheel's centre: 0 ahead, a quarter turn above. [rad]"""
    lip: float
    """From the wheel's centre to the lip. [m]"""
    measure: Measure


def arches_drawing(
    measures: Mapping[str, Measure],
    places: Mapping[str, Sequence[LipPlace]],
    diameter: float,
) -> str:
    """Return the wheel in its arch with its measures.

    Parameters
    ----------
    measures : mapping
        Measures by the entry of the section on the arches; `inner`, `outer` and `fold` stand for
        those of every place round the lip, `front` and `rear` for a place that is still to be
        taken. What is left out is not drawn.
    places : mapping
        Places round the lip, by axle.
    diameter : float
        Outside diameter of the tyres that stood there. [m]

    """
    drawing = Drawing(height=HEIGHT)
    _section(drawing)
    for name, ends, at in (
        ("section_width", ((TYRE[0], 108.0), (TYRE[0] + TYRE[2], 108.0)), None),
        ("rim_width", ((124.0, 158.0), (200.0, 158.0)), None),
        ("offset", ((PLANE, 192.0), (FACE, 192.0)), (FACE + 4.0, 194.5)),
        ("inner", ((MIDDLE, 208.0), (GUARD, 208.0)), None),
        ("outer", ((MIDDLE, 252.0), (EDGE, 252.0)), None),
        ("fold", ((EDGE, 152.0), (WING, 152.0)), (WING + 5.0, 164.0)),
    ):
        _dimension(drawing, measures.get(name), *ends, at)
    _gaps(drawing, measures)
    for axle, middle in SIDES.items():
        _side(drawing, axle, middle, places.get(axle, ()), measures, diameter)
    return drawing.svg()


def _section(drawing: Drawing) -> None:
    """Draw what stands still: arch, tyre, rim, hub, the planes that readings count from."""
    left, top, wide, high = TYRE
    drawing.words((MIDDLE, 12.0), "The left wheel, from the front", size=7.0, tone="faint")
    drawing.line([(MIDDLE, 176.0), (MIDDLE, 262.0)], tone="rule", dash="6 2 1 2")
    drawing.words((MIDDLE, 172.0), "middle of the car", size=6.5, tone="faint")
    arch = [(EDGE, 140.0), (WING, 140.0), (WING, 92.0), (242.0, 66.0), (222.0, 52.0)]
    arch += [(196.0, CEILING), (128.0, CEILING), (100.0, 56.0), (GUARD, 76.0), (GUARD, 232.0)]
    drawing.line(arch, weight=1.4)
    drawing.line([(EDGE, 142.0), (EDGE, 256.0)], tone="rule", weight=0.5)
    drawing.box(150.0, 198.0, FACE - 150.0, 34.0, fill="band")
    drawing.box(left, top, wide, high, fill="band", weight=1.0, round_=18.0)
    rim = [(124.0, 148.0), (124.0, 164.0), (136.0, 172.0), (188.0, 172.0), (200.0, 164.0)]
    drawing.line([*rim, (200.0, 148.0)], weight=1.2)
    drawing.line([(FACE, 172.0), (FACE, 236.0)], weight=1.2)
    for ends in ([(PLANE, 66.0), (PLANE, 240.0)], [(104.0, AXIS), (226.0, AXIS)]):
        drawing.line(ends, tone="rule", dash="6 2 1 2")


def _gaps(drawing: Drawing, measures: Mapping[str, Measure]) -> None:
    """Draw the gaps round the tyre; each is told for both axles."""
    left, top, wide, _ = TYRE
    right = left + wide
    for name, words, ends, at, anchor in (
        ("inner", "gap inside", ((GUARD, 128.0), (left, 128.0)), (GUARD - 5.0, 116.0), "end"),
        ("outer", "gap outside", ((right, 134.0), (EDGE, 134.0)), (WING + 5.0, 116.0), "start"),
        ("radial", "gap above, at full bump", ((PLANE, CEILING), (PLANE, top)),
         (PLANE, 14.0), "middle"),
    ):  # fmt: skip
        pair = {axle: measures.get(f"{axle}_{name}_clearance") for axle in SIDES}
        known = [one for one in pair.values() if one is not None]
        if not known:
            continue
        tone = max(known, key=lambda one: (one.weighs, not one.given)).tone
        drawing.dimension(*ends, "", tone=tone)
        drawing.words(at, words, size=7.0, tone="faint", anchor=anchor)
        for row, (axle, one) in enumerate(pair.items(), start=1):
            if one is None:
                continue
            said = f"{axle} {one.value}" if one.given else f"{axle} ?"
            with drawing.linked(one.to, f"{said}: {one.words}", classes=one.classes):
                spot = (at[0], at[1] + row * LINE)
                drawing.words(spot, said, size=SIZE, anchor=anchor, bold=one.most, ground=True)


def _side(
    drawing: Drawing,
    axle: str,
    middle: Point,
    places: Sequence[LipPlace],
    measures: Mapping[str, Measure],
    diameter: float,
) -> None:
    """Draw the lip of one axle from the left, with its places."""
    x, y = middle
    title = f"{axle.capitalize()}, from the left"
    drawing.words((x - 74.0, y - 70.0), title, size=7.0, tone="faint")
    farthest = max((one.lip for one in places), default=0.0)
    scale = min(2.0 * ROUND / diameter, REACH / farthest if farthest else math.inf)
    drawing.circle(middle, diameter / 2.0 * scale, fill="band")
    drawing.circle(middle, 1.6, fill="ink")
    if places:
        known = sorted(places, key=lambda one: one.angle)
        spots = [(one.angle, one.lip * scale, one.measure) for one in known]
    else:
        ghost = measures.get(axle)
        spots = [(math.radians(one), LIP, ghost) for one in GHOSTS] if ghost else []
    ends = [(x - far * math.cos(angle), y - far * math.sin(angle)) for angle, far, _ in spots]
    drawing.line(ends, weight=1.2, dash="" if places else "3 2", tone="ink" if places else "blue")
    for (angle, far, one), end in zip(spots, ends, strict=True):
        _lip(drawing, middle, end, far, angle, one)
    if axle == "front":
        half = diameter / 2.0 * scale
        below = (x, y + half + 10.0)
        _dimension(
            drawing, measures.get("outside_diameter"), (x - half, y), (x + half, y), below, "middle"
        )


def _lip(
    drawing: Drawing, middle: Point, end: Point, far: float, angle: float, one: Measure
) -> None:
    """Draw one place round the lip: the tape from the wheel's centre, and what it read."""
    beyond = 1.0 + 6.0 / max(far, 1.0)
    at = [m + beyond * (e - m) for m, e in zip(middle, end, strict=True)]
    way = math.cos(angle)
    anchor = "middle" if abs(way) < 0.3 else "end" if way > 0.0 else "start"
    said = _short(one.value) if one.given else "lip ?"
    with drawing.linked(one.to, f"{said}: {one.words}", classes=one.classes):
        drawing.line([middle, end], tone=one.tone, weight=0.6)
        drawing.circle(end, 1.8, tone=one.tone, fill=one.tone)
        spot = (at[0], at[1] + (0.0 if anchor == "middle" else 2.5))
        drawing.words(spot, said, size=SIZE, anchor=anchor, bold=one.most, ground=True)


def _short(typed: str) -> str:
    """Return a reading as typed without its spread: there is little room round the lip."""
    value, _, spread = typed.partition(" ±")
    unit = "" if not spread or value[-1:].isalpha() else f" {spread.split()[-1]}"
    return value + unit


def _dimension(
    drawing: Drawing,
    one: Measure | None,
    start: Point,
    end: Point,
    at: Point | None,
    anchor: str = "start",
) -> None:
    """Draw one measure, its words on its line or at a place of their own."""
    if one is None:
        return
    said = one.words if one.given else f"{one.name} ?"
    room = end[0] - start[0] + 24.0
    if at is None and text_width(said, SIZE) > room:
        said = one.value or said
    with drawing.linked(one.to, one.words, classes=one.classes):
        drawing.dimension(
            start, end, said if at is None else "", tone=one.tone, size=SIZE, bold=one.most
        )
        if at is not None:
            drawing.words(at, said, size=SIZE, anchor=anchor, bold=one.most, ground=True)
