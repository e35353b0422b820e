"""The car on its wheels, seen from the side: loads and centres of gravity."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drybuild.present.drawing import WIDTH, Drawing


@dataclass(frozen=True, kw_only=True)
class Loaded:
    """A state of the car: where its centre of gravity is, and what its axles carry."""

    name: str
    behind: float
    """Behind the front axle. [m]"""
    height: float
    """Over the road. [m]"""
    words: str
    front: str
    rear: str


TONES = ("faint", "blue", "orange")


def balance_drawing(
    wheelbase: float, radius: tuple[float, float], states: Sequence[Loaded], wheelbase_text: str
) -> str:
    """Return wheels and road with each state's centre of gravity and axle loads.

    Parameters
    ----------
    wheelbase : float
        Between the axles. [m]
    radius : pair of float
        Of the front and rear wheel, standing. [m]
    states : sequence of Loaded
        What to mark. [-]
    wheelbase_text : str
        The wheelbase as the person reads it. [-]

    """
    rows = 12.0 * len(states)
    drawing = Drawing(126.0 + rows)
    scale = 250.0 / wheelbase
    left, road = (WIDTH - 250.0) / 2.0, 84.0
    for place, one in zip((0.0, wheelbase), radius, strict=True):
        middle = (left + place * scale, road - one * scale)
        drawing.circle(middle, one * scale, tone="faint", fill="band")
        drawing.circle(middle, one * scale * 0.55, tone="faint")
        drawing.circle(middle, 1.4, fill="ink")
    drawing.line([(20.0, road), (WIDTH - 20.0, road)], weight=1.0)
    for tone, state in zip(TONES, states, strict=False):
        x, y = left + state.behind * scale, road - state.height * scale
        drawing.circle((x, y), 4.2, tone=tone, fill="paper", weight=1.4)
        drawing.line([(x - 4.2, y), (x + 4.2, y)], tone=tone, weight=1.0)
        drawing.line([(x, y - 4.2), (x, y + 4.2)], tone=tone, weight=1.0)
    _names(drawing, states, left, scale, road)
    foot = road + 12.0
    drawing.dimension((left, foot), (left + 250.0, foot), wheelbase_text)
    for row, (tone, state) in enumerate(zip(TONES, states, strict=False)):
        y = foot + 18.0 + 12.0 * row
        drawing.words((left - 30.0, y), state.front, tone=tone, anchor="middle", bold=True)
        drawing.words((left + 280.0, y), state.rear, tone=tone, anchor="middle", bold=True)
        drawing.words((WIDTH / 2.0, y), f"{state.name}: {state.words}", tone=tone, anchor="middle")
    return drawing.svg()


def _names(
    drawing: Drawing, states: Sequence[Loaded], left: float, scale: float, road: float
) -> None:
    """Write each state's name beside its mark, one under the other where the marks are close."""
    ordered = sorted(zip(TONES, states, strict=False), key=lambda pair: -pair[1].height)
    reached = 0.0
    for tone, state in ordered:
        x, y = left + state.behind * scale, road - state.height * scale
        reached = max(reached + 10.0, y)
        drawing.line([(x + 4.5, y), (x + 18.0, reached)], tone=tone, weight=0.5)
        drawing.words((x + 20.0, reached + 2.5), state.name, tone=tone, ground=True)
