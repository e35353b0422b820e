"""The wheel inside its tyre: a hollow barrel with a drop centre, and the disc or spokes across it.

Each is convex pieces in the wheel's half plane, s outward from the rim's middle. What turns or
stands inside the barrel (ball joints, links, damper, brake) meets these alone.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Pieces = tuple[Array, ...]
"""Convex pieces, each its corners anticlockwise. [m]"""

SEAT_WIDTH = 0.020
"""Of one bead seat inside its flange: 19.8 mm at least of a J rim; ISO 4000-2, from memory. [m]"""
FLANK = 0.012
"""How far the drop centre's flank runs aside; common practice, no source. [m]"""
HUB = 0.080
"""Inside this radius the disc is bolted to the hub: nothing can come between. [m]"""
PLATE = 0.030
"""Depth of disc or spokes; what stands behind them stands outside of the wheel. [m]"""


def drop_centre(
    *, bead_diameter: float, rim_width: float, well_depth: float, wall_thickness: float
) -> Pieces:
    """Return what a rim has inside its bead seats where its barrel was not measured.

    Parameters
    ----------
    bead_diameter : float
        Of the bead seat. [m]
    rim_width : float
        Between the flanges. [m]
    well_depth : float
        Of the drop centre below the bead seat. [m]
    wall_thickness : float
        Of the barrel. [m]

    Returns
    -------
    tuple of array
        One piece: the well from the one seat to the other. [m]

    Notes
    -----
    A well may lie anywhere between the seats, so it is taken to fill the whole width between them;
    a measured barrel is often wider inside.

    References
    ----------
    .. [1] ISO 4000-2, contour of the J rim, from memory.

    """
    require_positive(
        bead_diameter=(bead_diameter, "m"),
        rim_width=(rim_width, "m"),
        wall_thickness=(wall_thickness, "m"),
    )
    seat = bead_diameter / 2.0 - wall_thickness
    edge = max(rim_width / 2.0 - SEAT_WIDTH, 1e-3)
    foot = max(edge - FLANK, 0.5e-3)
    return (
        np.array(
            [(-foot, seat - well_depth), (foot, seat - well_depth), (edge, seat), (-edge, seat)]
        ),
    )


def measured_barrel(*, place: Array, radius: Array, offset: float, bead_diameter: float) -> Pieces:
    """Return a rim's inside by its measured outline.

    Parameters
    ----------
    place : array
        Distances inboard of the mounting face, rising, (points,). [m]
    radius : array
        Inside radius of the barrel there. [m]
    offset : float
        Of the wheel: mounting face outboard of the rim's middle. [m]
    bead_diameter : float
        Of the bead seat. [m]

    Returns
    -------
    tuple of array
        A piece between each two points, up to the bead seat. [m]

    Notes
    -----
    Beyond the measured width there is nothing but the seats and flanges of the tyre's outline.

    References
    ----------
    .. [1] Geometry.

    """
    require(np.diff(place) > 0.0, "place", place, "m", "rising")
    top = max(bead_diameter / 2.0, float(radius.max()) + 1e-3)
    s = offset - place
    return tuple(
        np.array([(s[k + 1], radius[k + 1]), (s[k], radius[k]), (s[k], top), (s[k + 1], top)])
        for k in range(place.size - 1)
    )


def disc_plate(*, radius: Array, back: Array, offset: float) -> Pieces:
    """Return disc or spokes, which turn so fast that they fill their whole circle.

    Parameters
    ----------
    radius : array
        Radii, rising, (points,). [m]
    back : array
        How far the back stands outboard of the mounting face there. [m]
    offset : float
        Of the wheel: mounting face outboard of the rim's middle. [m]

    Returns
    -------
    tuple of array
        A piece between each two points, from the hub outward. [m]

    Notes
    -----
    Nothing comes between hub and disc inside the bolt circle, so it begins outside of that.

    References
    ----------
    .. [1] Geometry.

    """
    require(np.diff(radius) > 0.0, "radius", radius, "m", "rising")
    found = []
    for k in range(radius.size - 1):
        low, high = max(float(radius[k]), HUB), float(radius[k + 1])
        if high <= low:
            continue
        near, far = (offset + float(np.interp(one, radius, back)) for one in (low, high))
        found.append(np.array([(near, low), (near + PLATE, low), (far + PLATE, high), (far, high)]))
    return tuple(found)
