"""Which line pressure a stop needs, and at which an axle locks, with thresholds and a valve."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array

HIGHEST_PRESSURE = 60e6  # [Pa], far above the 20 MPa that brake hardware is designed for


def pressure_for_force(
    *, force: Real, force_at: Callable[[Array], Array], kinks: Sequence[Real]
) -> Array:
    """Return the line pressure at which a rising braking force reaches a value.

    Parameters
    ----------
    force : float
        Braking force wanted, all axles. [N]
    force_at : callable
        Braking force for line pressures, several on an axis before all others: straight between
        the kinks, never falling. [N]
    kinks : sequence
        Pressures at which its slope changes: each brake's threshold, the valve's knee. [Pa]

    Returns
    -------
    array
        Line pressure; nan where no pressure up to 60 MPa gives that force. [Pa]

    Notes
    -----
    The force is piecewise straight, so the pressure follows exactly from the piece that holds it.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7, for the piecewise force.

    """
    return _crossing(lambda pressure: np.asarray(force_at(pressure) - force), kinks, (force,))


def lock_pressure(
    *,
    front_force_at: Callable[[Array], Array],
    rear_force_at: Callable[[Array], Array],
    kinks: Sequence[Real],
    axle: int,
    adhesion: Real,
    weight: Real,
    front_share: Real,
    height_ratio: Real,
) -> Array:
    """Return the line pressure at which one axle locks, valve and thresholds included.

    Parameters
    ----------
    front_force_at : callable
        Front braking force for line pressures, several on an axis before all others. [N]
    rear_force_at : callable
        Rear braking force, likewise. [N]
    kinks : sequence
        Pressures at which the slope of either changes. [Pa]
    axle : int
        0 the front, 1 the rear. [-]
    adhesion : float
        Tyre to road adhesion. [-]
    weight : float
        Weight of the car. [N]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]

    Returns
    -------
    array
        Line pressure; nan where the axle does not lock below 60 MPa. [Pa]

    Notes
    -----
    Solves T_i = μ N_i with N₁ = P₁ + (T₁ + T₂) χ, N₂ = P₂ − (T₁ + T₂) χ, exactly on
    each straight piece. The other axle is taken to go on braking in proportion, as in the closed
    forms for a fixed share.

    References
    ----------
    .. [1] Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 3, worked example with a valve.

    """
    inside = np.greater(front_share, 0.0) & np.less(front_share, 1.0)
    require(inside, "front_share", front_share, "-", "between 0 and 1")
    require(np.greater_equal(height_ratio, 0.0), "height_ratio", height_ratio, "-", "zero or more")

    def excess(pressure: Array) -> Array:
        front, rear = front_force_at(pressure), rear_force_at(pressure)
        shift = (front + rear) * height_ratio
        if axle == 0:
            return np.asarray(front - adhesion * (weight * front_share + shift))
        return np.asarray(rear - adhesion * (weight * (1.0 - front_share) - shift))

    return _crossing(excess, kinks, (adhesion, weight, front_share, height_ratio))


def _crossing(
    excess: Callable[[Array], Array], kinks: Sequence[Real], beside: Sequence[Real]
) -> Array:
    """Return where a piecewise straight excess turns positive; nan where it never does."""
    ends = (0.0, *kinks, HIGHEST_PRESSURE)
    shape = np.broadcast_shapes(*map(np.shape, ends))
    depth = max(len(shape), *map(np.ndim, beside))
    inside = np.array([np.broadcast_to(one, shape) for one in ends]).clip(0.0, HIGHEST_PRESSURE)
    inside.sort(axis=0)
    points = inside.reshape(len(ends), *(1,) * (max(depth, 1) - len(shape)), *shape)
    found = excess(points)
    across = found[0].size
    points = np.broadcast_to(points, found.shape).reshape(-1)
    reached = (found >= 0.0).reshape(len(ends), across)
    end = np.maximum(reached.argmax(axis=0), 1) * across + np.arange(across)
    low, high = points.take(end - across), points.take(end)
    below, above = found.reshape(-1).take(end - across), found.reshape(-1).take(end)
    rise = above - below
    share = np.where(rise > 0.0, -below / np.where(rise > 0.0, rise, 1.0), 0.0)
    pressure = low + share.clip(0.0, 1.0) * (high - low)
    pressure = np.where(reached.any(axis=0), pressure, np.nan)
    return pressure.reshape(found.shape[1:] if depth else ())
