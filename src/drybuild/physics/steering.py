"""Steering: ratio, turning circle, the inner and outer wheel's angles, and effort at the rim."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


def rack_steering_ratio(*, steering_arm: Values, rack_travel_per_turn: Values) -> Values:
    """Return the overall ratio of a rack and pinion about straight ahead.

    Parameters
    ----------
    steering_arm : float or array
        Effective length of the steering arm, square to the rack. [m]
    rack_travel_per_turn : float or array
        Travel of the rack per turn of the steering wheel. [m]

    Returns
    -------
    float or array
        Steering-wheel angle over road-wheel angle. [-]

    Notes
    -----
    i = 2π r / c.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 4.2.

    """
    require(np.greater(steering_arm, 0.0), "steering_arm", steering_arm, "m", "more than zero")
    require(
        np.greater(rack_travel_per_turn, 0.0),
        "rack_travel_per_turn",
        rack_travel_per_turn,
        "m",
        "more than zero",
    )
    return 2.0 * np.pi * steering_arm / rack_travel_per_turn


def steering_wheel_turns(
    *, inner_angle: Values, outer_angle: Values, steering_ratio: Values
) -> Values:
    """Return the turns of the steering wheel from lock to lock.

    Parameters
    ----------
    inner_angle : float or array
        Angle of the inner wheel at full lock. [rad]
    outer_angle : float or array
        Angle of the outer wheel at full lock. [rad]
    steering_ratio : float or array
        Steering-wheel angle over mean road-wheel angle. [-]

    Returns
    -------
    float or array
        Turns. [-]

    Notes
    -----
    n = i (δ_i + δ_o) / 2π: each way the mean of the two wheels counts.

    References
    ----------
    .. [1] Definition of the overall ratio over the lock.

    """
    return steering_ratio * (inner_angle + outer_angle) / (2.0 * np.pi)


def ackermann_outer_angle(
    *, inner_angle: Values, wheelbase: Values, kingpin_track: Values
) -> Values:
    """Return the outer wheel's angle at which no tyre scrubs at creeping speed.

    Parameters
    ----------
    inner_angle : float or array
        Angle of the inner wheel. [rad]
    wheelbase : float or array
        Wheelbase. [m]
    kingpin_track : float or array
        Distance between the steering axes at the road. [m]

    Returns
    -------
    float or array
        Angle of the outer wheel. [rad]

    Notes
    -----
    cot δ_o − cot δ_i = t_k / L.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 3.7.

    """
    require(np.greater(inner_angle, 0.0), "inner_angle", inner_angle, "rad", "more than zero")
    require(np.greater(wheelbase, 0.0), "wheelbase", wheelbase, "m", "more than zero")
    return np.arctan2(1.0, 1.0 / np.tan(inner_angle) + kingpin_track / wheelbase)


def ackermann_share(
    *, inner_angle: Values, outer_angle: Values, wheelbase: Values, kingpin_track: Values
) -> Values:
    """Return how much of the ideal difference between the wheels the linkage gives.

    Parameters
    ----------
    inner_angle : float or array
        Angle of the inner wheel. [rad]
    outer_angle : float or array
        Angle of the outer wheel at the same time. [rad]
    wheelbase : float or array
        Wheelbase. [m]
    kingpin_track : float or array
        Distance between the steering axes at the road. [m]

    Returns
    -------
    float or array
        Share; 1 rolls freely, 0 turns both alike. [-]

    Notes
    -----
    (δ_i − δ_o) / (δ_i − δ_o,ideal).

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, steering.

    """
    ideal = ackermann_outer_angle(
        inner_angle=inner_angle, wheelbase=wheelbase, kingpin_track=kingpin_track
    )
    return (inner_angle - outer_angle) / (inner_angle - ideal)


def kerb_turning_circle(*, outer_angle: Values, wheelbase: Values, scrub_radius: Values) -> Values:
    """Return the diameter of the circle that the outer front tyre draws at full lock.

    Parameters
    ----------
    outer_angle : float or array
        Angle of the outer wheel at full lock. [rad]
    wheelbase : float or array
        Wheelbase. [m]
    scrub_radius : float or array
        Distance of the tyre's contact centre outside the steering axis at the road. [m]

    Returns
    -------
    float or array
        Diameter, to the centre of the tyre. [m]

    Notes
    -----
    D = 2 (L / sin δ_o + r_s), wheels rolling without slip.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 3.7.

    """
    require(np.greater(outer_angle, 0.0), "outer_angle", outer_angle, "rad", "more than zero")
    return 2.0 * (wheelbase / np.sin(outer_angle) + scrub_radius)


def parking_moment_gough(*, friction: Values, load: Values, pressure: Values) -> Values:
    """Return the moment that turns a standing tyre on the spot, by Gough's formula.

    Parameters
    ----------
    friction : float or array
        Friction of rubber on the road at rest. [-]
    load : float or array
        Load of the tyre. [N]
    pressure : float or array
        Inflation pressure over the atmosphere. [Pa]

    Returns
    -------
    float or array
        Moment about the steering axis of one wheel. [N·m]

    Notes
    -----
    M = (μ/3) F^1.5 / √p, the axis through the middle of the contact.

    References
    ----------
    .. [1] R. S. Sharp, R. Granger, "On car steering torques at parking speeds", Proc. IMechE D,
       2003.

    """
    require(np.greater(load, 0.0), "load", load, "N", "more than zero")
    require(np.greater(pressure, 0.0), "pressure", pressure, "Pa", "more than zero")
    return friction / 3.0 * load**1.5 / np.sqrt(pressure)


def parking_moment_with_offset(
    *, friction: Values, load: Values, tyre_width: Values, kingpin_offset: Values
) -> Values:
    """Return the moment that turns a standing tyre whose axis is beside the contact.

    Parameters
    ----------
    friction : float or array
        Friction of rubber on the road at rest. [-]
    load : float or array
        Load of the tyre. [N]
    tyre_width : float or array
        Nominal width of the tyre. [m]
    kingpin_offset : float or array
        Scrub radius: distance from the steering axis to the contact centre. [m]

    Returns
    -------
    float or array
        Moment about the steering axis of one wheel. [N·m]

    Notes
    -----
    M = μ F √(B²/8 + e²), brakes released so that an offset wheel rolls.

    References
    ----------
    .. [1] J. J. Taborek, "Mechanics of Vehicles", Machine Design, 1957.

    """
    require(np.greater(load, 0.0), "load", load, "N", "more than zero")
    require(np.greater(tyre_width, 0.0), "tyre_width", tyre_width, "m", "more than zero")
    return friction * load * np.sqrt(np.square(tyre_width) / 8.0 + np.square(kingpin_offset))


def moment_of_side_force(*, side_force: Values, trail: Values) -> Values:
    """Return the moment about both steering axes that the tyres' side force makes.

    Parameters
    ----------
    side_force : float or array
        Side force of the front axle. [N]
    trail : float or array
        Mechanical and pneumatic trail together. [m]

    Returns
    -------
    float or array
        Moment about the steering axes, both wheels. [N·m]

    Notes
    -----
    M = F_y (t_m + t_p), small caster and inclination.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 8.

    """
    return side_force * trail


def moment_of_vertical_load(
    *,
    outer_load: Values,
    inner_load: Values,
    kingpin_offset: Values,
    kingpin_inclination: Values,
    caster: Values,
    steer_angle: Values,
) -> Values:
    """Return the moment about both steering axes that the wheels' loads make.

    Parameters
    ----------
    outer_load : float or array
        Load of the outer wheel. [N]
    inner_load : float or array
        Load of the inner wheel. [N]
    kingpin_offset : float or array
        Scrub radius at the road. [m]
    kingpin_inclination : float or array
        Inclination of the axes, top inboard. [rad]
    caster : float or array
        Caster of the axes, top rearward. [rad]
    steer_angle : float or array
        Mean steer angle of the wheels. [rad]

    Returns
    -------
    float or array
        Moment towards straight ahead. [N·m]

    Notes
    -----
    M = (F_o + F_i) d sin λ sin δ + (F_o − F_i) d sin ν cos δ: the car is lifted as it steers, and
    the load that has moved to the outer wheel pulls on the offset. The book's signs are turned
    so that positive centres.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 8-6.

    """
    both = outer_load + inner_load
    lifting = both * np.sin(kingpin_inclination) * np.sin(steer_angle)
    moved = (outer_load - inner_load) * np.sin(caster) * np.cos(steer_angle)
    return kingpin_offset * (lifting + moved)


def rim_force(
    *,
    kingpin_moment: Values,
    steering_ratio: Values,
    efficiency: Values,
    assistance: Values,
    rim_diameter: Values,
) -> Values:
    """Return the hand force at the steering wheel's rim.

    Parameters
    ----------
    kingpin_moment : float or array
        Moment about the steering axes, both wheels. [N·m]
    steering_ratio : float or array
        Steering-wheel angle over road-wheel angle. [-]
    efficiency : float or array
        Share of the hand's work that reaches the wheels. [-]
    assistance : float or array
        Share of the effort that a pump or motor takes over. [-]
    rim_diameter : float or array
        Diameter of the steering wheel. [m]

    Returns
    -------
    float or array
        Force at the rim. [N]

    Notes
    -----
    F = M (1 − s) / (i η D/2).

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, ch. 4.

    """
    require(np.greater(steering_ratio, 0.0), "steering_ratio", steering_ratio, "-", "above zero")
    require(np.greater(efficiency, 0.0), "efficiency", efficiency, "-", "above zero")
    require(np.greater_equal(assistance, 0.0), "assistance", assistance, "-", "from 0 to 1")
    require(np.less_equal(assistance, 1.0), "assistance", assistance, "-", "from 0 to 1")
    require(np.greater(rim_diameter, 0.0), "rim_diameter", rim_diameter, "m", "more than zero")
    torque = kingpin_moment * (1.0 - assistance) / (steering_ratio * efficiency)
    return torque / (rim_diameter / 2.0)
