"""Drum shoes that turn on a pin: factors from the pressure along the lining."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.brakes.friction import hinged_shoe_moments

Array = npt.NDArray[np.float64]
Real = float | Array


def pinned_shoe_factors(
    *, friction: Real, actuation_arm: Real, hinge_radius: Real, lining_arc: Real
) -> tuple[Array, Array]:
    """Return the factors of a leading and of a trailing shoe on a fixed pin.

    Parameters
    ----------
    friction : float
        Lining friction coefficient. [-]
    actuation_arm : float
        From the pin to the line of the actuating force, over the drum's radius. [-]
    hinge_radius : float
        From the drum's axis to the pin, over the drum's radius. [-]
    lining_arc : float
        Angle that the lining spans, its middle at a right angle to the pin. [rad]

    Returns
    -------
    tuple of array
        Friction force over actuating force, leading and trailing; nan where the leading shoe would
        lock itself. [-]

    Notes
    -----
    S = T / (F r) with F = (M_n ∓ M_f)/c from `friction.hinged_shoe_moments`: a pinned shoe presses
    hardest at the toe, so its factor is about a fifth above that of the lever model with the
    resultant at the lining's middle.

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 16, eq. 16-2 to 16-9.

    """
    inside = np.greater(lining_arc, 0.0) & np.less(lining_arc, np.pi)
    require(inside, "lining_arc", lining_arc, "rad", "between 0 and half a turn")
    half = np.asarray(lining_arc) / 2.0
    moments = hinged_shoe_moments(
        friction=friction,
        largest_pressure=1.0,
        width=1.0,
        drum_radius=1.0,
        hinge_radius=hinge_radius,
        heel_angle=np.pi / 2.0 - half,
        toe_angle=np.pi / 2.0 + half,
    )
    leading = moments.leading_force(actuation_arm=actuation_arm)
    trailing = moments.trailing_force(actuation_arm=actuation_arm)
    held = np.where(leading > 0.0, leading, np.nan)
    return np.asarray(moments.torque / held), np.asarray(moments.torque / trailing)
