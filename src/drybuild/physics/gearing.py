"""Gearing: wheel speed against engine speed, steps between gears, which gear climbs what."""

from __future__ import annotations

from typing import cast

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def engine_speed_at(*, road_speed: Values, overall_ratio: Values, rolling_radius: Values) -> Values:
    """Return the engine speed at a road speed without slip.

    Parameters
    ----------
    road_speed : float or array
        Speed of the car. [m/s]
    overall_ratio : float or array
        Engine turns for one turn of the driven wheels. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]

    Returns
    -------
    float or array
        Angular speed of the crankshaft. [rad/s]

    Notes
    -----
    ω = v N / r. A torque converter that is not locked adds its slip, 3 to 6 % at cruise.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 2. From memory.

    """
    require_positive(overall_ratio=(overall_ratio, "-"), rolling_radius=(rolling_radius, "m"))
    return road_speed * overall_ratio / rolling_radius


def road_speed_at(*, engine_speed: Values, overall_ratio: Values, rolling_radius: Values) -> Values:
    """Return the road speed at an engine speed without slip.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft. [rad/s]
    overall_ratio : float or array
        Engine turns for one turn of the driven wheels. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]

    Returns
    -------
    float or array
        Speed of the car. [m/s]

    Notes
    -----
    v = ω r / N.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE, 1992, ch. 2. From memory.

    """
    require_positive(overall_ratio=(overall_ratio, "-"), rolling_radius=(rolling_radius, "m"))
    return engine_speed * rolling_radius / overall_ratio


def final_drive_for_shift_drop(
    *, road_speed: Values, speed_drop: Values, ratio_step: Values, rolling_radius: Values
) -> Values:
    """Return the final drive with which a shift at a road speed drops the engine speed by so much.

    Parameters
    ----------
    road_speed : float or array
        Speed of the car at the shift. [m/s]
    speed_drop : float or array
        Fall of the engine speed. [rad/s]
    ratio_step : float or array
        Difference of the two gearbox ratios. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]

    Returns
    -------
    float or array
        Final drive ratio. [-]

    Notes
    -----
    Δω = v (i_k − i_{k+1}) i_f / r.

    References
    ----------
    .. [1] Kinematics.

    """
    require_positive(road_speed=(road_speed, "m/s"), ratio_step=(ratio_step, "-"))
    return speed_drop * rolling_radius / (road_speed * ratio_step)


def geometric_ratios(*, lowest_gear: Values, highest_gear: Values, gears: int) -> Array:
    """Return gearbox ratios with one constant step.

    Parameters
    ----------
    lowest_gear : float or array
        Ratio of the first gear. [-]
    highest_gear : float or array
        Ratio of the last gear. [-]
    gears : int
        Number of gears, two or more. [-]

    Returns
    -------
    array
        Ratio of each gear, a row a gear. [-]

    Notes
    -----
    φ = (i_1/i_z)^(1/(z−1)).

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 4. From memory.

    """
    require(gears >= 2, "gears", gears, "-", "two or more")
    return progressive_ratios(
        lowest_gear=lowest_gear, highest_gear=highest_gear, gears=gears, progression=1.0
    )


def progressive_ratios(
    *, lowest_gear: Values, highest_gear: Values, gears: int, progression: float
) -> Array:
    """Return gearbox ratios whose steps shrink by a constant factor towards the top.

    Parameters
    ----------
    lowest_gear : float or array
        Ratio of the first gear. [-]
    highest_gear : float or array
        Ratio of the last gear. [-]
    gears : int
        Number of gears, two or more. [-]
    progression : float
        Ratio of each step to the next, φ₂; 1.0 to 1.2 in cars. [-]

    Returns
    -------
    array
        Ratio of each gear, a row a gear. [-]

    Notes
    -----
    i_n = i_z φ₁^(z−n) φ₂^((z−n)(z−n−1)/2), φ₁ from i_1.

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 4. From memory.

    """
    require(gears >= 2, "gears", gears, "-", "two or more")
    falling = np.greater(lowest_gear, highest_gear) & np.greater(highest_gear, 0.0)
    require(falling, "lowest_gear", lowest_gear, "-", "above highest_gear")
    require(progression > 0.0, "progression", progression, "-", "more than zero")
    spread = np.asarray(lowest_gear / highest_gear)
    steps = np.arange(gears - 1, -1, -1, dtype=np.float64).reshape(-1, *(1,) * spread.ndim)
    first = (spread / progression ** ((gears - 1) * (gears - 2) / 2)) ** (1.0 / (gears - 1))
    return cast(Array, highest_gear * first**steps * progression ** (steps * (steps - 1) / 2))


def gearbox_steps(*, ratios: Array) -> Array:
    """Return the step from each gear to the next.

    Parameters
    ----------
    ratios : array
        Gearbox ratios, first gear first, falling along the first axis. [-]

    Returns
    -------
    array
        Ratio of each gear over the next; the engine speed falls by this factor. [-]

    Notes
    -----
    φ_k = i_k / i_{k+1}.

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 4. From memory.

    """
    require(np.asarray(ratios) > 0.0, "ratios", ratios, "-", "more than zero")
    return ratios[:-1] / ratios[1:]


def lowest_ratio_for_grade(
    *,
    weight: Values,
    grade_angle: Values,
    rolling_coefficient: Values,
    rolling_radius: Values,
    torque: Values,
    efficiency: Values,
) -> Values:
    """Return the least overall first-gear ratio that starts the car on a grade.

    Parameters
    ----------
    weight : float or array
        Weight of the laden car and what it tows. [N]
    grade_angle : float or array
        Slope of the road. [rad]
    rolling_coefficient : float or array
        Rolling resistance coefficient. [-]
    rolling_radius : float or array
        Distance rolled per radian. [m]
    torque : float or array
        Engine torque at the start. [N·m]
    efficiency : float or array
        Efficiency of the driveline. [-]

    Returns
    -------
    float or array
        Overall ratio of first gear. [-]

    Notes
    -----
    N_1 = W (f cosθ + sinθ) r / (T η).

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 4. From memory.

    """
    require_positive(weight=(weight, "N"), torque=(torque, "N·m"), efficiency=(efficiency, "-"))
    pull = weight * (rolling_coefficient * np.cos(grade_angle) + np.sin(grade_angle))
    return pull * rolling_radius / (torque * efficiency)


def grade_for_force(*, surplus_force: Values, weight: Values) -> Values:
    """Return the grade that a surplus of force holds.

    Parameters
    ----------
    surplus_force : float or array
        Drive force less rolling and air resistance on the level. [N]
    weight : float or array
        Weight of the laden car and what it tows. [N]

    Returns
    -------
    float or array
        Rise over run, tanθ; nan where the force exceeds the weight. [-]

    Notes
    -----
    sinθ = F/W. The small change of rolling resistance with cosθ is left out.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", ch. 3. From memory.

    """
    require_positive(weight=(weight, "N"))
    sine = np.asarray(surplus_force / weight, dtype=np.float64)
    sine = np.where(np.abs(sine) < 1.0, sine, np.nan)
    return np.tan(np.arcsin(sine))
