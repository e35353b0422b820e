"""Front and rear brake drawn side by side with their dimensions, seen along the wheel's axis."""

from __future__ import annotations

import math
from dataclasses import dataclass

from drybuild.present.drawing import WIDTH, Drawing, Point

HEIGHT = 236.0
REACH = 0.80
"""Radius of the larger brake, of what half the sheet holds. [-]"""


@dataclass(frozen=True, kw_only=True)
class Face:
    """A brake as it is seen along its axis; lengths in metres."""

    title: str
    disc: bool
    diameter: float
    radius: float
    """Where the linings act."""
    pad_height: float
    pistons: int
    piston: float
    wall: float
    """How far a drum's shell stands out."""
    arc: float
    """What a shoe's lining spans. [rad]"""

    @property
    def kind(self) -> str:
        """Disc or drum."""
        return "disc" if self.disc else "drum"


def faces_drawing(front: Face, rear: Face, told: dict[float, str]) -> str:
    """Return both brakes to one scale; `told` has each length in metres in the reader's unit."""
    drawing = Drawing(HEIGHT)
    largest = max(one.diameter / 2.0 + (0.0 if one.disc else one.wall) for one in (front, rear))
    scale = REACH * (HEIGHT / 2.0 - 16.0) / largest
    for middle, one in ((WIDTH * 0.25, front), (WIDTH * 0.75, rear)):
        at = (middle, HEIGHT / 2.0 - 2.0)
        drawing.words((middle, 11.0), one.title, size=9.0, anchor="middle", bold=True)
        (_disc if one.disc else _drum)(drawing, at, one, scale, told)
        _below(drawing, at, one, scale, told)
    return drawing.svg()


def _disc(drawing: Drawing, at: Point, one: Face, scale: float, told: dict[float, str]) -> None:
    outer = one.diameter / 2.0
    inner = outer - one.pad_height
    drawing.circle(at, outer * scale, fill="band", weight=1.1)
    drawing.circle(at, inner * scale, fill="paper", weight=0.6)
    drawing.circle(at, 0.030 * scale, weight=0.6)
    drawing.circle(at, one.radius * scale, tone="faint", dash="4 2 1 2", weight=0.5)
    _sector(drawing, at, (inner * scale, outer * scale), (-math.pi / 2.0, math.radians(28.0)))
    span = one.radius * 0.62 / max(one.pistons, 1)
    for place in range(one.pistons):
        turn = -math.pi / 2.0 + (place - (one.pistons - 1) / 2.0) * span / one.radius
        middle = _polar(at, one.radius * scale, turn)
        drawing.circle(middle, one.piston / 2.0 * scale, tone="blue", weight=1.0)
    to = (at[0] + 52.0, at[1] - outer * scale + 2.0)
    several = f"{one.pistons} × " if one.pistons > 1 else ""
    drawing.leader(_polar(at, one.radius * scale, -math.pi / 2.0), to,
                   f"piston ⌀ {several}{told[one.piston]}")  # fmt: skip
    _radii(drawing, at, one, scale, told, "pad")
    edge = (at[0] - (inner + one.pad_height / 2.0) * scale, at[1])
    drawing.leader(edge, (at[0] - outer * scale - 4.0, at[1] + 34.0), told[one.pad_height])


def _drum(drawing: Drawing, at: Point, one: Face, scale: float, told: dict[float, str]) -> None:
    inside = one.diameter / 2.0 * scale
    drawing.circle(at, inside + one.wall * scale, fill="band", weight=1.1)
    drawing.circle(at, inside, fill="paper", weight=0.8)
    for turn in (0.0, math.pi):
        _sector(drawing, at, (inside * 0.92, inside), (turn, one.arc / 2.0))
    high = one.piston * scale
    drawing.box(at[0] - high, at[1] - inside * 0.82, 2.0 * high, high, tone="blue", weight=1.0)
    drawing.box(at[0] - 9.0, at[1] + inside * 0.72, 18.0, 7.0, fill="band", weight=0.7)
    drawing.circle(at, 0.030 * scale, weight=0.6)
    to = (at[0] + 52.0, at[1] - inside - one.wall * scale + 2.0)
    drawing.leader((at[0] + high, at[1] - inside * 0.82 + high / 2.0), to,
                   f"cylinder ⌀ {told[one.piston]}")  # fmt: skip
    lining = _polar(at, inside * 0.96, math.pi - 0.5)
    drawing.leader(lining, (at[0] - inside - one.wall * scale - 2.0, at[1] + 44.0),
                   f"{math.degrees(one.arc):.0f}°")  # fmt: skip


def _radii(
    drawing: Drawing, at: Point, one: Face, scale: float, told: dict[float, str], words: str
) -> None:
    end = _polar(at, one.radius * scale, math.radians(35.0))
    drawing.line([at, end], tone="faint", weight=0.5)
    drawing.leader(end, (at[0] + one.diameter / 2.0 * scale - 2.0, end[1] + 22.0),
                   f"{words} at {told[one.radius]}")  # fmt: skip


def _below(drawing: Drawing, at: Point, one: Face, scale: float, told: dict[float, str]) -> None:
    half = one.diameter / 2.0 * scale
    y = HEIGHT - 9.0
    for x in (at[0] - half, at[0] + half):
        drawing.line([(x, at[1]), (x, y + 3.0)], tone="rule", weight=0.5)
    drawing.dimension((at[0] - half, y), (at[0] + half, y), f"⌀ {told[one.diameter]}")


def _polar(at: Point, radius: float, turn: float) -> Point:
    return (at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn))


def _sector(
    drawing: Drawing, at: Point, radii: tuple[float, float], span: tuple[float, float]
) -> None:
    """Draw a lining: from the inner to the outer radius, about an angle, by half its span."""
    turn, half = span
    steps = [turn - half + 2.0 * half * k / 14.0 for k in range(15)]
    inner, outer = radii
    edge = [_polar(at, outer, one) for one in steps]
    back = [_polar(at, inner, one) for one in reversed(steps)]
    drawing.line([*edge, *back], fill="pale-orange", closed=True, weight=0.7)
