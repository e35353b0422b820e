"""Fuel from tank to cylinder: flow, pump, injectors, vapour pressure, range."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]

_PSI = 6894.757  # [Pa]


def fuel_mass_flow(*, power: Values, specific_consumption: Values) -> Values:
    """Return the fuel that an engine burns at a power.

    Parameters
    ----------
    power : float or array
        Power at the flywheel. [W]
    specific_consumption : float or array
        Fuel for each joule of work. [kg/J]

    Returns
    -------
    float or array
        Mass flow. [kg/s]

    Notes
    -----
    ṁ = P · bsfc.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 2.7.

    """
    require(np.greater_equal(power, 0.0), "power", power, "W", "zero or more")
    ok = np.greater(specific_consumption, 0.0)
    require(ok, "specific_consumption", specific_consumption, "kg/J", "more than zero")
    return power * specific_consumption


def pump_free_flow(*, rated_flow: Values, rated_pressure: Values, stall_pressure: Values) -> Values:
    """Return the flow of a pump against no pressure from its one rated point.

    Parameters
    ----------
    rated_flow : float or array
        Flow at the rated pressure and voltage. [m³/s]
    rated_pressure : float or array
        Pressure of the rating. [Pa]
    stall_pressure : float or array
        Pressure at which the flow ends, at the rated voltage. [Pa]

    Returns
    -------
    float or array
        Flow against no pressure at the rated voltage. [m³/s]

    Notes
    -----
    Straight line from (0, V̇₀) to (p_stall, 0) through the rated point.

    References
    ----------
    .. [1] Linear curve of a direct-current pump, common practice, no source.

    """
    ok = np.greater(stall_pressure, rated_pressure)
    require(ok, "stall_pressure", stall_pressure, "Pa", "more than the rated pressure")
    return rated_flow / (1.0 - rated_pressure / stall_pressure)


def pump_flow(
    *,
    free_flow: Values,
    stall_pressure: Values,
    rated_voltage: Values,
    voltage: Values,
    pressure: Values,
) -> Values:
    """Return the flow of an electric fuel pump at a pressure and a voltage.

    Parameters
    ----------
    free_flow : float or array
        Flow against no pressure at the rated voltage. [m³/s]
    stall_pressure : float or array
        Pressure at which the flow ends at the rated voltage. [Pa]
    rated_voltage : float or array
        Voltage of the rating. [V]
    voltage : float or array
        Voltage at the pump. [V]
    pressure : float or array
        Pressure that the pump works against. [Pa]

    Returns
    -------
    float or array
        Flow; nan where the pump cannot reach the pressure. [m³/s]

    Notes
    -----
    V̇ = V̇₀ (U/U_r − p/p_stall): free speed goes with voltage, slip with pressure.

    References
    ----------
    .. [1] Permanent-magnet motor on a positive-displacement pump, common practice, no source.

    """
    require(np.greater(stall_pressure, 0.0), "stall_pressure", stall_pressure, "Pa", "above zero")
    require(np.greater(rated_voltage, 0.0), "rated_voltage", rated_voltage, "V", "above zero")
    flow = free_flow * (voltage / rated_voltage - pressure / stall_pressure)
    return np.where(np.greater(flow, 0.0), flow, np.nan)[()]


def injector_static_flow(*, fuel_flow: Values, injectors: Values, duty: Values) -> Values:
    """Return the static flow that each injector must have.

    Parameters
    ----------
    fuel_flow : float or array
        Flow of the whole engine at full power, by mass or volume. [kg/s]
    injectors : float or array
        Number of injectors. [-]
    duty : float or array
        Share of the time that they may be open, 0.80 to 0.85. [-]

    Returns
    -------
    float or array
        Static flow of one injector, in the same measure. [kg/s]

    Notes
    -----
    q = ṁ / (n · duty).

    References
    ----------
    .. [1] Common practice, no source.

    """
    require(np.greater(injectors, 0.0), "injectors", injectors, "-", "more than zero")
    ok = np.greater(duty, 0.0) & np.less_equal(duty, 1.0)
    require(ok, "duty", duty, "-", "more than 0, at most 1")
    return fuel_flow / (injectors * duty)


def injector_flow_at_pressure(
    *, rated_flow: Values, rated_pressure: Values, pressure: Values
) -> Values:
    """Return an injector's static flow at another pressure across it.

    Parameters
    ----------
    rated_flow : float or array
        Static flow at the rated pressure. [m³/s]
    rated_pressure : float or array
        Pressure across the injector at its rating. [Pa]
    pressure : float or array
        Pressure across the injector in the car: rail over manifold. [Pa]

    Returns
    -------
    float or array
        Static flow. [m³/s]

    Notes
    -----
    q = q_r √(Δp/Δp_r).

    References
    ----------
    .. [1] Orifice flow, Bernoulli.

    """
    require(np.greater(rated_pressure, 0.0), "rated_pressure", rated_pressure, "Pa", "above zero")
    require(np.greater_equal(pressure, 0.0), "pressure", pressure, "Pa", "zero or more")
    return rated_flow * (pressure / rated_pressure) ** 0.5


def gasoline_vapour_pressure(*, temperature: Values, reid_pressure: Values) -> Values:
    """Return the true vapour pressure of gasoline.

    Parameters
    ----------
    temperature : float or array
        Temperature of the fuel, 270 to 335 K. [K]
    reid_pressure : float or array
        Reid vapour pressure of the fuel. [Pa]

    Returns
    -------
    float or array
        Absolute vapour pressure. [Pa]

    Notes
    -----
    p = exp{(0.7553 − 413.0/T) √S lg R − (1.854 − 1042/T) √S + (2416/T − 2.013) lg R − 8742/T +
    15.64} with T in degrees Rankine, R the Reid pressure and p in psi, and S = 3.0 °F per volume
    per cent, the slope of the distillation curve of motor gasoline.

    References
    ----------
    .. [1] US EPA, AP-42, ch. 7.1, Figure 7.1-14b.

    """
    ok = np.greater_equal(temperature, 270.0) & np.less_equal(temperature, 335.0)
    require(ok, "temperature", temperature, "K", "from 270 K to 335 K")
    require(np.greater(reid_pressure, 0.0), "reid_pressure", reid_pressure, "Pa", "above zero")
    rankine = np.asarray(temperature) * 1.8
    reid = np.log10(reid_pressure / _PSI)
    slope = 3.0**0.5
    power = (
        (0.7553 - 413.0 / rankine) * slope * reid
        - (1.854 - 1042.0 / rankine) * slope
        + (2416.0 / rankine - 2.013) * reid
        - 8742.0 / rankine
        + 15.64
    )
    pressure: Values = np.exp(power) * _PSI
    return pressure


def suction_margin(
    *,
    atmospheric_pressure: Values,
    vapour_pressure: Values,
    density: Values,
    lift: Values,
    line_loss: Values,
) -> Values:
    """Return how far the pressure at a pump's inlet stays above the fuel's vapour pressure.

    Parameters
    ----------
    atmospheric_pressure : float or array
        Pressure in the vented tank. [Pa]
    vapour_pressure : float or array
        Vapour pressure of the fuel at its temperature. [Pa]
    density : float or array
        Density of the fuel. [kg/m³]
    lift : float or array
        Height of the pump above the fuel's surface; negative when it is below. [m]
    line_loss : float or array
        Pressure lost in pick-up, line and strainer. [Pa]

    Returns
    -------
    float or array
        Margin; at zero the fuel boils at the inlet. [Pa]

    Notes
    -----
    p_atm − ρ g h − Δp − p_v.

    References
    ----------
    .. [1] Net positive suction head, F. M. White, "Fluid Mechanics", sec. 11.3.

    """
    head = density * STANDARD_GRAVITY * lift
    return atmospheric_pressure - head - line_loss - vapour_pressure


def fuel_range(*, usable_volume: Values, fuel_flow: Values, speed: Values) -> Values:
    """Return how far a tank carries the car at a steady speed.

    Parameters
    ----------
    usable_volume : float or array
        Fuel that can be drawn. [m³]
    fuel_flow : float or array
        Volume of fuel in a second. [m³/s]
    speed : float or array
        Speed of the car. [m/s]

    Returns
    -------
    float or array
        Distance. [m]

    Notes
    -----
    s = V v / V̇.

    References
    ----------
    .. [1] Definition.

    """
    require(np.greater(fuel_flow, 0.0), "fuel_flow", fuel_flow, "m³/s", "more than zero")
    return usable_volume * speed / fuel_flow
