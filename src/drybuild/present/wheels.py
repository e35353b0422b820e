"""A wheel and its tyre in section: rim, offset, backspacing, brake inside, gaps round the tyre."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from drybuild.physics.wheels import FLANGE_THICKNESS
from drybuild.present.drawing import WIDTH, Drawing, Point

FLANGE = 0.0173  # [m], height of a J flange over the bead seat, ISO 4000-2, from memory
SIDE = FLANGE_THICKNESS
TALL = 236.0  # [pt], room from the hub to the tyre's top and its gap
WIDE = 138.0  # [pt], room for the tyre's width


@dataclass(frozen=True, kw_only=True)
class WheelSection:
    """What the drawing needs of one axle's wheel. [m]."""

    title: str
    rim_diameter: float
    """Of the bead seat."""
    rim_width: float
    offset: float
    well_depth: float
    tyre_diameter: float
    tyre_width: float
    rotor_diameter: float
    brake_radius: float
    """Largest radius of the brake: caliper's bridge or drum's shell."""
    rotor_word: str
    brake_gap: float | None
    inner_gap: float | None
    outer_gap: float | None
    radial_gap: float | None


@dataclass(frozen=True, kw_only=True)
class _View:
    """Places of one wheel on the drawing: across the car and out from the hub's axis."""

    drawing: Drawing
    middle: float
    axis: float
    scale: float

    def at(self, across: float, out: float) -> Point:
        """Return the place of a point; `across` counts outboard from the rim's middle."""
        return self.middle + across * self.scale, self.axis - out * self.scale


def wheels_drawing(wheels: Sequence[WheelSection], told: Callable[[float], str]) -> str:
    """Return the upper half of each wheel in section, outboard to the right.

    Parameters
    ----------
    wheels : sequence of WheelSection
        One or two. [-]
    told : callable
        Turns a length in metres into the person's words. [-]

    """
    tallest = max(one.tyre_diameter / 2.0 + (one.radial_gap or 0.0) for one in wheels)
    scale = min(TALL / tallest, WIDE / max(one.tyre_width for one in wheels))
    axis = 30.0 + tallest * scale
    drawing = Drawing(axis + 30.0)
    for place, one in enumerate(wheels):
        middle = WIDTH * (2 * place + 1) / (2 * len(wheels)) + 4.0
        view = _View(drawing=drawing, middle=middle, axis=axis, scale=scale)
        drawing.words((middle, 11.0), one.title, size=9.0, anchor="middle", bold=True)
        _tyre(view, one)
        _rim(view, one)
        _brake(view, one, told)
        _gaps(view, one, told)
        _sizes(view, one, told)
    return drawing.svg()


def _tyre(view: _View, one: WheelSection) -> None:
    seat, top = one.rim_diameter / 2.0, one.tyre_diameter / 2.0
    half, rim = one.tyre_width / 2.0, one.rim_width / 2.0
    height = top - seat
    side = [
        (rim, seat + 0.004),
        (rim + (half - rim) * 0.6, seat + 0.2 * height),
        (half, seat + 0.48 * height),
        (half * 0.985, seat + 0.72 * height),
        (half * 0.90, seat + 0.90 * height),
        (half * 0.74, top - 0.012 * height),
        (0.0, top),
    ]
    outline = [*[(x, y) for x, y in side], *[(-x, y) for x, y in reversed(side)]]
    inner = [(x * 0.93, y - 0.03 * height if y > seat + 0.3 * height else y) for x, y in outline]
    places = [view.at(*point) for point in outline]
    hollow = [view.at(*point) for point in inner]
    view.drawing.line([*places, *hollow[::-1]], tone="ink", fill="band", closed=True, weight=0.7)


def _rim(view: _View, one: WheelSection) -> None:
    seat, half = one.rim_diameter / 2.0, one.rim_width / 2.0
    well = seat - one.well_depth
    profile = [
        (half + SIDE, seat + FLANGE * 0.75),
        (half + SIDE * 0.4, seat + FLANGE),
        (half, seat),
        (half - 0.021, seat - 0.002),
        (half * 0.25, well),
        (-half * 0.35, well),
        (-half + 0.021, seat - 0.002),
        (-half, seat),
        (-half - SIDE * 0.4, seat + FLANGE),
        (-half - SIDE, seat + FLANGE * 0.75),
    ]
    view.drawing.line([view.at(*point) for point in profile], weight=2.2)
    face = one.offset
    foot = [(half * 0.25, well), (face + 0.012, well * 0.62), (face, 0.085), (face, 0.0)]
    view.drawing.line([view.at(*point) for point in foot], weight=2.2)


