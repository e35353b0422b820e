"""Braking in a bend: how hard, until one axle can no longer hold the bend as well."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.physics.steady_corner import MOST, Bend, CornerAxle, Loads, wheel_loads
from drybuild.physics.tyre_force import peak_side_force
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]
Array = npt.NDArray[np.float64]
HALVINGS = 40
"""Of a span of 2.5 g; a locking wheel's side force falls too steeply for a quicker rule."""


@dataclass(frozen=True, kw_only=True)
class BrakedAxle:
    """What braking does to an axle in a bend."""

    share: Values
    """Of the braking force that this axle gives. [-]"""
    load_gain: Values
    """Load that the axle gains per deceleration; a loss is negative. [kg]"""
    adhesion: Values
    """Greatest braking force over load. [-]"""


def braking_limit_in_bend(
    *, bend: Bend, axle: str, acceleration: Values, braked: BrakedAxle, mass: Values
) -> Array:
    """Return the deceleration at which one axle can no longer hold the bend as well.

    Parameters
    ----------
    bend : Bend
        The car. [-]
    axle : str
        ``front`` or ``rear``. [-]
    acceleration : float or array
        Lateral acceleration. [m/s²]
    braked : BrakedAxle
        Share, load and adhesion of this axle. [-]
    mass : float or array
        Mass of the car. [kg]

    Returns
    -------
    array
        Deceleration; zero where the bend alone is too much. [m/s²]

    Notes
    -----
    Each wheel's ellipse: F_y ≤ D √(1 − (F_x/(μ_x F))²), both wheels of an axle braked alike; a
    wheel asked for more than μ_x F locks and holds no side force. By halving.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, sec. 1.4 (friction ellipse).

    """
    shape = np.broadcast_shapes(np.shape(mass), np.shape(bend.roll), np.shape(braked.share))
    low, high = np.zeros(shape), np.full(shape, MOST)
    one = bend.front if axle == "front" else bend.rear
    loads = wheel_loads(bend=bend, axle=axle, acceleration=acceleration)
    wanted = 2.0 * one.wheel_load / STANDARD_GRAVITY * acceleration
    pushed = mass * braked.share / 2.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        held = _holds_braked(one, loads, wanted, braked, pushed, middle)
        low, high = np.where(held, middle, low), np.where(held, high, middle)
    return low


def _holds_braked(
    one: CornerAxle,
    loads: Loads,
    wanted: Values,
    braked: BrakedAxle,
    pushed: Values,
    braking: Array,
) -> npt.NDArray[np.bool_]:
    held: Array = np.zeros(braking.shape)
    for load, camber in ((loads.outer, loads.outer_camber), (loads.inner, loads.inner_camber)):
        now = np.maximum(load + braked.load_gain * braking / 2.0, 0.0)
        used = pushed * braking / np.maximum(braked.adhesion * now, 1e-9)
        left = np.sqrt(np.maximum(1.0 - np.square(used), 0.0))
        held = held + peak_side_force(load=now, camber=camber, tyre=one.tyre) * left
    locked = 2.0 * pushed * braking > braked.adhesion * np.maximum(
        2.0 * one.wheel_load + braked.load_gain * braking, 0.0
    )
    return np.asarray((held >= wanted) & ~locked)
