"""Universal joints and turning shafts: unevenness, residual shake, critical speed, stress."""

from __future__ import annotations

from typing import cast

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def joint_speed_ratio(*, joint_angle: Values, turn: Values) -> Values:
    """Return the output speed over the input speed of one universal joint.

    Parameters
    ----------
    joint_angle : float or array
        Angle between the two shafts. [rad]
    turn : float or array
        Turn of the input yoke from the plane of the shafts. [rad]

    Returns
    -------
    float or array
        Speed ratio at that instant. [-]

    Notes
    -----
    ω₂/ω₁ = cosβ / (1 − sin²β cos²φ).

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory.

    """
    _check_angle(joint_angle)
    return np.cos(joint_angle) / (1.0 - (np.sin(joint_angle) * np.cos(turn)) ** 2)


def joint_speed_fluctuation(*, joint_angle: Values) -> Values:
    """Return how much the output of one universal joint speeds up and slows down.

    Parameters
    ----------
    joint_angle : float or array
        Angle between the two shafts. [rad]

    Returns
    -------
    float or array
        Greatest less least output speed over the input speed. [-]

    Notes
    -----
    1/cosβ − cosβ = sinβ tanβ, twice a turn.

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory.

    """
    _check_angle(joint_angle)
    return cast(Array, np.sin(joint_angle) * np.tan(joint_angle))


def joint_phase_error(*, joint_angle: Values) -> Values:
    """Return how far the output of one universal joint runs ahead of the input at most.

    Parameters
    ----------
    joint_angle : float or array
        Angle between the two shafts. [rad]

    Returns
    -------
    float or array
        Greatest lead, and the greatest lag. [rad]

    Notes
    -----
    atan[(1 − cosβ) / (2 √cosβ)].

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory.

    """
    _check_angle(joint_angle)
    cosine = np.cos(joint_angle)
    return cast(Array, np.arctan((1.0 - cosine) / (2.0 * np.sqrt(cosine))))


def compound_joint_angle(*, side_angle: Values, plan_angle: Values) -> Values:
    """Return the true joint angle from its angles in side view and in plan.

    Parameters
    ----------
    side_angle : float or array
        Angle between the shafts as seen from the side. [rad]
    plan_angle : float or array
        Angle between the shafts as seen from above. [rad]

    Returns
    -------
    float or array
        Angle between the shafts. [rad]

    Notes
    -----
    tanβ = √(tan²S + tan²T), for one shaft along the line that both views share.

    References
    ----------
    .. [1] "Driveline installation" manual J3311-1, fig. 6, which prints √(S² + T²); the two
       differ by less than 0.1 % up to 4°. Reprint.

    """
    tangent = np.hypot(np.tan(side_angle), np.tan(plan_angle))
    return cast(Array, np.arctan(tangent))


def residual_joint_angle(*, first: Values, second: Values, in_phase: bool) -> Values:
    """Return the angle of the one joint that shakes as much as two joints together.

    Parameters
    ----------
    first : float or array
        Angle of the first joint. [rad]
    second : float or array
        Angle of the second joint. [rad]
    in_phase : bool
        Whether the two yokes of the shaft between them lie in one plane. [-]

    Returns
    -------
    float or array
        Equivalent angle. [rad]

    Notes
    -----
    √|β₁² − β₂²| in phase, √(β₁² + β₂²) a quarter turn out of phase; small angles.

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory; a table of
       allowed pairs in an engineers' reference agrees within 0.1°.

    """
    _check_angle(first)
    _check_angle(second)
    if in_phase:
        return cast(Array, np.sqrt(np.abs(np.square(first) - np.square(second))))
    return cast(Array, np.hypot(first, second))


def joint_excitation(*, shaft_speed: Values, joint_angle: Values) -> Values:
    """Return the peak angular acceleration that a joint angle makes at a shaft speed.

    Parameters
    ----------
    shaft_speed : float or array
        Angular speed of the shaft. [rad/s]
    joint_angle : float or array
        Joint angle, or the residual angle of several joints. [rad]

    Returns
    -------
    float or array
        Angular acceleration. [rad/s²]

    Notes
    -----
    ω² β², within 1 % of the exact value up to 20° with sin²β. Trade limits: 300 to 400 rad/s²
    for the residual, 1000 rad/s² for each joint.

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory.

    """
    _check_angle(joint_angle)
    return np.square(shaft_speed) * np.square(joint_angle)


