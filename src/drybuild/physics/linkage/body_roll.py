"""What the wheels do to the road when the body rolls, both standing on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.linkage.layouts import Linkage
from drybuild.physics.linkage.vectors import Array


@dataclass(frozen=True, kw_only=True)
class RolledWheels:
    """Both wheels of an axle in a bend to the left, the right wheel outside; (rolls, samples)."""

    roll: Array
    """Body roll to the road, right side down [rad]."""
    outer_camber: Array
    """To the road, top outboard [rad]."""
    inner_camber: Array
    """To the road, or of the wheel to straight ahead [rad]."""
    outer_toe_in: Array
    """To the road, or of the wheel to straight ahead [rad]."""
    inner_toe_in: Array
    """To the road, or of the wheel to straight ahead [rad]."""


def rolled(*, linkage: Linkage, travel: Array) -> RolledWheels:
    """Return camber to the road and toe of both wheels as the body rolls.

    Parameters
    ----------
    linkage : Linkage
        The suspension, on wheels of their own radius. [-]
    travel : array
        Rise of the outer wheel against the body; the inner one falls by as much. [m]

    Returns
    -------
    RolledWheels
        With the roll that this travel makes.

    Notes
    -----
    The road is the line through both contacts: tan φ = (z_o − z_i)/(y_o + y_i). Camber to the
    road: γ_o + φ, γ_i − φ. The body neither rises nor falls at its middle; the contacts' shift
    on a road tilted to the body is second order in φ and left out. An axle's wheels keep their
    camber to the road; its toe is that of its own roll.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 17.

    """
    if linkage.mechanism.drives > 1:
        return _rolled_axle(linkage, travel)
    count = len(travel)
    both = np.concatenate((travel, -travel))
    wheel = linkage.motion(travel=both, steer=np.zeros(1), roll=np.zeros(1)).left
    z, y = wheel.contact_height[:, 0, 0], wheel.contact_offset[:, 0, 0]
    roll = np.arctan2(z[:count] - z[count:], y[:count] + y[count:])
    camber, toe_in = wheel.camber[:, 0, 0], wheel.toe_in[:, 0, 0]
    return RolledWheels(
        roll=roll,
        outer_camber=camber[:count] + roll,
        inner_camber=camber[count:] - roll,
        outer_toe_in=toe_in[:count],
        inner_toe_in=toe_in[count:],
    )


def _rolled_axle(linkage: Linkage, travel: Array) -> RolledWheels:
    # A body that rolls its right side down sees its axle roll the other way: left side down.
    half = float(np.ravel(linkage.mechanism.wheels[0].centre[1])[0])
    rolls = np.arcsin(travel / half)
    swept = linkage.motion(travel=np.zeros(1), steer=np.zeros(1), roll=-rolls)
    left, right = swept.left, swept.right
    if right is None:
        raise ValueError(linkage.mechanism.layout)
    tilt = np.arcsin(travel / half)[:, np.newaxis]
    return RolledWheels(
        roll=np.broadcast_to(tilt, left.camber[0, 0].shape),
        outer_camber=right.camber[0, 0] + tilt,
        inner_camber=left.camber[0, 0] - tilt,
        outer_toe_in=right.toe_in[0, 0],
        inner_toe_in=left.toe_in[0, 0],
    )
