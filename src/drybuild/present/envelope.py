"""A tyre in its arch, in the half plane of the wheel: outline, all that comes near, the gaps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drybuild.physics.envelope.gaps import Fitted, Gap
from drybuild.physics.envelope.room import Room
from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.present.widest import gap_words, place_words

TALL, WIDE = 250.0, 300.0
"""Room on the sheet. [pt]"""
TONES = ("orange", "blue", "green", "purple", "amber", "sky", "ink")
AROUND = 0.075
"""What is drawn beside and above the tyre. [m]"""


@dataclass(frozen=True, kw_only=True)
class EnvelopeSheet:
    """What the drawing of one axle needs."""

    title: str
    room: Room
    fitted: Fitted
    gaps: tuple[Gap, ...]
    offset: float
    """From the rim's middle to the mounting face. [m]"""


def envelope_drawing(sheet: EnvelopeSheet, told: Callable[[float], str]) -> str:
    """Return the tyre's outline among all that comes near it over the wheel's whole motion.

    Parameters
    ----------
    sheet : EnvelopeSheet
        Room, tyre and gaps. [-]
    told : callable
        Turns a length in metres into the person's words. [-]

    """
    outline, shift = sheet.fitted.outline, sheet.fitted.shift
    half, top, foot = outline[:, 0].max(), outline[:, 1].max(), outline[:, 1].min()
    span = 2.0 * (half + AROUND)
    scale = min(WIDE / span, TALL / (top - foot + 2.0 * AROUND))
    drawing = Drawing(scale * (top - foot + 2.0 * AROUND) + 46.0)
    middle = 14.0 + span * scale / 2.0

    def at(s: float, rho: float) -> Point:
        return middle + (s - shift) * scale, 26.0 + (top + AROUND - rho) * scale

    drawing.words((14.0, 12.0), sheet.title, size=9.0, bold=True)
    drawing.line(
        [at(x + shift, y) for x, y in outline], closed=True, fill="band", tone="ink", weight=1.0
    )
    tones = {one.name: TONES[k % len(TONES)] for k, one in enumerate(sheet.gaps)}
    for seen in sheet.room.seen:
        _trace(drawing, at, seen.s, seen.rho, tones[seen.obstacle.name], sheet)
    for one in sheet.gaps:
        _gap(drawing, at, one, tones[one.name])
    _sizes(drawing, at, sheet, told)
    _legend(drawing, sheet, tones, told)
    return drawing.svg()


def _trace(
    drawing: Drawing,
    at: Callable[[float, float], Point],
    s: np.ndarray,
    rho: np.ndarray,
    tone: str,
    sheet: EnvelopeSheet,
) -> None:
    outline, shift = sheet.fitted.outline, sheet.fitted.shift
    near = (
        (np.abs(s - shift) < outline[:, 0].max() + AROUND)
        & (rho < outline[:, 1].max() + AROUND)
        & (rho > outline[:, 1].min() - AROUND)
    )
    places = (at(float(x), float(y)) for x, y in zip(s[near], rho[near], strict=True))
    drawing.dots(places, 0.55, tone=tone)


def _gap(drawing: Drawing, at: Callable[[float, float], Point], one: Gap, tone: str) -> None:
    ends = [at(*one.tyre), at(*one.contact)]
    drawing.line(ends, tone=tone, weight=1.6)
    for end in ends:
        drawing.circle(end, 1.6, tone=tone, fill="paper", weight=0.8)


def _sizes(
    drawing: Drawing,
    at: Callable[[float, float], Point],
    sheet: EnvelopeSheet,
    told: Callable[[float], str],
) -> None:
    outline, shift = sheet.fitted.outline, sheet.fitted.shift
    half, top, foot = outline[:, 0].max(), outline[:, 1].max(), outline[:, 1].min()
    level = foot + 0.52 * (top - foot)
    drawing.dimension(at(shift - half, level), at(shift + half, level), told(2.0 * half))
    drawing.words(
        (at(shift, 0.0)[0], at(shift, foot + 0.30 * (top - foot))[1]),
        f"diameter {told(2.0 * top)}, grown",
        size=7.5,
        anchor="middle",
        ground=True,
    )
    face = shift + sheet.offset
    low = foot - 0.5 * AROUND
    drawing.line([at(shift, low), at(shift, top)], tone="faint", dash="8 2 2 2", weight=0.5)
    drawing.line([at(face, low), at(face, foot + 0.01)], tone="ink", weight=1.2)
    drawing.words((at(face, low)[0] + 4.0, at(face, low)[1] - 2.0), "hub's face", size=7.0,
                  tone="faint")  # fmt: skip
    drawing.words((14.0, drawing.height - 6.0), "inboard", size=7.5, tone="faint")
    right = at(shift + half + AROUND, 0.0)[0]
    drawing.words((right, drawing.height - 6.0), "outboard", size=7.5, tone="faint", anchor="end")


def _legend(
    drawing: Drawing, sheet: EnvelopeSheet, tones: dict[str, str], told: Callable[[float], str]
) -> None:
    left, place = WIDTH - 148.0, 30.0
    ordered = sorted(sheet.gaps, key=lambda one: float(one.values[0]))
    for one in ordered:
        drawing.circle((left, place - 2.5), 2.4, tone=tones[one.name], fill=tones[one.name])
        words = f"{one.name}: {told(float(one.values[0]))}"
        drawing.words((left + 7.0, place), words, size=8.0, bold=one is ordered[0])
        drawing.words((left + 7.0, place + 9.0), place_words(one.angle), size=7.0, tone="faint")
        place += 24.0


def envelope_words(sheet: EnvelopeSheet, told: Callable[[float], str]) -> str:
    """Return the drawing in words: every gap, tightest first."""
    ordered = sorted(sheet.gaps, key=lambda one: float(one.values[0]))
    return f"{sheet.title}: " + "; ".join(gap_words(one, told) for one in ordered) + "."