def _brake(view: _View, one: WheelSection, told: Callable[[float], str]) -> None:
    face, rotor, brake = one.offset, one.rotor_diameter / 2.0, one.brake_radius
    drawing = view.drawing
    left, top = view.at(face - 0.034, rotor)
    right, foot = view.at(face - 0.012, 0.085)
    drawing.box(left, top, right - left, foot - top, tone="blue", fill="pale-blue")
    bridge_left, bridge_top = view.at(face - 0.062, brake)
    bridge_right, bridge_foot = view.at(face + 0.004, brake - 0.030)
    drawing.box(
        bridge_left,
        bridge_top,
        bridge_right - bridge_left,
        bridge_foot - bridge_top,
        tone="blue",
        dash="2 2",
    )
    at = view.at(face - 0.030, rotor * 0.62)
    to = view.at(-one.tyre_width / 2.0 - 0.012, rotor * 0.55)
    drawing.line([at, to], tone="faint", weight=0.4)
    drawing.circle(at, 1.1, tone="faint", fill="faint", weight=0.3)
    drawing.words((to[0] - 2.0, to[1]), one.rotor_word, size=7.5, anchor="end")
    drawing.words((to[0] - 2.0, to[1] + 9.5), told(one.rotor_diameter), size=7.5, anchor="end")
    if one.brake_gap is not None and one.brake_gap > 0.0:
        ends = [view.at(face - 0.029, out) for out in (brake, brake + one.brake_gap)]
        drawing.line(ends, tone="orange", weight=1.4)


def _gaps(view: _View, one: WheelSection, told: Callable[[float], str]) -> None:
    drawing, half, top = view.drawing, one.tyre_width / 2.0, one.tyre_diameter / 2.0
    widest = one.rim_diameter / 2.0 + 0.48 * (top - one.rim_diameter / 2.0)
    for side, gap in ((-1.0, one.inner_gap), (1.0, one.outer_gap)):
        if gap is None:
            continue
        wall = side * (half + gap)
        drawing.line(
            [view.at(wall, widest - 0.05), view.at(wall, widest + 0.06)], tone="orange", weight=2.0
        )
        at = view.at(wall, widest)
        anchor = "end" if side < 0.0 else "start"
        drawing.words(
            (at[0] + side * 4.0, at[1]),
            told(gap),
            size=7.5,
            tone="orange",
            anchor=anchor,
            bold=True,
        )
        word = "inside" if side < 0.0 else "outside"
        drawing.words(
            (at[0] + side * 4.0, at[1] + 9.0), word, size=7.0, tone="faint", anchor=anchor
        )
    if one.radial_gap is not None:
        roof = top + one.radial_gap
        drawing.line([view.at(-half, roof), view.at(half, roof)], tone="orange", weight=2.0)
        at = view.at(0.0, roof)
        words = f"{told(one.radial_gap)} at full bump"
        drawing.words(
            (at[0], at[1] - 4.0), words, size=7.5, tone="orange", anchor="middle", bold=True
        )
    if one.brake_gap is not None and one.brake_gap > 0.0:
        at = view.at(one.offset - 0.029, one.brake_radius + one.brake_gap / 2.0)
        words = told(one.brake_gap)
        drawing.words(
            (at[0] - 4.0, at[1] + 2.5), words, size=7.5, tone="orange", anchor="end", bold=True
        )


def _sizes(view: _View, one: WheelSection, told: Callable[[float], str]) -> None:
    drawing, half = view.drawing, one.rim_width / 2.0
    axis = view.axis
    face, middle = view.at(one.offset, 0.0)[0], view.at(0.0, 0.0)[0]
    widest = one.rim_diameter / 2.0 + 0.48 * (one.tyre_diameter - one.rim_diameter) / 2.0
    tyre = one.tyre_width / 2.0
    drawing.line(
        [(middle, axis - 20.0), (middle, view.at(0.0, one.tyre_diameter / 2.0)[1])],
        tone="faint",
        dash="8 2 2 2",
        weight=0.5,
    )
    drawing.dimension(view.at(-tyre, widest), view.at(tyre, widest), told(one.tyre_width))
    over = view.at(0.0, widest + 0.030)
    drawing.words(
        over, f"diameter {told(one.tyre_diameter)}", size=7.5, anchor="middle", ground=True
    )
    rim = one.rim_diameter / 2.0 + FLANGE * 0.5
    drawing.dimension(view.at(-half, rim), view.at(half, rim), told(one.rim_width))
    left, right = view.at(-half - SIDE, 0.0)[0], view.at(half + SIDE, 0.0)[0]
    drawing.line(
        [(left - 26.0, axis), (right + 26.0, axis)], tone="faint", dash="8 2 2 2", weight=0.5
    )
    seat = one.rim_diameter / 2.0 + FLANGE
    for x in (left, face):
        drawing.line(
            [(x, axis + 15.0), (x, view.at(0.0, seat)[1] if x == left else axis)],
            tone="faint",
            weight=0.35,
        )
    drawing.dimension((left, axis + 12.0), (face, axis + 12.0), told(one.offset + half + SIDE))
    drawing.words(
        ((left + face) / 2.0, axis + 22.0), "backspacing", size=7.0, tone="faint", anchor="middle"
    )
    if abs(face - middle) > 1.0:
        drawing.line([(middle, axis - 14.0), (face, axis - 14.0)], tone="ink", weight=0.8)
    drawing.words(
        (max(face, middle) + 4.0, axis - 12.0), f"offset {told(one.offset)}", size=7.5, ground=True
    )
