"""The engine in its bay, from the side and from the front, drawn from the boxes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from drybuild.physics.solids.shapes import moved_points
from drybuild.present.drawing import WIDTH, Drawing, Point, fitted
from drybuild.quantities.packaging_scene import BELL, PlacedEngine

SIDES = ("rear", "front", "right", "left", "bottom", "top")


@dataclass(frozen=True, kw_only=True)
class Box:
    """The bounds of a piece as placed. [m]."""

    rear: float
    front: float
    right: float
    left: float
    bottom: float
    top: float


def boxes_of(placed: PlacedEngine) -> dict[str, list[Box]]:
    """Return the engine's pieces at rest as boxes to draw: upper, sump and bell."""
    found: dict[str, list[Box]] = {"upper": [], "sump": [], "bell": []}
    pose = placed.pose.nominal
    for solid in placed.solids:
        part = {"sump": "sump", BELL: "bell"}.get(solid.name, "upper")
        for piece in solid.pieces:
            at = moved_points(points=piece.nominal, turn=pose.turn, shift=pose.shift)
            low, high = at.min(axis=0), at.max(axis=0)
            found[part].append(
                Box(
                    rear=low[0], front=high[0], right=low[1],
                    left=high[1], bottom=low[2], top=high[2],
                )
            )  # fmt: skip
    return found


@dataclass(frozen=True, kw_only=True)
class BayView:
    """What stands round the engine. [m]."""

    bulkhead: float
    radiator: float
    tower_width: float
    rail_width: float
    rail_top: float
    crossmember: tuple[float, float, float] | None
    """Rear, front, top."""
    bonnet: Sequence[Point]
    """Stations and heights."""
    boxes: Mapping[str, tuple[float, float, float, float, float, float]]
    """Rear, front, right, left, bottom, top."""
    ground: float | None
    """The road, z."""


@dataclass(frozen=True, kw_only=True)
class _Sheet:
    drawing: Drawing
    scale: float
    left: float
    foot: float
    low: Point
    """Values at the left and at the foot."""
    turn: float = 1.0
    """-1 where the values grow to the left."""

    def at(self, along: float, up: float) -> Point:
        return (
            self.left + self.turn * (along - self.low[0]) * self.scale,
            self.foot - (up - self.low[1]) * self.scale,
        )

    def box(
        self,
        start: float,
        end: float,
        bottom: float,
        top: float,
        tone: str,
        fill: str,
        dash: str = "",
    ) -> None:
        first, last = self.at(start, top), self.at(end, bottom)
        self.drawing.box(
            min(first[0], last[0]),
            first[1],
            abs(last[0] - first[0]),
            last[1] - first[1],
            tone=tone,
            fill=fill,
            dash=dash,
            weight=2.0 if tone == "blue" else 0.6,
        )


def side_drawing(
    rest: Mapping[str, Sequence[Box]],
    bay: BayView,
    gaps: Mapping[str, float],
    told: Callable[[float], str],
) -> str:
    """Return the engine from the left, front of the car to the left."""
    tops = [height for _, height in bay.bonnet]
    low = min([*_sides(rest, "bottom"), bay.ground if bay.ground is not None else 0.0]) - 0.03
    high, front = max(tops) + 0.06, bay.radiator + 0.10
    rear = min(bay.bulkhead - 0.25, *_sides({"bell": rest["bell"]}, "rear"))
    scale = min((WIDTH - 90.0) / (front - rear), 250.0 / (high - low))
    drawing = Drawing((high - low) * scale + 22.0)
    middle = (WIDTH - (front - rear) * scale) / 2.0
    sheet = _Sheet(
        drawing=drawing,
        scale=scale,
        left=middle + front * scale,
        foot=(high - low) * scale + 6.0,
        low=(0.0, low),
        turn=-1.0,
    )
    _parts(sheet, rest, ("rear", "front"))
    if bay.ground is not None:
        ends = [sheet.at(x, bay.ground) for x in (front, rear)]
        drawing.line(ends, weight=1.0)
        drawing.words((ends[0][0] + 2.0, ends[0][1] - 3.0), "road", size=7.0, tone="faint")
    _beside(sheet, bay, max(tops), gaps, told)
    _bonnet_line(sheet, bay, gaps, told)
    return drawing.svg()


def _beside(
    sheet: _Sheet,
    bay: BayView,
    top: float,
    gaps: Mapping[str, float],
    told: Callable[[float], str],
) -> None:
    """Draw what stands before, behind and under the engine."""
    drawing = sheet.drawing
    if bay.crossmember is not None:
        start, end, height = bay.crossmember
        sheet.box(start, end, height - 0.05, height, "faint", "")
        at = sheet.at((start + end) / 2.0, height - 0.05)
        drawing.words((at[0], at[1] + 8.0), "cross-member", size=7.0, tone="faint", anchor="middle")
    for name, (start, end, _, _, bottom, height) in bay.boxes.items():
        sheet.box(start, end, bottom, height, "purple", "", "3 2")
        at = sheet.at(end, height)
        drawing.words((at[0] + 2.0, at[1] + 8.0), fitted(name, 7.0, 90.0), size=7.0, tone="purple")
    for place, word, anchor, away in (
        (bay.bulkhead, "bulkhead", "start", 4.0),
        (bay.radiator, "radiator", "end", -4.0),
    ):
        head, foot = sheet.at(place, top - 0.02), sheet.at(place, 0.0)
        drawing.line([head, foot], weight=2.0)
        drawing.words((head[0] + away, head[1] + 34.0), word, size=7.5, anchor=anchor)
        if word in gaps:
            at = (head[0] + away, head[1] + 44.0)
            drawing.words(at, told(gaps[word]), size=7.5, tone="orange", anchor=anchor, bold=True)


