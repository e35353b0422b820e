"""The parking brake on a grade: what the road allows and what the hand gives."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array


def holding_force(*, weight: Real, grade: Real) -> Array:
    """Return the force along the road that holds a car on a grade.

    Parameters
    ----------
    weight : float
        Weight of the car. [N]
    grade : float
        Rise over horizontal run. [-]

    Returns
    -------
    float
        Force. [N]

    Notes
    -----
    F = P sin(atan i).

    References
    ----------
    .. [1] Statics; Limpert, Brake Design and Safety, 2nd ed., ch. 8.

    """
    require(np.greater_equal(grade, 0.0), "grade", grade, "-", "zero or more")
    return np.asarray(weight * np.sin(np.arctan(grade)))


def adhesion_needed_rear(
    *, grade: Real, front_share: Real, height_ratio: Real, facing: int
) -> Array:
    """Return the adhesion that the rear wheels need to hold the car alone.

    Parameters
    ----------
    grade : float
        Rise over horizontal run. [-]
    front_share : float
        Front axle load over weight, on the level. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    facing : int
        1 nose up, −1 nose down. [-]

    Returns
    -------
    float
        Adhesion; nan where the rear wheels carry nothing. [-]

    Notes
    -----
    μ = tan θ / (ψ ± χ tan θ), ψ the rear share of the weight.

    References
    ----------
    .. [1] Statics; Limpert, Brake Design and Safety, 2nd ed., ch. 8.

    """
    require(facing in (1, -1), "facing", facing, "-", "1 or -1")
    load = np.asarray(1.0 - front_share + facing * height_ratio * grade)
    return np.asarray(grade / np.where(load > 0.0, load, np.nan))


def largest_grade_by_adhesion_rear(
    *, adhesion: Real, front_share: Real, height_ratio: Real, facing: int
) -> Array:
    """Return the steepest grade on which locked rear wheels do not slide.

    Parameters
    ----------
    adhesion : float
        Tyre to road adhesion. [-]
    front_share : float
        Front axle load over weight, on the level. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    facing : int
        1 nose up, −1 nose down. [-]

    Returns
    -------
    float
        Rise over horizontal run. [-]

    Notes
    -----
    tan θ = μ ψ / (1 ∓ μ χ): minus nose up, plus nose down.

    References
    ----------
    .. [1] Statics; Limpert, Brake Design and Safety, 2nd ed., ch. 8.

    """
    require(facing in (1, -1), "facing", facing, "-", "1 or -1")
    require(np.greater(adhesion, 0.0), "adhesion", adhesion, "-", "more than zero")
    left = np.asarray(1.0 - facing * adhesion * height_ratio)
    return np.asarray(adhesion * (1.0 - front_share) / np.where(left > 0.0, left, np.nan))


def largest_grade_by_force(*, force: Real, weight: Real) -> Array:
    """Return the steepest grade on which a braking force holds the car.

    Parameters
    ----------
    force : float
        Braking force at the tyres. [N]
    weight : float
        Weight of the car. [N]

    Returns
    -------
    float
        Rise over horizontal run; infinite where the force is the whole weight. [-]

    Notes
    -----
    tan(asin(F/P)).

    References
    ----------
    .. [1] Statics.

    """
    require(np.greater_equal(force, 0.0), "force", force, "N", "zero or more")
    sine = np.minimum(force / np.asarray(weight), 1.0)
    cosine = np.sqrt(1.0 - np.square(sine))
    return np.asarray(np.where(cosine > 0.0, sine / np.where(cosine > 0.0, cosine, 1.0), np.inf))


def cable_brake_torque(
    *,
    hand_force: Real,
    lever_ratio: Real,
    cable_efficiency: Real,
    brake_ratio: Real,
    brake_factor: Real,
    radius: Real,
) -> Array:
    """Return the torque of one cable-worked brake when two share the lever's pull.

    Parameters
    ----------
    hand_force : float
        Force on the lever's grip. [N]
    lever_ratio : float
        Travel of the grip over travel of the cable. [-]
    cable_efficiency : float
        Of cables and equaliser: 0.5 to 0.8. [-]
    brake_ratio : float
        Of the lever in the brake: actuating force over cable force. [-]
    brake_factor : float
        C* of the brake, of its actuating force. [-]
    radius : float
        Drum radius, or effective radius of the disc. [m]

    Returns
    -------
    float
        Torque of one brake. [N·m]

    Notes
    -----
    T = ½ F_h i_l η i_b C* r.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 4.

    """
    require(np.greater_equal(hand_force, 0.0), "hand_force", hand_force, "N", "zero or more")
    require(np.greater(lever_ratio, 0.0), "lever_ratio", lever_ratio, "-", "more than zero")
    require(
        np.greater(cable_efficiency, 0.0) & np.less_equal(cable_efficiency, 1.0),
        "cable_efficiency",
        cable_efficiency,
        "-",
        "more than 0, at most 1",
    )
    pull = hand_force * lever_ratio * cable_efficiency / 2.0
    return np.asarray(pull * brake_ratio * brake_factor * radius)
