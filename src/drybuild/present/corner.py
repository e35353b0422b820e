"""Curves with their spread, ready to plot: over lateral acceleration, and over speed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.handling import yaw_velocity_gain
from drybuild.project.samples import Values

POINTS = 25
SLOWEST = 3.0
"""[m/s]"""
LEAST = 0.9
"""Share of the samples that must still have a value where a band is drawn."""


@dataclass(frozen=True, kw_only=True)
class Banded:
    """A curve with its 5 to 95 % band."""

    x: Values
    nominal: Values
    low: Values
    high: Values


def banded(x: Values, samples: Values) -> Banded:
    """Return nominal and band of ``(points, samples)``; cut where too few samples have a value."""
    drawn = samples[:, 1:] if samples.shape[1] > 1 else samples
    held = np.isfinite(drawn).mean(axis=1) >= LEAST
    held &= np.isfinite(samples[:, 0])
    count = held.size if held.all() else int(np.argmin(held))
    low, high = np.nanpercentile(drawn[:count], (5.0, 95.0), axis=1)
    return Banded(x=x[:count], nominal=samples[:count, 0], low=low, high=high)


def yaw_gain_over_speed(
    wheelbase: Values, gradient: Values, ratio: Values, fastest: float
) -> Banded:
    """Return the yaw velocity per steering-wheel angle over speed. [1/s]."""
    speed = np.linspace(SLOWEST, fastest, POINTS)
    gain = yaw_velocity_gain(
        speed=speed[:, np.newaxis], wheelbase=wheelbase, understeer_gradient=gradient
    )
    return banded(speed, np.asarray(gain / ratio))