def _bonnet_line(
    sheet: _Sheet, bay: BayView, gaps: Mapping[str, float], told: Callable[[float], str]
) -> None:
    stations = sorted(bay.bonnet)
    sheet.drawing.line([sheet.at(x, z) for x, z in stations], weight=1.6)
    over = f"bonnet, {told(gaps['bonnet'])} over the engine" if "bonnet" in gaps else "bonnet"
    at = sheet.at((stations[0][0] + stations[-1][0]) / 2.0, max(z for _, z in stations))
    sheet.drawing.words(
        (at[0], at[1] - 6.0), over, size=7.5, tone="orange", anchor="middle", bold=True
    )


def behind_drawing(
    rest: Mapping[str, Sequence[Box]],
    bay: BayView,
    gaps: Mapping[str, float],
    told: Callable[[float], str],
) -> str:
    """Return the engine from behind, the car's left to the left."""
    half = max(bay.tower_width, bay.rail_width) / 2.0 + 0.06
    heights = [height for _, height in bay.bonnet]
    top = max(heights)
    low = min([*_sides(rest, "bottom"), bay.rail_top - 0.12]) - 0.03
    scale = min((WIDTH - 150.0) / (2.0 * half), 240.0 / (top + 0.05 - low))
    foot = (top + 0.05 - low) * scale
    sheet = _Sheet(
        drawing=Drawing(foot + 18.0),
        scale=scale,
        left=WIDTH / 2.0,
        foot=foot + 6.0,
        low=(0.0, low),
        turn=-1.0,
    )
    _parts(sheet, rest, ("right", "left"))
    for side, word in ((1.0, "left"), (-1.0, "right")):
        _wall(sheet, bay, side, top)
        for part, place, up in (
            ("tower", bay.tower_width / 2.0, top - 0.10),
            ("rail", bay.rail_width / 2.0 + 0.07, bay.rail_top - 0.05),
        ):
            name = f"{word} {part}"
            _named(sheet, (side * place, up), side, name, told(gaps[name]) if name in gaps else "")
    for _, _, right, left, bottom, high in bay.boxes.values():
        sheet.box(right, left, bottom, high, "purple", "", "3 2")
    for height, dash in ((top, ""), (min(heights), "4 2")):
        tower = bay.tower_width / 2.0
        ends = [sheet.at(tower, height), sheet.at(-tower, height)]
        sheet.drawing.line(ends, weight=1.4, dash=dash)
    return sheet.drawing.svg()


def _wall(sheet: _Sheet, bay: BayView, side: float, top: float) -> None:
    tower, rail = side * bay.tower_width / 2.0, side * bay.rail_width / 2.0
    sheet.drawing.line([sheet.at(tower, top), sheet.at(tower, bay.rail_top)], weight=2.0)
    sheet.box(rail, rail + side * 0.07, bay.rail_top - 0.10, bay.rail_top, "ink", "band")


def _named(sheet: _Sheet, at: Point, side: float, name: str, gap: str) -> None:
    """Write a name and its gap outside of a wall."""
    x, y = sheet.at(*at)
    anchor, away = ("end", -4.0) if side > 0.0 else ("start", 4.0)
    sheet.drawing.words((x + away, y), name, size=7.5, anchor=anchor)
    sheet.drawing.words(
        (x + away, y + 10.0), gap, size=7.5, tone="orange", anchor=anchor, bold=True
    )


def _sides(rest: Mapping[str, Sequence[Box]], side: str) -> list[float]:
    return [_first(getattr(box, side)) for boxes in rest.values() for box in boxes]


def _parts(sheet: _Sheet, rest: Mapping[str, Sequence[Box]], ends: tuple[str, str]) -> None:
    fills = {"upper": "pale-blue", "block": "pale-blue", "sump": "pale-green", "bell": "band"}
    for part in ("bell", "sump", "block", "upper"):
        # All outlines first, then all fills over them: what is left is the outline of the union.
        for tone, fill in (("blue", ""), ("", fills[part])):
            for box in rest.get(part, ()):
                start, end = (_first(getattr(box, side)) for side in ends)
                sheet.box(start, end, _first(box.bottom), _first(box.top), tone, fill)


def _first(values: Any) -> float:  # array-like
    return float(np.ravel(np.asarray(values))[0])
