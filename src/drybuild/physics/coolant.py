"""Water and ethylene glycol as an engine coolant: properties, freezing, boiling under the cap."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]

WATER_MOLAR_MASS = 18.015  # [g/mol]
GLYCOL_MOLAR_MASS = 62.068  # [g/mol]

# Melinder 2010, aqueous ethylene glycol. Row order (power of concentration, power of temperature).
_POWERS = tuple((i, j) for i in range(6) for j in range(4) if i + j <= 5)
_DENSITY = (
    1034.0,
    -0.4781,
    -0.002692,
    4.725e-6,
    1.311,
    -0.006876,
    4.805e-5,
    1.69e-8,
    7.49e-5,
    7.855e-5,
    -3.995e-7,
    4.982e-9,
    -1.062e-4,
    1.229e-6,
    -1.153e-8,
    -9.623e-7,
    -7.211e-8,
    4.891e-8,
)
_SPECIFIC_HEAT = (
    3737.0,
    2.93,
    -0.004675,
    -1.389e-5,
    -17.99,
    0.1046,
    -4.147e-4,
    1.847e-7,
    -0.09933,
    3.516e-4,
    5.109e-6,
    -7.138e-8,
    0.00261,
    -1.189e-6,
    -1.643e-7,
    1.537e-5,
    -4.272e-7,
    -1.618e-6,
)
_CONDUCTIVITY = (
    0.472,
    8.903e-4,
    -1.058e-6,
    -2.789e-9,
    -0.004286,
    -1.473e-5,
    1.059e-7,
    -1.142e-10,
    1.747e-5,
    6.814e-8,
    -3.612e-9,
    2.365e-12,
    3.017e-8,
    -2.412e-9,
    4.004e-11,
    -1.322e-9,
    2.555e-11,
    2.678e-11,
)
_LOG_VISCOSITY = (
    0.4705,
    -0.0255,
    1.782e-4,
    -7.669e-7,
    0.02471,
    -1.171e-4,
    1.052e-6,
    -1.634e-8,
    3.328e-6,
    1.086e-6,
    1.051e-8,
    -6.475e-10,
    1.659e-6,
    3.157e-9,
    4.063e-10,
    3.089e-8,
    1.831e-10,
    -1.865e-9,
)
_FREEZING = (-15.25, -0.808, -0.01334, -7.293e-5, 1.006e-6, 1.14e-9)


def coolant_density(*, temperature: Values, glycol_fraction: Values) -> Values:
    """Return the density of a mixture of water and ethylene glycol.

    Parameters
    ----------
    temperature : float or array
        Temperature of the coolant, 233 to 373.15 K. [K]
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Density. [kg/m³]; nan outside the range of temperature

    Notes
    -----
    Polynomial in (100 x − 30.8462) and (t − 31.728 °C), up to the fifth order together.

    References
    ----------
    .. [1] Å. Melinder, "Properties of Secondary Working Fluids for Indirect Systems", 2010.

    """
    return _melinder(_DENSITY, temperature, glycol_fraction)


def coolant_specific_heat(*, temperature: Values, glycol_fraction: Values) -> Values:
    """Return the specific heat of a mixture of water and ethylene glycol.

    Parameters
    ----------
    temperature : float or array
        Temperature of the coolant, 233 to 373.15 K. [K]
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Specific heat. [J/(kg·K)]; nan outside the range of temperature

    Notes
    -----
    Polynomial in (100 x − 30.8462) and (t − 31.728 °C), up to the fifth order together.

    References
    ----------
    .. [1] Å. Melinder, "Properties of Secondary Working Fluids for Indirect Systems", 2010.

    """
    return _melinder(_SPECIFIC_HEAT, temperature, glycol_fraction)


def coolant_conductivity(*, temperature: Values, glycol_fraction: Values) -> Values:
    """Return the thermal conductivity of a mixture of water and ethylene glycol.

    Parameters
    ----------
    temperature : float or array
        Temperature of the coolant, 233 to 373.15 K. [K]
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Thermal conductivity. [W/(m·K)]; nan outside the range of temperature

    Notes
    -----
    Polynomial in (100 x − 30.8462) and (t − 31.728 °C), up to the fifth order together.

    References
    ----------
    .. [1] Å. Melinder, "Properties of Secondary Working Fluids for Indirect Systems", 2010.

    """
    return _melinder(_CONDUCTIVITY, temperature, glycol_fraction)


def coolant_viscosity(*, temperature: Values, glycol_fraction: Values) -> Values:
    """Return the dynamic viscosity of a mixture of water and ethylene glycol.

    Parameters
    ----------
    temperature : float or array
        Temperature of the coolant, 233 to 373.15 K. [K]
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Dynamic viscosity. [Pa·s]; nan outside the range of temperature

    Notes
    -----
    ln(μ / 1 mPa·s) is a polynomial in (100 x − 30.8462) and (t − 31.728 °C).

    References
    ----------
    .. [1] Å. Melinder, "Properties of Secondary Working Fluids for Indirect Systems", 2010.

    """
    return 1e-3 * np.exp(_melinder(_LOG_VISCOSITY, temperature, glycol_fraction))


def coolant_freezing_temperature(*, glycol_fraction: Values) -> Values:
    """Return the temperature at which ice first forms in the coolant.

    Parameters
    ----------
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Freezing point. [K]

    Notes
    -----
    Polynomial of the fifth order in (100 x − 30.8462).

    References
    ----------
    .. [1] Å. Melinder, "Properties of Secondary Working Fluids for Indirect Systems", 2010.

    """
    _mixture(glycol_fraction)
    x = 100.0 * glycol_fraction - 30.8462
    return 273.15 + sum(c * x**i for i, c in enumerate(_FREEZING))


def water_saturation_temperature(*, pressure: Values) -> Values:
    """Return the boiling point of water under a pressure.

    Parameters
    ----------
    pressure : float or array
        Absolute pressure, 611.213 Pa to 22.064 MPa. [Pa]

    Returns
    -------
    float or array
        Saturation temperature. [K]

    Notes
    -----
    Backward equation of region 4: β = (p / 1 MPa)^0.25, quadratic in the reduced temperature.

    References
    ----------
    .. [1] IAPWS-IF97, Eq. 31, check values in Table 36.

    """
    ok = np.greater_equal(pressure, 611.213) & np.less_equal(pressure, 22.064e6)
    require(ok, "pressure", pressure, "Pa", "from 611.213 Pa to 22.064 MPa")
    beta = (pressure / 1e6) ** 0.25
    e = beta**2 - 17.073846940092 * beta + 14.915108613530
    f = 1167.0521452767 * beta**2 + 12020.82470247 * beta - 4823.2657361591
    g = -724213.16703206 * beta**2 - 3232555.0322333 * beta + 405113.40542057
    d = 2.0 * g / (-f - (f**2 - 4.0 * e * g) ** 0.5)
    return (
        650.17534844798
        + d
        - ((650.17534844798 + d) ** 2 - 4.0 * (-0.23855557567849 + 650.17534844798 * d)) ** 0.5
    ) / 2.0


def coolant_boiling_temperature(*, pressure: Values, glycol_fraction: Values) -> Values:
    """Return the boiling point of the coolant under the pressure cap.

    Parameters
    ----------
    pressure : float or array
        Absolute pressure in the system: atmosphere plus cap. [Pa]
    glycol_fraction : float or array
        Mass of glycol over mass of mixture, 0 to 0.6. [-]

    Returns
    -------
    float or array
        Boiling point. [K]

    Notes
    -----
    Raoult's law: the mixture boils where water's own saturation pressure is p / x_w, with x_w the
    mole fraction of water; the vapour of the glycol is left out (its pressure at 120 °C is 2 % of
    water's). Half and half by mass boils at 107 °C at sea level, as tabulated in [2]_.

    References
    ----------
    .. [1] IAPWS-IF97, Eq. 31.
    .. [2] ASHRAE Handbook, "Fundamentals", properties of aqueous ethylene glycol.

    """
    _mixture(glycol_fraction)
    water = (1.0 - glycol_fraction) / WATER_MOLAR_MASS
    moles = water + glycol_fraction / GLYCOL_MOLAR_MASS
    return water_saturation_temperature(pressure=pressure * moles / water)


def _mixture(glycol_fraction: Values) -> None:
    ok = np.greater_equal(glycol_fraction, 0.0) & np.less_equal(glycol_fraction, 0.6)
    require(ok, "glycol_fraction", glycol_fraction, "-", "from 0 to 0.6")


def _melinder(
    coefficients: tuple[float, ...], temperature: Values, glycol_fraction: Values
) -> Values:
    _mixture(glycol_fraction)
    x = 100.0 * np.asarray(glycol_fraction) - 30.8462
    t = np.asarray(temperature) - 273.15 - 31.728
    total = sum(c * x**i * t**j for (i, j), c in zip(_POWERS, coefficients, strict=True))
    inside = np.greater_equal(temperature, 233.0) & np.less_equal(temperature, 373.15)
    return np.where(inside, total, np.nan)[()]
