"""Brakes in pictures: the chain from foot to road, the distribution, the adhesion that is used."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.physics.brakes import balance, pressures
from drybuild.present.drawing import WIDTH, Drawing, fitted
from drybuild.present.plots import Line, lines_plot
from drybuild.project.samples import Values
from drybuild.quantities.brakes import BrakeLine, Stance

RATES = np.linspace(0.05, 1.1, 43)
ADHESIONS = np.linspace(0.2, 0.8, 25)


@dataclass(frozen=True, kw_only=True)
class Link:
    """A member of the chain: its name, what it is, what leaves it."""

    name: str
    what: str
    out: str


def chain_drawing(chain: Sequence[Link], front: Link, rear: Link, valve: str) -> str:
    """Return the chain from foot to master cylinder, then the two axles' brakes."""
    drawing = Drawing(174.0)
    wide, high, gap = 102.0, 50.0, 22.0
    middle = 87.0
    for place, one in enumerate(chain):
        x = (wide + gap) * place
        _member(drawing, x, middle - high / 2.0, wide, high, one)
        if place:
            drawing.line([(x - gap, middle), (x, middle)], weight=1.2)
            _arrow(drawing, x, middle)
    last, end = (wide + gap) * len(chain) - gap, WIDTH - wide
    for y, one, word in ((6.0, front, ""), (118.0, rear, valve)):
        elbow, level = last + 6.0, y + high / 2.0
        drawing.line([(last, middle), (elbow, middle), (elbow, level), (end, level)], weight=1.2)
        _arrow(drawing, end, level)
        _member(drawing, end, y, wide, high, one)
        drawing.words((end - 8.0, level + 12.0), word, size=7.0, tone="faint", anchor="end")
    return drawing.svg()


def _member(drawing: Drawing, x: float, y: float, wide: float, high: float, one: Link) -> None:
    drawing.box(x, y, wide, high, fill="band", round_=3.0)
    drawing.words(
        (x + wide / 2.0, y + 13.0),
        fitted(one.name, 8.5, wide - 6.0),
        size=8.5,
        anchor="middle",
        bold=True,
    )
    drawing.words(
        (x + wide / 2.0, y + 27.0), fitted(one.what, 7.5, wide - 4.0), size=7.5, anchor="middle"
    )
    drawing.words(
        (x + wide / 2.0, y + 41.0),
        fitted(one.out, 8.0, wide - 4.0),
        size=8.0,
        anchor="middle",
        tone="blue",
        bold=True,
    )


def _arrow(drawing: Drawing, x: float, y: float) -> None:
    drawing.line(
        [(x, y), (x - 5.0, y - 2.2), (x - 5.0, y + 2.2)], fill="ink", closed=True, weight=0.3
    )


def distribution_plot(line: BrakeLine, kerb: Stance, laden: Stance) -> str:
    """Return rear over front braking force, as fitted and as each load would have it."""
    ideal = [
        Line(label=f"ideal, {words}", x=front, y=rear, tag="")
        for words, stance in (("kerb weight", kerb), ("laden", laden))
        for front, rear in (_ideal(stance),)
    ]
    front, rear = _fitted(line, kerb, RATES)
    marks = []
    for rate in (0.3, 0.6, 0.9):
        at = _fitted(line, kerb, np.array([rate]))
        marks.append((float(at[0][0]), float(at[1][0]), f"{rate:g} g"))
    return lines_plot(
        [Line(label="as fitted", x=front, y=rear), *ideal],
        x_label="front braking force over weight [-]",
        y_label="rear braking force over weight [-]",
        points=marks,
        height=260.0,
    )


def bounds() -> list[Line]:
    """Return the regulations' bounds on the adhesion that an axle may need, over the rate."""
    least = balance.least_rate_ece_r13h(adhesion=ADHESIONS)
    older = balance.least_rate_eec_71_320(adhesion=ADHESIONS)
    return [
        Line(label="most that UN R13-H allows", x=least, y=ADHESIONS),
        Line(label="most of the older directive", x=older, y=ADHESIONS),
        Line(label="ideal", x=[0.0, 0.9], y=[0.0, 0.9]),
    ]


def _fitted(line: BrakeLine, stance: Stance, rates: Values) -> tuple[Values, Values]:
    """Return both braking forces over the weight at each rate, nominal."""
    weight = _one(stance.weight)
    here = BrakeLine(
        gain={axle: np.array([_one(one)]) for axle, one in line.gain.items()},
        threshold={axle: np.array([_one(one)]) for axle, one in line.threshold.items()},
        knee=np.array([_one(line.knee)]),
        slope=np.array([_one(line.slope)]),
    )
    pressure = pressures.pressure_for_force(
        force=rates * weight, force_at=here.total, kinks=here.kinks
    )
    return here.front(pressure) / weight, here.rear(pressure) / weight


def _ideal(stance: Stance) -> tuple[Values, Values]:
    rates = np.linspace(0.0, 1.1, 45)
    share = balance.ideal_front_share(
        front_share=_one(stance.front_share),
        height_ratio=_one(stance.height_ratio),
        braking_rate=rates,
    )
    return share * rates, (1.0 - share) * rates


def _one(values: Values) -> float:
    return float(np.ravel(values)[0])
