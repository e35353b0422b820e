"""Ride against grip: the curves of spring and damper choice, and the build's candidates on them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from drybuild.present.plots import Line, lines_plot
from drybuild.quantities.graph import Evaluation, summary
from drybuild.quantities.ride_half_car import Trade

SYSTEMS = ("front_suspension", "rear_suspension", "dampers")
FEW = 200
"""Samples behind a candidate's band."""
NEAR = 0.06
"""Choices nearer than this share of the plot have one mark."""
MOST = 12
"""Candidates that a plot can hold."""


@dataclass(frozen=True, kw_only=True)
class Stand:
    """Where one choice stands between ride and grip; nominal, 5 %, 95 %."""

    sign: str
    """What marks it in the plot."""
    words: str
    comfort: tuple[float, float, float]
    """[m/s²]"""
    contact: tuple[float, float, float]
    """The worse axle. [-]"""


def stands(evaluation: Evaluation) -> list[Stand]:
    """Return the picks as they are, then each other spring or damper option in their place."""
    own = Evaluation(evaluation.graph, evaluation.build, FEW)
    found = []
    for number, (words, picks) in enumerate(_choices(evaluation)):
        comfort = own.result("ride_comfort", picks).value
        contact = own.result("dynamic_wheel_load_share", picks).value
        if comfort is None or contact is None:
            continue
        worse = max(contact.values(), key=lambda values: float(values[0]))
        found.append(
            Stand(
                sign=str(number) if number else "now",
                words=words,
                comfort=summary(comfort),
                contact=summary(worse),
            )
        )
    return found


def trade_plot(trade: Trade, found: list[Stand], unit: str) -> str:
    """Return contact over comfort: a line a spring rate, along it the dampers stiffen."""
    lines = [
        Line(
            label=f"springs × {factor:g}",
            x=trade.comfort[row],
            y=100.0 * trade.contact[row],
        )
        for row, factor in enumerate(trade.springs)
    ]
    return lines_plot(
        lines,
        x_label=f"felt on the seat, brief's roads [{unit}]",
        y_label="change of wheel load, roughest road [%]",
        from_zero=False,
        points=_points(trade, found),
        height=270.0,
    )


def _points(trade: Trade, found: list[Stand]) -> list[tuple[float, float, str]]:
    """Return a point for each choice; those too near to be told apart share their words."""
    wide, high = np.ptp(trade.comfort), 100.0 * np.ptp(trade.contact)
    heads: list[tuple[float, float, list[str]]] = []
    for one in found:
        x, y = one.comfort[0], 100.0 * one.contact[0]
        near = (
            head
            for head in heads
            if abs(head[0] - x) < NEAR * wide and abs(head[1] - y) < NEAR * high
        )
        head = next(near, None)
        if head is None:
            heads.append((x, y, [one.sign]))
        else:
            head[2].append(one.sign)
    return [(x, y, ", ".join(signs)) for x, y, signs in heads]


def _choices(evaluation: Evaluation) -> Iterator[tuple[str, dict[str, str]]]:
    build = evaluation.build
    picks = build.assumed_picks()
    yield "as picked", dict(picks)
    others = [
        (system, name)
        for system in SYSTEMS
        for name in build.options.get(system, {})
        if name != picks.get(system)
    ]
    for system, name in others[: MOST - 1]:
        yield f"{system.replace('_', ' ')}: {name}", {**picks, system: name}
