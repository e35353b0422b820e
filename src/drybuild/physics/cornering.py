"""Load-sensitive tyres in pairs: cornering stiffness of an axle, and where it lets go."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]


def axle_cornering_stiffness(
    *,
    wheel_load: Values,
    load_transfer: Values,
    reference_load: Values,
    reference_coefficient: Values,
    load_sensitivity: Values,
) -> Values:
    """Return the cornering stiffness of a pair of tyres that share their load unevenly.

    Parameters
    ----------
    wheel_load : float or array
        Mean load of the two tyres. [N]
    load_transfer : float or array
        Load moved from the inner to the outer. [N]
    reference_load : float or array
        Load at which the coefficient was found. [N]
    reference_coefficient : float or array
        Cornering stiffness over load at the reference load. [1/rad]
    load_sensitivity : float or array
        Relative loss of that coefficient per reference load more. [-]

    Returns
    -------
    float or array
        Cornering stiffness of both tyres together; nan where the load law leaves none. [N/rad]

    Notes
    -----
    One tyre: C = c F (1 − k (F/F₀ − 1)); the pair loses 2 c k ΔF²/F₀. Valid to about twice the
    reference load; the quadratic peaks at F₀ (1 + k)/(2k).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 6, Eq. 6-27.

    """
    pair = _pair(wheel_load, load_transfer, reference_load, reference_coefficient, load_sensitivity)
    return np.where(np.greater(pair, 0.0), pair, np.nan)[()]


def axle_lateral_limit(
    *,
    wheel_load: Values,
    axle_mass: Values,
    transfer_per_acceleration: Values,
    reference_load: Values,
    reference_friction: Values,
    load_sensitivity: Values,
) -> Values:
    """Return the lateral acceleration that one axle's tyres can hold.

    Parameters
    ----------
    wheel_load : float or array
        Mean load of the axle's two tyres. [N]
    axle_mass : float or array
        Mass that the axle must hold sideways: its share of the car. [kg]
    transfer_per_acceleration : float or array
        Load moved from the inner to the outer tyre per lateral acceleration. [kg]
    reference_load : float or array
        Load at which the friction was found. [N]
    reference_friction : float or array
        Peak side force over load at the reference load. [-]
    load_sensitivity : float or array
        Relative loss of friction per reference load more. [-]

    Returns
    -------
    float or array
        Lateral acceleration; nan where the inner wheel would lift before. [m/s²]

    Notes
    -----
    Peak force of one tyre D = μ₀ F (1 − s (F/F₀ − 1)), a load law of the form a₁F² + a₂F. The sum
    of both tyres equals m a: 2 μ₀ s q²/F₀ a² + m a − P₀ = 0 with P₀ the pair's force without
    transfer. Steady state; camber, banking and aerodynamic load are left out.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, "Tyre Modelling for Use in Vehicle Dynamics
       Studies", SAE 870421, load law of D.

    """
    require(np.greater(axle_mass, 0.0), "axle_mass", axle_mass, "kg", "more than zero")
    even = _pair(wheel_load, 0.0, reference_load, reference_friction, load_sensitivity)
    loss = 2.0 * reference_friction * load_sensitivity / reference_load
    square = loss * np.square(transfer_per_acceleration)
    limit = 2.0 * even / (axle_mass + np.sqrt(axle_mass**2 + 4.0 * square * even))
    return np.where(limit * transfer_per_acceleration <= wheel_load, limit, np.nan)


@dataclass(frozen=True, kw_only=True)
class AxleGrip:
    """One axle as `cornering_limit` sees it."""

    wheel_load: Values
    """Mean load of its two tyres at rest. [N]"""
    axle_mass: Values
    """Its share of the car's mass. [kg]"""
    transfer_per_acceleration: Values
    """Load moved to the outer tyre per lateral acceleration. [kg]"""
    track: Values
    """[m]"""
    reference_load: Values
    """[N]"""
    reference_friction: Values
    """[-]"""
    load_sensitivity: Values
    """[-]"""


def cornering_limit(*, front: AxleGrip, rear: AxleGrip) -> Values:
    """Return the lateral acceleration at which the first axle slides, or the car tips.

    Parameters
    ----------
    front : AxleGrip
        The front axle, as its fields say. [-]
    rear : AxleGrip
        The rear axle, likewise. [-]

    Returns
    -------
    float or array
        Steady lateral acceleration. [m/s²]

    Notes
    -----
    Where no wheel lifts it is the smaller of the two `axle_lateral_limit`. When an axle's inner
    wheel has lifted, the further moment goes to the other axle; when both have, the car tips,
    which ends the search. Found by halving the interval 60 times.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 7 and 18.

    """
    low = np.zeros_like(np.asarray(front.wheel_load * rear.wheel_load, dtype=np.float64))
    high = low + 4.0 * STANDARD_GRAVITY
    for _ in range(60):
        middle = (low + high) / 2.0
        held = _holds(front, rear, middle) & _holds(rear, front, middle)
        low, high = np.where(held, middle, low), np.where(held, high, middle)
    return low


def _pair(
    load: Values, transfer: Values, reference: Values, coefficient: Values, sensitivity: Values
) -> Values:
    """Return the force or stiffness of two tyres at `load` ± `transfer`."""
    require(np.greater(load, 0.0), "wheel_load", load, "N", "more than zero")
    require(np.greater(reference, 0.0), "reference_load", reference, "N", "more than zero")
    one = load * (1.0 + sensitivity - sensitivity * load / reference)
    return 2.0 * coefficient * (one - sensitivity * np.square(transfer) / reference)


def _holds(axle: AxleGrip, other: AxleGrip, acceleration: Values) -> npt.NDArray[np.bool_]:
    """Say whether this axle holds the road, given what the other can no longer transfer."""
    wanted = other.transfer_per_acceleration * acceleration - other.wheel_load
    passed_on = np.maximum(wanted, 0.0) * other.track / axle.track
    transfer = axle.transfer_per_acceleration * acceleration + passed_on
    tipped = np.greater(transfer, axle.wheel_load) & np.greater(wanted, 0.0)
    force = _pair(
        axle.wheel_load,
        np.minimum(transfer, axle.wheel_load),
        axle.reference_load,
        axle.reference_friction,
        axle.load_sensitivity,
    )
    return np.greater_equal(force, axle.axle_mass * acceleration) & ~tipped
