"""Bump stops: a rubber or foam spring that comes in late and stiffens."""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values


def bump_stop_force(
    *, compression: Values, length: Values, scale: Values, exponent: Values
) -> Values:
    """Return the force of a bump stop.

    Parameters
    ----------
    compression : float or array
        How far it is pressed together; below zero it does not touch. [m]
    length : float or array
        Free length that could be pressed to nothing. [m]
    scale : float or array
        Force scale F₀: the first rate is F₀ n/L. [N]
    exponent : float or array
        n: how quickly it stiffens; 1 to 2 for foam. [-]

    Returns
    -------
    float or array
        Force; infinite once it is pressed to nothing. [N]

    Notes
    -----
    F = F₀ [(1 − x/L)^−n − 1].

    References
    ----------
    .. [1] Common practice for cellular polyurethane; the form has the right ends: no force at no
       touch, a wall at its length.

    """
    require(np.greater(length, 0.0), "length", length, "m", "more than zero")
    share = np.maximum(np.asarray(compression, dtype=np.float64) / length, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        force = scale * ((1.0 - share) ** -np.asarray(exponent, dtype=np.float64) - 1.0)
    return np.where(share < 1.0, force, np.inf)


def bump_stop_rate(
    *, compression: Values, length: Values, scale: Values, exponent: Values
) -> Values:
    """Return the rate of a bump stop at a compression.

    Parameters
    ----------
    compression : float or array
        How far it is pressed together. [m]
    length : float or array
        Free length that could be pressed to nothing. [m]
    scale : float or array
        Force scale F₀. [N]
    exponent : float or array
        n. [-]

    Returns
    -------
    float or array
        Rate; zero where it does not touch. [N/m]

    Notes
    -----
    dF/dx = F₀ n/L (1 − x/L)^−(n+1).

    References
    ----------
    .. [1] The derivative of the force.

    """
    require(np.greater(length, 0.0), "length", length, "m", "more than zero")
    share = np.asarray(compression, dtype=np.float64) / length
    touches = (share >= 0.0) & (share < 1.0)
    left = np.where(touches, 1.0 - share, 1.0)
    return np.where(touches, scale * exponent / length * left ** -(exponent + 1.0), 0.0)


def stop_compression(
    *,
    energy: Values,
    length: Values,
    scale: Values,
    exponent: Values,
    rate: Values,
    force: Values,
) -> Values:
    """Return how far a stop and the spring beside it are pressed by what is left of a bump.

    Parameters
    ----------
    energy : float or array
        Energy that the wheel still brings when it meets the stop. [J]
    length : float or array
        Free length that could be pressed to nothing. [m]
    scale : float or array
        Force scale F₀. [N]
    exponent : float or array
        n, not one. [-]
    rate : float or array
        Rate of the spring beside it, at the stop. [N/m]
    force : float or array
        Force of that spring over its standing force when the stop is met. [N]

    Returns
    -------
    float or array
        Compression of the stop. [m]

    Notes
    -----
    F₀ [L/(n − 1) ((1 − x/L)^(1−n) − 1) − x] + F x + k x²/2 = E, by bisection.

    References
    ----------
    .. [1] Conservation of energy, dampers left out: the harder case.

    """
    require(np.not_equal(exponent, 1.0), "exponent", exponent, "-", "not one")
    shape = np.broadcast_shapes(*(np.shape(one) for one in (energy, length, scale, exponent, rate)))
    low, high = np.zeros(shape), np.broadcast_to(length, shape) * (1.0 - 1e-9)
    for _ in range(60):
        middle = (low + high) / 2.0
        left = (1.0 - middle / length) ** (1.0 - exponent)
        taken = scale * (length / (exponent - 1.0) * (left - 1.0) - middle)
        taken = taken + force * middle + rate * middle**2 / 2.0
        more = taken < energy
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    return np.asarray((low + high) / 2.0)
