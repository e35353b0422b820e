"""A crank that a rod moves: a rocker under its pushrod, an idler arm behind its relay rod."""

from __future__ import annotations

import numpy as np

from drybuild.physics.linkage.vectors import Array, cross, dot, unit


def crank_angle(*, pivot: Array, axis: Array, end: Array, before: Array, now: Array) -> Array:
    """Return how far a crank has turned when the far ball of its rod has moved.

    Parameters
    ----------
    pivot : array
        A point of the crank's axis. [m]
    axis : array
        Direction of the axis. [m]
    end : array
        The crank's ball, in design position. [m]
    before : array
        The rod's other ball, in design position. [m]
    now : array
        The same ball now. [m]

    Returns
    -------
    array
        Turn about the axis; nan where the rod does not reach. [rad]

    Notes
    -----
    A circle meets a sphere: with r the crank square to its axis, ρ its length, c from the rod's
    ball to the circle's middle, P = 2 c·r, Q = 2 c·(e × r), K = L² − c² − ρ²:
    P cos θ + Q sin θ = K, θ = atan2(Q, P) ± arccos(K/√(P² + Q²)). The sign is that of design.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, rockers.

    """
    along = unit(vector=axis)
    reach = end - pivot
    middle = pivot + along * dot(a=along, b=reach)
    arm = end - middle
    rod = end - before
    length = dot(a=rod, b=rod)
    start, sign = _meeting(along, arm, middle, before, length)
    phase, spread = _meeting(along, arm, middle, now, length)
    turn = phase + np.where(start > 0.0, -1.0, 1.0) * spread
    rest = start + np.where(start > 0.0, -1.0, 1.0) * sign
    found = turn - rest
    return np.asarray(np.arctan2(np.sin(found), np.cos(found)))


def carried_round(*, pivot: Array, axis: Array, angle: Array, point: Array) -> Array:
    """Return where a point of a crank stands after a turn.

    Parameters
    ----------
    pivot : array
        A point of the crank's axis. [m]
    axis : array
        Direction of the axis. [m]
    angle : array
        Turn. [rad]
    point : array
        The point in design position. [m]

    Returns
    -------
    array
        Its place. [m]

    Notes
    -----
    p + e (e·r) + r⊥ cos θ + e × r⊥ sin θ.

    References
    ----------
    .. [1] O. Rodrigues, "Des lois géométriques ...", J. Math. Pures Appl. 5, 1840.

    """
    along = unit(vector=axis)
    reach = point - pivot
    level = along * dot(a=along, b=reach)
    flat = reach - level
    swung = flat * np.cos(angle) + cross(a=along, b=flat) * np.sin(angle)
    return np.asarray(pivot + level + swung)


def _meeting(
    along: Array, arm: Array, middle: Array, ball: Array, length: Array
) -> tuple[Array, Array]:
    """Return the middle of both angles at which a rod of this squared length reaches, and half."""
    away = middle - ball
    first, second = 2.0 * dot(a=away, b=arm), 2.0 * dot(a=away, b=cross(a=along, b=arm))
    wanted = length - dot(a=away, b=away) - dot(a=arm, b=arm)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = wanted / np.hypot(first, second)
        # At the very dead point rounding may pass one by a part in 1e15.
        share = np.where(np.abs(share) < 1.0 + 1e-12, np.clip(share, -1.0, 1.0), np.nan)
        return np.arctan2(second, first), np.arccos(share)
