"""Dry air as a gas: density, viscosity, conductivity, sound, and the standard atmosphere."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]

GAS_CONSTANT = 287.05  # [J/(kg·K)], ISO 2533
SPECIFIC_HEAT = 1006.0  # [J/(kg·K)], at constant pressure, near 300 K
HEAT_RATIO = 1.4  # [-], ISO 2533
PRANDTL_NUMBER = 0.71  # [-], near 300 K


def air_density(*, pressure: Values, temperature: Values) -> Values:
    """Return the density of dry air, or of exhaust gas taken as air.

    Parameters
    ----------
    pressure : float or array
        Absolute pressure. [Pa]
    temperature : float or array
        Absolute temperature. [K]

    Returns
    -------
    float or array
        Density. [kg/m³]

    Notes
    -----
    ρ = p / (R T).

    References
    ----------
    .. [1] ISO 2533, "Standard Atmosphere", 1975.

    """
    require(np.greater(pressure, 0.0), "pressure", pressure, "Pa", "more than zero")
    require(np.greater(temperature, 0.0), "temperature", temperature, "K", "more than zero")
    return pressure / (GAS_CONSTANT * temperature)


def air_viscosity(*, temperature: Values) -> Values:
    """Return the dynamic viscosity of air.

    Parameters
    ----------
    temperature : float or array
        Absolute temperature, 170 to 1900 K. [K]

    Returns
    -------
    float or array
        Dynamic viscosity. [Pa·s]

    Notes
    -----
    Sutherland: μ = μ₀ (T/T₀)^1.5 (T₀ + S)/(T + S) with μ₀ = 1.716e-5, T₀ = 273 K, S = 111 K.
    Within 1 % of the tables near 300 K, 2 % below them at 1000 K.

    References
    ----------
    .. [1] F. M. White, "Viscous Fluid Flow", Table 1-2.

    """
    _within(temperature)
    ratio = temperature / 273.0
    return 1.716e-5 * ratio * ratio**0.5 * (273.0 + 111.0) / (temperature + 111.0)


def air_conductivity(*, temperature: Values) -> Values:
    """Return the thermal conductivity of air.

    Parameters
    ----------
    temperature : float or array
        Absolute temperature, 170 to 1900 K. [K]

    Returns
    -------
    float or array
        Thermal conductivity. [W/(m·K)]

    Notes
    -----
    Sutherland: k = k₀ (T/T₀)^1.5 (T₀ + S)/(T + S) with k₀ = 0.0241, T₀ = 273 K, S = 194 K.

    References
    ----------
    .. [1] F. M. White, "Viscous Fluid Flow", Table 1-3.

    """
    _within(temperature)
    ratio = temperature / 273.0
    return 0.0241 * ratio * ratio**0.5 * (273.0 + 194.0) / (temperature + 194.0)


def speed_of_sound(*, temperature: Values, heat_ratio: Values) -> Values:
    """Return the speed of sound in air or exhaust gas.

    Parameters
    ----------
    temperature : float or array
        Absolute temperature. [K]
    heat_ratio : float or array
        Ratio of the specific heats, 1.4 in cool air, about 1.34 in hot exhaust. [-]

    Returns
    -------
    float or array
        Speed of sound. [m/s]

    Notes
    -----
    a = √(γ R T).

    References
    ----------
    .. [1] ISO 2533, "Standard Atmosphere", 1975.

    """
    require(np.greater(temperature, 0.0), "temperature", temperature, "K", "more than zero")
    require(np.greater(heat_ratio, 1.0), "heat_ratio", heat_ratio, "-", "more than one")
    return (heat_ratio * GAS_CONSTANT * temperature) ** 0.5


def atmospheric_pressure(*, altitude: Values) -> Values:
    """Return the pressure of the standard atmosphere at an altitude.

    Parameters
    ----------
    altitude : float or array
        Geopotential height above the sea, −2000 to 11 000 m. [m]

    Returns
    -------
    float or array
        Absolute pressure. [Pa]

    Notes
    -----
    p = 101325 (1 − 0.0065 h / 288.15)^5.25588.

    References
    ----------
    .. [1] ISO 2533, "Standard Atmosphere", 1975.

    """
    ok = np.greater_equal(altitude, -2000.0) & np.less_equal(altitude, 11000.0)
    require(ok, "altitude", altitude, "m", "from -2000 m to 11 000 m")
    return 101325.0 * (1.0 - 0.0065 * altitude / 288.15) ** 5.25588


def _within(temperature: Values) -> None:
    ok = np.greater_equal(temperature, 170.0) & np.less_equal(temperature, 1900.0)
    require(ok, "temperature", temperature, "K", "from 170 K to 1900 K")
