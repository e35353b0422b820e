"""A damper's curve of force over speed from the damping that is wanted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values


@dataclass(frozen=True, kw_only=True)
class DamperCurve:
    """Two straight pieces each way: the bleed up to the knee, the valve beyond. At the damper."""

    bump: Values
    """Coefficient in bump below the knee. [N·s/m]"""
    rebound: Values
    """Coefficient in rebound below the knee. [N·s/m]"""
    knee: Values
    """Speed of the damper at the knee. [m/s]"""
    beyond: Values
    """Slope beyond the knee over that below it. [-]"""


def damper_curve(
    *,
    damping_ratio: Values,
    wheel_rate: Values,
    sprung_mass: Values,
    motion_ratio: Values,
    rebound_over_bump: Values,
    wheel_knee: Values,
    beyond: Values,
) -> DamperCurve:
    """Return the curve of a damper that gives a damping ratio.

    Parameters
    ----------
    damping_ratio : float or array
        Share of critical damping of the body's bounce, mean of both ways. [-]
    wheel_rate : float or array
        Rate at the wheel. [N/m]
    sprung_mass : float or array
        Sprung mass on the wheel. [kg]
    motion_ratio : float or array
        Damper travel over wheel travel. [-]
    rebound_over_bump : float or array
        Coefficient in rebound over that in bump. [-]
    wheel_knee : float or array
        Speed of the wheel at which the valve opens. [m/s]
    beyond : float or array
        Slope beyond the knee over that below it. [-]

    Returns
    -------
    DamperCurve
        Of one damper.

    Notes
    -----
    c_w = 2 ζ √(k m), c_d = c_w/i²; the mean of both ways keeps the energy of a cycle:
    c_bump = 2 c_d/(1 + r), c_rebound = r c_bump.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 5.
    .. [2] J. C. Dixon, "The Shock Absorber Handbook", 2nd ed. 2007, bump and rebound.

    """
    require(np.greater(motion_ratio, 0.0), "motion_ratio", motion_ratio, "-", "more than zero")
    require(
        np.greater(rebound_over_bump, 0.0),
        "rebound_over_bump",
        rebound_over_bump,
        "-",
        "more than zero",
    )
    mean = 2.0 * damping_ratio * np.sqrt(wheel_rate * sprung_mass) / motion_ratio**2
    bump = 2.0 * mean / (1.0 + rebound_over_bump)
    return DamperCurve(
        bump=np.asarray(bump),
        rebound=np.asarray(bump * rebound_over_bump),
        knee=np.asarray(wheel_knee * motion_ratio),
        beyond=np.asarray(beyond),
    )


def damper_force(*, curve: DamperCurve, speed: Values) -> Values:
    """Return the force of a damper.

    Parameters
    ----------
    curve : DamperCurve
        Its curve. [-]
    speed : float or array
        Speed of the damper; shortening, in bump, positive. [m/s]

    Returns
    -------
    float or array
        Force against the motion, positive in bump. [N]

    Notes
    -----
    c v up to the knee, c v_k + e c (v − v_k) beyond.

    References
    ----------
    .. [1] J. C. Dixon, "The Shock Absorber Handbook", 2nd ed. 2007, ch. 5, bilinear dampers.

    """
    fast = np.abs(speed)
    below, above = np.minimum(fast, curve.knee), np.maximum(fast - curve.knee, 0.0)
    slope = np.where(np.greater_equal(speed, 0.0), curve.bump, curve.rebound)
    return np.asarray(np.sign(speed) * slope * (below + curve.beyond * above))
