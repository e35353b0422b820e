"""Drawings as SVG text, element by element: lines, boxes, words and dimension lines.

Measured in points, so that a drawing as wide as the page's text shows its words at their true
size. Colours are named tones: each element carries its tone as a class beside the plain colour,
so that a page with a dark ground can give the tones other colours. Every text is escaped.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from html import escape
from typing import TypeAlias

WIDTH = 482.0
"""The book's text width. [pt]"""
TONES = {
    "ink": "#1d2a2f",
    "faint": "#566468",
    "rule": "#c9d2d3",
    "band": "#e6edf0",
    "paper": "#ffffff",
    "blue": "#0072b2",
    "orange": "#c64f00",
    "green": "#00805c",
    "purple": "#a8558a",
    "sky": "#3a8fc0",
    "amber": "#a86f00",
    "pale-blue": "#c3d9e6",
    "pale-orange": "#f3cdb3",
    "pale-amber": "#f7e6b4",
    "pale-green": "#bfe3d5",
    "pale-purple": "#ecd3e2",
}
"""After Okabe and Ito: colour-blind readers can tell the strong ones apart."""
FONT = "Libertinus Serif, Georgia, Times New Roman, serif"
_UNFIT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
"""Characters that no XML text may hold."""
NARROW, WIDE = "iljtfrI.,:;'|!()[] \u202f", "mwMWOQG@%&"
Point: TypeAlias = tuple[float, float]
GAP: Point = (math.nan, math.nan)
"""Breaks a line in two."""


def text_width(words: str, size: float) -> float:
    """Return about how wide a text is in the book's type. [pt]."""
    units = 0.0
    for letter in words:
        if letter in NARROW:
            units += 0.3
        elif letter in WIDE or (letter.isupper() and ord(letter) < 0x2000):
            units += 0.72
        else:
            units += 0.5 if ord(letter) < 0x2E80 else 1.0
    return units * size


def fitted(words: str, size: float, width: float) -> str:
    """Return a text cut with an ellipsis where it is too wide."""
    if text_width(words, size) <= width:
        return words
    kept = words
    while kept and text_width(kept + "…", size) > width:
        kept = kept[:-1]
    return kept.rstrip() + "…"


