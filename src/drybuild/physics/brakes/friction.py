"""Brake factors and torques: discs, and drums with one, two or chained leading shoes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array


def effective_radius_uniform_wear(*, outer_radius: Real, inner_radius: Real) -> Array:
    """Return a disc's effective radius with bedded pads (uniform wear).

    Parameters
    ----------
    outer_radius : float
        Outer radius of the swept band. [m]
    inner_radius : float
        Inner radius of the swept band. [m]

    Returns
    -------
    float
        Radius at which the friction acts. [m]

    Notes
    -----
    r_e = (r_o + r_i) / 2.

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 16, eq. 16-31.

    """
    _require_band(outer_radius, inner_radius)
    return np.asarray((outer_radius + inner_radius) / 2.0)


def effective_radius_uniform_pressure(*, outer_radius: Real, inner_radius: Real) -> Array:
    """Return a disc's effective radius with new pads (uniform pressure).

    Parameters
    ----------
    outer_radius : float
        Outer radius of the swept band. [m]
    inner_radius : float
        Inner radius of the swept band. [m]

    Returns
    -------
    float
        Radius at which the friction acts. [m]

    Notes
    -----
    r_e = ⅔ (r_o³ − r_i³) / (r_o² − r_i²).

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 16, eq. 16-35.

    """
    _require_band(outer_radius, inner_radius)
    cubes = np.power(outer_radius, 3) - np.power(inner_radius, 3)
    squares = np.square(outer_radius) - np.square(inner_radius)
    return np.asarray(2.0 / 3.0 * cubes / squares)


@dataclass(frozen=True, kw_only=True)
class AnnularPad:
    """What an annular disc pad needs and where its force acts."""

    largest_pressure: Real
    """[Pa]"""
    normal_force: Real
    """[N]"""
    effective_radius: Real
    """Torque over friction force. [m]"""
    force_radius: Real
    """Distance of the resultant normal force from the disc's axis. [m]"""


def annular_pad_uniform_wear(
    *, torque: Real, friction: Real, outer_radius: Real, inner_radius: Real, angle: Real
) -> AnnularPad:
    """Return the pressure and force of an annular pad that gives a torque, bedded in.

    Parameters
    ----------
    torque : float
        Torque of one pad. [N·m]
    friction : float
        Coefficient of friction. [-]
    outer_radius : float
        Outer radius of the pad. [m]
    inner_radius : float
        Inner radius of the pad. [m]
    angle : float
        Angle that the pad spans. [rad]

    Returns
    -------
    AnnularPad
        Largest pressure (at the inner edge), normal force, effective and force radius.

    Notes
    -----
    T = ½ Θ f p_a r_i (r_o² − r_i²); F = Θ p_a r_i (r_o − r_i);
    r̄ = (cos θ₁ − cos θ₂) r_e / Θ with the pad symmetrical about 90°.

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 16, eq. 16-28 to 16-32.

    """
    _require_band(outer_radius, inner_radius)
    require(np.greater(friction, 0.0), "friction", friction, "-", "more than zero")
    require(np.greater(angle, 0.0), "angle", angle, "rad", "more than zero")
    band = np.square(outer_radius) - np.square(inner_radius)
    pressure = 2.0 * torque / (angle * friction * inner_radius * band)
    mean = (outer_radius + inner_radius) / 2.0
    return AnnularPad(
        largest_pressure=pressure,
        normal_force=angle * pressure * inner_radius * (outer_radius - inner_radius),
        effective_radius=mean,
        force_radius=2.0 * np.sin(angle / 2.0) * mean / angle,
    )


def disc_brake_factor(*, friction: Real) -> Array:
    """Return a disc brake's factor: drag on the disc over clamping force.

    Parameters
    ----------
    friction : float
        Pad friction coefficient. [-]

    Returns
    -------
    float
        C*. [-]

    Notes
    -----
    C* = 2 μ: two faces.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    require(np.greater(friction, 0.0), "friction", friction, "-", "more than zero")
    return np.asarray(2.0 * friction)


def brake_torque(
    *,
    pressure: Real,
    threshold_pressure: Real,
    piston_area: Real,
    brake_factor: Real,
    radius: Real,
) -> Array:
    """Return the torque of one brake, disc or drum.

    Parameters
    ----------
    pressure : float
        Line pressure at this brake. [Pa]
    threshold_pressure : float
        Pressure that springs and seals take first; about 0.5 bar disc, 5 bar drum. [Pa]
    piston_area : float
        Disc: pistons of one side of the disc. Drum: one wheel cylinder piston. [m²]
    brake_factor : float
        C*: all friction over the force of that piston area. [-]
    radius : float
        Effective radius of the disc, or radius of the drum. [m]

    Returns
    -------
    float
        Torque; zero below the threshold. [N·m]

    Notes
    -----
    T = C* (p − p₀) A r.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater(piston_area, 0.0), "piston_area", piston_area, "m²", "more than zero")
    require(np.greater(radius, 0.0), "radius", radius, "m", "more than zero")
    require(
        np.greater_equal(threshold_pressure, 0.0),
        "threshold_pressure",
        threshold_pressure,
        "Pa",
        "zero or more",
    )
    working = np.maximum(np.subtract(pressure, threshold_pressure), 0.0)
    return np.asarray(brake_factor * working * piston_area * radius)


