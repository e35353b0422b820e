"""Valves that hold the rear back by load or by deceleration, and how well a setting does."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.brakes import balance

Array = npt.NDArray[np.float64]
Real = float | Array

LEAST_RATE, LARGEST_RATE = 0.15, 0.80  # [-], 71/320/EEC Annex II Appendix 3.1.1, R13-H Annex 5


def knee_by_load(*, knee: Real, light_load: Real, load: Real) -> Array:
    """Return the knee of a load-sensing valve under another rear axle load.

    Parameters
    ----------
    knee : float
        Knee under the light load. [Pa]
    light_load : float
        Rear axle load that the knee was set at. [N]
    load : float
        Rear axle load now. [N]

    Returns
    -------
    float
        Knee. [Pa]

    Notes
    -----
    p_k = p_k0 N / N₀: the spring between axle and body is taken to press in proportion to the load.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7, height-sensing valve.

    """
    require(np.greater(light_load, 0.0), "light_load", light_load, "N", "more than zero")
    return np.asarray(knee * np.asarray(load) / light_load)


def corridor_adhesion(*, braking_rate: Real) -> Array:
    """Return the most adhesion that UN R13-H lets an axle use at a braking rate.

    Parameters
    ----------
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        Adhesion; nan outside the rates that the clause covers. [-]

    Notes
    -----
    k = 0.2 + (z − 0.1)/0.7, for k from 0.2 to 0.8, that is z from 0.1 to 0.52: the inverse of
    `balance.least_rate_ece_r13h`.

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 5, 3.1, from memory.

    """
    rate = np.asarray(braking_rate, dtype=np.float64)
    inside = (rate >= 0.1) & (rate <= 0.52 + 1e-12)
    return np.where(inside, 0.2 + (rate - 0.1) / 0.7, np.nan)


def setting_quality(
    *,
    front_force: Array,
    rear_force: Array,
    braking_rate: Array,
    front_share: Real,
    height_ratio: Real,
) -> tuple[Array, Array]:
    """Return a valve setting's least lead of the front axle and its mean efficiency.

    Parameters
    ----------
    front_force : array
        Front braking force over weight, rates on the last axis. [-]
    rear_force : array
        Rear braking force over weight, likewise. [-]
    braking_rate : array
        Rates. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]

    Returns
    -------
    tuple of array
        Least of f₁ − f₂ over the rates (negative: the rear locks first somewhere), and mean of
        z / max(f₁, f₂). [-]

    Notes
    -----
    Both are what UN R13-H asks of the curves: the front's over the rear's from z = 0.15 to 0.8, and
    as near to the ideal as that allows.

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 5, 3.1, from memory.

    """
    car = {
        "front_share": front_share, "height_ratio": height_ratio, "braking_rate": braking_rate
    }  # fmt: skip
    front = balance.front_adhesion_used(front_force=front_force, **car)
    rear = balance.rear_adhesion_used(rear_force=rear_force, **car)
    worst = np.maximum(front, rear)
    return np.min(front - rear, axis=-1), np.mean(braking_rate / worst, axis=-1)
