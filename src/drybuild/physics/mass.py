"""Mass properties: from scales to the centre of gravity, from items to the whole, inertias."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]
Items = npt.NDArray[np.float64]
"""One value per item along the first axis; samples, if any, along the last."""


def cg_distance_from_front_axle(
    *, front_axle: Values, rear_axle: Values, wheelbase: Values
) -> Values:
    """Return how far the centre of gravity lies behind the front axle.

    Parameters
    ----------
    front_axle : float or array
        Mass on the front axle's scales. [kg]
    rear_axle : float or array
        Mass on the rear axle's scales. [kg]
    wheelbase : float or array
        Wheelbase. [m]

    Returns
    -------
    float or array
        Distance behind the front axle. [m]

    Notes
    -----
    a = L m_r / (m_f + m_r), the car level.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 1.

    """
    require(np.greater_equal(front_axle, 0.0), "front_axle", front_axle, "kg", "zero or more")
    require(np.greater_equal(rear_axle, 0.0), "rear_axle", rear_axle, "kg", "zero or more")
    require(np.greater(wheelbase, 0.0), "wheelbase", wheelbase, "m", "more than zero")
    return wheelbase * rear_axle / (front_axle + rear_axle)


def cg_offset_to_the_left(
    *,
    front_left: Values,
    front_right: Values,
    rear_left: Values,
    rear_right: Values,
    front_track: Values,
    rear_track: Values,
) -> Values:
    """Return how far the centre of gravity lies left of the centre plane, from corner weights.

    Parameters
    ----------
    front_left : float or array
        Mass on the front left scale. [kg]
    front_right : float or array
        Mass on the front right scale. [kg]
    rear_left : float or array
        Mass on the rear left scale. [kg]
    rear_right : float or array
        Mass on the rear right scale. [kg]
    front_track : float or array
        Front track. [m]
    rear_track : float or array
        Rear track. [m]

    Returns
    -------
    float or array
        Offset, positive to the left. [m]

    Notes
    -----
    y = [t_f (m_fl − m_fr) + t_r (m_rl − m_rr)] / (2 m). Cross weight has no part in it.

    References
    ----------
    .. [1] ISO 10392:2011, determination of the centre of gravity, moments about the centre plane.

    """
    mass = front_left + front_right + rear_left + rear_right
    require(np.greater(mass, 0.0), "sum of the scales", mass, "kg", "more than zero")
    front = front_track * (front_left - front_right)
    rear = rear_track * (rear_left - rear_right)
    return (front + rear) / (2.0 * mass)


def cross_weight_share(
    *, front_left: Values, front_right: Values, rear_left: Values, rear_right: Values
) -> Values:
    """Return the share of the car that stands on the right front and left rear wheels.

    Parameters
    ----------
    front_left : float or array
        Mass on the front left scale. [kg]
    front_right : float or array
        Mass on the front right scale. [kg]
    rear_left : float or array
        Mass on the rear left scale. [kg]
    rear_right : float or array
        Mass on the rear right scale. [kg]

    Returns
    -------
    float or array
        Share; one half stands square. [-]

    Notes
    -----
    (m_fr + m_rl) / m.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 18.

    """
    mass = front_left + front_right + rear_left + rear_right
    require(np.greater(mass, 0.0), "sum of the scales", mass, "kg", "more than zero")
    return (front_right + rear_left) / mass


def cg_height_by_axle_lift_iso_10392(
    *,
    static_radius: Values,
    wheelbase: Values,
    mass: Values,
    front_axle_level: Values,
    front_axle_lifted: Values,
    inclination: Values,
) -> Values:
    """Return the height of the centre of gravity from weighing the car with its rear lifted.

    Parameters
    ----------
    static_radius : float or array
        Height of the wheel centres over the road when level. [m]
    wheelbase : float or array
        Wheelbase. [m]
    mass : float or array
        Mass of the car. [kg]
    front_axle_level : float or array
        Mass on the front scales, car level. [kg]
    front_axle_lifted : float or array
        Mass on the front scales, rear lifted. [kg]
    inclination : float or array
        Angle of the line through the wheel centres. [rad]

    Returns
    -------
    float or array
        Height over the road. [m]

    Notes
    -----
    h = r + L (m_f' − m_f) / (m tan θ). The springs are blocked; fuel tank full or empty.

    References
    ----------
    .. [1] ISO 10392:2011, axle lift method; the same form in SAE J874.

    """
    require(np.greater(inclination, 0.0), "inclination", inclination, "rad", "more than zero")
    require(np.less(inclination, np.pi / 2.0), "inclination", inclination, "rad", "below 90°")
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    moved = front_axle_lifted - front_axle_level
    return static_radius + wheelbase * moved / (mass * np.tan(inclination))


def centre_of_mass(*, mass: Items, position: Items) -> Values:
    """Return where the common centre of several masses lies along one axis.

    Parameters
    ----------
    mass : array
        Mass of each item along the first axis; negative for what comes off. [kg]
    position : array
        Coordinate of each item's centre, same layout. [m]

    Returns
    -------
    float or array
        Coordinate of the common centre. [m]

    Notes
    -----
    x = Σ m x / Σ m.

    References
    ----------
    .. [1] Definition.

    """
    total = np.sum(mass, axis=0)
    require(np.greater(total, 0.0), "sum of the masses", total, "kg", "more than zero")
    moment: Values = np.sum(mass * position, axis=0) / total
    return moment


def axle_masses(
    *, mass: Items, distance_behind_front_axle: Items, wheelbase: Values
) -> tuple[Values, Values]:
    """Return what each axle carries of a set of items.

    Parameters
    ----------
    mass : array
        Mass of each item along the first axis. [kg]
    distance_behind_front_axle : array
        Distance of each item behind the front axle, same layout. [m]
    wheelbase : float or array
        Wheelbase. [m]

    Returns
    -------
    pair of float or array
        Front and rear axle. [kg]

    Notes
    -----
    Lever rule: rear = Σ m x / L, front = Σ m − rear. An item behind the rear axle lifts the front.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 1.

    """
    require(np.greater(wheelbase, 0.0), "wheelbase", wheelbase, "m", "more than zero")
    rear: Values = np.sum(mass * distance_behind_front_axle, axis=0) / wheelbase
    front: Values = np.sum(mass, axis=0) - rear
    return front, rear


def inertia_about_common_centre(
    *, mass: Items, first_position: Items, second_position: Items, own_inertia: Items
) -> Values:
    """Return the moment of inertia of several items about the axis through their centre.

    Parameters
    ----------
    mass : array
        Mass of each item along the first axis; negative for what comes off. [kg]
    first_position : array
        Coordinate across the axis: for yaw, length. [m]
    second_position : array
        The other coordinate across the axis: for yaw, width. [m]
    own_inertia : array
        Each item's inertia about its own centre; negative for what comes off. [kg·m²]

    Returns
    -------
    float or array
        Moment of inertia. [kg·m²]

    Notes
    -----
    I = Σ (I_i + m_i r_i²) − m r_c², the parallel-axis theorem.

    References
    ----------
    .. [1] Definition; parallel-axis theorem.

    """
    total = np.sum(mass, axis=0)
    require(np.greater(total, 0.0), "sum of the masses", total, "kg", "more than zero")
    square = np.sum(own_inertia + mass * (first_position**2 + second_position**2), axis=0)
    first = np.sum(mass * first_position, axis=0)
    second = np.sum(mass * second_position, axis=0)
    inertia: Values = square - (first**2 + second**2) / total
    return inertia


def inertia_from_dynamic_index(
    *, mass: Values, front_distance: Values, rear_distance: Values, dynamic_index: Values
) -> Values:
    """Return a yaw or pitch inertia from the dynamic index that cars share.

    Parameters
    ----------
    mass : float or array
        Mass of the car. [kg]
    front_distance : float or array
        From the front axle to the centre of gravity. [m]
    rear_distance : float or array
        From the centre of gravity to the rear axle. [m]
    dynamic_index : float or array
        Square of the gyration radius over the product of the two distances. [-]

    Returns
    -------
    float or array
        Moment of inertia. [kg·m²]

    Notes
    -----
    I = DI m a b.

    References
    ----------
    .. [1] G. J. Heydinger and others, "Measured Vehicle Inertial Parameters", SAE 1999-01-1336.

    """
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    return dynamic_index * mass * front_distance * rear_distance


def yaw_inertia_from_mass(*, mass: Values) -> Values:
    """Return the yaw inertia of a passenger car from its mass alone.

    Parameters
    ----------
    mass : float or array
        Mass of the car, 815 kg to 1978 kg. [kg]

    Returns
    -------
    float or array
        Moment of inertia. [kg·m²]

    Notes
    -----
    I = 3.176 m − 1754, a line through 73 measured cars of 1971 to 1998; root mean square error
    10.4 % of the value.

    References
    ----------
    .. [1] NHTSA Light Vehicle Inertial Parameter Database (SAE 1999-01-1336), 73 passenger cars.

    """
    require(np.greater_equal(mass, 815.0), "mass", mass, "kg", "from 815 kg to 1978 kg")
    require(np.less_equal(mass, 1978.0), "mass", mass, "kg", "from 815 kg to 1978 kg")
    return 3.176 * mass - 1754.0


def roll_inertia_from_track(*, mass: Values, track: Values, gyration_share: Values) -> Values:
    """Return the roll inertia of a car from the share of the track that its gyration radius is.

    Parameters
    ----------
    mass : float or array
        Mass of the car. [kg]
    track : float or array
        Mean of front and rear track. [m]
    gyration_share : float or array
        Radius of gyration in roll over the track. [-]

    Returns
    -------
    float or array
        Moment of inertia. [kg·m²]

    Notes
    -----
    I = m (k t)²; k is about 0.41 for passenger cars.

    References
    ----------
    .. [1] NHTSA Light Vehicle Inertial Parameter Database (SAE 1999-01-1336).

    """
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    return mass * np.square(gyration_share * track)


def cg_height_from_stability_factor(*, track: Values, static_stability_factor: Values) -> Values:
    """Return the height of the centre of gravity from the factor that a kind of car has.

    Parameters
    ----------
    track : float or array
        Mean of front and rear track. [m]
    static_stability_factor : float or array
        Half the track over the height of the centre of gravity. [-]

    Returns
    -------
    float or array
        Height over the road. [m]

    Notes
    -----
    h = t / (2 SSF).

    References
    ----------
    .. [1] NHTSA Light Vehicle Inertial Parameter Database (SAE 1999-01-1336).

    """
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    require(
        np.greater(static_stability_factor, 0.0),
        "static_stability_factor",
        static_stability_factor,
        "-",
        "more than zero",
    )
    return track / (2.0 * static_stability_factor)
