"""Stopping distances: the sum, and the forms in which regulations write their limits."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Real = float | Array


def stopping_distance(*, speed: Real, deceleration: Real, delay: Real) -> Array:
    """Return the distance from the moment the foot moves to standstill.

    Parameters
    ----------
    speed : float
        Initial speed. [m/s]
    deceleration : float
        Mean fully developed deceleration. [m/s²]
    delay : float
        Time at full speed that reaction and build-up are worth; regulations use 0.36 s. [s]

    Returns
    -------
    float
        Distance. [m]

    Notes
    -----
    s = v t + v² / 2a.

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 3; Gillespie, Fundamentals of Vehicle Dynamics, ch. 3.

    """
    require(np.greater_equal(speed, 0.0), "speed", speed, "m/s", "zero or more")
    require(np.greater_equal(delay, 0.0), "delay", delay, "s", "zero or more")
    require_positive(deceleration=(deceleration, "m/s²"))
    return np.asarray(speed * delay + np.square(speed) / (2.0 * deceleration))


def stopping_time(*, speed: Real, deceleration: Real) -> Array:
    """Return the time of a stop at a constant deceleration.

    Parameters
    ----------
    speed : float
        Initial speed. [m/s]
    deceleration : float
        Constant deceleration. [m/s²]

    Returns
    -------
    float
        Time. [s]

    Notes
    -----
    t = v / a.

    References
    ----------
    .. [1] Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 3, eq. 3-6.

    """
    require_positive(deceleration=(deceleration, "m/s²"))
    return np.asarray(speed / deceleration)


def prescribed_distance(*, speed: Real, linear: Real, quadratic: Real) -> Array:
    """Return the longest distance that a regulation allows, from its two coefficients.

    Parameters
    ----------
    speed : float
        Test speed. [m/s]
    linear : float
        Coefficient of v, with v in km/h: 0.1 in UN Regulation 13-H. [-]
    quadratic : float
        Coefficient of v², with v in km/h: 0.0060 for its cold test. [-]

    Returns
    -------
    float
        Distance. [m]

    Notes
    -----
    s = a v + k v², s in metres and v in km/h.

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 3; Directive 71/320/EEC, Annex II; 49 CFR 571.135.

    """
    require(np.greater_equal(speed, 0.0), "speed", speed, "m/s", "zero or more")
    kmh = speed * 3.6
    return np.asarray(linear * kmh + quadratic * np.square(kmh))


def mean_fully_developed_deceleration(
    *, speed_begin: Real, speed_end: Real, distance_begin: Real, distance_end: Real
) -> Array:
    """Return the deceleration averaged over distance, as regulations define it.

    Parameters
    ----------
    speed_begin : float
        0.8 of the initial speed. [m/s]
    speed_end : float
        0.1 of the initial speed. [m/s]
    distance_begin : float
        Distance from the start to `speed_begin`. [m]
    distance_end : float
        Distance from the start to `speed_end`. [m]

    Returns
    -------
    float
        Mean fully developed deceleration. [m/s²]

    Notes
    -----
    d_m = (v_b² − v_e²) / 2 (s_e − s_b); in km/h the 2 becomes 25.92.

    References
    ----------
    .. [1] UN GRRF-56-3 (2004), text of Regulation No. 13, Annex 4, par. 1.1.2.

    """
    require(
        np.greater(distance_end, distance_begin), "distance_end", distance_end, "m", "the larger"
    )
    return np.asarray(
        (np.square(speed_begin) - np.square(speed_end)) / (2.0 * (distance_end - distance_begin))
    )


def braking_energy(*, mass: Real, speed_begin: Real, speed_end: Real) -> Array:
    """Return the energy that a stop turns into heat, all brakes together.

    Parameters
    ----------
    mass : float
        Mass of the car. [kg]
    speed_begin : float
        Speed before. [m/s]
    speed_end : float
        Speed after. [m/s]

    Returns
    -------
    float
        Energy. [J]

    Notes
    -----
    E = ½ m (v₁² − v₂²); rotating parts add a few per cent, air and rolling drag take as much away.

    References
    ----------
    .. [1] Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 3, eq. 3-9.

    """
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    return np.asarray(0.5 * mass * (np.square(speed_begin) - np.square(speed_end)))
