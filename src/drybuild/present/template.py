"""A part at full size, flat, to be cut from cardboard: outline from three sides, with its marks.

All lengths here are millimetres of paper, x to the right and y up, from the sheet's lower left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from drybuild.physics.solids.outlines import (
    Segments,
    area_of,
    loops_of,
    parted,
    seen_along,
    union_edges,
)
from drybuild.physics.solids.shapes import Array, Piece, Solid
from drybuild.present.packaging_meshes import standing_names
from drybuild.present.packaging_views import FRONT, LOOKS, Look
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_scene import BELL, RADIATOR
from drybuild.quantities.packaging_shapes import is_separate

Layer = Literal[
    "OUTLINE", "PARTS WITHIN", "CRANKSHAFT LINE", "DATUM", "MOUNT FACES", "BELL HOUSING FACE",
    "CHECK RULER", "WORDS",
]  # fmt: skip
BORDER = 25.0
"""Paper round the outline. [mm]"""
RULER = 100.0
"""Length of the check rulers. [mm]"""
MM = 1000.0
ENGINE, GEARBOX = "engine", "gearbox"
CRANK_DATUM = "the crankshaft's line at the rear face of the block"
MOUNT = "mount bracket"


@dataclass(frozen=True, kw_only=True)
class Stroke:
    """A line on the sheet."""

    layer: Layer
    points: tuple[tuple[float, float], ...]
    closed: bool = False


@dataclass(frozen=True, kw_only=True)
class Label:
    """Words on the sheet, from their lower left or about their middle."""

    layer: Layer
    at: tuple[float, float]
    text: str
    size: float = 4.0
    middle: bool = False


@dataclass(frozen=True, kw_only=True)
class TemplateSheet:
    """A part from one side at full size."""

    look: Look
    title: str
    width: float
    height: float
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
    area: float
    """What the outline encloses, its holes filled. [m²]"""


@dataclass(frozen=True, kw_only=True)
class Template:
    """A part from three sides."""

    part: str
    words: str
    """What the datum cross is."""
    typical: bool
    """Whether a usual shape stands in for some of it."""
    sheets: tuple[TemplateSheet, ...]


def parts_of(evaluation: Evaluation) -> tuple[str, ...]:
    """Return the parts that a template can be made of."""
    scene = evaluation.result("bay_scene").value
    if scene is None:
        return ()
    standing = standing_names(evaluation.build)
    gearbox = (GEARBOX,) if evaluation.result("gearbox_shape").value else ()
    separate = [one.name for one in scene.moving if is_separate(one)]
    own = [one.name for one in scene.fixed if one.name in standing and one.pieces]
    radiator = (RADIATOR,) if evaluation.result("radiator_shape").value else ()
    return (ENGINE, *gearbox, *separate, *own, *radiator)


def template_of(evaluation: Evaluation, part: str = ENGINE) -> Template | None:
    """Return a part's template at the nominal readings; None where there is no such part."""
    scene = evaluation.result("bay_scene").value
    if scene is None or part not in parts_of(evaluation):
        return None
    if part == ENGINE:
        solids = [one for one in scene.moving if not is_separate(one)]
        return _template(part, solids, np.zeros(3), CRANK_DATUM)
    if part == GEARBOX:
        return _template(part, evaluation.result("gearbox_shape").value, np.zeros(3), CRANK_DATUM)
    separate = [one for one in scene.moving if is_separate(one) and one.name == part]
    if separate:
        return _template(part, separate, np.zeros(3), CRANK_DATUM)
    if part == RADIATOR:
        solid = evaluation.result("radiator_shape").value
    else:
        solid = next(one for one in scene.fixed if one.name == part)
    points = np.concatenate([one.nominal for one in solid.pieces])
    middle = (points.min(axis=0) + points.max(axis=0)) / 2.0
    x, y, z = (f"{value * MM:.0f}".replace("-", "−") for value in middle)
    return _template(part, (solid,), middle, f"its middle; on the car x {x}, y {y}, z {z} mm")


def _template(part: str, solids: Sequence[Solid], origin: Array, words: str) -> Template:
    return Template(
        part=part,
        words=words,
        typical=any(one.typical for one in solids),
        sheets=tuple(_sheet(part, solids, origin, look) for look in LOOKS),
    )


def _sheet(part: str, solids: Sequence[Solid], origin: Array, look: Look) -> TemplateSheet:
    seen = {
        one.name: seen_along(points=[p.nominal - origin for p in one.pieces], axes=look.axes)
        for one in solids
    }
    every = [polygon for polygons in seen.values() for polygon in polygons]
    outline = [one for one in loops_of(lines=union_edges(polygons=every)) if area_of(loop=one) > 0]
    corners = np.concatenate(outline)
    low, high = corners.min(axis=0), corners.max(axis=0)
    low, high = np.minimum(low, 0.0), np.maximum(high, 0.0)
    paper = _Paper(look=look, low=low, high=high)
    strokes = [Stroke(layer="OUTLINE", points=paper.line(one), closed=True) for one in outline]
    for polygons in seen.values():
        _, within = parted(lines=union_edges(polygons=polygons), polygons=every)
        strokes += paper.lines("PARTS WITHIN", within)
    labels: list[Label] = []
    _datum(paper, strokes, labels)
    if part in (ENGINE, GEARBOX):
        _crank(paper, strokes, labels)
        _faces(paper, solids, strokes, labels)
    _ruler(strokes, labels)
    width, height = (high - low) * MM + 2.0 * BORDER
    title = f"{part}, {look.title[0].lower()}{look.title[1:]}"
    labels.append(Label(layer="WORDS", at=(BORDER, height - 12.0), text=title, size=7.0))
    return TemplateSheet(
        look=look,
        title=title,
        width=float(width),
        height=float(height),
        strokes=tuple(strokes),
        labels=tuple(labels),
        area=sum(area_of(loop=one) for one in outline),
    )


