"""The section of a tyre on its rim, as anything beside it meets it."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]

FLANGE_HEIGHT = 0.0173  # [m], J flange over the bead seat, ISO 4000-2, from memory
WIDEST_AT = 0.5
"""Height of the widest place over the section height; common practice, no source. [-]"""
ARC = 6
"""Corners of each rounding."""


def tyre_outline(
    *,
    section_width: float,
    outside_diameter: float,
    bead_diameter: float,
    wall_thickness: float,
    rim_width: float,
    flange_thickness: float,
    tread_width: float,
    shoulder_radius: float,
) -> Array:
    """Return the convex outline of tyre, bead seats and flanges in the half plane of the axle.

    Parameters
    ----------
    section_width : float
        Width of the tyre on this rim. [m]
    outside_diameter : float
        Of the tyre, grown by what is to be allowed for. [m]
    bead_diameter : float
        Of the bead seat. [m]
    wall_thickness : float
        Of the rim under the bead seats. [m]
    rim_width : float
        Between the flanges. [m]
    flange_thickness : float
        Of one flange. [m]
    tread_width : float
        Width of the level part of the tread. [m]
    shoulder_radius : float
        Rounding between tread and side. [m]

    Returns
    -------
    array
        Corners (s, rho) anticlockwise, (corners, 2). [m]

    Notes
    -----
    The hull of the bead seats with their flanges, an ellipse as wide as the section whose middle
    lies at half of the section height, the level tread and its rounded shoulders. A hull leaves
    out the grooves of a real tyre, never anything that stands out. Raised letters and chains are
    not in it. The rim is hollow: its drop centre and its disc are pieces of their own (`rim`).

    References
    ----------
    .. [1] UN Regulation No. 30, par. 2.17 and 6.1, for the sizes; ISO 4000-2 for the flange. The
       form between them is common practice, no source.

    """
    require_positive(
        section_width=(section_width, "m"),
        bead_diameter=(bead_diameter, "m"),
        wall_thickness=(wall_thickness, "m"),
        rim_width=(rim_width, "m"),
    )
    require(
        outside_diameter > bead_diameter,
        "outside_diameter",
        outside_diameter,
        "m",
        "more than the bead seat's diameter",
    )
    seat, top = bead_diameter / 2.0, outside_diameter / 2.0
    half, level = section_width / 2.0, min(tread_width, section_width) / 2.0
    middle = seat + WIDEST_AT * (top - seat)
    turn = np.linspace(0.0, np.pi / 2.0, ARC)
    side = np.stack((half * np.cos(turn), middle + (top - middle) * np.sin(turn)), axis=1)
    below = np.stack((half * np.cos(turn), middle - (middle - seat) * np.sin(turn)), axis=1)
    round_ = min(shoulder_radius, half - level, top - middle)
    shoulder = np.stack(
        (level + round_ * np.sin(turn), top - round_ + round_ * np.cos(turn)), axis=1
    )
    edge = rim_width / 2.0 + flange_thickness
    rim = [
        (edge, seat + FLANGE_HEIGHT * 0.75),
        (rim_width / 2.0, seat + FLANGE_HEIGHT),
        (edge, seat),
        (edge, seat - wall_thickness),
    ]
    right = np.concatenate((side, below, shoulder, np.array(rim)))
    return convex_hull(points=np.concatenate((right, right * np.array([-1.0, 1.0]))))


def convex_hull(*, points: Array) -> Array:
    """Return the convex hull of points in a plane.

    Parameters
    ----------
    points : array
        (points, 2). [m]

    Returns
    -------
    array
        Its corners anticlockwise, (corners, 2). [m]

    Notes
    -----
    The monotone chain: sort, then keep what turns left along the lower and the upper side.

    References
    ----------
    .. [1] A. M. Andrew, "Another efficient algorithm for convex hulls in two dimensions",
       Information Processing Letters 9 (1979) 216-219.

    """
    ordered = sorted({(float(x), float(y)) for x, y in points})
    return np.array([*_chain(ordered)[:-1], *_chain(ordered[::-1])[:-1]])


def growth_at_speed(*, growth: Array, reference_speed: Array, speed: Array) -> Array:
    """Return how far a tyre's radius grows by spinning.

    Parameters
    ----------
    growth : array
        Growth of the radius at the reference speed. [m]
    reference_speed : array
        Speed at which that was measured. [m/s]
    speed : array
        Speed asked about. [m/s]

    Returns
    -------
    array
        Growth of the radius. [m]

    Notes
    -----
    Centrifugal force goes with the square of the speed: dR = dR_0 (v/v_0)^2, a belt and casing
    that stretch in proportion.

    References
    ----------
    .. [1] Mechanics of a rotating ring; the growth itself is common practice, no source.

    """
    require_positive(reference_speed=(reference_speed, "m/s"))
    return np.asarray(growth * (speed / reference_speed) ** 2)


def _chain(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    kept: list[tuple[float, float]] = []
    for x, y in points:
        while len(kept) > 1:
            (x1, y1), (x2, y2) = kept[-2:]
            if (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) > 0.0:
                break
            kept.pop()
        kept.append((x, y))
    return kept