def leading_shoe_factor(
    *, friction: Real, actuation_arm: Real, normal_arm: Real, friction_arm: Real
) -> Array:
    """Return the factor of a pivoted shoe that the drum drags into itself.

    Parameters
    ----------
    friction : float
        Lining friction coefficient. [-]
    actuation_arm : float
        From the pivot to the line of the actuating force. [m]
    normal_arm : float
        From the pivot to the line of the normal force. [m]
    friction_arm : float
        From the pivot to the line of the friction force. [m]

    Returns
    -------
    float
        Friction force over actuating force; nan where the shoe would lock itself. [-]

    Notes
    -----
    S = μ a / (b − μ c), resultant taken at the lining's centre; self-locking at μ = b/c.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    _require_arms(friction, actuation_arm, normal_arm, friction_arm)
    left = normal_arm - friction * friction_arm
    return np.asarray(
        np.where(
            np.greater(left, 0.0),
            friction * actuation_arm / np.where(left > 0.0, left, 1.0),
            np.nan,
        )
    )


def trailing_shoe_factor(
    *, friction: Real, actuation_arm: Real, normal_arm: Real, friction_arm: Real
) -> Array:
    """Return the factor of a pivoted shoe that the drum pushes away.

    Parameters
    ----------
    friction : float
        Lining friction coefficient. [-]
    actuation_arm : float
        From the pivot to the line of the actuating force. [m]
    normal_arm : float
        From the pivot to the line of the normal force. [m]
    friction_arm : float
        From the pivot to the line of the friction force. [m]

    Returns
    -------
    float
        Friction force over actuating force. [-]

    Notes
    -----
    S = μ a / (b + μ c).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    _require_arms(friction, actuation_arm, normal_arm, friction_arm)
    return np.asarray(friction * actuation_arm / (normal_arm + friction * friction_arm))


def simplex_factor(*, leading: Real, trailing: Real) -> Array:
    """Return the factor of a drum with one leading and one trailing shoe.

    Parameters
    ----------
    leading : float
        Factor of the leading shoe. [-]
    trailing : float
        Factor of the trailing shoe. [-]

    Returns
    -------
    float
        C*. [-]

    Notes
    -----
    C* = S_l + S_t: a hydraulic cylinder pushes both shoes alike.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    return np.asarray(leading + trailing)


def duplex_factor(*, leading: Real) -> Array:
    """Return the factor of a drum with two leading shoes, going forward.

    Parameters
    ----------
    leading : float
        Factor of one leading shoe. In reverse, give the trailing shoe's. [-]

    Returns
    -------
    float
        C*. [-]

    Notes
    -----
    C* = 2 S_l.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    return np.asarray(2.0 * leading)