@dataclass(frozen=True, kw_only=True)
class _Paper:
    look: Look
    low: Array
    high: Array

    def at(self, place: Array) -> tuple[float, float]:
        """Return where a place (m) is on the sheet (mm)."""
        x, y = (
            float(place[k] - self.low[k] if turn > 0.0 else self.high[k] - place[k]) * MM + BORDER
            for k, turn in enumerate(self.look.turns)
        )
        return x, y

    def line(self, places: Array) -> tuple[tuple[float, float], ...]:
        return tuple(self.at(one) for one in places)

    def lines(self, layer: Layer, lines: Segments) -> list[Stroke]:
        return [Stroke(layer=layer, points=self.line(one)) for one in lines]

    def across(self, axis: int, at: float, ends: tuple[float, float]) -> tuple[Array, Array]:
        """Return a line square to an axis of the view."""
        found = np.empty((2, 2))
        found[:, axis] = at
        found[:, 1 - axis] = ends
        return found[0], found[1]


def _datum(paper: _Paper, strokes: list[Stroke], labels: list[Label]) -> None:
    """Draw a cross in a circle where the part's axes meet."""
    x, y = paper.at(np.zeros(2))
    for way in ((12.0, 0.0), (0.0, 12.0)):
        ends = ((x - way[0], y - way[1]), (x + way[0], y + way[1]))
        strokes.append(Stroke(layer="DATUM", points=ends))
    turn = np.linspace(0.0, 2.0 * np.pi, 36, endpoint=False)
    ring = tuple((x + 6.0 * float(np.cos(a)), y + 6.0 * float(np.sin(a))) for a in turn)
    strokes.append(Stroke(layer="DATUM", points=ring, closed=True))
    labels.append(Label(layer="DATUM", at=(x + 8.0, y + 8.0), text="datum"))


def _crank(paper: _Paper, strokes: list[Stroke], labels: list[Label]) -> None:
    """Draw the crankshaft's line, where it does not look at the eye."""
    if paper.look is FRONT:
        return
    start, end = paper.across(1, 0.0, (paper.low[0] - 0.012, paper.high[0] + 0.012))
    points = paper.line(np.array((start, end)))
    strokes.append(Stroke(layer="CRANKSHAFT LINE", points=points))
    at = (min(x for x, _ in points) + 14.0, points[0][1] + 2.0)
    labels.append(Label(layer="CRANKSHAFT LINE", at=at, text="crankshaft's line"))


def _faces(
    paper: _Paper, solids: Sequence[Solid], strokes: list[Stroke], labels: list[Label]
) -> None:
    """Draw the face that the bell housing bolts to, and the mounts' brackets."""
    bell = [piece for one in solids if one.name == BELL for piece in one.pieces]
    if bell and paper.look is not FRONT:
        axis = paper.look.axes[1]
        reach = np.concatenate([one.nominal[:, axis] for one in bell])
        ends = paper.across(0, 0.0, (float(reach.min()), float(reach.max())))
        points = paper.line(np.array(ends))
        strokes.append(Stroke(layer="BELL HOUSING FACE", points=points))
        x, y = max(points, key=lambda one: one[1])
        labels.append(
            Label(layer="BELL HOUSING FACE", at=(x + 3.0, y - 6.0), text="bell housing's face")
        )
    for one in solids:
        for piece in one.pieces:
            if MOUNT in piece.name:
                _mount(paper, piece, strokes, labels)


def _mount(paper: _Paper, piece: Piece, strokes: list[Stroke], labels: list[Label]) -> None:
    for polygon in seen_along(points=[piece.nominal], axes=paper.look.axes):
        points = paper.line(polygon)
        strokes.append(Stroke(layer="MOUNT FACES", points=points, closed=True))
        middle = np.mean(points, axis=0)
        at = (float(middle[0]), float(middle[1]) - 1.5)
        text = piece.name.replace(f" {MOUNT}", " mount")
        labels.append(Label(layer="MOUNT FACES", at=at, text=text, size=3.0, middle=True))


def _ruler(strokes: list[Stroke], labels: list[Label]) -> None:
    """Draw two rulers of 100 mm with ticks in the sheet's corner."""
    for across in (False, True):
        line, ticks = ruler_strokes((6.0, 6.0), upright=across)
        strokes += [line, *ticks]
    labels.append(
        Label(layer="CHECK RULER", at=(10.0, 10.0), text="100 mm both ways: measure", size=3.0)
    )


def ruler_strokes(start: tuple[float, float], *, upright: bool) -> tuple[Stroke, list[Stroke]]:
    """Return a ruler from a corner, level or upright, and its ticks every 10 mm."""
    x, y = start

    def at(along: float, aside: float) -> tuple[float, float]:
        return (x + aside, y + along) if upright else (x + along, y + aside)

    line = Stroke(layer="CHECK RULER", points=(at(0.0, 0.0), at(RULER, 0.0)))
    ticks = [
        Stroke(
            layer="CHECK RULER",
            points=(at(10.0 * k, 0.0), at(10.0 * k, -4.0 if k in (0, 10) else -2.0)),
        )
        for k in range(11)
    ]
    return line, ticks
