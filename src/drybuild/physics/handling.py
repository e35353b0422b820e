"""Understeer and yaw of a two-axle car on level road."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]


def tyre_understeer_gradient(
    *,
    front_load: Values,
    rear_load: Values,
    front_stiffness: Values,
    rear_stiffness: Values,
) -> Values:
    """Return the understeer that the tyres' cornering stiffness gives.

    Parameters
    ----------
    front_load : float or array
        Load of the front axle. [N]
    rear_load : float or array
        Load of the rear axle. [N]
    front_stiffness : float or array
        Cornering stiffness of the front axle's tyres together. [N/rad]
    rear_stiffness : float or array
        Cornering stiffness of the rear axle's tyres together. [N/rad]

    Returns
    -------
    float or array
        Understeer gradient at the road wheels; positive is understeer. [rad·s²/m]

    Notes
    -----
    K = (W_f/C_f − W_r/C_r) / g; δ = L/R + K a_y.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-15.
    .. [2] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, sec. 5.2.

    """
    _stiff(front_stiffness=front_stiffness, rear_stiffness=rear_stiffness)
    return (front_load / front_stiffness - rear_load / rear_stiffness) / STANDARD_GRAVITY


def roll_steer_understeer(
    *, front_roll_steer: Values, rear_roll_steer: Values, roll_gradient: Values
) -> Values:
    """Return the understeer that the suspension's roll steer gives.

    Parameters
    ----------
    front_roll_steer : float or array
        Front steer angle per roll angle, positive out of the bend. [-]
    rear_roll_steer : float or array
        Rear steer angle per roll angle, positive into the bend. [-]
    roll_gradient : float or array
        Roll angle per lateral acceleration. [rad·s²/m]

    Returns
    -------
    float or array
        Understeer gradient. [rad·s²/m]

    Notes
    -----
    K = (ε_f + ε_r) dφ/da with both signs taken so that positive is understeer; the book writes
    ε_f − ε_r with one sign of angle.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-46.

    """
    return (front_roll_steer + rear_roll_steer) * roll_gradient


def camber_thrust_understeer(
    *,
    front_camber_per_roll: Values,
    rear_camber_per_roll: Values,
    front_camber_ratio: Values,
    rear_camber_ratio: Values,
    roll_gradient: Values,
) -> Values:
    """Return the understeer that the wheels' lean to the road gives.

    Parameters
    ----------
    front_camber_per_roll : float or array
        Lean of the front wheels out of the bend per body roll: 1 for pure trailing arms. [-]
    rear_camber_per_roll : float or array
        The same at the rear; 0 for a live axle. [-]
    front_camber_ratio : float or array
        Camber stiffness over cornering stiffness of the front tyres. [-]
    rear_camber_ratio : float or array
        The same of the rear tyres. [-]
    roll_gradient : float or array
        Roll angle per lateral acceleration. [rad·s²/m]

    Returns
    -------
    float or array
        Understeer gradient. [rad·s²/m]

    Notes
    -----
    K = (C_γf/C_αf dγ_f/dφ − C_γr/C_αr dγ_r/dφ) dφ/da.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-44.

    """
    lean = front_camber_ratio * front_camber_per_roll - rear_camber_ratio * rear_camber_per_roll
    return lean * roll_gradient


def aligning_torque_understeer(
    *,
    car_mass: Values,
    pneumatic_trail: Values,
    wheelbase: Values,
    front_stiffness: Values,
    rear_stiffness: Values,
) -> Values:
    """Return the understeer that the tyres' pneumatic trail gives.

    Parameters
    ----------
    car_mass : float or array
        Mass of the car. [kg]
    pneumatic_trail : float or array
        Distance of the side force behind the contact centre. [m]
    wheelbase : float or array
        Wheelbase. [m]
    front_stiffness : float or array
        Cornering stiffness of the front axle. [N/rad]
    rear_stiffness : float or array
        Cornering stiffness of the rear axle. [N/rad]

    Returns
    -------
    float or array
        Understeer gradient. [rad·s²/m]

    Notes
    -----
    K = m (p/L) (C_f + C_r)/(C_f C_r).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-48.

    """
    _stiff(front_stiffness=front_stiffness, rear_stiffness=rear_stiffness)
    require(np.greater(wheelbase, 0.0), "wheelbase", wheelbase, "m", "more than zero")
    soft = (front_stiffness + rear_stiffness) / (front_stiffness * rear_stiffness)
    return car_mass * pneumatic_trail / wheelbase * soft


def steering_compliance_understeer(
    *,
    front_axle_mass: Values,
    mechanical_trail: Values,
    pneumatic_trail: Values,
    steering_stiffness: Values,
) -> Values:
    """Return the understeer that the give of the steering linkage allows.

    Parameters
    ----------
    front_axle_mass : float or array
        Mass on the front axle. [kg]
    mechanical_trail : float or array
        Trail of the steering axis on the road. [m]
    pneumatic_trail : float or array
        Trail of the tyre's side force. [m]
    steering_stiffness : float or array
        Moment about the two steering axes per road-wheel angle, steering wheel held. [N·m/rad]

    Returns
    -------
    float or array
        Understeer gradient. [rad·s²/m]

    Notes
    -----
    K = m_f (r ν + p) / K_ss.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 8.

    """
    _stiff(steering_stiffness=steering_stiffness)
    return front_axle_mass * (mechanical_trail + pneumatic_trail) / steering_stiffness


def characteristic_speed(*, wheelbase: Values, understeer_gradient: Values) -> Values:
    """Return the speed at which an understeering car needs twice the steer angle of creeping.

    Parameters
    ----------
    wheelbase : float or array
        Wheelbase. [m]
    understeer_gradient : float or array
        Understeer gradient at the road wheels. [rad·s²/m]

    Returns
    -------
    float or array
        Speed; nan for a car that does not understeer. [m/s]

    Notes
    -----
    V = √(L/K); the yaw response per steer angle peaks there.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-18.

    """
    require(np.greater(wheelbase, 0.0), "wheelbase", wheelbase, "m", "more than zero")
    return np.sqrt(
        wheelbase / np.where(np.greater(understeer_gradient, 0.0), understeer_gradient, np.nan)
    )


def critical_speed(*, wheelbase: Values, understeer_gradient: Values) -> Values:
    """Return the speed above which an oversteering car runs away in yaw.

    Parameters
    ----------
    wheelbase : float or array
        Wheelbase. [m]
    understeer_gradient : float or array
        Understeer gradient at the road wheels. [rad·s²/m]

    Returns
    -------
    float or array
        Speed; nan for a car that understeers. [m/s]

    Notes
    -----
    V = √(−L/K).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-19.

    """
    return characteristic_speed(wheelbase=wheelbase, understeer_gradient=-understeer_gradient)


def yaw_velocity_gain(*, speed: Values, wheelbase: Values, understeer_gradient: Values) -> Values:
    """Return the steady yaw velocity per road-wheel angle.

    Parameters
    ----------
    speed : float or array
        Speed. [m/s]
    wheelbase : float or array
        Wheelbase. [m]
    understeer_gradient : float or array
        Understeer gradient at the road wheels. [rad·s²/m]

    Returns
    -------
    float or array
        Yaw velocity per steer angle; nan at and above the critical speed. [1/s]

    Notes
    -----
    r/δ = V / (L + K V²).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-21.

    """
    lever = wheelbase + understeer_gradient * np.square(speed)
    return speed / np.where(np.greater(lever, 0.0), lever, np.nan)


def stability_factor(
    *,
    mass: Values,
    front_distance: Values,
    rear_distance: Values,
    front_stiffness: Values,
    rear_stiffness: Values,
) -> Values:
    """Return the stability factor of the two-wheel model.

    Parameters
    ----------
    mass : float or array
        Mass of the car. [kg]
    front_distance : float or array
        From the front axle to the centre of gravity. [m]
    rear_distance : float or array
        From the centre of gravity to the rear axle. [m]
    front_stiffness : float or array
        Cornering stiffness of the front axle, both tyres. [N/rad]
    rear_stiffness : float or array
        Cornering stiffness of the rear axle, both tyres. [N/rad]

    Returns
    -------
    float or array
        Stability factor; the understeer gradient over the wheelbase. [s²/m²]

    Notes
    -----
    A = −m (l_f C_f − l_r C_r) / (l² C_f C_r), per axle; the book has half the mass and one tyre.

    References
    ----------
    .. [1] M. Abe, "Automotive Vehicle Handling Dynamics", 2nd ed. 2015, ch. 3.

    """
    _stiff(front_stiffness=front_stiffness, rear_stiffness=rear_stiffness)
    wheelbase = front_distance + rear_distance
    moment = rear_distance * rear_stiffness - front_distance * front_stiffness
    return mass * moment / (wheelbase**2 * front_stiffness * rear_stiffness)


def static_margin(
    *,
    front_distance: Values,
    rear_distance: Values,
    front_stiffness: Values,
    rear_stiffness: Values,
) -> Values:
    """Return how far behind the centre of gravity a side force would not turn the car.

    Parameters
    ----------
    front_distance : float or array
        From the front axle to the centre of gravity. [m]
    rear_distance : float or array
        From the centre of gravity to the rear axle. [m]
    front_stiffness : float or array
        Cornering stiffness of the front axle. [N/rad]
    rear_stiffness : float or array
        Cornering stiffness of the rear axle. [N/rad]

    Returns
    -------
    float or array
        Distance over the wheelbase; positive is stable. [-]

    Notes
    -----
    (l_r C_r − l_f C_f) / (l (C_f + C_r)).

    References
    ----------
    .. [1] M. Abe, "Automotive Vehicle Handling Dynamics", 2nd ed. 2015, ch. 3.

    """
    _stiff(front_stiffness=front_stiffness, rear_stiffness=rear_stiffness)
    moment = rear_distance * rear_stiffness - front_distance * front_stiffness
    return moment / ((front_distance + rear_distance) * (front_stiffness + rear_stiffness))


@dataclass(frozen=True, kw_only=True)
class YawResponse:
    """How a car answers the steering wheel: quick or slow, damped or not."""

    natural_frequency: Values
    """Undamped; nan above the critical speed. [rad/s]"""
    damping_ratio: Values
    """Likewise. [-]"""


def yaw_response(
    *,
    speed: Values,
    mass: Values,
    yaw_inertia: Values,
    front_distance: Values,
    rear_distance: Values,
    front_stiffness: Values,
    rear_stiffness: Values,
) -> YawResponse:
    """Return natural frequency and damping of the yaw motion of the two-wheel model.

    Parameters
    ----------
    speed : float or array
        Speed. [m/s]
    mass : float or array
        Mass of the car. [kg]
    yaw_inertia : float or array
        Moment of inertia in yaw about the centre of gravity. [kg·m²]
    front_distance : float or array
        From the front axle to the centre of gravity. [m]
    rear_distance : float or array
        From the centre of gravity to the rear axle. [m]
    front_stiffness : float or array
        Cornering stiffness of the front axle, both tyres. [N/rad]
    rear_stiffness : float or array
        Cornering stiffness of the rear axle, both tyres. [N/rad]

    Returns
    -------
    YawResponse
        Natural frequency and damping ratio.

    Notes
    -----
    ω_n = (l/V) √(C_f C_r/(m I)) √(1 + A V²);
    ζ = [m (l_f² C_f + l_r² C_r) + I (C_f + C_r)] / (2 l √(m I C_f C_r (1 + A V²))), C per axle.

    References
    ----------
    .. [1] M. Abe, "Automotive Vehicle Handling Dynamics", 2nd ed. 2015, ch. 3.

    """
    require(np.greater(speed, 0.0), "speed", speed, "m/s", "more than zero")
    require(np.greater(yaw_inertia, 0.0), "yaw_inertia", yaw_inertia, "kg·m²", "more than zero")
    factor = stability_factor(
        mass=mass,
        front_distance=front_distance,
        rear_distance=rear_distance,
        front_stiffness=front_stiffness,
        rear_stiffness=rear_stiffness,
    )
    steady = 1.0 + factor * np.square(speed)
    steady = np.where(np.greater(steady, 0.0), steady, np.nan)
    wheelbase = front_distance + rear_distance
    both = front_stiffness * rear_stiffness
    moment = front_distance**2 * front_stiffness + rear_distance**2 * rear_stiffness
    resisting = mass * moment + yaw_inertia * (front_stiffness + rear_stiffness)
    return YawResponse(
        natural_frequency=wheelbase / speed * np.sqrt(both / (mass * yaw_inertia) * steady),
        damping_ratio=resisting / (2.0 * wheelbase * np.sqrt(mass * yaw_inertia * both * steady)),
    )


def _stiff(**stiffnesses: Values) -> None:
    for name, value in stiffnesses.items():
        require_positive(**{name: (value, "N/rad")})
