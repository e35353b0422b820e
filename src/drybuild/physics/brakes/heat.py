"""Heat of a stop and of a descent, a disc's convection, and the flash on the rubbed surface."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array

LAMINAR_LIMIT = 2.4e5  # [-], Reynolds number, Limpert ch. 3


def one_stop_rise(*, heat: Real, rotor_mass: Real, specific_heat: Real) -> Array:
    """Return the mean temperature rise of a rotor in one stop, nothing carried off.

    Parameters
    ----------
    heat : float
        Heat into this rotor. [J]
    rotor_mass : float
        Mass of the disc's ring, or of the drum. [kg]
    specific_heat : float
        Of its iron: 460 to 550. [J/(kg·K)]

    Returns
    -------
    float
        Temperature rise. [K]

    Notes
    -----
    ΔT = Q / (m c).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 3.

    """
    require(np.greater(rotor_mass, 0.0), "rotor_mass", rotor_mass, "kg", "more than zero")
    require(
        np.greater(specific_heat, 0.0),
        "specific_heat",
        specific_heat,
        "J/(kg·K)",
        "more than zero",
    )
    return np.asarray(heat / (rotor_mass * specific_heat))


def convection_coefficient_solid_disc(
    *, diameter: Real, speed: Real, air_conductivity: Real, air_kinematic_viscosity: Real
) -> Array:
    """Return the convection coefficient of a solid disc in the free stream.

    Parameters
    ----------
    diameter : float
        Outside diameter of the disc. [m]
    speed : float
        Speed of the car. [m/s]
    air_conductivity : float
        Thermal conductivity of air. [W/(m·K)]
    air_kinematic_viscosity : float
        Kinematic viscosity of air. [m²/s]

    Returns
    -------
    float
        Coefficient. [W/(m²·K)]

    Notes
    -----
    h = 0.70 (k/D) Re^0.55 up to Re = 2.4·10⁵, 0.04 (k/D) Re^0.8 above, Re = v D / ν. The two
    meet within 30 % only; the step is the published correlation's own. On a car the wheel shelters
    the disc: 30 to 80 W/m²K is practical from 50 to 120 km/h, so above 50 km/h this is an upper
    bound.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 3.

    """
    require(np.greater(diameter, 0.0), "diameter", diameter, "m", "more than zero")
    require(np.greater(speed, 0.0), "speed", speed, "m/s", "more than zero")
    reynolds = speed * diameter / np.asarray(air_kinematic_viscosity)
    laminar = 0.70 * np.power(reynolds, 0.55)
    turbulent = 0.04 * np.power(reynolds, 0.8)
    return np.asarray(
        air_conductivity / diameter * np.where(reynolds <= LAMINAR_LIMIT, laminar, turbulent)
    )


def descent_power(
    *,
    mass: Real,
    gravity: Real,
    speed: Real,
    grade: Real,
    rolling_resistance: Real,
    drag_area: Real,
    air_density: Real,
    engine_braking: Real,
) -> Array:
    """Return the power that the brakes must take at a steady speed downhill.

    Parameters
    ----------
    mass : float
        Mass of the car. [kg]
    gravity : float
        Acceleration of free fall. [m/s²]
    speed : float
        Steady speed. [m/s]
    grade : float
        Rise over horizontal run. [-]
    rolling_resistance : float
        Coefficient. [-]
    drag_area : float
        Drag coefficient times frontal area. [m²]
    air_density : float
        Density of the air. [kg/m³]
    engine_braking : float
        Power that the engine takes up; zero in neutral. [W]

    Returns
    -------
    float
        Power of all brakes; zero where the car would not gain speed. [W]

    Notes
    -----
    P = m g v (sin θ − f cos θ) − ½ ρ C_d A v³ − P_e, θ = atan(grade).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 3.

    """
    require(np.greater_equal(grade, 0.0), "grade", grade, "-", "zero or more")
    slope = np.arctan(grade)
    pull = mass * gravity * (np.sin(slope) - rolling_resistance * np.cos(slope))
    drag = 0.5 * air_density * drag_area * np.square(speed)
    return np.asarray(np.maximum((pull - drag) * speed - engine_braking, 0.0))


def surface_flash_rise(
    *,
    initial_flux: Real,
    stop_time: Real,
    conductivity: Real,
    density: Real,
    specific_heat: Real,
) -> Array:
    """Return the highest rise of the rubbed surface in one stop, above the rotor's own.

    Parameters
    ----------
    initial_flux : float
        Heat flux at the start of the stop. [W/m²]
    stop_time : float
        Time of the stop; the flux falls linearly to zero. [s]
    conductivity : float
        Of the rotor's iron. [W/(m·K)]
    density : float
        Of the rotor's iron. [kg/m³]
    specific_heat : float
        Of the rotor's iron. [J/(kg·K)]

    Returns
    -------
    float
        Rise, reached half-way through the stop. [K]

    Notes
    -----
    ΔT = √(8/9π) q₀ √t_s / √(ρ c k): semi-infinite solid. Limpert prints √(5/18), 0.9 % less.

    References
    ----------
    .. [1] Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, semi-infinite solid.
    .. [2] Limpert, Brake Design and Safety, 2nd ed., ch. 3.

    """
    require(np.greater(stop_time, 0.0), "stop_time", stop_time, "s", "more than zero")
    effusivity = np.sqrt(density * specific_heat * np.asarray(conductivity))
    return np.asarray(np.sqrt(8.0 / (9.0 * np.pi)) * initial_flux * np.sqrt(stop_time) / effusivity)
