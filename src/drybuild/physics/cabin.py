"""Seats, belts and roll bars: angles and loads, never an approval.

Belt and seat mounts hold a person in a crash. These sums show whether a position is worth taking to
a licensed engineer or inspector; they do not replace one.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]

R14_HEIGHT_OF_C = 0.450  # [m] above R, 76/115/EEC annex I, 4.1.4 (UN R14, 5.1.2)
R14_BEHIND_B = 0.260  # [m], 76/115/EEC annex I, 4.4.3.3 (UN R14, 5.4.3.3)
R14_PLANE_FK = np.deg2rad(120.0)  # between plane FK and the torso line, the same clause


def lap_belt_angle(*, back: npt.ArrayLike, down: npt.ArrayLike) -> Array:
    """Return the angle of a lap belt above the horizontal, seen from the side.

    Parameters
    ----------
    back : array_like
        How far the lower anchorage lies behind the seat's reference point. [m]
    down : array_like
        How far it lies below the seat's reference point. [m]

    Returns
    -------
    array
        Angle. [rad]

    Notes
    -----
    α = atan2(down, back). FMVSS 210 measures to the nearest contact point of belt and anchorage;
    where the buckle is on a stiff stalk, to the buckle.

    References
    ----------
    .. [1] 49 CFR 571.210, S4.3.1.1 (reprint: NHTSA interpretation 10694, 1995).
    .. [2] 76/115/EEC, annex I, 4.1.5: angle between the horizontal and the plane through the
       reference line and the anchorage (reprint).

    """
    b, d = np.asarray(back, float), np.asarray(down, float)
    require(np.hypot(b, d) > 0.0, "down", d, "m", "such that the anchorage is not at the point")
    return np.asarray(np.arctan2(d, b), dtype=np.float64)


def height_above_c_r14(*, anchorage_up: npt.ArrayLike) -> Array:
    """Return how far a shoulder anchorage lies above the level plane through point C.

    Parameters
    ----------
    anchorage_up : array_like
        Height of the effective upper anchorage above the seat's reference point R. [m]

    Returns
    -------
    array
        Margin; the regulation asks for more than zero. [m]

    Notes
    -----
    C lies 450 mm above R. The alternative with 500 mm is not offered here, because the reprints
    disagree on when it applies.

    References
    ----------
    .. [1] 76/115/EEC, annex I, 4.1.4 and 4.4.4 (reprint), equal to UN R14 (from memory).

    """
    return np.asarray(np.asarray(anchorage_up, float) - R14_HEIGHT_OF_C, dtype=np.float64)


def distance_behind_fk_r14(
    *,
    anchorage_back: npt.ArrayLike,
    anchorage_up: npt.ArrayLike,
    anchorage_aside: npt.ArrayLike,
    torso_angle: npt.ArrayLike,
) -> Array:
    """Return how far a shoulder anchorage lies behind the regulation's plane FK.

    Parameters
    ----------
    anchorage_back : array_like
        How far it lies behind the seat's reference point R. [m]
    anchorage_up : array_like
        How far it lies above R. [m]
    anchorage_aside : array_like
        S, its distance from the seat's middle plane. [m]
    torso_angle : array_like
        Lean of the torso line behind the vertical. [rad]

    Returns
    -------
    array
        Margin square to the plane; the regulation asks for more than zero. [m]

    Notes
    -----
    B lies on the torso line, BR = 260 mm + S. FK goes through B at 120° to the torso line, its top
    end leaning forward, so that with the ceiling plane FN it closes off the space before the
    shoulder. S must be 140 mm or more; that is a limit of its own.

    References
    ----------
    .. [1] 76/115/EEC, annex I, 4.4.3.3 (reprint; the side on which FK leans from memory of annex
       III, figure 1).

    """
    back, up = np.asarray(anchorage_back, float), np.asarray(anchorage_up, float)
    aside, lean = np.asarray(anchorage_aside, float), np.asarray(torso_angle, float)
    require(aside >= 0.0, "anchorage_aside", aside, "m", "zero or more")
    require((lean >= 0.0) & (lean < np.pi / 3), "torso_angle", lean, "rad", "from 0 to 60 deg")
    reach = R14_BEHIND_B + aside
    upward = np.pi / 2.0 - lean  # direction of the torso line, from level rearward
    plane = upward + (np.pi - R14_PLANE_FK)  # FK's upper end, towards the front of the torso line
    x, z = back - reach * np.cos(upward), up - reach * np.sin(upward)
    return np.asarray(x * np.sin(plane) - z * np.cos(plane), dtype=np.float64)


def strap_angle_below_level(*, back: npt.ArrayLike, down: npt.ArrayLike) -> Array:
    """Return how steeply shoulder straps fall behind the seat.

    Parameters
    ----------
    back : array_like
        How far the anchorage lies behind the strap's last contact with seat or shoulder. [m]
    down : array_like
        How far it lies below that contact; negative when above. [m]

    Returns
    -------
    array
        Angle below level. [rad]

    Notes
    -----
    α = atan(down/back). A steep strap presses the spine together.

    References
    ----------
    .. [1] FIA International Sporting Code, Appendix J, Article 253, harness drawing (from memory).

    """
    b, d = np.asarray(back, float), np.asarray(down, float)
    require(b > 0.0, "back", b, "m", "more than zero")
    return np.asarray(np.arctan2(d, b), dtype=np.float64)


def seat_test_force(
    *, seat_mass: npt.ArrayLike, factor: npt.ArrayLike, gravity: npt.ArrayLike
) -> Array:
    """Return the level force by which a seat's own mass pulls on its mounts in a test.

    Parameters
    ----------
    seat_mass : array_like
        Mass of the seat with its runners. [kg]
    factor : array_like
        Multiple of the weight: 20 in UN R14 and FMVSS 207. [-]
    gravity : array_like
        Acceleration of free fall. [m/s²]

    Returns
    -------
    array
        Force. [N]

    Notes
    -----
    F = k m g. Where belts hang on the seat, their test force comes on top.

    References
    ----------
    .. [1] UN R14, 6.4 (from memory).
    .. [2] 49 CFR 571.207, S4.2 (from memory).

    """
    m, k = np.asarray(seat_mass, float), np.asarray(factor, float)
    require(m > 0.0, "seat_mass", m, "kg", "more than zero")
    require(k > 0.0, "factor", k, "-", "more than zero")
    return np.asarray(m * k * np.asarray(gravity, float), dtype=np.float64)


def mount_pull(
    *, force: npt.ArrayLike, height: npt.ArrayLike, spacing: npt.ArrayLike, count: npt.ArrayLike
) -> Array:
    """Return the upright pull on each rear mount of a seat that is pushed forward.

    Parameters
    ----------
    force : array_like
        Level force forward. [N]
    height : array_like
        Height of the force above the mounts. [m]
    spacing : array_like
        Distance between the front and the rear mounts. [m]
    count : array_like
        Number of mounts in the rear row. [-]

    Returns
    -------
    array
        Pull on one mount; weight on the seat left out. [N]

    Notes
    -----
    N = F h/(s n), by moments about the front mounts.

    References
    ----------
    .. [1] Statics of a rigid seat, definition.

    """
    f, h = np.asarray(force, float), np.asarray(height, float)
    s, n = np.asarray(spacing, float), np.asarray(count, float)
    require(f >= 0.0, "force", f, "N", "zero or more")
    require(s > 0.0, "spacing", s, "m", "more than zero")
    require(n >= 1.0, "count", n, "-", "one or more")
    return np.asarray(f * h / (s * n), dtype=np.float64)


def effective_headroom_sae_j1100(*, along_line: npt.ArrayLike) -> Array:
    """Return the effective headroom of a seat.

    Parameters
    ----------
    along_line : array_like
        Distance from the hip point to the headlining along a line 8° behind the vertical. [m]

    Returns
    -------
    array
        Effective headroom. [m]

    Notes
    -----
    H61 = distance + 102 mm.

    References
    ----------
    .. [1] SAE J1100, dimension H61 (from memory).

    """
    line = np.asarray(along_line, float)
    require(line > 0.0, "along_line", line, "m", "more than zero")
    return np.asarray(line + 0.102, dtype=np.float64)


def roll_hoop_load(
    *, car_mass: npt.ArrayLike, crew_mass: npt.ArrayLike, factor: npt.ArrayLike
) -> Array:
    """Return the downward load that a main roll hoop is homologated for.

    Parameters
    ----------
    car_mass : array_like
        Mass of the car. [kg]
    crew_mass : array_like
        Mass added for the crew: 150 kg in Appendix J. [kg]
    factor : array_like
        7.5 for the main hoop, 3.5 for the front hoop, in decanewtons a kilogram. [-]

    Returns
    -------
    array
        Load. [N]

    Notes
    -----
    F = 10 k (m + 150).

    References
    ----------
    .. [1] FIA International Sporting Code, Appendix J, Article 253, 2009 (from memory).

    """
    m, crew = np.asarray(car_mass, float), np.asarray(crew_mass, float)
    k = np.asarray(factor, float)
    require(m > 0.0, "car_mass", m, "kg", "more than zero")
    require((crew >= 0.0) & (k > 0.0), "factor", k, "-", "more than zero")
    return np.asarray(10.0 * k * (m + crew), dtype=np.float64)
