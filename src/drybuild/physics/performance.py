"""Traction, top speed, and the one-line laws that bound how quick a car can be."""

from __future__ import annotations

from typing import cast

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def traction_limit_two_wheel(
    *,
    weight: Values,
    friction: Values,
    driven_share: Values,
    height_over_wheelbase: Values,
    rear_driven: bool,
) -> Values:
    """Return the greatest drive force of one driven axle with both tyres loaded alike.

    Parameters
    ----------
    weight : float or array
        Weight of the laden car. [N]
    friction : float or array
        Peak friction coefficient of tyre and road. [-]
    driven_share : float or array
        Static share of the weight on the driven axle. [-]
    height_over_wheelbase : float or array
        Height of the centre of gravity over the wheelbase. [-]
    rear_driven : bool
        Whether the rear axle drives. [-]

    Returns
    -------
    float or array
        Force; nan where the car would lift its front wheels first. [N]

    Notes
    -----
    F = μ W s / (1 ∓ μ h/L): minus for the rear axle, which the acceleration loads, plus for the
    front. Air and rolling resistance are left out.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 2. From memory.
    .. [2] J. Y. Wong, "Theory of Ground Vehicles", ch. 3. From memory.

    """
    _check_traction(weight, friction, driven_share)
    shift = friction * height_over_wheelbase
    divisor = 1.0 - shift if rear_driven else 1.0 + shift
    force = friction * weight * driven_share / np.where(np.greater(divisor, 0.0), divisor, np.nan)
    return cast(Array, np.where(force <= friction * weight, force, np.nan))


def traction_limit_four_wheel(*, weight: Values, friction: Values) -> Values:
    """Return the greatest drive force with all four tyres at their limit.

    Parameters
    ----------
    weight : float or array
        Weight of the laden car. [N]
    friction : float or array
        Peak friction coefficient of tyre and road. [-]

    Returns
    -------
    float or array
        Force. [N]

    Notes
    -----
    F = μ W: the ideal split between the axles; a fixed split gives less.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 3. From memory.

    """
    _check_traction(weight, friction, 1.0)
    return friction * weight


def traction_limit_live_axle(
    *,
    weight: Values,
    friction: Values,
    rear_share: Values,
    height_over_wheelbase: Values,
    rolling_radius: Values,
    final_drive: Values,
    track: Values,
    front_roll_share: Values,
) -> Values:
    """Return the greatest drive force of a live rear axle with an open differential.

    Parameters
    ----------
    weight : float or array
        Weight of the laden car. [N]
    friction : float or array
        Peak friction coefficient of tyre and road. [-]
    rear_share : float or array
        Static share of the weight on the rear axle. [-]
    height_over_wheelbase : float or array
        Height of the centre of gravity over the wheelbase. [-]
    rolling_radius : float or array
        Radius of the tyre. [m]
    final_drive : float or array
        Ratio of the axle. [-]
    track : float or array
        Rear track. [m]
    front_roll_share : float or array
        Front roll stiffness over the roll stiffness of the car. [-]

    Returns
    -------
    float or array
        Force. [N]

    Notes
    -----
    The propshaft's torque lifts one driven wheel by ΔW = F r K_f/(i_f t K), and an open
    differential gives both wheels the force of the lighter one:
    F = μ W s / (1 − μ h/L + 2 μ r K_f/(i_f t K)).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, Eq. 2-24. From memory.

    """
    _check_traction(weight, friction, rear_share)
    require_positive(final_drive=(final_drive, "-"), track=(track, "m"))
    lift = 2.0 * friction * rolling_radius * front_roll_share / (final_drive * track)
    return friction * weight * rear_share / (1.0 - friction * height_over_wheelbase + lift)


