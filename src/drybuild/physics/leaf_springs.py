"""Leaf springs beyond their rate: stress, windup under torque, friction between the leaves."""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values


def leaf_windup_rate(*, front_length: Values, rear_length: Values, rate: Values) -> Values:
    """Return how stiffly a leaf spring holds its seat against turning, the ends on pins.

    Parameters
    ----------
    front_length : float or array
        From the front eye to the seat. [m]
    rear_length : float or array
        From the seat to the rear eye. [m]
    rate : float or array
        Vertical rate at the seat. [N/m]

    Returns
    -------
    float or array
        Moment about the axle's axis per turn of the seat, one spring. [N·m/rad]

    Notes
    -----
    Halves a and b are cantilevers of rates k_a = c/a³, k_b = c/b³. A moment M puts ± M/(a + b) on
    the eyes, which bend one half up and the other down: k_θ = (a + b)²/(1/k_a + 1/k_b). The seat's
    rate (a + b)²/(b²/k_a + a²/k_b) gives c, so k_θ = k a² b² (a + b)/(a³ + b³): k L²/4 of a spring
    of equal halves.

    References
    ----------
    .. [1] SAE, "Spring Design Manual", HS-788, windup; the unequal form is derived here.

    """
    require(np.greater(front_length, 0.0), "front_length", front_length, "m", "more than zero")
    require(np.greater(rear_length, 0.0), "rear_length", rear_length, "m", "more than zero")
    a, b = front_length, rear_length
    return rate * a**2 * b**2 * (a + b) / (a**3 + b**3)


def leaf_stress(
    *,
    load: Values,
    front_length: Values,
    rear_length: Values,
    leaves: Values,
    width: Values,
    thickness: Values,
) -> Values:
    """Return the bending stress at the seat of a graduated leaf spring.

    Parameters
    ----------
    load : float or array
        Force at the seat. [N]
    front_length : float or array
        From the front eye to the seat. [m]
    rear_length : float or array
        From the seat to the rear eye. [m]
    leaves : float or array
        Leaves of equal thickness. [-]
    width : float or array
        Width of a leaf. [m]
    thickness : float or array
        Thickness of a leaf. [m]

    Returns
    -------
    float or array
        Stress, the same in both halves. [Pa]

    Notes
    -----
    The eyes carry P b/(a + b) and P a/(a + b): the moment at the seat is P a b/(a + b) from either
    side, σ = 6 M/(n w t²). Equal halves: 6 (P/2) l/(n w t²).

    References
    ----------
    .. [1] R. S. Khurmi, J. K. Gupta, "A Textbook of Machine Design", leaf springs.

    """
    require(np.greater(thickness, 0.0), "thickness", thickness, "m", "more than zero")
    moment = load * front_length * rear_length / (front_length + rear_length)
    return 6.0 * moment / (leaves * width * thickness**2)


def leaf_torque_stress(
    *, torque: Values, longer_half: Values, span: Values, leaves: Values, width: Values,
    thickness: Values,
) -> Values:  # fmt: skip
    """Return the bending stress that an axle's torque puts on a leaf spring beside the seat.

    Parameters
    ----------
    torque : float or array
        Torque on this spring. [N·m]
    longer_half : float or array
        From the seat to the farther eye. [m]
    span : float or array
        Eye to eye. [m]
    leaves : float or array
        Leaves of equal thickness. [-]
    width : float or array
        Width of a leaf. [m]
    thickness : float or array
        Thickness of a leaf. [m]

    Returns
    -------
    float or array
        Stress in the longer half; it adds to that of the load on one side. [Pa]

    Notes
    -----
    The eyes carry ± M/L, so the halves take M a/L and M b/L.

    References
    ----------
    .. [1] Statics of a beam on two supports.

    """
    require(np.less_equal(longer_half, span), "longer_half", longer_half, "m", "not above span")
    return 6.0 * torque * longer_half / span / (leaves * width * thickness**2)


def leaf_friction_force(*, load: Values, friction_share: Values) -> Values:
    """Return the force by which the leaves' rubbing holds a spring back, either way.

    Parameters
    ----------
    load : float or array
        Force at the seat. [N]
    friction_share : float or array
        Half the width of the load-deflection loop over the load. [-]

    Returns
    -------
    float or array
        Force added in bump and taken off in rebound. [N]

    Notes
    -----
    F_f = s F. Below it the leaves do not slide: the spring is stiff to small bumps.

    References
    ----------
    .. [1] Common practice: 0.02 to 0.10 with clean or lined leaves, to 0.20 where they rust.

    """
    require(np.less(friction_share, 1.0), "friction_share", friction_share, "-", "less than one")
    return load * friction_share
