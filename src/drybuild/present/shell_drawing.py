"""The body's frame from the side and from above: where twisting strains it, and what is added."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.quantities.shell_families import PartLine

BANDS = ((0.03, "orange", 3.2), (0.01, "amber", 2.2), (0.003, "sky", 1.4), (0.0, "rule", 0.8))
"""Share of the strain energy from which a member is drawn in a tone and weight."""
FILLS = ((0.01, "pale-orange", 2), (0.003, "pale-amber", 1), (0.0005, "pale-blue", 0))
"""The same for panels, with the diagonals drawn in them; those below stay empty."""
TOLD = 7
"""Parts whose share stands beside them in figures."""
MARGIN = 14.0
GAP = 26.0
KEY = 42.0


def shell_drawing(parts: Sequence[PartLine]) -> str:
    """Return the side view over the plan view, front to the left, as SVG.

    Parameters
    ----------
    parts : sequence of PartLine
        Members and panels with places and shares of the strain energy. [m, -]

    Returns
    -------
    str
        The drawing.

    """
    corners = [corner for part in parts for corner in part.corners]
    low, high = (tuple(pick(one) for one in zip(*corners, strict=True)) for pick in (min, max))
    scale = (WIDTH - 2.0 * MARGIN) / (high[0] - low[0])
    tall, wide = (high[2] - low[2]) * scale, (high[1] - low[1]) * scale
    drawing = Drawing(height=2.0 * MARGIN + tall + GAP + wide + KEY)
    plan_top = MARGIN + tall + GAP

    def side(corner: tuple[float, float, float]) -> Point:
        return MARGIN + (high[0] - corner[0]) * scale, MARGIN + (high[2] - corner[2]) * scale

    def above(corner: tuple[float, float, float]) -> Point:
        return MARGIN + (high[0] - corner[0]) * scale, plan_top + (corner[1] - low[1]) * scale

    drawing.words((MARGIN, MARGIN - 4.0), "From the side", size=7.5, tone="faint")
    drawing.words((MARGIN, plan_top - 6.0), "From above", size=7.5, tone="faint")
    for place in (side, above):
        for part in sorted(parts, key=lambda one: (len(one.corners) == 2, one.share)):
            _draw(drawing, [place(one) for one in part.corners], part)
    _figures(drawing, parts, side)
    _key(drawing, plan_top + wide + 18.0)
    return drawing.svg()


def strain_words(parts: Sequence[PartLine], count: int = 6) -> str:
    """Return in words where the strain is greatest, for those who cannot see the drawing."""
    ranked = sorted(parts, key=lambda one: -one.share)[:count]
    return "Greatest shares of the strain energy in torsion: " + ", ".join(
        f"{one.name} {100.0 * one.share:.1f} %" for one in ranked
    )


def band_of(share: float) -> tuple[str, float]:
    """Return tone and weight of a member by its share of the strain energy."""
    return next((tone, weight) for least, tone, weight in BANDS if share >= least)


def _draw(drawing: Drawing, points: list[Point], part: PartLine) -> None:
    if len(points) == 4:
        band = next((one for one in FILLS if part.share >= one[0]), None)
        if band is not None:
            drawing.line(points, tone="", fill=band[1], closed=True)
            for first in range(band[2]):
                drawing.line(
                    [points[first], points[first + 2]], tone="faint", weight=0.4, dash="2 2"
                )
        return
    tone, weight = band_of(part.share)
    if part.added:
        drawing.line(points, tone="green", weight=max(weight, 1.4) + 1.6)
    drawing.line(points, tone=tone, weight=weight)


def _figures(
    drawing: Drawing,
    parts: Sequence[PartLine],
    place: Callable[[tuple[float, float, float]], Point],
) -> None:
    """Write the greatest shares beside their parts, both sides of the car as one."""
    seen: set[str] = set()
    for part in sorted(parts, key=lambda one: -one.share):
        stem = part.name.removesuffix(" left").removesuffix(" right")
        if stem in seen:
            continue
        if len(seen) == TOLD:
            return
        seen.add(stem)
        corners = [place(one) for one in part.corners]
        x, y = (sum(pair) / len(corners) for pair in zip(*corners, strict=True))
        drawing.words((x + 3.0, y - 3.0), f"{100.0 * part.share:.1f} %", size=6.5, ground=True)


def _key(drawing: Drawing, top: float) -> None:
    place = MARGIN
    entries = [(f"from {100.0 * least:g} %", tone, weight) for least, tone, weight in BANDS[:-1]]
    for words, tone, weight in (
        *entries,
        ("less", *BANDS[-1][1:]),
        ("added by the work", "green", 3),
    ):
        drawing.line([(place, top), (place + 18.0, top)], tone=tone, weight=weight)
        drawing.words((place + 22.0, top + 2.5), words, size=7.5)
        place += 90.0
    words = "Panels: two diagonals from 1 %, one from 0.3 %; figures: shares of the greatest parts."
    drawing.words((MARGIN, top + 14.0), words, size=7.5, tone="faint")