def equal_wear_simplex_factor(*, leading: Real, trailing: Real) -> Array:
    """Return the factor of a drum whose fixed cam moves both shoes alike.

    Parameters
    ----------
    leading : float
        Factor of the leading shoe. [-]
    trailing : float
        Factor of the trailing shoe. [-]

    Returns
    -------
    float
        C*, of the mean actuating force. [-]

    Notes
    -----
    C* = 4 S_l S_t / (S_l + S_t).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    return np.asarray(4.0 * leading * trailing / (leading + trailing))


def duo_servo_factor(
    *, friction: Real, actuation_arm: Real, normal_arm: Real, friction_arm: Real
) -> Array:
    """Return the factor of a drum whose first shoe pushes the second.

    Parameters
    ----------
    friction : float
        Lining friction coefficient. [-]
    actuation_arm : float
        From the adjuster's link to the actuating line, and from the anchor to the link. [m]
    normal_arm : float
        From the link (or anchor) to the line of the normal force. [m]
    friction_arm : float
        From the link (or anchor) to the line of the friction force. [m]

    Returns
    -------
    float
        C*; nan where a shoe would lock itself. [-]

    Notes
    -----
    Both shoes alike, the link carries thrust only: the primary shoe gives S and passes on
    N − F = F (S/μ − 1) to the secondary, so C* = S (1 + S/μ − 1) = S²/μ. The wheel cylinder's own
    push on the secondary shoe, close to its anchor, is left out.

    References
    ----------
    .. [1] Statics of the arrangement in Limpert, Brake Design and Safety, 2nd ed., ch. 2.

    """
    shoe = leading_shoe_factor(
        friction=friction,
        actuation_arm=actuation_arm,
        normal_arm=normal_arm,
        friction_arm=friction_arm,
    )
    return np.asarray(np.square(shoe) / friction)


@dataclass(frozen=True, kw_only=True)
class ShoeMoments:
    """Moments on a hinged shoe for a largest lining pressure, and the torque it gives."""

    friction_moment: Real
    """Of the friction about the hinge. [N·m]"""
    normal_moment: Real
    """Of the normal force about the hinge. [N·m]"""
    torque: Real
    """On the drum. [N·m]"""

    def leading_force(self, *, actuation_arm: Real) -> Array:
        """Return the actuating force of a leading shoe; `actuation_arm` in metres. [N]."""
        return np.asarray((self.normal_moment - self.friction_moment) / actuation_arm)

    def trailing_force(self, *, actuation_arm: Real) -> Array:
        """Return the actuating force of a trailing shoe; `actuation_arm` in metres. [N]."""
        return np.asarray((self.normal_moment + self.friction_moment) / actuation_arm)


def hinged_shoe_moments(
    *,
    friction: Real,
    largest_pressure: Real,
    width: Real,
    drum_radius: Real,
    hinge_radius: Real,
    heel_angle: Real,
    toe_angle: Real,
) -> ShoeMoments:
    """Return the moments on an internal long shoe with a fixed hinge.

    Parameters
    ----------
    friction : float
        Lining friction coefficient. [-]
    largest_pressure : float
        Largest pressure on the lining. [Pa]
    width : float
        Lining width. [m]
    drum_radius : float
        Inside radius of the drum. [m]
    hinge_radius : float
        From the drum's axis to the hinge. [m]
    heel_angle : float
        From the hinge to the lining's near end, about the axis. [rad]
    toe_angle : float
        From the hinge to the lining's far end. [rad]

    Returns
    -------
    ShoeMoments
        Friction moment, normal moment, torque.

    Notes
    -----
    Pressure p = p_a sin θ / sin θ_a, θ_a = 90° where the lining reaches it, else its far end.
    M_f = f p_a b r / sin θ_a ∫ sin θ (r − a cos θ) dθ; M_n = p_a b r a / sin θ_a ∫ sin² θ dθ;
    T = f p_a b r² (cos θ₁ − cos θ₂) / sin θ_a.

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 16, eq. 16-2 to 16-6.

    """
    require(np.greater(toe_angle, heel_angle), "toe_angle", toe_angle, "rad", "past the heel")
    require(np.greater(friction, 0.0), "friction", friction, "-", "more than zero")
    at_largest = np.sin(np.minimum(toe_angle, np.pi / 2.0))
    scale = largest_pressure * width * drum_radius / at_largest
    cosines = np.cos(heel_angle) - np.cos(toe_angle)
    squares = np.square(np.sin(toe_angle)) - np.square(np.sin(heel_angle))
    sines = np.sin(2.0 * np.asarray(toe_angle)) - np.sin(2.0 * np.asarray(heel_angle))
    spread = (toe_angle - heel_angle) / 2.0 - sines / 4.0
    return ShoeMoments(
        friction_moment=friction * scale * (drum_radius * cosines - hinge_radius / 2.0 * squares),
        normal_moment=scale * hinge_radius * spread,
        torque=friction * scale * drum_radius * cosines,
    )


def _require_band(outer: Real, inner: Real) -> None:
    require(np.greater(inner, 0.0), "inner_radius", inner, "m", "more than zero")
    require(np.greater(outer, inner), "outer_radius", outer, "m", "more than the inner radius")


def _require_arms(friction: Real, actuation: Real, normal: Real, friction_arm: Real) -> None:
    require(np.greater(friction, 0.0), "friction", friction, "-", "more than zero")
    require(np.greater(actuation, 0.0), "actuation_arm", actuation, "m", "more than zero")
    require(np.greater(normal, 0.0), "normal_arm", normal, "m", "more than zero")
    require(np.greater(friction_arm, 0.0), "friction_arm", friction_arm, "m", "more than zero")
