"""The car's stance from the side: ride heights, roll axis, travel, clearance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from drybuild.present.drawing import WIDTH, Drawing


@dataclass(frozen=True, kw_only=True)
class AxleStance:
    """One end of the car. Lengths over the road. [m]."""

    radius: float
    ride_height: float
    roll_centre: float
    bump: float | None
    droop: float | None


@dataclass(frozen=True, kw_only=True)
class Standing:
    """The car as it stands on its springs. [m]."""

    wheelbase: float
    front: AxleStance
    rear: AxleStance
    cg_behind: float
    cg_height: float
    clearance: float | None


SPAN = 300.0
LOW = 0.15
"""Roll centres under this have their words above them, clear of the road. [m]"""


def stance_drawing(car: Standing, told: Callable[[float], str]) -> str:
    """Return the stance, front of the car to the left; to scale.

    Parameters
    ----------
    car : Standing
        Where things are. [-]
    told : callable
        Turns a length in metres into the person's words. [-]

    """
    drawing = Drawing(122.0)
    scale, left, road = SPAN / car.wheelbase, (WIDTH - SPAN) / 2.0, 86.0
    right = left + SPAN
    drawing.line([(14.0, road), (WIDTH - 14.0, road)], weight=1.0)
    for x, one in ((left, car.front), (right, car.rear)):
        drawing.circle(
            (x, road - one.radius * scale), one.radius * scale, tone="faint", fill="band"
        )
    sill = [road - one.ride_height * scale for one in (car.front, car.rear)]
    drawing.line([(left - 40.0, sill[0]), (right + 40.0, sill[1])], weight=1.6)
    drawing.words(
        (WIDTH / 2.0, min(sill) - 4.0),
        "sill seam",
        size=7.5,
        tone="faint",
        anchor="middle",
        ground=True,
    )
    _roll_axis(drawing, car, (left, right), road, scale, told)
    x, y = left + car.cg_behind * scale, road - car.cg_height * scale
    drawing.circle((x, y), 4.0, tone="orange", fill="paper", weight=1.4)
    drawing.line([(x - 4.0, y), (x + 4.0, y)], tone="orange")
    drawing.line([(x, y - 4.0), (x, y + 4.0)], tone="orange")
    drawing.words(
        (x + 8.0, y + 2.5),
        f"centre of gravity {told(car.cg_height)}",
        size=7.5,
        tone="orange",
        ground=True,
    )
    for x, one, end in ((left - 44.0, car.front, "end"), (right + 44.0, car.rear, "start")):
        _side(drawing, x, one, end, road, scale, told)
    drawing.dimension((left, road + 12.0), (right, road + 12.0), told(car.wheelbase))
    if car.clearance is not None:
        _clearance(drawing, (left + right) / 2.0 + 46.0, car.clearance, road, scale, told)
    return drawing.svg()


def _roll_axis(
    drawing: Drawing,
    car: Standing,
    ends: tuple[float, float],
    road: float,
    scale: float,
    told: Callable[[float], str],
) -> None:
    heights = [road - one.roll_centre * scale for one in (car.front, car.rear)]
    drawing.line(
        [(ends[0], heights[0]), (ends[1], heights[1])], tone="blue", dash="8 3 2 3", weight=1.0
    )
    for x, y, one in zip(ends, heights, (car.front, car.rear), strict=True):
        drawing.circle((x, y), 2.2, tone="blue", fill="blue")
        inwards = 1.0 if one is car.front else -1.0
        drawing.words(
            (x + inwards * 42.0, y - 5.0 if one.roll_centre < LOW else y + 11.0),
            f"roll centre {told(one.roll_centre)}",
            size=7.5,
            tone="blue",
            anchor="start" if one is car.front else "end",
            ground=True,
        )


def _side(
    drawing: Drawing,
    x: float,
    one: AxleStance,
    anchor: str,
    road: float,
    scale: float,
    told: Callable[[float], str],
) -> None:
    top = road - one.ride_height * scale
    drawing.line([(x, road), (x, top)], tone="faint", weight=0.5)
    away = -4.0 if anchor == "end" else 4.0
    drawing.words((x + away, top + 8.0), told(one.ride_height), size=8.0, anchor=anchor, bold=True)
    rows = [("up", one.bump), ("down", one.droop)]
    for row, (word, travel) in enumerate(rows):
        if travel is not None:
            drawing.words(
                (x + away, top + 17.0 + 8.5 * row),
                f"{told(travel)} {word}",
                size=7.0,
                tone="faint",
                anchor=anchor,
            )


def _clearance(
    drawing: Drawing,
    x: float,
    clearance: float,
    road: float,
    scale: float,
    told: Callable[[float], str],
) -> None:
    y = road - clearance * scale
    drawing.line([(x - 26.0, y), (x + 26.0, y)], tone="green", weight=1.4)
    drawing.line([(x, y), (x, road)], tone="green", weight=0.6)
    drawing.words(
        (x + 4.0, (y + road) / 2.0 + 3.0),
        f"{told(clearance)} clear",
        size=7.5,
        tone="green",
        ground=True,
    )
