"""How far the suspension's geometry holds the body up under brakes and drive."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


def anti_dive(
    *, path_slope: Values, brake_share: Values, wheelbase: Values, cg_height: Values
) -> Values:
    """Return the share of the front's dive under brakes that the geometry takes.

    Parameters
    ----------
    path_slope : float or array
        Forward motion of the contact per bump, the wheel locked to its carrier. [-]
    brake_share : float or array
        Share of the braking force on this axle. [-]
    wheelbase : float or array
        Wheelbase. [m]
    cg_height : float or array
        Height of the centre of gravity over the road. [m]

    Returns
    -------
    float or array
        Share; 1 leaves no dive, negative adds to it. [-]

    Notes
    -----
    p tan φ L/h, tan φ = dx/dz of the contact; brakes at the wheels. Inboard brakes take the path
    of the wheel's centre.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    require(np.greater(cg_height, 0.0), "cg_height", cg_height, "m", "more than zero")
    return brake_share * path_slope * wheelbase / cg_height


def anti_lift(
    *, path_slope: Values, brake_share: Values, wheelbase: Values, cg_height: Values
) -> Values:
    """Return the share of the rear's lift under brakes that the geometry takes.

    Parameters
    ----------
    path_slope : float or array
        Forward motion of the contact per bump, the wheel locked to its carrier. [-]
    brake_share : float or array
        Share of the braking force on this axle. [-]
    wheelbase : float or array
        Wheelbase. [m]
    cg_height : float or array
        Height of the centre of gravity over the road. [m]

    Returns
    -------
    float or array
        Share; 1 leaves no lift. [-]

    Notes
    -----
    −p tan φ L/h: the rear contact must go rearward in bump to hold the body down.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    return -1.0 * anti_dive(
        path_slope=path_slope, brake_share=brake_share, wheelbase=wheelbase, cg_height=cg_height
    )


def anti_squat(*, path_slope: Values, wheelbase: Values, cg_height: Values) -> Values:
    """Return the share of the rear's squat under drive that the geometry takes.

    Parameters
    ----------
    path_slope : float or array
        Forward motion per bump: of the contact for a live axle, of the wheel's centre where the
        drive's torque is taken by the body. [-]
    wheelbase : float or array
        Wheelbase. [m]
    cg_height : float or array
        Height of the centre of gravity over the road. [m]

    Returns
    -------
    float or array
        Share; 1 leaves no squat at the rear. [-]

    Notes
    -----
    −tan φ L/h; e/d = h/L for the meeting of the links at d ahead and e up.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 7.

    """
    require(np.greater(cg_height, 0.0), "cg_height", cg_height, "m", "more than zero")
    return -path_slope * wheelbase / cg_height
