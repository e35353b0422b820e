"""Stiffness of a body shell, kept as books: what it had, what each part adds, what follows.

The frame-and-panel model of a whole body is not here; these are closed forms and sums. All
torsional stiffnesses are per radian of twist between the axle lines.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.sections import Section

Array = npt.NDArray[np.float64]


def parallel_torsional_stiffness(
    *, original: npt.ArrayLike, added: Sequence[npt.ArrayLike]
) -> Array:
    """Return the torsional stiffness of a shell with reinforcements beside it.

    Parameters
    ----------
    original : array_like
        Torsional stiffness before. [N·m/rad]
    added : sequence of array_like
        What each reinforcement adds when it twists together with the shell; nan where a sample has
        no solution. [N·m/rad]

    Returns
    -------
    array
        Torsional stiffness after; nan likewise. [N·m/rad]

    Notes
    -----
    K = K₀ + Σ K_i. Assumes that every part twists through the same angle between the same two
    stations and that none changes how another works: parallel springs. Parts that complete each
    other (a closed box) give more, parts that do one another's work give less. Most published and
    computed gains are of single measures, so the sum of several is the weakest figure here.

    References
    ----------
    .. [1] Springs in parallel, any text on mechanics.

    """
    base = np.asarray(original, float)
    require(base > 0.0, "original", base, "N·m/rad", "more than zero")
    total = base
    for part in added:
        extra = np.asarray(part, float)
        require(
            ~(base + extra <= 0.0), "added", extra, "N·m/rad", "more than minus the original"
        )  # nan passes: a sample without a solution
        total = total + extra
    return np.asarray(total, dtype=np.float64)


def torsional_stiffness_from_corner_load(
    *, load: npt.ArrayLike, track: npt.ArrayLike, deflection: npt.ArrayLike
) -> Array:
    """Return the torsional stiffness from a shell on three stands, loaded at the free corner.

    Parameters
    ----------
    load : array_like
        Force put on the free corner. [N]
    track : array_like
        Distance across the car between the loaded and the held corner. [m]
    deflection : array_like
        How far the free corner went down. [m]

    Returns
    -------
    array
        Torsional stiffness. [N·m/rad]

    Notes
    -----
    T = F w; θ = δ/w; K = F w²/δ. Small angles; stands taken as rigid.

    References
    ----------
    .. [1] Statics of a plate on three supports; the test itself is workshop practice.

    """
    force, w = np.asarray(load, float), np.asarray(track, float)
    down = np.asarray(deflection, float)
    require(force > 0.0, "load", force, "N", "more than zero")
    require(w > 0.0, "track", w, "m", "more than zero")
    require(down > 0.0, "deflection", down, "m", "more than zero")
    return np.asarray(force * w**2 / down, dtype=np.float64)


def first_torsion_mode(
    *, stiffness: npt.ArrayLike, front_inertia: npt.ArrayLike, rear_inertia: npt.ArrayLike
) -> Array:
    """Return the frequency at which two halves of a body twist against each other.

    Parameters
    ----------
    stiffness : array_like
        Torsional stiffness between the halves. [N·m/rad]
    front_inertia : array_like
        Roll inertia of the front half. [kg·m²]
    rear_inertia : array_like
        Roll inertia of the rear half. [kg·m²]

    Returns
    -------
    array
        Frequency. [Hz]

    Notes
    -----
    f = (1/2π) √(K (1/I_f + 1/I_r)). Crude and low: trim does not all turn with the shell.

    References
    ----------
    .. [1] Two inertias on a spring, for example J. P. Den Hartog, "Mechanical Vibrations"
       (from memory).

    """
    k = np.asarray(stiffness, float)
    front, rear = np.asarray(front_inertia, float), np.asarray(rear_inertia, float)
    require(k > 0.0, "stiffness", k, "N·m/rad", "more than zero")
    require(front > 0.0, "front_inertia", front, "kg·m²", "more than zero")
    require(rear > 0.0, "rear_inertia", rear, "kg·m²", "more than zero")
    return np.asarray(np.sqrt(k * (1.0 / front + 1.0 / rear)) / (2.0 * np.pi), dtype=np.float64)


def slab_roll_inertia(*, mass: npt.ArrayLike, width: npt.ArrayLike, height: npt.ArrayLike) -> Array:
    """Return the roll inertia of a mass spread evenly over a rectangle seen from the front.

    Parameters
    ----------
    mass : array_like
        Mass. [kg]
    width : array_like
        Width. [m]
    height : array_like
        Height. [m]

    Returns
    -------
    array
        Moment of inertia about the long axis. [kg·m²]

    Notes
    -----
    I = m (w² + h²)/12.

    References
    ----------
    .. [1] Inertia of a cuboid, any text on mechanics.

    """
    m = np.asarray(mass, float)
    w, h = np.asarray(width, float), np.asarray(height, float)
    require(m > 0.0, "mass", m, "kg", "more than zero")
    require((w > 0.0) & (h > 0.0), "width", w, "m", "more than zero, as the height")
    return np.asarray(m * (w**2 + h**2) / 12.0, dtype=np.float64)


def closed_box_torsional_stiffness(
    *,
    length: npt.ArrayLike,
    width: npt.ArrayLike,
    height: npt.ArrayLike,
    shear_modulus: npt.ArrayLike,
    thicknesses: Sequence[npt.ArrayLike],
) -> Array:
    """Return the torsional stiffness of a box of six shear panels.

    Parameters
    ----------
    length : array_like
        Length along the twist axis. [m]
    width : array_like
        Width. [m]
    height : array_like
        Height. [m]
    shear_modulus : array_like
        Shear modulus of the panels. [Pa]
    thicknesses : sequence of array_like
        Effective thickness of floor, roof, left, right, front and rear; zero for a missing one. [m]

    Returns
    -------
    array
        Torsional stiffness; zero as soon as one panel is missing. [N·m/rad]

    Notes
    -----
    The shear flow T/(2BH) is the same in all six panels, so θ/T = Σ(A_i/t_i)/(4 B² H² G).

    References
    ----------
    .. [1] J. C. Brown, A. J. Robertson, S. T. Serpento, "Motor Vehicle Structures", 2002: simple
       structural surfaces (reprint); the energy sum is derived.
    .. [2] "Automotive Chassis Engineering", Springer, sec. 4.3, eqs 4.3-4.8 (reprint).

    """
    x, b, h = (np.asarray(side, float) for side in (length, width, height))
    g = np.asarray(shear_modulus, float)
    require((x > 0.0) & (b > 0.0) & (h > 0.0), "length", x, "m", "more than zero, as the others")
    require(g > 0.0, "shear_modulus", g, "Pa", "more than zero")
    require(len(thicknesses) == 6, "thicknesses", len(thicknesses), "-", "six in number")
    walls = [np.asarray(t, float) for t in thicknesses]
    require(min(float(t.min()) for t in walls) >= 0.0, "thicknesses", walls, "m", "zero or more")
    areas = (x * b, x * b, x * h, x * h, b * h, b * h)
    with np.errstate(divide="ignore"):  # a missing panel makes the sum infinite, the stiffness zero
        softness = sum(area / t for area, t in zip(areas, walls, strict=True))
    return np.asarray(4.0 * b**2 * h**2 * g / softness, dtype=np.float64)


def ladder_torsional_stiffness(
    *,
    length: npt.ArrayLike,
    width: npt.ArrayLike,
    rail: Section,
    cross_member: Section,
    elastic_modulus: npt.ArrayLike,
    shear_modulus: npt.ArrayLike,
) -> Array:
    """Return the torsional stiffness of two rails joined by a cross-member at each end.

    Parameters
    ----------
    length : array_like
        Distance between the cross-members. [m]
    width : array_like
        Distance between the rails. [m]
    rail : Section
        Section of one rail. [m⁴]
    cross_member : Section
        Section of one cross-member. [m⁴]
    elastic_modulus : array_like
        Young's modulus. [Pa]
    shear_modulus : array_like
        Shear modulus. [Pa]

    Returns
    -------
    array
        Torsional stiffness between the cross-members. [N·m/rad]

    Notes
    -----
    K = (B/L)² ab/(a + b) + cd/(c + d) with a = 6EI_r/L, b = 2GJ_c/B, c = 6EI_c/B, d = 2GJ_r/L.
    Rails bend upright and twist, cross-members likewise; joints rigid; nothing warps.

    References
    ----------
    .. [1] Slope-deflection, derived; the grillage as in Brown, Robertson, Serpento, "Motor Vehicle
       Structures", 2002, p. 29, fig. 3.3 (reprint).

    """
    span, b_ = np.asarray(length, float), np.asarray(width, float)
    e, g = np.asarray(elastic_modulus, float), np.asarray(shear_modulus, float)
    require((span > 0.0) & (b_ > 0.0), "length", span, "m", "more than zero, as the width")
    require((e > 0.0) & (g > 0.0), "elastic_modulus", e, "Pa", "more than zero, as the shear one")
    rail_bending = 6.0 * e * rail.second_moment_upright / span
    cross_twist = 2.0 * g * cross_member.torsion_constant / b_
    cross_bending = 6.0 * e * cross_member.second_moment_upright / b_
    rail_twist = 2.0 * g * rail.torsion_constant / span
    by_rails = (b_ / span) ** 2 * rail_bending * cross_twist / (rail_bending + cross_twist)
    by_cross = cross_bending * rail_twist / (cross_bending + rail_twist)
    return np.asarray(by_rails + by_cross, dtype=np.float64)


def midspan_bending_stiffness(
    *, length: npt.ArrayLike, second_moment: npt.ArrayLike, elastic_modulus: npt.ArrayLike
) -> Array:
    """Return the stiffness against a load halfway between two simple supports.

    Parameters
    ----------
    length : array_like
        Distance between the supports. [m]
    second_moment : array_like
        Second moment of all members side by side. [m⁴]
    elastic_modulus : array_like
        Young's modulus. [Pa]

    Returns
    -------
    array
        Force per deflection at the load. [N/m]

    Notes
    -----
    K = 48 E I / L³; shear left out.

    References
    ----------
    .. [1] Beam on two supports, any text on strength of materials.

    """
    span, moment = np.asarray(length, float), np.asarray(second_moment, float)
    e = np.asarray(elastic_modulus, float)
    require(span > 0.0, "length", span, "m", "more than zero")
    require((moment > 0.0) & (e > 0.0), "second_moment", moment, "m⁴", "more than zero")
    return np.asarray(48.0 * e * moment / span**3, dtype=np.float64)


def bonded_panel_share(
    *,
    width: npt.ArrayLike,
    height: npt.ArrayLike,
    bead_shear_modulus: npt.ArrayLike,
    bead_width: npt.ArrayLike,
    bead_gap: npt.ArrayLike,
    panel_shear_modulus: npt.ArrayLike,
    panel_thickness: npt.ArrayLike,
) -> Array:
    """Return the share of a pane's shear rate that its rubber or glue bead lets through.

    Parameters
    ----------
    width : array_like
        Width of the pane. [m]
    height : array_like
        Height of the pane. [m]
    bead_shear_modulus : array_like
        Shear modulus of the bead. [Pa]
    bead_width : array_like
        Width of the bead on the flange. [m]
    bead_gap : array_like
        Thickness of the bead between glass and flange. [m]
    panel_shear_modulus : array_like
        Shear modulus of the pane. [Pa]
    panel_thickness : array_like
        Thickness of the pane. [m]

    Returns
    -------
    array
        Effective over own shear rate. [-]

    Notes
    -----
    Edge bead in series with the pane: per metre of edge k = G_b w/g;
    (Gt)_bead = k / (2 (1/a + 1/h)); share = (Gt)_bead / ((Gt)_bead + G t).

    References
    ----------
    .. [1] Derived: shear of a pane held all round by an elastic bead.

    """
    a, h = np.asarray(width, float), np.asarray(height, float)
    gap = np.asarray(bead_gap, float)
    own = np.asarray(panel_shear_modulus, float) * np.asarray(panel_thickness, float)
    require((a > 0.0) & (h > 0.0), "width", a, "m", "more than zero, as the height")
    require(gap > 0.0, "bead_gap", gap, "m", "more than zero")
    require(own > 0.0, "panel_thickness", own, "N/m", "more than zero with its modulus")
    rate = np.asarray(bead_shear_modulus, float) * np.asarray(bead_width, float) / gap
    bead = rate / (2.0 * (1.0 / a + 1.0 / h))
    return np.asarray(bead / (bead + own), dtype=np.float64)


def kerb_strike_force(
    *,
    mass: npt.ArrayLike,
    factor: npt.ArrayLike,
    track: npt.ArrayLike,
    cg_height: npt.ArrayLike,
    gravity: npt.ArrayLike,
) -> Array:
    """Return the sideways force that tips the car over a kerb, times a dynamic factor.

    Parameters
    ----------
    mass : array_like
        Mass of the car. [kg]
    factor : array_like
        Dynamic factor: 1.75 after Garrett 1953, 1.4 with others. [-]
    track : array_like
        Track. [m]
    cg_height : array_like
        Height of the centre of gravity above the road. [m]
    gravity : array_like
        Acceleration of free fall. [m/s²]

    Returns
    -------
    array
        Sideways force on the struck side. [N]

    Notes
    -----
    F = K M g B/(2h).

    References
    ----------
    .. [1] Brown, Robertson, Serpento, "Motor Vehicle Structures", 2002, p. 24: factor and symbols
       (reprint); the shape of the formula from memory.

    """
    m, b_, h = np.asarray(mass, float), np.asarray(track, float), np.asarray(cg_height, float)
    require((m > 0.0) & (b_ > 0.0), "mass", m, "kg", "more than zero, as the track")
    require(h > 0.0, "cg_height", h, "m", "more than zero")
    weight = m * np.asarray(gravity, float)
    return np.asarray(np.asarray(factor, float) * weight * b_ / (2.0 * h), dtype=np.float64)