class Drawing:
    """A sheet to draw on, y downwards from the top left corner."""

    def __init__(self, height: float, width: float = WIDTH) -> None:
        self.width, self.height = width, height
        self._parts: list[str] = []

    def line(
        self,
        points: Sequence[Point],
        *,
        tone: str = "ink",
        weight: float = 0.8,
        dash: str = "",
        closed: bool = False,
        fill: str = "",
    ) -> None:
        """Draw a line through points; points without a place (nan) break it."""
        pieces = _pieces(points)
        path = " ".join(
            "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in piece) + (" Z" if closed else "")
            for piece in pieces
        )
        if path:
            self._parts.append(f'<path d="{path}" {_look(tone, weight, dash, fill)}/>')

    def box(
        self,
        left: float,
        top: float,
        width: float,
        height: float,
        *,
        tone: str = "ink",
        fill: str = "",
        weight: float = 0.6,
        dash: str = "",
        round_: float = 0.0,
    ) -> None:
        """Draw an upright box."""
        corner = f' rx="{round_:.1f}"' if round_ else ""
        self._parts.append(
            f'<rect x="{left:.1f}" y="{top:.1f}" width="{max(width, 0.0):.1f}" '
            f'height="{max(height, 0.0):.1f}"{corner} {_look(tone, weight, dash, fill)}/>'
        )

    def circle(
        self,
        middle: Point,
        radius: float,
        *,
        tone: str = "ink",
        fill: str = "",
        weight: float = 0.8,
        dash: str = "",
    ) -> None:
        """Draw a circle."""
        self._parts.append(
            f'<circle cx="{middle[0]:.1f}" cy="{middle[1]:.1f}" r="{max(radius, 0.0):.1f}" '
            f"{_look(tone, weight, dash, fill)}/>"
        )

    def dots(self, places: Iterable[Point], radius: float, *, tone: str) -> None:
        """Draw full dots, all of them as one element: thousands of circles make pages slow."""
        path = "".join(f"M{x:.1f} {y:.1f}h.01" for x, y in places)
        if path:
            look = _look(tone, 2.0 * radius, "", "")
            self._parts.append(f'<path d="{path}" stroke-linecap="round" {look}/>')

    def words(
        self,
        at: Point,
        text: str,
        *,
        size: float = 8.0,
        tone: str = "ink",
        anchor: str = "start",
        turn: float = 0.0,
        bold: bool = False,
        ground: bool = False,
    ) -> None:
        """Write a text; `ground` lays paper under it where lines cross."""
        x, y = at
        if ground and not turn:
            wide = text_width(text, size) + 4.0
            shift = {"start": 0.0, "middle": wide / 2.0, "end": wide}[anchor]
            self.box(x - shift - 1, y - size * 0.82, wide, size * 1.1, tone="", fill="paper")
        heavy = ' font-weight="bold"' if bold else ""
        turned = f' transform="rotate({turn:g} {x:.1f} {y:.1f})"' if turn else ""
        clean = escape(_UNFIT.sub("", text), quote=False)
        self._parts.append(
            f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}"'
            f'{heavy}{turned} class="f-{tone}" fill="{TONES[tone]}">{clean}</text>'
        )

    def dimension(
        self,
        start: Point,
        end: Point,
        text: str,
        *,
        tone: str = "faint",
        size: float = 7.5,
        aside: bool = False,
        bold: bool = False,
    ) -> None:
        """Draw a dimension line with arrow heads, upright or level, and its words at the middle.

        `aside` writes the words behind the end, for gaps too small to hold them.
        """
        self.line([start, end], tone=tone, weight=0.5)
        (x1, y1), (x2, y2) = start, end
        length = math.hypot(x2 - x1, y2 - y1)
        if length > 6.0:
            along = ((x2 - x1) / length, (y2 - y1) / length)
            self._head(start, along, tone)
            self._head(end, (-along[0], -along[1]), tone)
        if not text:
            return
        if abs(y2 - y1) < abs(x2 - x1):
            if aside:
                self.words((max(x1, x2) + 3.0, y1 + 2.5), text, size=size, bold=bold, ground=True)
            else:
                middle = ((x1 + x2) / 2.0, y1 + size * 0.32)
                self.words(middle, text, size=size, anchor="middle", bold=bold, ground=True)
            return
        at = (max(x1, x2) + 3.0, (y1 + y2) / 2.0 + size * 0.32)
        self.words(at, text, size=size, bold=bold, ground=True)

    def leader(self, at: Point, to: Point, text: str, *, size: float = 7.5) -> None:
        """Point at something from words beside the drawing."""
        self.line([at, to], tone="faint", weight=0.4)
        self.circle(at, 1.1, tone="faint", fill="faint", weight=0.3)
        right = to[0] >= at[0]
        self.words(
            (to[0] + (2.0 if right else -2.0), to[1] + size * 0.32),
            text,
            size=size,
            anchor="start" if right else "end",
        )

    @contextmanager
    def linked(
        self, to: str, words: str, *, classes: str = "", current: bool = False
    ) -> Iterator[None]:
        """Make a link of what is drawn within; without an address it is drawn plainly."""
        if not to:
            yield
            return
        chosen = ' aria-current="true"' if current else ""
        said = escape(_UNFIT.sub("", words))
        self._parts.append(
            f'<a href="{escape(to)}" class="{classes}" aria-label="{said}"{chosen}>'
            f"<title>{said}</title>"
        )
        yield
        self._parts.append("</a>")

    def hatch(
        self, box: tuple[float, float, float, float], *, tone: str, step: float, up: bool
    ) -> None:
        """Fill a box (left, top, width, height) with slanting lines, rising or falling."""
        left, top, wide, high = box
        points: list[Point] = []
        at = step / 2.0
        while at < wide + high:
            start, end = max(0.0, at - high), min(at, wide)
            points += [(start, at - start), (end, at - end), GAP]
            at += step
        turned = points if up else [(x, high - y) for x, y in points]
        self.line([(left + x, top + y) for x, y in turned], tone=tone, weight=0.5)

    def svg(self) -> str:
        """Return the drawing."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width:g} '
            f'{self.height:g}" width="{self.width:g}pt" height="{self.height:g}pt" '
            f'font-family="{FONT}">' + "".join(self._parts) + "</svg>"
        )

    def _head(self, tip: Point, along: Point, tone: str) -> None:
        (x, y), (dx, dy) = tip, along
        base = (x + 4.0 * dx, y + 4.0 * dy)
        corners = [tip, (base[0] - 1.3 * dy, base[1] + 1.3 * dx)]
        corners.append((base[0] + 1.3 * dy, base[1] - 1.3 * dx))
        self.line(corners, tone=tone, weight=0.2, closed=True, fill=tone)


def _pieces(points: Sequence[Point]) -> list[list[Point]]:
    """Return the runs of points that have a place."""
    found: list[list[Point]] = [[]]
    for x, y in points:
        if math.isfinite(x) and math.isfinite(y):
            found[-1].append((float(x), float(y)))
        elif found[-1]:
            found.append([])
    return [piece for piece in found if len(piece) > 1]


def _look(tone: str, weight: float, dash: str, fill: str) -> str:
    classes = " ".join(
        one for one in (f"s-{tone}" if tone else "", f"f-{fill}" if fill else "") if one
    )
    stroke = f'stroke="{TONES[tone]}" stroke-width="{weight:g}"' if tone else 'stroke="none"'
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'class="{classes}" {stroke}{dashed} fill="{TONES[fill] if fill else "none"}"'
