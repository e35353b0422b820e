"""Values of the two axles: the rear takes the front's where the file names no other."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import numpy as np

from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.quantities.quantity import Labelled

S = TypeVar("S")
FRONT, REAR = "front", "rear"
AXLES = (FRONT, REAR)


def constant(value: float) -> Values:
    """Return a value without spread; an array of one broadcasts with any samples."""
    return np.array([value])


def both_axles(section: Section, name: str) -> Labelled:
    """Return an entry for both axles: ``width`` and, where given, ``rear_width``."""
    front: Values = getattr(section, name)
    rear: Values = getattr(section, f"rear_{name}") if section.has(f"rear_{name}") else front
    return {FRONT: front, REAR: rear}


def each_axle(work: Callable[[str], float | Values]) -> Labelled:
    """Return what a function gives for each axle, as arrays."""
    return {axle: np.asarray(work(axle), dtype=np.float64) for axle in AXLES}


def of_axle(axle: str, front: S, rear: S) -> S:
    """Return the section of an axle."""
    return front if axle == FRONT else rear
