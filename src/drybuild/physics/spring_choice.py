"""Rates from what is wanted of the car: ride frequency, a flat ride, little roll."""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values


def wheel_rate_for_frequency(
    *, frequency: Values, sprung_mass: Values, tyre_rate: Values
) -> Values:
    """Return the wheel's rate that lets the body bounce at a frequency on spring and tyre.

    Parameters
    ----------
    frequency : float or array
        Ride frequency wanted. [Hz]
    sprung_mass : float or array
        Sprung mass on one wheel. [kg]
    tyre_rate : float or array
        Vertical rate of the tyre. [N/m]

    Returns
    -------
    float or array
        Rate at the wheel; nan where the tyre alone is softer than asked. [N/m]

    Notes
    -----
    k = m (2 π f)², K_w = k K_t/(K_t − k).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 5.

    """
    require(np.greater(frequency, 0.0), "frequency", frequency, "Hz", "more than zero")
    ride = sprung_mass * (2.0 * np.pi * frequency) ** 2
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(np.less(ride, tyre_rate), ride * tyre_rate / (tyre_rate - ride), np.nan)


def flat_ride_frequency_ratio(
    *, front_frequency: Values, wheelbase: Values, speed: Values, cycles: float
) -> Values:
    """Return the rear over the front frequency that brings both ends into step after a bump.

    Parameters
    ----------
    front_frequency : float or array
        Ride frequency of the front. [Hz]
    wheelbase : float or array
        Wheelbase. [m]
    speed : float or array
        Speed at which the ride shall be flat. [m/s]
    cycles : float
        Cycles of the front after which both are in step. [-]

    Returns
    -------
    float or array
        Ratio, above one. [-]

    Notes
    -----
    The rear meets the bump L/V later and must have made the same cycles n at the same time:
    f_r (n/f_f − L/V) = n, so f_r/f_f = 1/(1 − f_f L/(n V)).

    References
    ----------
    .. [1] M. Olley's flat ride, as told by Gillespie, ch. 5; the formula is derived here.

    """
    late = front_frequency * wheelbase / (cycles * speed)
    require(np.less(late, 1.0), "speed", speed, "m/s", "fast enough that the rear follows in time")
    return 1.0 / (1.0 - late)


def roll_stiffness_for_gradient(
    *, sprung_mass: Values, roll_arm: Values, gradient: Values
) -> Values:
    """Return the roll stiffness of the whole car that holds its roll to a gradient.

    Parameters
    ----------
    sprung_mass : float or array
        Sprung mass. [kg]
    roll_arm : float or array
        Height of its centre over the roll axis. [m]
    gradient : float or array
        Roll per lateral acceleration. [rad·s²/m]

    Returns
    -------
    float or array
        Roll stiffness, tyres included. [N·m/rad]

    Notes
    -----
    φ/a = m d/(K − m g d) turned round: K = m d (1/(φ/a) + g).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, eq. 6-41.

    """
    require(np.greater(gradient, 0.0), "gradient", gradient, "rad·s²/m", "more than zero")
    return sprung_mass * roll_arm * (1.0 / gradient + 9.80665)


def bar_roll_stiffness_for(
    *, axle_stiffness: Values, tyre_stiffness: Values, spring_stiffness: Values
) -> Values:
    """Return what a bar must add so that springs, bar and tyres make an axle's roll stiffness.

    Parameters
    ----------
    axle_stiffness : float or array
        Roll stiffness wanted of the axle, tyres included. [N·m/rad]
    tyre_stiffness : float or array
        Roll stiffness of its tyres alone. [N·m/rad]
    spring_stiffness : float or array
        Roll stiffness of its springs alone. [N·m/rad]

    Returns
    -------
    float or array
        Roll stiffness of the bar at the wheels; zero where the springs are enough, nan where the
        tyres alone are softer than wanted. [N·m/rad]

    Notes
    -----
    1/K = 1/K_t + 1/(K_s + K_b).

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 16.

    """
    with np.errstate(divide="ignore", invalid="ignore"):
        both = axle_stiffness * tyre_stiffness / (tyre_stiffness - axle_stiffness)
    both = np.where(np.less(axle_stiffness, tyre_stiffness), both, np.nan)
    return np.maximum(both - spring_stiffness, 0.0)
