"""Engine heat and where it goes: heat to coolant and oil, effectiveness, temperature in balance."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]


def fuel_heat(*, fuel_flow: Values, heating_value: Values) -> Values:
    """Return the heat that the fuel brings to the engine.

    Parameters
    ----------
    fuel_flow : float or array
        Mass of fuel in a second. [kg/s]
    heating_value : float or array
        Lower heating value of the fuel. [J/kg]

    Returns
    -------
    float or array
        Heat flow. [W]

    Notes
    -----
    Q = ṁ LHV.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 2.7.

    """
    require(np.greater_equal(fuel_flow, 0.0), "fuel_flow", fuel_flow, "kg/s", "zero or more")
    return fuel_flow * heating_value


def friction_pressure_barnes_moss(*, engine_speed: Values) -> Values:
    """Return the motored friction of a four-stroke spark-ignition engine as a mean pressure.

    Parameters
    ----------
    engine_speed : float or array
        Speed of the crankshaft. [rad/s]

    Returns
    -------
    float or array
        Total motored friction mean effective pressure at wide-open throttle. [Pa]

    Notes
    -----
    tfmep/bar = 0.97 + 0.15 N + 0.05 N², N in 1000 rpm; four-cylinder engines of 845 to 2000 cm³.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 13.5, Eq. 13.6, after
       Barnes-Moss 1975.

    """
    ok = np.greater_equal(engine_speed, 0.0)
    require(ok, "engine_speed", engine_speed, "rad/s", "zero or more")
    thousands = engine_speed * 60.0 / (2.0 * np.pi) / 1000.0
    return 1e5 * (0.97 + 0.15 * thousands + 0.05 * thousands**2)


def four_stroke_power(
    *, mean_pressure: Values, displacement: Values, engine_speed: Values
) -> Values:
    """Return the power that belongs to a mean effective pressure in a four-stroke engine.

    Parameters
    ----------
    mean_pressure : float or array
        Mean effective pressure. [Pa]
    displacement : float or array
        Swept volume of all cylinders. [m³]
    engine_speed : float or array
        Speed of the crankshaft. [rad/s]

    Returns
    -------
    float or array
        Power. [W]

    Notes
    -----
    P = p V n/2 with n in revolutions a second.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 2.7.

    """
    require(np.greater(displacement, 0.0), "displacement", displacement, "m³", "more than zero")
    return mean_pressure * displacement * engine_speed / (4.0 * np.pi)


def fuel_heat_willans(
    *, brake_power: Values, friction_power: Values, indicated_efficiency: Values
) -> Values:
    """Return the fuel heat of an engine at part load.

    Parameters
    ----------
    brake_power : float or array
        Power at the flywheel. [W]
    friction_power : float or array
        Power lost to friction, pumping and accessories. [W]
    indicated_efficiency : float or array
        Share of the fuel heat that the gas turns into work on the pistons. [-]

    Returns
    -------
    float or array
        Heat of the fuel. [W]

    Notes
    -----
    Willans line: Q = (P_b + P_f) / η_i, straight at constant speed.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", sec. 13.3.

    """
    ok = np.greater(indicated_efficiency, 0.0) & np.less(indicated_efficiency, 1.0)
    require(ok, "indicated_efficiency", indicated_efficiency, "-", "between 0 and 1")
    return (brake_power + friction_power) / indicated_efficiency


def steady_road_power(
    *,
    mass: Values,
    speed: Values,
    grade: Values,
    rolling_coefficient: Values,
    drag_area: Values,
    density: Values,
) -> Values:
    """Return the power at the wheels that holds a speed on a grade.

    Parameters
    ----------
    mass : float or array
        Mass of the laden car, with a trailer if there is one. [kg]
    speed : float or array
        Steady speed. [m/s]
    grade : float or array
        Height gained over distance along the level; the tangent of the slope. [-]
    rolling_coefficient : float or array
        Rolling resistance over load. [-]
    drag_area : float or array
        Drag coefficient times frontal area. [m²]
    density : float or array
        Density of the air. [kg/m³]

    Returns
    -------
    float or array
        Power. [W]

    Notes
    -----
    P = [m g (f cos θ + sin θ) + ½ ρ C_d A v²] v.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", ch. 2.

    """
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    require(np.greater_equal(speed, 0.0), "speed", speed, "m/s", "zero or more")
    slope = np.arctan(grade)
    climb = mass * STANDARD_GRAVITY * (rolling_coefficient * np.cos(slope) + np.sin(slope))
    power: Values = (climb + 0.5 * density * drag_area * speed**2) * speed
    return power


def effectiveness_unmixed(*, transfer_units: Values, capacity_ratio: Values) -> Values:
    """Return the effectiveness of single-pass cross flow with both fluids unmixed.

    Parameters
    ----------
    transfer_units : float or array
        Conductance over the smaller capacity rate. [-]
    capacity_ratio : float or array
        Smaller over larger capacity rate, more than 0 to 1. [-]

    Returns
    -------
    float or array
        Effectiveness. [-]

    Notes
    -----
    ε = 1 − exp{(NTU^0.22 / C)[exp(−C NTU^0.78) − 1]}, within 1 % of the exact series.

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.32.

    """
    _exchanger(transfer_units, capacity_ratio)
    inner = np.expm1(-capacity_ratio * transfer_units**0.78)
    effectiveness: Values = -np.expm1(transfer_units**0.22 / capacity_ratio * inner)
    return effectiveness


def effectiveness_larger_mixed(*, transfer_units: Values, capacity_ratio: Values) -> Values:
    """Return the effectiveness of cross flow with only the larger capacity rate mixed.

    Parameters
    ----------
    transfer_units : float or array
        Conductance over the smaller capacity rate. [-]
    capacity_ratio : float or array
        Smaller over larger capacity rate, more than 0 to 1. [-]

    Returns
    -------
    float or array
        Effectiveness. [-]

    Notes
    -----
    ε = (1/C)(1 − exp{−C [1 − exp(−NTU)]}).

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.33.

    """
    _exchanger(transfer_units, capacity_ratio)
    mixed: Values = -np.expm1(capacity_ratio * np.expm1(-transfer_units)) / capacity_ratio
    return mixed


def effectiveness_smaller_mixed(*, transfer_units: Values, capacity_ratio: Values) -> Values:
    """Return the effectiveness of cross flow with only the smaller capacity rate mixed.

    Parameters
    ----------
    transfer_units : float or array
        Conductance over the smaller capacity rate. [-]
    capacity_ratio : float or array
        Smaller over larger capacity rate, more than 0 to 1. [-]

    Returns
    -------
    float or array
        Effectiveness. [-]

    Notes
    -----
    ε = 1 − exp{−(1/C)[1 − exp(−C NTU)]}.

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.34.

    """
    _exchanger(transfer_units, capacity_ratio)
    effectiveness: Values = -np.expm1(np.expm1(-capacity_ratio * transfer_units) / capacity_ratio)
    return effectiveness


def effectiveness_counterflow(*, transfer_units: Values, capacity_ratio: Values) -> Values:
    """Return the effectiveness of counterflow, as in a plate oil cooler.

    Parameters
    ----------
    transfer_units : float or array
        Conductance over the smaller capacity rate. [-]
    capacity_ratio : float or array
        Smaller over larger capacity rate, more than 0 to 1. [-]

    Returns
    -------
    float or array
        Effectiveness. [-]

    Notes
    -----
    ε = (1 − E)/(1 − C E), E = exp(−NTU (1 − C)); NTU/(1 + NTU) at C = 1.

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.29.

    """
    _exchanger(transfer_units, capacity_ratio)
    equal = np.greater(capacity_ratio, 1.0 - 1e-9)
    ratio = np.where(equal, 0.5, capacity_ratio)
    e = np.exp(-transfer_units * (1.0 - ratio))
    return np.where(equal, transfer_units / (1.0 + transfer_units), (1.0 - e) / (1.0 - ratio * e))[
        ()
    ]


def heat_exchanged(
    *, effectiveness: Values, smaller_capacity_rate: Values, temperature_difference: Values
) -> Values:
    """Return the heat that an exchanger passes.

    Parameters
    ----------
    effectiveness : float or array
        Effectiveness. [-]
    smaller_capacity_rate : float or array
        Mass flow times specific heat of the fluid that has less of it. [W/K]
    temperature_difference : float or array
        Between the two fluids where they enter. [K]

    Returns
    -------
    float or array
        Heat flow. [W]

    Notes
    -----
    Q = ε C_min ITD.

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.22.

    """
    ok = np.greater_equal(effectiveness, 0.0) & np.less_equal(effectiveness, 1.0)
    require(ok, "effectiveness", effectiveness, "-", "from 0 to 1")
    return effectiveness * smaller_capacity_rate * temperature_difference


def temperature_in_balance(
    *, air_temperature: Values, heat: Values, heat_per_kelvin: Values
) -> Values:
    """Return the coolant temperature at which the radiator sheds exactly the heat it is given.

    Parameters
    ----------
    air_temperature : float or array
        Temperature of the air where it enters the core. [K]
    heat : float or array
        Heat to shed. [W]
    heat_per_kelvin : float or array
        Effectiveness times smaller capacity rate, summed over the core. [W/K]

    Returns
    -------
    float or array
        Temperature of the coolant where it enters the radiator. [K]

    Notes
    -----
    T = T_air + Q / Σ(ε C_min). With an open thermostat; a closing thermostat holds it warmer.

    References
    ----------
    .. [1] F. P. Incropera and D. P. DeWitt, "Fundamentals of Heat and Mass Transfer", Eq. 11.22.

    """
    require(np.greater_equal(heat, 0.0), "heat", heat, "W", "zero or more")
    return air_temperature + heat / heat_per_kelvin


def flow_for_heat(
    *, heat: Values, density: Values, specific_heat: Values, temperature_change: Values
) -> Values:
    """Return the volume flow that carries a heat with a given change of temperature.

    Parameters
    ----------
    heat : float or array
        Heat to carry. [W]
    density : float or array
        Density of the fluid. [kg/m³]
    specific_heat : float or array
        Specific heat of the fluid. [J/(kg·K)]
    temperature_change : float or array
        Change of temperature between the two ends. [K]

    Returns
    -------
    float or array
        Volume flow. [m³/s]

    Notes
    -----
    V̇ = Q / (ρ c_p ΔT).

    References
    ----------
    .. [1] Energy balance of a flow.

    """
    ok = np.greater(temperature_change, 0.0)
    require(ok, "temperature_change", temperature_change, "K", "more than zero")
    return heat / (density * specific_heat * temperature_change)


def converter_heat(*, input_power: Values, speed_ratio: Values, torque_ratio: Values) -> Values:
    """Return the heat that a torque converter leaves in its fluid.

    Parameters
    ----------
    input_power : float or array
        Power into the converter. [W]
    speed_ratio : float or array
        Turbine speed over pump speed. [-]
    torque_ratio : float or array
        Turbine torque over pump torque. [-]

    Returns
    -------
    float or array
        Heat flow. [W]

    Notes
    -----
    Q = P (1 − SR TR).

    References
    ----------
    .. [1] Energy balance of the converter.

    """
    ok = np.less_equal(speed_ratio * torque_ratio, 1.0)
    require(ok, "speed_ratio", speed_ratio, "-", "such that no more power comes out than goes in")
    return input_power * (1.0 - speed_ratio * torque_ratio)


def _exchanger(transfer_units: Values, capacity_ratio: Values) -> None:
    ok = np.greater_equal(transfer_units, 0.0)
    require(ok, "transfer_units", transfer_units, "-", "zero or more")
    ok = np.greater(capacity_ratio, 0.0) & np.less_equal(capacity_ratio, 1.0)
    require(ok, "capacity_ratio", capacity_ratio, "-", "more than 0, at most 1")
