"""What a car must overcome at a steady speed: air, tyres, and what coast-downs measured."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def drag_force(*, speed: Values, drag_area: Values, air_density: Values) -> Values:
    """Return the air resistance.

    Parameters
    ----------
    speed : float or array
        Speed through the air. [m/s]
    drag_area : float or array
        Drag coefficient times frontal area. [m²]
    air_density : float or array
        Density of the air. [kg/m³]

    Returns
    -------
    float or array
        Force. [N]

    Notes
    -----
    F = ½ ρ C_d A v².

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 4. From memory.

    """
    require_positive(drag_area=(drag_area, "m²"), air_density=(air_density, "kg/m³"))
    return 0.5 * air_density * drag_area * speed**2


def rolling_coefficient_radial(*, speed: Values) -> Values:
    """Return the rolling resistance coefficient of radial car tyres on a hard road.

    Parameters
    ----------
    speed : float or array
        Road speed. [m/s]

    Returns
    -------
    float or array
        Rolling resistance over load. [-]

    Notes
    -----
    f = 0.0136 + 0.40e-7 V², V in km/h, up to about 150 km/h.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 1. From memory.

    """
    return 0.0136 + 0.40e-7 * (3.6 * speed) ** 2


def rolling_coefficient_cross_ply(*, speed: Values) -> Values:
    """Return the rolling resistance coefficient of cross-ply car tyres on a hard road.

    Parameters
    ----------
    speed : float or array
        Road speed. [m/s]

    Returns
    -------
    float or array
        Rolling resistance over load. [-]

    Notes
    -----
    f = 0.0169 + 0.19e-6 V², V in km/h, up to about 150 km/h.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 1. From memory.

    """
    return 0.0169 + 0.19e-6 * (3.6 * speed) ** 2


def frontal_area_from_mass(*, mass: Values) -> Values:
    """Return the frontal area usual for a passenger car of a mass.

    Parameters
    ----------
    mass : float or array
        Kerb mass, 800 to 2000 kg. [kg]

    Returns
    -------
    float or array
        Frontal area. [m²]

    Notes
    -----
    A = 1.6 + 0.00056 (m − 765).

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 3. From memory.

    """
    require_positive(mass=(mass, "kg"))
    return 1.6 + 0.00056 * (mass - 765.0)


def coast_down_force(
    *, speed: Values, constant: Values, linear: Values, quadratic: Values
) -> Values:
    """Return the road load of measured coast-down coefficients.

    Parameters
    ----------
    speed : float or array
        Road speed. [m/s]
    constant : float or array
        Coefficient A. [N]
    linear : float or array
        Coefficient B; often negative in measured sets. [N·s/m]
    quadratic : float or array
        Coefficient C. [N·s²/m²]

    Returns
    -------
    float or array
        Force. [N]

    Notes
    -----
    F = A + B v + C v². The three are one fit: A is not the tyres alone, nor C the air alone.

    References
    ----------
    .. [1] 40 CFR 1066.301. Reprint.

    """
    return constant + linear * speed + quadratic * speed**2


def road_load_force(
    *,
    speed: Values,
    weight: Values,
    rolling_coefficient: Values,
    drag_area: Values,
    air_density: Values,
) -> Values:
    """Return what a car must overcome at a steady speed on the level.

    Parameters
    ----------
    speed : float or array
        Road speed in still air. [m/s]
    weight : float or array
        Weight of the laden car. [N]
    rolling_coefficient : float or array
        Rolling resistance over load at that speed. [-]
    drag_area : float or array
        Drag coefficient times frontal area. [m²]
    air_density : float or array
        Density of the air. [kg/m³]

    Returns
    -------
    float or array
        Force at the driven tyres. [N]

    Notes
    -----
    F = f W + ½ ρ C_d A v². Coast-down measurements lie about 15 % above this with catalogue
    values, for the drag of brakes, bearings and gears.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 4. From memory.

    """
    require_positive(weight=(weight, "N"))
    return rolling_coefficient * weight + drag_force(
        speed=speed, drag_area=drag_area, air_density=air_density
    )
