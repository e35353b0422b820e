"""A figure known by three points: what hours, prices and lead times are given as."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class ThreePoint:
    """A figure that is known by three points.

    With `limits` false the three are the 10 %, 50 % and 90 % points: one time in ten it is less
    than `low`, even odds at `likely`, one time in ten more than `high`. People who are asked for
    a least and a most give such ends, or narrower ones (Capen 1976; Tversky and Kahneman 1974).
    With `limits` true they are least, most likely and most, as classic PERT takes them.
    """

    low: float
    likely: float
    high: float
    limits: bool = False

    @property
    def certain(self) -> bool:
        """Whether the three are one."""
        return self.low == self.high

    def scaled(self, factor: float) -> ThreePoint:
        """Return the figure times a number."""
        return ThreePoint(
            self.low * factor, self.likely * factor, self.high * factor, limits=self.limits
        )


def exactly(value: float) -> ThreePoint:
    """Return a figure without doubt."""
    return ThreePoint(value, value, value)


def between(low: float, high: float) -> ThreePoint:
    """Return the figure of two ends: their geometric middle makes it a lognormal."""
    return ThreePoint(low, math.sqrt(low * high), high)


NOTHING = exactly(0.0)
ALL = exactly(1.0)
