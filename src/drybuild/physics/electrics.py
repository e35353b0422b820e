"""Wires: resistance, gauge, voltage drop, temperature in service, short circuit, fuse."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.air import (
    PRANDTL_NUMBER,
    air_conductivity,
    air_density,
    air_viscosity,
)
from drybuild.units import STANDARD_GRAVITY

Array = npt.NDArray[np.float64]
Values = float | Array

COPPER_RESISTIVITY_20C = 1.0 / 58.0e6  # [Ω·m], IEC 60028:1925
COPPER_INFERRED_ZERO = 234.5  # [K] below 0 °C, IEC 60028:1925
STEFAN_BOLTZMANN = 5.670374e-8  # [W/(m²·K⁴)]
INSULATION_EMISSIVITY = 0.9  # [-], plastics, Incropera Table A.11 from memory
_SEA_LEVEL = 101325.0  # [Pa]
_HOTTEST_RISE = 300.0  # [K]
_LEAST_RISE = 1e-6  # [K]
_WARMS_NOTHING = 1e-12  # [A²]
_USUAL_EXPONENT = 1.2  # [-], of heat lost over warmth: where the secants begin
_MOST_SECANTS = 20
_SETTLED = 1e-7  # [-], last change of the rise, as a share; the next would be far smaller


def conductor_resistance(*, length: Values, area: Values, temperature: Values) -> Values:
    """Return the direct-current resistance of an annealed copper conductor.

    Parameters
    ----------
    length : float or array
        Length of metal in the path; count out and back. [m]
    area : float or array
        Metal cross-section, not the outside of the insulation. [m²]
    temperature : float or array
        Conductor temperature, not the air around it. [K]

    Returns
    -------
    float or array
        Resistance. [Ω]

    Notes
    -----
    R = ρ₂₀ L/A (234.5 + t)/254.5 with ρ₂₀ = 1/58 Ω·mm²/m.

    References
    ----------
    .. [1] IEC 60028, "International standard of resistance for copper", 1925.

    """
    require(np.greater_equal(length, 0.0), "length", length, "m", "zero or more")
    require(np.greater(area, 0.0), "area", area, "m²", "more than zero")
    cold = COPPER_RESISTIVITY_20C * length / area
    return resistance_when_warm(resistance_at_20c=cold, temperature=temperature)


def resistance_when_warm(*, resistance_at_20c: Values, temperature: Values) -> Values:
    """Return a copper conductor's resistance at a temperature from its tabulated one at 20 °C.

    Parameters
    ----------
    resistance_at_20c : float or array
        Resistance at 20 °C, whole or per metre. [Ω]
    temperature : float or array
        Conductor temperature. [K]

    Returns
    -------
    float or array
        Resistance. [Ω]

    Notes
    -----
    R = R₂₀ (234.5 + t)/254.5.

    References
    ----------
    .. [1] IEC 60028, 1925; tabulated from 5 to 100 °C in IEC 60228.

    """
    require(np.greater(temperature, 0.0), "temperature", temperature, "K", "more than zero")
    celsius = temperature - 273.15
    return resistance_at_20c * (COPPER_INFERRED_ZERO + celsius) / (COPPER_INFERRED_ZERO + 20.0)


def awg_diameter(*, gauge: Values) -> Values:
    """Return the diameter of a solid round wire of an American gauge.

    Parameters
    ----------
    gauge : float or array
        Gauge number; 0, −1, −2, −3 stand for 1/0, 2/0, 3/0, 4/0. [-]

    Returns
    -------
    float or array
        Diameter. [m]

    Notes
    -----
    d = 0.127 mm · 92^((36 − n)/39).

    References
    ----------
    .. [1] ASTM B258, "Standard nominal diameters and cross-sectional areas of AWG sizes".

    """
    require(np.greater_equal(gauge, -3.0), "gauge", gauge, "-", "-3 (that is 4/0) or more")
    return 0.127e-3 * 92.0 ** ((36.0 - gauge) / 39.0)


def voltage_drop(*, current: Values, resistance: Values) -> Values:
    """Return the voltage that a current loses in a resistance.

    Parameters
    ----------
    current : float or array
        Current. [A]
    resistance : float or array
        Resistance of the whole path, out and back. [Ω]

    Returns
    -------
    float or array
        Voltage drop. [V]

    Notes
    -----
    U = I R.

    References
    ----------
    .. [1] Ohm's law.

    """
    return current * resistance


def area_for_drop(
    *, current: Values, length: Values, voltage_drop: Values, temperature: Values
) -> Values:
    """Return the copper section that keeps the voltage drop to a limit.

    Parameters
    ----------
    current : float or array
        Current. [A]
    length : float or array
        Length of metal in the path, out and back. [m]
    voltage_drop : float or array
        Drop allowed. [V]
    temperature : float or array
        Conductor temperature. [K]

    Returns
    -------
    float or array
        Metal cross-section. [m²]

    Notes
    -----
    A = ρ(t) L I/U.

    References
    ----------
    .. [1] IEC 60028, 1925.

    """
    require(np.greater(voltage_drop, 0.0), "voltage_drop", voltage_drop, "V", "more than zero")
    of_unit = conductor_resistance(length=length, area=1.0, temperature=temperature)
    return of_unit * current / voltage_drop


def wire_heat_loss(
    *, outside_diameter: Values, surface_temperature: Values, air_temperature: Values
) -> Values:
    """Return the heat that a horizontal wire loses to still air, per metre.

    Parameters
    ----------
    outside_diameter : float or array
        Over the insulation. [m]
    surface_temperature : float or array
        Temperature of the surface. [K]
    air_temperature : float or array
        Temperature of the air and of what surrounds it. [K]

    Returns
    -------
    float or array
        Heat lost by free convection and radiation. [W/m]

    Notes
    -----
    Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}², properties at the mean of the
    two temperatures at sea level, emissivity 0.9.

    References
    ----------
    .. [1] S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975).

    """
    ok = np.greater(outside_diameter, 0.0)
    require(ok, "outside_diameter", outside_diameter, "m", "more than zero")
    film = 0.5 * (surface_temperature + air_temperature)
    kinematic = air_viscosity(temperature=film) / air_density(pressure=_SEA_LEVEL, temperature=film)
    warmer = surface_temperature - air_temperature
    grashof = (
        STANDARD_GRAVITY
        * np.abs(warmer)
        * outside_diameter
        * outside_diameter**2
        / (film * kinematic**2)
    )
    prandtl_term = (1.0 + (0.559 / PRANDTL_NUMBER) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    rayleigh = grashof * PRANDTL_NUMBER
    nusselt = (0.60 + 0.387 * rayleigh ** (1.0 / 6.0) / prandtl_term) ** 2
    convection = nusselt * air_conductivity(temperature=film) / outside_diameter * warmer
    radiation = (
        INSULATION_EMISSIVITY
        * STEFAN_BOLTZMANN
        * ((surface_temperature**2) ** 2 - (air_temperature**2) ** 2)
    )
    lost: Values = np.pi * outside_diameter * (convection + radiation)
    return lost


def free_air_ampacity(
    *,
    resistance_at_20c: Values,
    outside_diameter: Values,
    conductor_temperature: Values,
    air_temperature: Values,
) -> Values:
    """Return the current that brings a single wire in still air to a temperature.

    Parameters
    ----------
    resistance_at_20c : float or array
        Resistance per metre at 20 °C. [Ω/m]
    outside_diameter : float or array
        Over the insulation. [m]
    conductor_temperature : float or array
        Temperature allowed. [K]
    air_temperature : float or array
        Temperature of the air. [K]

    Returns
    -------
    float or array
        Continuous current; nan where the air is as warm as that or warmer. [A]

    Notes
    -----
    I² R(t) = heat lost; the insulation's own resistance to heat is left out, so its surface is
    taken to be as warm as the conductor.

    References
    ----------
    .. [1] S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975).

    """
    ok = np.greater(resistance_at_20c, 0.0)
    require(ok, "resistance_at_20c", resistance_at_20c, "Ω/m", "more than zero")
    lost = wire_heat_loss(
        outside_diameter=outside_diameter,
        surface_temperature=conductor_temperature,
        air_temperature=air_temperature,
    )
    warm = resistance_when_warm(
        resistance_at_20c=resistance_at_20c, temperature=conductor_temperature
    )
    squared = np.where(np.greater(lost, 0.0), lost / warm, np.nan)
    return (squared**0.5)[()]


def conductor_temperature(
    *,
    current: Values,
    resistance_at_20c: Values,
    outside_diameter: Values,
    air_temperature: Values,
    bundle_factor: Values,
) -> Values:
    """Return the temperature that a wire settles at with a steady current.

    Parameters
    ----------
    current : float or array
        Continuous current. [A]
    resistance_at_20c : float or array
        Resistance per metre at 20 °C. [Ω/m]
    outside_diameter : float or array
        Over the insulation. [m]
    air_temperature : float or array
        Temperature of the air. [K]
    bundle_factor : float or array
        Share of the free-air current that the wire may carry in its bundle, 1 alone. [-]

    Returns
    -------
    float or array
        Conductor temperature; nan where it would pass 300 °C above the air. [K]

    Notes
    -----
    (I/k)² R(t) = heat lost, by the rule of secants: the logarithm of the loss is nearly a straight
    line over that of the rise above the air. The bundle factor scales the current, as the tables
    of bundle derating mean it.

    References
    ----------
    .. [1] S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975).
    .. [2] FAA AC 43.13-1B, Figure 11-5 for the bundle.

    """
    ok = np.greater(bundle_factor, 0.0) & np.less_equal(bundle_factor, 1.0)
    require(ok, "bundle_factor", bundle_factor, "-", "more than 0, at most 1")
    shape = np.broadcast(
        current, bundle_factor, resistance_at_20c, outside_diameter, air_temperature
    ).shape
    squared = np.maximum(np.broadcast_to(current / bundle_factor, shape) ** 2, _WARMS_NOTHING)

    def excess(rise: Array) -> Array:
        temperature = air_temperature + np.exp(rise)
        warm = resistance_when_warm(resistance_at_20c=resistance_at_20c, temperature=temperature)
        lost = wire_heat_loss(
            outside_diameter=outside_diameter,
            surface_temperature=temperature,
            air_temperature=air_temperature,
        )
        ratio: Array = np.log(lost / (squared * warm))
        return ratio

    least, most = np.log((_LEAST_RISE, _HOTTEST_RISE))
    last, rise = np.full(shape, most), np.full(shape, most)
    was = excess(last)
    slope = np.full(shape, _USUAL_EXPONENT)
    settles, now = was > 0.0, was
    for _ in range(_MOST_SECANTS):
        last, was, rise = rise, now, np.clip(rise - now / slope, least, most)
        moved = np.abs(rise - last) > _SETTLED
        if not moved.any():
            break
        now = excess(rise)
        slope = np.where(moved, (now - was) / np.where(moved, rise - last, 1.0), slope)
    return np.where(settles, air_temperature + np.exp(rise), np.nan)[()]


def adiabatic_constant(*, start_temperature: Values, end_temperature: Values) -> Values:
    """Return the constant of a copper conductor that heats up too fast to lose any heat.

    Parameters
    ----------
    start_temperature : float or array
        Conductor temperature before the short circuit. [K]
    end_temperature : float or array
        Temperature that the insulation survives for a moment. [K]

    Returns
    -------
    float or array
        Current density times the root of time. [A·s^0.5/m²]

    Notes
    -----
    k = 226 √ln[(234.5 + t₂)/(234.5 + t₁)] A·s^½/mm².

    References
    ----------
    .. [1] IEC 60364-5-54, Annex A.

    """
    ok = np.greater(end_temperature, start_temperature)
    require(ok, "end_temperature", end_temperature, "K", "above the temperature at the start")
    zero = 273.15 - COPPER_INFERRED_ZERO
    ratio = (end_temperature - zero) / (start_temperature - zero)
    constant: Values = 226e6 * np.log(ratio) ** 0.5
    return constant


def adiabatic_current(*, area: Values, duration: Values, constant: Values) -> Values:
    """Return the short-circuit current that a conductor survives for a moment.

    Parameters
    ----------
    area : float or array
        Metal cross-section. [m²]
    duration : float or array
        Time until the fuse opens, at most about 5 s. [s]
    constant : float or array
        Adiabatic constant of metal and insulation. [A·s^0.5/m²]

    Returns
    -------
    float or array
        Current. [A]

    Notes
    -----
    I = k S/√t.

    References
    ----------
    .. [1] IEC 60364-4-43, sec. 434.5.2.

    """
    require(np.greater(duration, 0.0), "duration", duration, "s", "more than zero")
    return constant * area / duration**0.5


def fuse_rating_wanted(*, current: Values, loading: Values) -> Values:
    """Return the least rating of a fuse that carries a current for good.

    Parameters
    ----------
    current : float or array
        Continuous current. [A]
    loading : float or array
        Share of its rating that a fuse may carry, 0.75 at 25 °C, less where it is warm. [-]

    Returns
    -------
    float or array
        Rating. [A]

    Notes
    -----
    I_f = I/loading.

    References
    ----------
    .. [1] Fuse makers' selection guides, 75 % rule.

    """
    ok = np.greater(loading, 0.0) & np.less_equal(loading, 1.0)
    require(ok, "loading", loading, "-", "more than 0, at most 1")
    return current / loading
