"""How braking is shared between the axles: loads, the ideal curve, adhesion used, what locks."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array


def front_load(*, front_share: Real, height_ratio: Real, braking_rate: Real) -> Array:
    """Return the share of the weight on the front axle while braking.

    Parameters
    ----------
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        N₁/P; above 1 the rear wheels lift. [-]

    Notes
    -----
    N₁/P = (1 − ψ) + z χ, level road, two axles, no air drag.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.

    """
    _require_car(front_share, height_ratio)
    return np.asarray(front_share + braking_rate * height_ratio)


def rear_load(*, front_share: Real, height_ratio: Real, braking_rate: Real) -> Array:
    """Return the share of the weight on the rear axle while braking.

    Parameters
    ----------
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        N₂/P; negative where the rear wheels would lift. [-]

    Notes
    -----
    N₂/P = ψ − z χ.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.

    """
    _require_car(front_share, height_ratio)
    return np.asarray(1.0 - front_share - braking_rate * height_ratio)


def ideal_front_share(*, front_share: Real, height_ratio: Real, braking_rate: Real) -> Array:
    """Return the front share of braking at which both axles use the same adhesion.

    Parameters
    ----------
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        Ideal front braking force over all braking force. [-]

    Notes
    -----
    T₁/P = z (1 − ψ + z χ), so the share is N₁/P itself.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.

    """
    return np.asarray(
        front_load(front_share=front_share, height_ratio=height_ratio, braking_rate=braking_rate)
    )


def ideal_rear_force(*, front_force: Real, front_share: Real, height_ratio: Real) -> Array:
    """Return the rear braking force of the ideal curve for a front one, both over weight.

    Parameters
    ----------
    front_force : float
        Front braking force over weight. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase; more than zero. [-]

    Returns
    -------
    float
        Rear braking force over weight. [-]

    Notes
    -----
    T₂/P = √((1−ψ)²/4χ² + T₁/(χ P)) − (1−ψ)/2χ − T₁/P.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7, the braking parabola.

    """
    _require_car(front_share, height_ratio)
    require(np.greater(height_ratio, 0.0), "height_ratio", height_ratio, "-", "more than zero")
    half = front_share / (2.0 * height_ratio)
    return np.asarray(np.sqrt(np.square(half) + front_force / height_ratio) - half - front_force)


def front_adhesion_used(
    *, front_force: Real, front_share: Real, height_ratio: Real, braking_rate: Real
) -> Array:
    """Return the adhesion that the front axle needs.

    Parameters
    ----------
    front_force : float
        Front braking force over weight. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        f₁ = T₁/N₁. [-]

    Notes
    -----
    f₁ = T₁ / (P₁ + z P h/E).

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 5; Directive 71/320/EEC, Annex II, Appendix.

    """
    return np.asarray(
        front_force
        / front_load(front_share=front_share, height_ratio=height_ratio, braking_rate=braking_rate)
    )


def rear_adhesion_used(
    *, rear_force: Real, front_share: Real, height_ratio: Real, braking_rate: Real
) -> Array:
    """Return the adhesion that the rear axle needs.

    Parameters
    ----------
    rear_force : float
        Rear braking force over weight. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]
    braking_rate : float
        Deceleration over g. [-]

    Returns
    -------
    float
        f₂ = T₂/N₂; nan where the rear wheels have lifted. [-]

    Notes
    -----
    f₂ = T₂ / (P₂ − z P h/E).

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 5; Directive 71/320/EEC, Annex II, Appendix.

    """
    load = np.asarray(
        rear_load(front_share=front_share, height_ratio=height_ratio, braking_rate=braking_rate)
    )
    return np.asarray(rear_force / np.where(load > 0.0, load, np.nan))


def critical_braking_rate(*, brake_share: Real, front_share: Real, height_ratio: Real) -> Array:
    """Return the rate at which both axles lock together, for a fixed brake share.

    Parameters
    ----------
    brake_share : float
        Front braking force over all braking force. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase; more than zero. [-]

    Returns
    -------
    float
        z_c; below it the front locks first, above it the rear. Negative: always the rear. [-]

    Notes
    -----
    z_c = (Φ − P₁/P) / χ.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.

    """
    _require_share(brake_share)
    _require_car(front_share, height_ratio)
    require(np.greater(height_ratio, 0.0), "height_ratio", height_ratio, "-", "more than zero")
    return np.asarray((brake_share - front_share) / height_ratio)


def front_lock_rate(
    *, brake_share: Real, adhesion: Real, front_share: Real, height_ratio: Real
) -> Array:
    """Return the rate at which the front axle locks, for a fixed brake share.

    Parameters
    ----------
    brake_share : float
        Front braking force over all braking force. [-]
    adhesion : float
        Tyre to road adhesion. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]

    Returns
    -------
    float
        z_f; nan where the front never locks. [-]

    Notes
    -----
    z_f = μ (P₁/P) / (Φ − μ χ).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.
    .. [2] Wong, Theory of Ground Vehicles, 3rd ed., ch. 3, rolling resistance left out.

    """
    _require_share(brake_share)
    _require_car(front_share, height_ratio)
    require(np.greater(adhesion, 0.0), "adhesion", adhesion, "-", "more than zero")
    left = np.asarray(brake_share - adhesion * height_ratio)
    return np.asarray(adhesion * front_share / np.where(left > 0.0, left, np.nan))


def rear_lock_rate(
    *, brake_share: Real, adhesion: Real, front_share: Real, height_ratio: Real
) -> Array:
    """Return the rate at which the rear axle locks, for a fixed brake share.

    Parameters
    ----------
    brake_share : float
        Front braking force over all braking force. [-]
    adhesion : float
        Tyre to road adhesion. [-]
    front_share : float
        Static front axle load over weight. [-]
    height_ratio : float
        Height of the centre of gravity over wheelbase. [-]

    Returns
    -------
    float
        z_r. [-]

    Notes
    -----
    z_r = μ (P₂/P) / (1 − Φ + μ χ).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.
    .. [2] Wong, Theory of Ground Vehicles, 3rd ed., ch. 3, rolling resistance left out.

    """
    _require_share(brake_share)
    _require_car(front_share, height_ratio)
    require(np.greater(adhesion, 0.0), "adhesion", adhesion, "-", "more than zero")
    return np.asarray(
        adhesion * (1.0 - front_share) / (1.0 - brake_share + adhesion * height_ratio)
    )


def braking_efficiency(*, braking_rate: Real, front_adhesion: Real, rear_adhesion: Real) -> Array:
    """Return how much of the adhesion a stop uses before the first axle locks.

    Parameters
    ----------
    braking_rate : float
        Deceleration over g. [-]
    front_adhesion : float
        Adhesion that the front axle needs at that rate. [-]
    rear_adhesion : float
        Adhesion that the rear axle needs at that rate. [-]

    Returns
    -------
    float
        Efficiency, 1 on the ideal curve. [-]

    Notes
    -----
    η = z / max(f₁, f₂).

    References
    ----------
    .. [1] Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 3, "Braking efficiency".

    """
    worst = np.maximum(front_adhesion, rear_adhesion)
    return np.asarray(braking_rate / np.where(np.greater(worst, 0.0), worst, np.nan))


def least_rate_eec_71_320(*, adhesion: Real) -> Array:
    """Return the rate that an adhesion must at least give, older European directive.

    Parameters
    ----------
    adhesion : float
        Adhesion used by the worse axle, 0.2 to 0.8. [-]

    Returns
    -------
    float
        Least braking rate; nan outside 0.2 to 0.8. [-]

    Notes
    -----
    z ≥ 0.1 + 0.85 (k − 0.2).

    References
    ----------
    .. [1] Directive 71/320/EEC, Annex II, Appendix, 3.1.1, from memory; agrees with the end of the
       printed N₁ clause (z = 0.61 at k = 0.8).

    """
    inside = np.greater_equal(adhesion, 0.2) & np.less_equal(adhesion, 0.8)
    return np.asarray(np.where(inside, 0.1 + 0.85 * (np.asarray(adhesion) - 0.2), np.nan))


def least_rate_ece_r13h(*, adhesion: Real) -> Array:
    """Return the rate that an adhesion must at least give, UN Regulation 13-H.

    Parameters
    ----------
    adhesion : float
        Adhesion used by the worse axle, 0.2 to 0.8. [-]

    Returns
    -------
    float
        Least braking rate; nan outside 0.2 to 0.8. [-]

    Notes
    -----
    z ≥ 0.1 + 0.7 (k − 0.2).

    References
    ----------
    .. [1] UN Regulation No. 13-H, Annex 5, 3.1, from memory.

    """
    inside = np.greater_equal(adhesion, 0.2) & np.less_equal(adhesion, 0.8)
    return np.asarray(np.where(inside, 0.1 + 0.7 * (np.asarray(adhesion) - 0.2), np.nan))


def _require_car(front_share: Real, height_ratio: Real) -> None:
    inside = np.greater(front_share, 0.0) & np.less(front_share, 1.0)
    require(inside, "front_share", front_share, "-", "between 0 and 1")
    require(np.greater_equal(height_ratio, 0.0), "height_ratio", height_ratio, "-", "zero or more")


def _require_share(brake_share: Real) -> None:
    inside = np.greater_equal(brake_share, 0.0) & np.less_equal(brake_share, 1.0)
    require(inside, "brake_share", brake_share, "-", "0 to 1")