def joint_angle_for_excitation(*, shaft_speed: Values, excitation: Values) -> Values:
    """Return the joint angle that makes an angular acceleration at a shaft speed.

    Parameters
    ----------
    shaft_speed : float or array
        Angular speed of the shaft. [rad/s]
    excitation : float or array
        Angular acceleration. [rad/s²]

    Returns
    -------
    float or array
        Joint angle. [rad]

    Notes
    -----
    β = √α/ω.

    References
    ----------
    .. [1] SAE AE-7, "Universal Joint and Driveshaft Design Manual". From memory.

    """
    require_positive(shaft_speed=(shaft_speed, "rad/s"), excitation=(excitation, "rad/s²"))
    return np.sqrt(excitation) / shaft_speed


def shaft_critical_speed(
    *,
    outside_diameter: Values,
    inside_diameter: Values,
    length: Values,
    elastic_modulus: Values,
    density: Values,
) -> Values:
    """Return the speed at which a shaft between two joints whirls.

    Parameters
    ----------
    outside_diameter : float or array
        Outside diameter of the tube. [m]
    inside_diameter : float or array
        Inside diameter; 0 for a bar. [m]
    length : float or array
        Distance between the joint centres. [m]
    elastic_modulus : float or array
        Young's modulus. [Pa]
    density : float or array
        Density. [kg/m³]

    Returns
    -------
    float or array
        Angular speed. [rad/s]

    Notes
    -----
    ω_c = (π/L)² √(E (D² + d²)/(16 ρ)), first bending mode of a uniform beam on pinned ends. The
    masses of yokes lower it: makers take 0.92 of it, and run at 0.75 of that at most.

    References
    ----------
    .. [1] S. Timoshenko, "Vibration Problems in Engineering". From memory; recomputed with 40
       beam elements.

    """
    require_positive(outside_diameter=(outside_diameter, "m"), length=(length, "m"))
    require_positive(elastic_modulus=(elastic_modulus, "Pa"), density=(density, "kg/m³"))
    _check_bore(outside_diameter, inside_diameter)
    square = np.square(outside_diameter) + np.square(inside_diameter)
    stiffness = np.sqrt(elastic_modulus * square / (16.0 * density))
    return np.square(np.pi / length) * stiffness


def shaft_shear_stress(
    *, torque: Values, outside_diameter: Values, inside_diameter: Values
) -> Values:
    """Return the shear stress at the skin of a round shaft.

    Parameters
    ----------
    torque : float or array
        Torque. [N·m]
    outside_diameter : float or array
        Outside diameter, at the root of a spline. [m]
    inside_diameter : float or array
        Inside diameter; 0 for a bar. [m]

    Returns
    -------
    float or array
        Shear stress. [Pa]

    Notes
    -----
    τ = 16 T D / (π (D⁴ − d⁴)).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 3-37. From memory.

    """
    require_positive(outside_diameter=(outside_diameter, "m"))
    _check_bore(outside_diameter, inside_diameter)
    ring = np.asarray(outside_diameter) ** 4 - np.asarray(inside_diameter) ** 4
    return cast(Array, 16.0 * torque * outside_diameter / (np.pi * ring))


def shaft_torsional_stiffness(
    *,
    outside_diameter: Values,
    inside_diameter: Values,
    length: Values,
    shear_modulus: Values,
) -> Values:
    """Return how stiffly a round shaft resists twist.

    Parameters
    ----------
    outside_diameter : float or array
        Outside diameter. [m]
    inside_diameter : float or array
        Inside diameter; 0 for a bar. [m]
    length : float or array
        Length that twists. [m]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Torque per twist. [N·m/rad]

    Notes
    -----
    k = G J / L, J = π (D⁴ − d⁴)/32.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 3-35. From memory.

    """
    require_positive(outside_diameter=(outside_diameter, "m"), length=(length, "m"))
    _check_bore(outside_diameter, inside_diameter)
    ring = np.asarray(outside_diameter) ** 4 - np.asarray(inside_diameter) ** 4
    return cast(Array, shear_modulus * np.pi * ring / (32.0 * length))


def _check_angle(angle: Values) -> None:
    inside = np.greater_equal(angle, 0.0) & np.less(angle, np.pi / 2.0)
    require(inside, "joint_angle", angle, "rad", "from nothing to a right angle")


def _check_bore(outside: Values, inside: Values) -> None:
    hollow = np.greater_equal(inside, 0.0) & np.less(inside, outside)
    require(hollow, "inside_diameter", inside, "m", "from nothing to the outside diameter")
