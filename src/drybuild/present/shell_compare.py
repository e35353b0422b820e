"""Options for the shell side by side: what each changes, weighs, costs and takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.present.numbers import with_band
from drybuild.quantities.graph import Evaluation, Result, summary

CHANGES = {
    "torsion": "shell_stiffness_ratio",
    "torsion, towers out": "shell_towers_out",
    "bending": "shell_frame_bending_ratio",
}
"""Told as change against the original, which is surer than any stiffness."""
FIGURES = {
    "adds": "reinforcement_mass",
    "price": "shell_work_price",
    "waiting": "shell_work_wait",
    "work": "shell_work_weeks",
    "for each kg": "reinforcement_yield",
    "price of 100 N·m/deg": "shell_frame_price_of_gain",
}
Triple = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class Told:
    """A figure as nominal, 5 % and 95 % in SI, and in words."""

    triple: Triple
    unit: str
    words: str


@dataclass(frozen=True, kw_only=True)
class Compared:
    """One option for the shell."""

    name: str
    picked: bool
    told: Mapping[str, Told]
    """By heading; what has no sense or is not known is left out."""


def shell_options(evaluation: Evaluation) -> tuple[Compared, ...]:
    """Return every option for the shell with its figures, each with its 5 to 95 % band."""
    build, picks = evaluation.build, evaluation.build.assumed_picks()
    found = []
    for name in build.options.get("shell", {}):
        told: dict[str, Told] = {}
        with_it = {**picks, "shell": name}
        for heading, quantity in CHANGES.items():
            result = evaluation.result(quantity, with_it)
            if not result.open:
                told[heading] = _change(result, evaluation)
        for heading, quantity in FIGURES.items():
            result = evaluation.result(quantity, with_it)
            if not result.open and np.isfinite(result.value[0]):
                told[heading] = _figure(result, evaluation)
        found.append(Compared(name=name, picked=picks.get("shell") == name, told=told))
    return tuple(found)


def headings(options: tuple[Compared, ...]) -> tuple[str, ...]:
    """Return the headings under which some option has a figure, in order."""
    return tuple(
        one for one in (*CHANGES, *FIGURES) if any(one in option.told for option in options)
    )


def _change(result: Result, evaluation: Evaluation) -> Told:
    low, middle, high = (one - 1.0 for one in summary(result.value))
    triple = (low, middle, high)
    words = with_band(triple, "-", "%", evaluation.build.units, evaluation.build.currency)
    return Told(triple=triple, unit="-", words=words if low < 0.0 else f"+{words}")


def _figure(result: Result, evaluation: Evaluation) -> Told:
    build, one = evaluation.build, result.quantity
    triple = summary(result.value)
    words = with_band(triple, one.unit, one.shown, build.units, build.currency)
    return Told(triple=triple, unit=one.unit, words=words)
