"""Tyres: outside diameter, rolling circumference, standing radius, width and load."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array

MILLIMETRE = 0.001  # [m]
ROLLING_FACTOR_RADIAL = 3.05  # [-], ETRTO Standards Manual, from memory
ROLLING_FACTOR_DIAGONAL = 2.99  # [-], ETRTO Standards Manual, from memory; low confidence
WIDTH_PER_RIM_WIDTH = 0.4  # [-], UN R30, 6.1.1, from memory; 5 mm for each 0.5 in agrees


def section_height(*, section_width: Real, aspect: Real) -> Array:
    """Return a metric tyre's section height, rounded as the standard rounds it.

    Parameters
    ----------
    section_width : float
        Nominal section width, as marked. [m]
    aspect : float
        Section height over section width, as marked. [-]

    Returns
    -------
    float
        Section height, a whole number of millimetres. [m]

    Notes
    -----
    H = S₁ · 0.01 Ra, rounded to the nearest millimetre, halves up.

    References
    ----------
    .. [1] UN Regulation No. 30, 02 series, par. 6.1.2.1.

    """
    require(np.greater(section_width, 0.0), "section_width", section_width, "m", "more than zero")
    require(np.greater(aspect, 0.0), "aspect", aspect, "-", "more than zero")
    # 1e-6 mm lifts 112.4999… that stands for an exact half; no real size comes nearer otherwise.
    return np.asarray(np.floor(section_width * aspect / MILLIMETRE + 0.5 + 1e-6) * MILLIMETRE)


def outside_diameter(*, rim_diameter: Real, section_height: Real) -> Array:
    """Return the outside diameter of a new, unloaded tyre.

    Parameters
    ----------
    rim_diameter : float
        Nominal rim diameter of the standard. [m]
    section_height : float
        Section height. [m]

    Returns
    -------
    float
        Outside diameter. [m]

    Notes
    -----
    D = d + 2 H.

    References
    ----------
    .. [1] UN Regulation No. 30, 02 series, par. 6.1.2.1.

    """
    require(np.greater(rim_diameter, 0.0), "rim_diameter", rim_diameter, "m", "more than zero")
    require(
        np.greater(section_height, 0.0), "section_height", section_height, "m", "more than zero"
    )
    return np.asarray(rim_diameter + 2.0 * section_height)


def largest_outside_diameter(
    *, rim_diameter: Real, section_height: Real, growth_factor: Real
) -> Array:
    """Return the largest outside diameter that the standard allows a tyre of this size.

    Parameters
    ----------
    rim_diameter : float
        Nominal rim diameter. [m]
    section_height : float
        Section height. [m]
    growth_factor : float
        1.04 for radial tyres, 1.08 for diagonal and bias-belted ones. [-]

    Returns
    -------
    float
        Largest outside diameter: what the arch must clear. [m]

    Notes
    -----
    D_max = d + 2 H b.

    References
    ----------
    .. [1] UN Regulation No. 30, 02 series, par. 6.1.5.

    """
    require(np.greater_equal(growth_factor, 1.0), "growth_factor", growth_factor, "-", "1 or more")
    return np.asarray(
        outside_diameter(rim_diameter=rim_diameter, section_height=section_height * growth_factor)
    )


def section_width_on_rim(
    *, section_width: Real, measuring_rim_width: Real, rim_width: Real
) -> Array:
    """Return the section width that a tyre takes on a rim other than its measuring rim.

    Parameters
    ----------
    section_width : float
        Section width on the measuring rim. [m]
    measuring_rim_width : float
        Width of the measuring rim between the flanges. [m]
    rim_width : float
        Width of the rim fitted, between the flanges. [m]

    Returns
    -------
    float
        Section width as fitted. [m]

    Notes
    -----
    S = S₁ + K (A − A₁), K = 0.4.

    References
    ----------
    .. [1] UN Regulation No. 30, 02 series, par. 6.1.1.

    """
    require(np.greater(section_width, 0.0), "section_width", section_width, "m", "more than zero")
    require(np.greater(rim_width, 0.0), "rim_width", rim_width, "m", "more than zero")
    return np.asarray(section_width + WIDTH_PER_RIM_WIDTH * (rim_width - measuring_rim_width))


def rolling_circumference(*, outside_diameter: Real, rolling_factor: Real) -> Array:
    """Return how far a tyre rolls in one turn at 60 km/h under its load.

    Parameters
    ----------
    outside_diameter : float
        Outside diameter, new and unloaded. [m]
    rolling_factor : float
        3.05 for radial passenger tyres, about 2.99 for diagonal ones. [-]

    Returns
    -------
    float
        Rolling circumference. [m]

    Notes
    -----
    C_R = F · D.

    References
    ----------
    .. [1] ETRTO Standards Manual, passenger car tyres, notes.
    .. [2] Reimpell, Stoll, Betzler, The Automotive Chassis, 2nd ed., sec. 2.2.5.

    """
    require(
        np.greater(outside_diameter, 0.0),
        "outside_diameter",
        outside_diameter,
        "m",
        "more than zero",
    )
    require(
        np.greater(rolling_factor, 2.5) & np.less(rolling_factor, np.pi),
        "rolling_factor",
        rolling_factor,
        "-",
        "between 2.5 and pi",
    )
    return np.asarray(rolling_factor * outside_diameter)


def rolling_radius(*, rolling_circumference: Real) -> Array:
    """Return the radius of the rigid wheel that would roll as far.

    Parameters
    ----------
    rolling_circumference : float
        Distance in one turn. [m]

    Returns
    -------
    float
        Rolling (dynamic) radius. [m]

    Notes
    -----
    r = C_R / 2π.

    References
    ----------
    .. [1] Definition; Reimpell, Stoll, Betzler, The Automotive Chassis, 2nd ed., sec. 2.2.5.

    """
    require(
        np.greater(rolling_circumference, 0.0),
        "rolling_circumference",
        rolling_circumference,
        "m",
        "more than zero",
    )
    return np.asarray(rolling_circumference / (2.0 * np.pi))


def turns_per_length(*, rolling_circumference: Real) -> Array:
    """Return the wheel turns in each metre of road; times 1000, the revs per kilometre.

    Parameters
    ----------
    rolling_circumference : float
        Distance in one turn. [m]

    Returns
    -------
    float
        Turns in each metre. [1/m]

    Notes
    -----
    n = 1 / C_R.

    References
    ----------
    .. [1] Definition.

    """
    require(
        np.greater(rolling_circumference, 0.0),
        "rolling_circumference",
        rolling_circumference,
        "m",
        "more than zero",
    )
    return np.asarray(1.0 / rolling_circumference)


def standing_radius(*, rim_diameter: Real, section_height: Real, height_share: Real) -> Array:
    """Return the height of the wheel centre above the road of a loaded, standing tyre.

    Parameters
    ----------
    rim_diameter : float
        Nominal rim diameter. [m]
    section_height : float
        Section height, new and unloaded. [m]
    height_share : float
        Share of the section height that stays under load; 0.77 to 0.80 is common. [-]

    Returns
    -------
    float
        Static loaded radius. [m]

    Notes
    -----
    r_stat = d/2 + λ H.

    References
    ----------
    .. [1] Reimpell, Stoll, Betzler, The Automotive Chassis, 2nd ed., sec. 2.2.5.4.

    """
    require(
        np.greater(height_share, 0.0) & np.less_equal(height_share, 1.0),
        "height_share",
        height_share,
        "-",
        "more than 0, at most 1",
    )
    return np.asarray(rim_diameter / 2.0 + height_share * section_height)


def pressure_for_load(
    *, load: Real, capacity: Real, reference_pressure: Real, exponent: Real
) -> Array:
    """Return the lowest cold pressure at which a tyre may carry a load.

    Parameters
    ----------
    load : float
        Load on the tyre. [kg]
    capacity : float
        Load of its load index. [kg]
    reference_pressure : float
        Gauge pressure at which that capacity holds; 250 kPa for standard tyres. [Pa]
    exponent : float
        0.80 for most metric radial tyres, 0.65 for some. [-]

    Returns
    -------
    float
        Gauge pressure; more than `reference_pressure` where the tyre is too small. [Pa]

    Notes
    -----
    L = L_ref (p / p_ref)^n, solved for p.

    References
    ----------
    .. [1] ETRTO Standards Manual, passenger car tyres with metric designation, notes.

    """
    require(np.greater(capacity, 0.0), "capacity", capacity, "kg", "more than zero")
    require(np.greater_equal(load, 0.0), "load", load, "kg", "zero or more")
    require(np.greater(exponent, 0.0), "exponent", exponent, "-", "more than zero")
    return np.asarray(reference_pressure * np.power(load / capacity, 1.0 / np.asarray(exponent)))


def speedometer_error(*, fitted_circumference: Real, original_circumference: Real) -> Array:
    """Return how much faster the car goes than a speedometer set for other tyres shows.

    Parameters
    ----------
    fitted_circumference : float
        Rolling circumference of the tyres fitted. [m]
    original_circumference : float
        Rolling circumference that the speedometer was set for. [m]

    Returns
    -------
    float
        True speed over shown speed, less one; positive reads low. [-]

    Notes
    -----
    e = C_fitted / C_original − 1.

    References
    ----------
    .. [1] Definition.

    """
    require(
        np.greater(original_circumference, 0.0),
        "original_circumference",
        original_circumference,
        "m",
        "more than zero",
    )
    return np.asarray(fitted_circumference / original_circumference - 1.0)
