"""Roll centres and camber gain from a few points of the suspension, in closed form."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


def roll_centre_height(
    *,
    contact_offset: Values,
    contact_side_velocity: Values,
    contact_rise_velocity: Values,
) -> Values:
    """Return the height of the roll centre from how the tyre's contact moves in bump.

    Parameters
    ----------
    contact_offset : float or array
        Distance of the contact centre from the centre plane. [m]
    contact_side_velocity : float or array
        Outward velocity of the contact centre in bump. [m/s]
    contact_rise_velocity : float or array
        Upward velocity of the contact centre in bump. [m/s]

    Returns
    -------
    float or array
        Height over the road. [m]

    Notes
    -----
    h = y v_y / v_z; the same as the construction with the instantaneous centre.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, roll centres.

    """
    require(np.not_equal(contact_rise_velocity, 0.0), "contact_rise_velocity", 0.0, "m/s", "not 0")
    return contact_offset * contact_side_velocity / contact_rise_velocity


def roll_centre_from_instant_centre(
    *, contact_offset: Values, centre_offset: Values, centre_height: Values
) -> Values:
    """Return the roll centre's height from the wheel's instantaneous centre in front view.

    Parameters
    ----------
    contact_offset : float or array
        Distance of the contact centre from the centre plane. [m]
    centre_offset : float or array
        Lateral position of the instantaneous centre, positive on the wheel's own side. [m]
    centre_height : float or array
        Its height over the road. [m]

    Returns
    -------
    float or array
        Height of the roll centre over the road. [m]

    Notes
    -----
    The line from the contact to the instantaneous centre is cut by the centre plane:
    h = y_c z_I / (y_c − y_I).

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, sec. 3.4.

    """
    arm = contact_offset - centre_offset
    require(np.not_equal(arm, 0.0), "centre_offset", centre_offset, "m", "not at the contact")
    return contact_offset * centre_height / arm


def camber_gain(*, contact_offset: Values, centre_offset: Values) -> Values:
    """Return the change of camber per bump travel of a wheel with this instantaneous centre.

    Parameters
    ----------
    contact_offset : float or array
        Distance of the contact centre from the centre plane. [m]
    centre_offset : float or array
        Lateral position of the instantaneous centre, positive on the wheel's own side. [m]

    Returns
    -------
    float or array
        Camber that the wheel loses (top inboard) per bump. [rad/m]

    Notes
    -----
    1 / (y_c − y_I), the inverse of the swing-arm length seen from the front.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, swing-arm length.

    """
    arm = contact_offset - centre_offset
    require(np.not_equal(arm, 0.0), "centre_offset", centre_offset, "m", "not at the contact")
    return 1.0 / arm


def lines_meet(
    *,
    first_start: tuple[Values, Values],
    first_end: tuple[Values, Values],
    second_start: tuple[Values, Values],
    second_end: tuple[Values, Values],
) -> tuple[Values, Values]:
    """Return where two lines of the front view meet: two arms, or an arm and a strut's normal.

    Parameters
    ----------
    first_start : pair of float or array
        A point of the first line, lateral and height. [m]
    first_end : pair of float or array
        Another point of it. [m]
    second_start : pair of float or array
        A point of the second line. [m]
    second_end : pair of float or array
        Another point of it. [m]

    Returns
    -------
    pair of float or array
        Lateral position and height; infinite or nan where the lines are parallel. [m]

    Notes
    -----
    Cross products of the directions: P = P₁ + d₁ ((P₂ − P₁) × d₂) / (d₁ × d₂).

    References
    ----------
    .. [1] Plane geometry.

    """
    ay, az = first_end[0] - first_start[0], first_end[1] - first_start[1]
    by, bz = second_end[0] - second_start[0], second_end[1] - second_start[1]
    gap_y, gap_z = second_start[0] - first_start[0], second_start[1] - first_start[1]
    with np.errstate(divide="ignore", invalid="ignore"):
        along = np.divide(gap_y * bz - gap_z * by, ay * bz - az * by)
        return first_start[0] + along * ay, first_start[1] + along * az


def panhard_sideways_shift(*, rod_length: Values, travel: Values) -> Values:
    """Return how far a level Panhard rod pulls the axle sideways.

    Parameters
    ----------
    rod_length : float or array
        Length of the rod. [m]
    travel : float or array
        Bump or droop travel of its axle end. [m]

    Returns
    -------
    float or array
        Sideways shift of the axle. [m]

    Notes
    -----
    l − √(l² − z²); nan where the travel exceeds the rod.

    References
    ----------
    .. [1] Circle of the rod's end.

    """
    require(np.greater(rod_length, 0.0), "rod_length", rod_length, "m", "more than zero")
    with np.errstate(invalid="ignore"):
        return rod_length - np.sqrt(rod_length**2 - np.square(travel))


def panhard_roll_centre_height(
    *, axle_end_height: Values, body_end_height: Values, axle_end_offset: Values, rod_span: Values
) -> Values:
    """Return the roll centre's height of a live axle held by a Panhard rod.

    Parameters
    ----------
    axle_end_height : float or array
        Height of the rod's end at the axle over the road. [m]
    body_end_height : float or array
        Height of its end at the body over the road. [m]
    axle_end_offset : float or array
        Distance of the axle end from the centre plane, on its own side. [m]
    rod_span : float or array
        Lateral distance between the two ends. [m]

    Returns
    -------
    float or array
        Height where the rod crosses the centre plane, in the plane of the rod. [m]

    Notes
    -----
    Linear between the ends. It holds in the rod's own cross plane; at the axle it differs by the
    slope of the roll axis times the distance between the two planes.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    require(np.greater(rod_span, 0.0), "rod_span", rod_span, "m", "more than zero")
    share = axle_end_offset / rod_span
    return axle_end_height + (body_end_height - axle_end_height) * share


def four_link_roll_centre_height(
    *, meeting_height: Values, meeting_position: Values, lower_link_slope: Values
) -> Values:
    """Return the roll centre's height of a live axle on parallel lower and splayed upper links.

    Parameters
    ----------
    meeting_height : float or array
        Height over the road of the point where the upper links meet in plan. [m]
    meeting_position : float or array
        Position of that point ahead of the axle. [m]
    lower_link_slope : float or array
        Rise of the lower links per length forward. [-]

    Returns
    -------
    float or array
        Height of the roll axis in the axle's cross plane. [m]

    Notes
    -----
    The lower links meet at infinity, so the roll axis runs through the meeting point along
    their direction: h = z_A − s x_A.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    return meeting_height - lower_link_slope * meeting_position
