"""What holds a body together: bolts, fillet and spot welds, and how long a weld lasts.

The codes cited start at 3-5 mm material. For body sheet they only show the order of size; there the
sheet beside the weld decides, and structural welding belongs to licensed practice.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]

FATIGUE_KNEE = 1.0e7  # [cycles], IIW-1823-07, fig. (3.2)-2
FATIGUE_SLOPE_BEYOND_KNEE = 22.0  # [-], IIW-1823-07, sec. 3.2


def thread_stress_area(*, diameter: npt.ArrayLike, pitch: npt.ArrayLike) -> Array:
    """Return the nominal stress area of a metric thread.

    Parameters
    ----------
    diameter : array_like
        Nominal thread diameter. [m]
    pitch : array_like
        Thread pitch. [m]

    Returns
    -------
    array
        Stress area. [m²]

    Notes
    -----
    A_s = π/4 (d − 0.9382 P)².

    References
    ----------
    .. [1] ISO 898-1:2013, sec. 9.1.6.1 (formula from memory; loads compared with a reprint).

    """
    d, p = np.asarray(diameter, float), np.asarray(pitch, float)
    require(d > 0.0, "diameter", d, "m", "more than zero")
    require((p > 0.0) & (p < d), "pitch", p, "m", "between zero and the diameter")
    return np.asarray(np.pi / 4.0 * (d - 0.9382 * p) ** 2, dtype=np.float64)


def bolt_load(*, stress_area: npt.ArrayLike, stress: npt.ArrayLike) -> Array:
    """Return the axial load of a bolt at a stress of its property class.

    Parameters
    ----------
    stress_area : array_like
        Thread stress area. [m²]
    stress : array_like
        Proof or least tensile stress of the property class. [Pa]

    Returns
    -------
    array
        Load. [N]

    Notes
    -----
    F = A_s S.

    References
    ----------
    .. [1] ISO 898-1:2013, tables 4 to 7 (reprint of a fastener supplier).

    """
    area, s = np.asarray(stress_area, float), np.asarray(stress, float)
    require(area > 0.0, "stress_area", area, "m²", "more than zero")
    require(s > 0.0, "stress", s, "Pa", "more than zero")
    return np.asarray(area * s, dtype=np.float64)


def bolt_shear_resistance(
    *,
    stress_area: npt.ArrayLike,
    tensile_strength: npt.ArrayLike,
    shear_factor: npt.ArrayLike,
    partial_factor: npt.ArrayLike,
) -> Array:
    """Return the design shear resistance of a bolt, one plane, thread in the plane.

    Parameters
    ----------
    stress_area : array_like
        Thread stress area. [m²]
    tensile_strength : array_like
        Ultimate tensile strength of the bolt. [Pa]
    shear_factor : array_like
        α_v: 0.6 for classes 4.6, 5.6, 8.8; 0.5 for 4.8, 5.8, 6.8, 10.9. [-]
    partial_factor : array_like
        γ_M2, 1.25 where the national annex says nothing else. [-]

    Returns
    -------
    array
        Design resistance. [N]

    Notes
    -----
    F_v,Rd = α_v f_ub A_s / γ_M2. Where an M12 or M14 sits in a hole 2 mm larger, the code takes
    0.85 of it (clause 3.6.1(5)); that is left to the caller.

    References
    ----------
    .. [1] EN 1993-1-8:2005, table 3.4 (reprint).

    """
    area, gamma = np.asarray(stress_area, float), np.asarray(partial_factor, float)
    require(area > 0.0, "stress_area", area, "m²", "more than zero")
    require(gamma >= 1.0, "partial_factor", gamma, "-", "one or more")
    shear = np.asarray(shear_factor, float) * np.asarray(tensile_strength, float)
    require(shear > 0.0, "tensile_strength", shear, "Pa", "more than zero, as the factor")
    return np.asarray(shear * area / gamma, dtype=np.float64)


def bolt_tension_resistance(
    *, stress_area: npt.ArrayLike, tensile_strength: npt.ArrayLike, partial_factor: npt.ArrayLike
) -> Array:
    """Return the design tension resistance of a bolt that is not countersunk.

    Parameters
    ----------
    stress_area : array_like
        Thread stress area. [m²]
    tensile_strength : array_like
        Ultimate tensile strength of the bolt. [Pa]
    partial_factor : array_like
        γ_M2. [-]

    Returns
    -------
    array
        Design resistance. [N]

    Notes
    -----
    F_t,Rd = 0.9 f_ub A_s / γ_M2.

    References
    ----------
    .. [1] EN 1993-1-8:2005, table 3.4 (reprint).

    """
    area, gamma = np.asarray(stress_area, float), np.asarray(partial_factor, float)
    strength = np.asarray(tensile_strength, float)
    require(area > 0.0, "stress_area", area, "m²", "more than zero")
    require(strength > 0.0, "tensile_strength", strength, "Pa", "more than zero")
    require(gamma >= 1.0, "partial_factor", gamma, "-", "one or more")
    return np.asarray(0.9 * strength * area / gamma, dtype=np.float64)


def fillet_throat(*, leg: npt.ArrayLike) -> Array:
    """Return the throat of a fillet weld with equal legs.

    Parameters
    ----------
    leg : array_like
        Leg length. [m]

    Returns
    -------
    array
        Throat. [m]

    Notes
    -----
    a = s/√2.

    References
    ----------
    .. [1] EN 1993-1-8:2005, sec. 4.5.2 (reprint).

    """
    s = np.asarray(leg, float)
    require(s > 0.0, "leg", s, "m", "more than zero")
    return np.asarray(s / np.sqrt(2.0), dtype=np.float64)


def fillet_effective_length(*, length: npt.ArrayLike, throat: npt.ArrayLike) -> Array:
    """Return the length of a fillet weld that counts, start and end crater taken off.

    Parameters
    ----------
    length : array_like
        Length as laid. [m]
    throat : array_like
        Throat. [m]

    Returns
    -------
    array
        Effective length; nan where it is shorter than 30 mm or six throats and carries nothing. [m]

    Notes
    -----
    l_eff = l − 2a; at least max(30 mm, 6a).

    References
    ----------
    .. [1] EN 1993-1-8:2005, sec. 4.5.1 (reprint).

    """
    laid, a = np.asarray(length, float), np.asarray(throat, float)
    require(laid > 0.0, "length", laid, "m", "more than zero")
    require(a > 0.0, "throat", a, "m", "more than zero")
    effective = laid - 2.0 * a
    enough = effective >= np.maximum(0.030, 6.0 * a)
    return np.asarray(np.where(enough, effective, np.nan), dtype=np.float64)


def fillet_shear_strength(
    *,
    tensile_strength: npt.ArrayLike,
    correlation_factor: npt.ArrayLike,
    partial_factor: npt.ArrayLike,
) -> Array:
    """Return the design shear strength of a fillet weld, simplified method.

    Parameters
    ----------
    tensile_strength : array_like
        Ultimate strength of the weaker part joined. [Pa]
    correlation_factor : array_like
        β_w: S235 0.80, S275 0.85, S355 0.90, S460 1.00. [-]
    partial_factor : array_like
        γ_M2, 1.25. [-]

    Returns
    -------
    array
        Design shear strength. [Pa]

    Notes
    -----
    f_vw,d = f_u/(√3 β_w γ_M2); the weld then carries f_vw,d · a · l.

    References
    ----------
    .. [1] EN 1993-1-8:2005, sec. 4.5.3.3 (reprint).

    """
    strength = np.asarray(tensile_strength, float)
    factors = np.asarray(correlation_factor, float) * np.asarray(partial_factor, float)
    require(strength > 0.0, "tensile_strength", strength, "Pa", "more than zero")
    require(factors > 0.0, "correlation_factor", factors, "-", "more than zero, as the partial one")
    return np.asarray(strength / (np.sqrt(3.0) * factors), dtype=np.float64)


def fillet_utilisation_directional(
    *,
    normal_stress: npt.ArrayLike,
    shear_across: npt.ArrayLike,
    shear_along: npt.ArrayLike,
    tensile_strength: npt.ArrayLike,
    correlation_factor: npt.ArrayLike,
    partial_factor: npt.ArrayLike,
) -> Array:
    """Return how far a fillet weld is used, directional method; 1 is the limit.

    Parameters
    ----------
    normal_stress : array_like
        σ⊥, square to the throat. [Pa]
    shear_across : array_like
        τ⊥, in the throat, across the weld. [Pa]
    shear_along : array_like
        τ∥, in the throat, along the weld. [Pa]
    tensile_strength : array_like
        Ultimate strength of the weaker part joined. [Pa]
    correlation_factor : array_like
        β_w. [-]
    partial_factor : array_like
        γ_M2. [-]

    Returns
    -------
    array
        The larger of the two utilisations. [-]

    Notes
    -----
    √(σ⊥² + 3(τ⊥² + τ∥²)) ≤ f_u/(β_w γ_M2) and σ⊥ ≤ 0.9 f_u/γ_M2.

    References
    ----------
    .. [1] EN 1993-1-8:2005, sec. 4.5.3.2 (reprint).

    """
    fu, gamma = np.asarray(tensile_strength, float), np.asarray(partial_factor, float)
    beta = np.asarray(correlation_factor, float)
    require((fu > 0.0) & (gamma > 0.0), "tensile_strength", fu, "Pa", "more than zero")
    require(beta > 0.0, "correlation_factor", beta, "-", "more than zero")
    sigma = np.asarray(normal_stress, float)
    shear = np.asarray(shear_across, float) ** 2 + np.asarray(shear_along, float) ** 2
    combined = np.sqrt(sigma**2 + 3.0 * shear) * beta * gamma / fu
    normal = np.abs(sigma) * gamma / (0.9 * fu)
    return np.asarray(np.maximum(combined, normal), dtype=np.float64)


def spot_weld_nugget(*, thickness: npt.ArrayLike, factor: npt.ArrayLike) -> Array:
    """Return the nugget diameter that a spot weld should have.

    Parameters
    ----------
    thickness : array_like
        Thickness of the thinner sheet. [m]
    factor : array_like
        4 for the least, 5 for an important weld (with millimetres under the root). [-]

    Returns
    -------
    array
        Nugget diameter. [m]

    Notes
    -----
    d = k √t with both in millimetres.

    References
    ----------
    .. [1] Lecture slides on spot-weld calculation (reprint); the rule is general shop practice.

    """
    t, k = np.asarray(thickness, float), np.asarray(factor, float)
    require(t > 0.0, "thickness", t, "m", "more than zero")
    require(k > 0.0, "factor", k, "-", "more than zero")
    return np.asarray(k * np.sqrt(t * 1e3) * 1e-3, dtype=np.float64)


def welding_current(*, thickness: npt.ArrayLike) -> Array:
    """Return the current that a gas-shielded wire weld in steel sheet asks for.

    Parameters
    ----------
    thickness : array_like
        Sheet thickness. [m]

    Returns
    -------
    array
        Current. [A]

    Notes
    -----
    1 A per thousandth of an inch of thickness.

    References
    ----------
    .. [1] Wire-welder owner's manual, sec. 9-2 (reprint).

    """
    t = np.asarray(thickness, float)
    require(t > 0.0, "thickness", t, "m", "more than zero")
    return np.asarray(t / 25.4e-6, dtype=np.float64)


def fatigue_life_iiw(*, fatigue_class: npt.ArrayLike, stress_range: npt.ArrayLike) -> Array:
    """Return the cycles that a welded detail bears at a constant stress range.

    Parameters
    ----------
    fatigue_class : array_like
        FAT class: the stress range borne for two million cycles. [Pa]
    stress_range : array_like
        Nominal stress range. [Pa]

    Returns
    -------
    array
        Cycles, 97.7 % survival; slope 3 up to ten million cycles, 22 beyond. [-]

    Notes
    -----
    N = 2·10⁶ (FAT/Δσ)³ while N ≤ 10⁷; beyond, N = 10⁷ (Δσ_knee/Δσ)²². Not calibrated for sheet
    under about 5 mm.

    References
    ----------
    .. [1] A. Hobbacher (ed.), IIW-1823-07, "Recommendations for fatigue design of welded joints and
       components", 2008, sec. 3.2 (reprint).

    """
    fat, stress = np.asarray(fatigue_class, float), np.asarray(stress_range, float)
    require(fat > 0.0, "fatigue_class", fat, "Pa", "more than zero")
    require(stress > 0.0, "stress_range", stress, "Pa", "more than zero")
    life = 2.0e6 * (fat / stress) ** 3
    at_knee = fat * (2.0e6 / FATIGUE_KNEE) ** (1.0 / 3.0)
    beyond = FATIGUE_KNEE * (at_knee / stress) ** FATIGUE_SLOPE_BEYOND_KNEE
    return np.asarray(np.where(life <= FATIGUE_KNEE, life, beyond), dtype=np.float64)
