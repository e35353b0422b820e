"""What each option adds by itself: mass, price, lead time, current. Sums over a build follow."""

from __future__ import annotations

from dataclasses import dataclass
from types import ModuleType
from typing import Any

from drybuild.errors import MissingInput
from drybuild.options.labels import Weights
from drybuild.project.build import Build
from drybuild.quantities.graph import Evaluation, Graph, Part, Parts
from drybuild.quantities.quantity import step

NAMES = ("price", "mass", "lead_time", "current")
FREE = ("price", "lead_time")
"""Leaving a system as it is costs nothing of these."""


@step("What one part adds", source="definition")
def added(parts: Parts) -> dict[str, float]:
    """Return the nominal price, mass, lead time and current of the one part that is picked."""
    (part,) = parts.values()
    return {name: value for name in NAMES if (value := _nominal(part, name)) is not None}


def _nominal(part: Part, name: str) -> float | None:
    if name in FREE and part.picked.as_is:
        return 0.0
    try:
        return float(getattr(part.picked, name)[0])
    except MissingInput:
        return None


@dataclass(frozen=True, kw_only=True)
class Additive:
    """One sum over the options, and the options that do not say."""

    weights: Weights
    unknown: tuple[tuple[str, str], ...]


def additives(build: Build) -> dict[str, Additive]:
    """Return the weights of every option of the build, by name; one that does not say has none."""
    room = ModuleType(added.function.__module__)
    vars(room)["added"] = added
    evaluation = Evaluation(Graph((room,)), build, 0)
    said: dict[tuple[str, str], dict[str, Any]] = {  # numbers; what a step returns is untyped
        (system, option): evaluation.result("added", {system: option}).value or {}
        for system, options in build.options.items()
        for option in options
    }
    return {
        name: Additive(
            weights={
                system: {
                    option: said[system, option][name]
                    for option in options
                    if name in said[system, option]
                }
                for system, options in build.options.items()
            },
            unknown=tuple(label for label, one in said.items() if name not in one),
        )
        for name in NAMES
    }
