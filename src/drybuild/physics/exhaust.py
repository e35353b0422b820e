"""Gas through the engine: air in, exhaust out, pipe for a Mach number or a back pressure."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.air import air_density, air_viscosity, speed_of_sound
from drybuild.physics.pipes import pipe_pressure_loss

Values = float | npt.NDArray[np.float64]

EXHAUST_HEAT_RATIO = 1.34  # [-], burnt gas near 900 K, Heywood Fig. 4-13 from memory
_HALVINGS = 30
_FINEST_BORE = 0.005  # [m]
_WIDEST_BORE = 0.5  # [m]


def exhaust_mass_flow(*, fuel_flow: Values, air_fuel_ratio: Values) -> Values:
    """Return the mass of exhaust gas.

    Parameters
    ----------
    fuel_flow : float or array
        Mass of fuel in a second. [kg/s]
    air_fuel_ratio : float or array
        Mass of air for each mass of fuel. [-]

    Returns
    -------
    float or array
        Mass flow. [kg/s]

    Notes
    -----
    ṁ = ṁ_f (1 + AFR).

    References
    ----------
    .. [1] Conservation of mass.

    """
    require(np.greater_equal(fuel_flow, 0.0), "fuel_flow", fuel_flow, "kg/s", "zero or more")
    require(np.greater(air_fuel_ratio, 0.0), "air_fuel_ratio", air_fuel_ratio, "-", "above zero")
    return fuel_flow * (1.0 + air_fuel_ratio)


def gas_mach_number(
    *,
    mass_flow: Values,
    bore: Values,
    temperature: Values,
    pressure: Values,
    heat_ratio: Values,
) -> Values:
    """Return the Mach number of gas in a round pipe.

    Parameters
    ----------
    mass_flow : float or array
        Mass flow through the pipe. [kg/s]
    bore : float or array
        Inside diameter. [m]
    temperature : float or array
        Temperature of the gas. [K]
    pressure : float or array
        Absolute pressure of the gas. [Pa]
    heat_ratio : float or array
        Ratio of the specific heats, about 1.34 in hot exhaust. [-]

    Returns
    -------
    float or array
        Mach number; 1 and more cannot be passed by the pipe. [-]

    Notes
    -----
    M = v/a, v = ṁ/(ρ A), gas taken as air.

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", ch. 9.

    """
    require(np.greater(bore, 0.0), "bore", bore, "m", "more than zero")
    density = air_density(pressure=pressure, temperature=temperature)
    velocity = mass_flow / (density * 0.25 * np.pi * bore**2)
    return velocity / speed_of_sound(temperature=temperature, heat_ratio=heat_ratio)


def bore_for_mach_number(
    *,
    mass_flow: Values,
    mach_number: Values,
    temperature: Values,
    pressure: Values,
    heat_ratio: Values,
) -> Values:
    """Return the bore in which gas flows at the wanted Mach number.

    Parameters
    ----------
    mass_flow : float or array
        Mass flow through the pipe. [kg/s]
    mach_number : float or array
        Mach number wanted. [-]
    temperature : float or array
        Temperature of the gas. [K]
    pressure : float or array
        Absolute pressure of the gas. [Pa]
    heat_ratio : float or array
        Ratio of the specific heats, about 1.34 in hot exhaust. [-]

    Returns
    -------
    float or array
        Inside diameter. [m]

    Notes
    -----
    d = √(4 ṁ / (π ρ M a)).

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", ch. 9.

    """
    require(np.greater(mach_number, 0.0), "mach_number", mach_number, "-", "more than zero")
    density = air_density(pressure=pressure, temperature=temperature)
    velocity = mach_number * speed_of_sound(temperature=temperature, heat_ratio=heat_ratio)
    return (4.0 * mass_flow / (np.pi * density * velocity)) ** 0.5


def gas_pressure_loss(
    *,
    mass_flow: Values,
    bore: Values,
    length: Values,
    loss_coefficient: Values,
    roughness: Values,
    temperature: Values,
    pressure: Values,
) -> Values:
    """Return the pressure that gas loses in a pipe, its bends and its silencers.

    Parameters
    ----------
    mass_flow : float or array
        Mass flow through the pipe, more than zero. [kg/s]
    bore : float or array
        Inside diameter. [m]
    length : float or array
        Length of pipe. [m]
    loss_coefficient : float or array
        Sum of the loss coefficients of bends, silencers and the outlet. [-]
    roughness : float or array
        Height of the wall's roughness. [m]
    temperature : float or array
        Mean temperature of the gas. [K]
    pressure : float or array
        Absolute pressure at which the density is taken. [Pa]

    Returns
    -------
    float or array
        Pressure loss; nan where the Mach number would be one or more. [Pa]

    Notes
    -----
    Δp = (f L/d + ΣK) ½ ρ v² with Churchill's f and Sutherland's viscosity; constant density taken
    at the outlet's pressure, which overstates the loss a little.

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", sec. 6.3 and 6.9.

    """
    density = air_density(pressure=pressure, temperature=temperature)
    loss = pipe_pressure_loss(
        volume_flow=mass_flow / density,
        bore=bore,
        length=length,
        loss_coefficient=loss_coefficient,
        roughness=roughness,
        density=density,
        viscosity=air_viscosity(temperature=temperature),
    )
    mach = gas_mach_number(
        mass_flow=mass_flow,
        bore=bore,
        temperature=temperature,
        pressure=pressure,
        heat_ratio=EXHAUST_HEAT_RATIO,
    )
    return np.where(np.less(mach, 1.0), loss, np.nan)[()]


def bore_for_pressure_loss(
    *,
    mass_flow: Values,
    pressure_loss: Values,
    length: Values,
    loss_coefficient: Values,
    roughness: Values,
    temperature: Values,
    pressure: Values,
) -> Values:
    """Return the smallest bore that keeps the loss of pressure to a limit.

    Parameters
    ----------
    mass_flow : float or array
        Mass flow through the pipe, more than zero. [kg/s]
    pressure_loss : float or array
        Loss allowed. [Pa]
    length : float or array
        Length of pipe. [m]
    loss_coefficient : float or array
        Sum of the loss coefficients of bends, silencers and the outlet. [-]
    roughness : float or array
        Height of the wall's roughness. [m]
    temperature : float or array
        Mean temperature of the gas. [K]
    pressure : float or array
        Absolute pressure at which the density is taken. [Pa]

    Returns
    -------
    float or array
        Inside diameter; nan where it lies outside 5 to 500 mm. [m]

    Notes
    -----
    `gas_pressure_loss` solved for the bore by halving.

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", sec. 6.3 and 6.9.

    """
    require(np.greater(pressure_loss, 0.0), "pressure_loss", pressure_loss, "Pa", "above zero")

    def excess(bore: Values) -> Values:
        loss = gas_pressure_loss(
            mass_flow=mass_flow,
            bore=bore,
            length=length,
            loss_coefficient=loss_coefficient,
            roughness=roughness,
            temperature=temperature,
            pressure=pressure,
        )
        return np.where(np.isnan(loss), np.inf, loss) - pressure_loss

    shape = np.broadcast(mass_flow, pressure_loss, length, loss_coefficient, temperature, pressure)
    low = np.full(shape.shape, _FINEST_BORE)
    high = np.full(shape.shape, _WIDEST_BORE)
    inside = np.greater(excess(low), 0.0) & np.less(excess(high), 0.0)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        too_small = np.greater(excess(middle), 0.0)
        low = np.where(too_small, middle, low)
        high = np.where(too_small, high, middle)
    return np.where(inside, high, np.nan)[()]


def exhaust_back_pressure_installation_manual(
    *, volume_flow: Values, bore: Values, length: Values, density: Values
) -> Values:
    """Return the back pressure of a pipe by the rule of engine installation manuals.

    Parameters
    ----------
    volume_flow : float or array
        Volume of gas in a second. [m³/s]
    bore : float or array
        Inside diameter. [m]
    length : float or array
        Length of pipe and the equivalent length of its bends. [m]
    density : float or array
        Density of the gas. [kg/m³]

    Returns
    -------
    float or array
        Back pressure of the pipe alone. [Pa]

    Notes
    -----
    p/kPa = 3.6e6 L S Q²/D⁵ with Q in m³/min and D in mm; the same as Darcy with f = 0.016.

    References
    ----------
    .. [1] Worked sheets of two installation manuals for stationary engines.

    """
    require(np.greater(bore, 0.0), "bore", bore, "m", "more than zero")
    return 1e3 * 3.6e6 * length * density * (60.0 * volume_flow) ** 2 / (1e3 * bore) ** 5


def inlet_mach_index(
    *,
    bore: Values,
    valve_diameter: Values,
    valves_per_cylinder: Values,
    mean_piston_speed: Values,
    flow_coefficient: Values,
    sound_speed: Values,
) -> Values:
    """Return the index that tells whether the inlet valves choke the engine.

    Parameters
    ----------
    bore : float or array
        Bore of the cylinder. [m]
    valve_diameter : float or array
        Diameter of the inlet valve's head. [m]
    valves_per_cylinder : float or array
        Inlet valves in each cylinder. [-]
    mean_piston_speed : float or array
        Twice the stroke times the revolutions. [m/s]
    flow_coefficient : float or array
        Mean flow coefficient of the valve over its opening. [-]
    sound_speed : float or array
        Speed of sound in the inlet. [m/s]

    Returns
    -------
    float or array
        Mach index; filling drops off above about 0.6. [-]

    Notes
    -----
    Z = (A_p/A_v) U_p/(C a).

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 6.3.

    """
    require(np.greater(valve_diameter, 0.0), "valve_diameter", valve_diameter, "m", "above zero")
    areas = bore**2 / (valves_per_cylinder * valve_diameter**2)
    return areas * mean_piston_speed / (flow_coefficient * sound_speed)
