"""What to order for ride, roll and damping: springs, bars and dampers in words, rows and curves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from drybuild.physics.dampers import DamperCurve, damper_force
from drybuild.present.numbers import value_and_band
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, summary

ENDS = ("front", "rear")
ROWS = (
    "wanted_ride_frequency",
    "wanted_wheel_rate",
    "wheel_rate",
    "wanted_spring_rate",
    "spring_rate",
    "wanted_bar_stiffness",
    "anti_roll_bar_stiffness",
    "wanted_bar_diameter",
)
"""Wanted first, then what the picked parts have."""
STEEL = {"wanted_coils": "wanted_coil_stress", "wanted_leaves": ""}
SPEEDS = np.array([-0.50, -0.25, -0.15, -0.10, -0.05, 0.0, 0.05, 0.10, 0.15, 0.25, 0.50])
"""Of the damper, bump positive; those that damper sheets are printed at. [m/s]"""
NONE = "–"


@dataclass(frozen=True, kw_only=True)
class SteelRow:
    """One wire or leaf that would make a spring's rate."""

    axle: str
    size: str
    number: str
    """Working coils, or leaves."""
    stress: str
    """At full bump, with its band; empty for leaves."""


def told(evaluation: Evaluation, name: str, label: str) -> str:
    """Return a figure with its band in the person's unit; a dash while it is not known."""
    result, build = evaluation.result(name), evaluation.build
    values = result.labelled().get(label)
    if values is None:
        return NONE
    one = result.quantity
    value, band = value_and_band(summary(values), one.unit, one.shown, build.units, build.currency)
    return f"{value} ({band})" if band else value


def order_line(evaluation: Evaluation) -> str:
    """Return the answer in a sentence, nominal; empty while rates are not known."""
    found = []
    for axle in ENDS:
        rate, bar = (
            evaluation.result(name).labelled().get(axle)
            for name in ("wanted_wheel_rate", "wanted_bar_diameter")
        )
        if rate is None:
            return ""
        words = f"{axle} {_short(evaluation, 'wanted_wheel_rate', axle)} at each wheel"
        if bar is not None and np.isfinite(bar[0]):
            size = _short(evaluation, "wanted_bar_diameter", axle)
            words += f", bar {size}" if bar[0] > 0.0 else ", no bar"
        found.append(words)
    return f"{'; '.join(found)}."


def _short(evaluation: Evaluation, name: str, label: str) -> str:
    return told(evaluation, name, label).partition(" (")[0]


def order_rows(evaluation: Evaluation) -> list[tuple[str, ...]]:
    """Return wanted figures beside what the picked parts have: words, front, rear."""
    found = []
    for name in ROWS:
        cells = [told(evaluation, name, axle) for axle in ENDS]
        if any(cell != NONE for cell in cells):
            found.append((evaluation.result(name).quantity.label, *cells))
    return found


def steel_rows(evaluation: Evaluation) -> list[SteelRow]:
    """Return wires and leaves that would make the rates."""
    found = []
    for name, stress in STEEL.items():
        for label in evaluation.result(name).labelled():
            axle, _, size = label.partition(" ")
            kind = "wire" if name == "wanted_coils" else "leaves"
            found.append(
                SteelRow(
                    axle=axle,
                    size=f"{size} {kind}",
                    number=told(evaluation, name, label),
                    stress=told(evaluation, stress, label) if stress else "",
                )
            )
    return found


def damper_bands(evaluation: Evaluation) -> dict[str, Values]:
    """Return the force over `SPEEDS` of each end's damper: (speeds, 3) [N]."""
    curves: dict[str, DamperCurve] | None = evaluation.result("dampers_wanted").value
    found = {}
    for axle, curve in (curves or {}).items():
        forces = np.stack([damper_force(curve=curve, speed=speed) for speed in SPEEDS])
        found[axle] = np.array([summary(one) for one in forces])
    return found


def orders_json(evaluation: Evaluation) -> dict[str, Any]:  # plain JSON
    """Return everything to order, all numbers in SI: nominal, 5 %, 95 %."""
    names = (*ROWS, "wanted_coils", "wanted_coil_stress", "wanted_leaves", "wanted_damping")
    return {
        "build": evaluation.build.name,
        "figures": {name: _json(evaluation, name) for name in names},
        "damper_curves": {
            "speed": SPEEDS.tolist(),
            "force": {axle: band.tolist() for axle, band in damper_bands(evaluation).items()},
        },
    }


def _json(evaluation: Evaluation, name: str) -> dict[str, Any]:  # plain JSON
    result = evaluation.result(name)
    values = {
        label: dict(
            zip(
                ("value", "low", "high"),
                (float(one) if np.isfinite(one) else None for one in summary(samples)),
                strict=True,
            )
        )
        for label, samples in result.labelled().items()
    }
    missing = [lack.path for lack in result.missing]
    return {"unit": result.quantity.unit, "values": values, "missing": missing}
