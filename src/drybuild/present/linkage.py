"""A suspension from the front and from the side, standing, in full bump and in full droop."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from drybuild.present.drawing import WIDTH, Drawing, Point

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept
    from drybuild.physics.linkage.vectors import Array

HEIGHT = 190.0
MARGIN, GAP = 14.0, 24.0
LOOKS = {"droop": ("sky", 0.5, "2 2"), "bump": ("orange", 0.5, "2 2"), "standing": ("ink", 1.1, "")}
"""Tone, weight and dash of each position; the standing one is drawn last, over the others."""


def linkage_drawing(swept: Swept, told: Callable[[float], str]) -> str:
    """Return both views to one scale, the car's front to the left in the side view.

    Parameters
    ----------
    swept : Swept
        A suspension over its travel, steering straight ahead. [-]
    told : callable
        Turns a length in metres into the person's words. [-]

    """
    travel = swept.motion.travel
    places = {
        "droop": 0,
        "bump": len(travel) - 1,
        "standing": int(np.argmin(np.abs(travel))),
    }
    drawing = Drawing(HEIGHT)
    views = _views(swept, places)
    for name, (tone, weight, dash) in LOOKS.items():
        for view in views:
            for line in _lines(swept, places[name]):
                drawing.line([view(point) for point in line], tone=tone, weight=weight, dash=dash)
    words = f"bump {told(float(travel[-1]))}, droop {told(float(-travel[0]))}"
    drawing.words((MARGIN, HEIGHT - 4.0), f"From behind and from the left: {words}", size=7.5)
    return drawing.svg()


def _lines(swept: Swept, place: int) -> list[list[Array]]:
    """Return rods and wheels as lines in space; the wheel as its rolling circle."""
    found = [[one.start, one.end] for one in swept.rods(place)]
    for wheel in filter(None, (swept.left, swept.right)):
        found.append(wheel.outline(place))
    return found


def _views(swept: Swept, places: dict[str, int]) -> tuple[Callable[[Array], Point], ...]:
    """Return front and side view, each a function from space to the sheet."""
    points = np.array([p for k in places.values() for line in _lines(swept, k) for p in line])
    low, high = np.nanmin(points, axis=0), np.nanmax(points, axis=0)
    width = WIDTH - 2.0 * MARGIN - GAP
    spans = (high[1] - low[1], high[0] - low[0])
    scale = min(width / sum(spans), (HEIGHT - 2.0 * MARGIN - 16.0) / (high[2] - low[2]))
    second = MARGIN + spans[0] * scale + GAP

    def height(point: Array) -> float:
        return float(MARGIN + (high[2] - point[2]) * scale)

    def front(point: Array) -> Point:
        return float(MARGIN + (high[1] - point[1]) * scale), height(point)

    def side(point: Array) -> Point:
        return float(second + (high[0] - point[0]) * scale), height(point)

    return front, side