def top_speed_from_power(
    *,
    wheel_power: Values,
    weight: Values,
    rolling_coefficient: Values,
    drag_area: Values,
    air_density: Values,
) -> Values:
    """Return the speed at which road load takes all the power, whatever the gearing.

    Parameters
    ----------
    wheel_power : float or array
        Power at the driven tyres. [W]
    weight : float or array
        Weight of the laden car. [N]
    rolling_coefficient : float or array
        Rolling resistance over load. [-]
    drag_area : float or array
        Drag coefficient times frontal area. [m²]
    air_density : float or array
        Density of the air. [kg/m³]

    Returns
    -------
    float or array
        Speed. [m/s]

    Notes
    -----
    The one real root of ½ ρ C_d A v³ + f W v = P: with p = fW/a, q = P/a, a = ½ ρ C_d A,
    v = ∛(q/2 + √(q²/4 + p³/27)) + ∛(q/2 − √(q²/4 + p³/27)).

    References
    ----------
    .. [1] Cardano's formula for the textbook balance of power.

    """
    require_positive(
        wheel_power=(wheel_power, "W"), weight=(weight, "N"), drag_area=(drag_area, "m²")
    )
    air = 0.5 * air_density * drag_area
    p = rolling_coefficient * weight / air
    q = wheel_power / air
    root = np.sqrt(q**2 / 4.0 + p**3 / 27.0)
    return cast(Array, np.cbrt(q / 2.0 + root) + np.cbrt(q / 2.0 - root))


def constant_power_time_to_speed(*, mass: Values, wheel_power: Values, speed: Values) -> Values:
    """Return the least time from rest to a speed that a power at the wheels allows.

    Parameters
    ----------
    mass : float or array
        Mass of the laden car. [kg]
    wheel_power : float or array
        Power at the driven tyres. [W]
    speed : float or array
        Speed to reach. [m/s]

    Returns
    -------
    float or array
        Time; no car is quicker. [s]

    Notes
    -----
    t = m v² / (2 P).

    References
    ----------
    .. [1] Mechanics: the work of a constant power.

    """
    require_positive(mass=(mass, "kg"), wheel_power=(wheel_power, "W"))
    return mass * speed**2 / (2.0 * wheel_power)


def constant_power_time_to_distance(
    *, mass: Values, wheel_power: Values, distance: Values
) -> Values:
    """Return the least time over a distance from rest that a power at the wheels allows.

    Parameters
    ----------
    mass : float or array
        Mass of the laden car. [kg]
    wheel_power : float or array
        Power at the driven tyres. [W]
    distance : float or array
        Distance to cover. [m]

    Returns
    -------
    float or array
        Time; no car is quicker. [s]

    Notes
    -----
    t = (3x/2)^(2/3) (m/2P)^(1/3).

    References
    ----------
    .. [1] G. T. Fox, "On the physics of drag racing", Am. J. Phys. 41 (1973). From memory.

    """
    require_positive(mass=(mass, "kg"), wheel_power=(wheel_power, "W"))
    return (1.5 * distance) ** (2.0 / 3.0) * (mass / (2.0 * wheel_power)) ** (1.0 / 3.0)


def quarter_mile_time_cube_root(*, mass: Values, power: Values) -> Values:
    """Return the quarter mile time of the empirical cube-root law.

    Parameters
    ----------
    mass : float or array
        Mass of the laden car. [kg]
    power : float or array
        Greatest power at the flywheel. [W]

    Returns
    -------
    float or array
        Time. [s]

    Notes
    -----
    t = 6.269 (W/P)^(1/3), W in lb and P in hp: a fit to cars of the 1960s, with no gearing,
    traction or driver in it. The ideal constant is 4.803.

    References
    ----------
    .. [1] G. T. Fox, "On the physics of drag racing", Am. J. Phys. 41 (1973). From memory.

    """
    require_positive(mass=(mass, "kg"), power=(power, "W"))
    return 6.269 * ((mass / 0.45359237) / (power / 745.699872)) ** (1.0 / 3.0)


def _check_traction(weight: Values, friction: Values, share: Values) -> None:
    require_positive(weight=(weight, "N"), friction=(friction, "-"))
    inside = np.greater(share, 0.0) & np.less_equal(share, 1.0)
    require(inside, "driven_share", share, "-", "from nothing to one")
