"""Steel springs and anti-roll bars: rate, stress, and what a cut or a bush does to them."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


def coil_spring_rate(
    *,
    wire_diameter: Values,
    mean_diameter: Values,
    active_coils: Values,
    shear_modulus: Values,
) -> Values:
    """Return the rate of a helical compression spring of round wire.

    Parameters
    ----------
    wire_diameter : float or array
        Diameter of the wire. [m]
    mean_diameter : float or array
        Mean diameter of the coil, centre of wire to centre of wire. [m]
    active_coils : float or array
        Coils that twist; the seated end coils do not. [-]
    shear_modulus : float or array
        Shear modulus of the wire. [Pa]

    Returns
    -------
    float or array
        Rate at the spring. [N/m]

    Notes
    -----
    k = G d⁴ / (8 D³ Nₐ). Curvature and direct shear are left out, as in the book.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-9.

    """
    _positive(wire_diameter=wire_diameter, mean_diameter=mean_diameter)
    require(np.greater(active_coils, 0.0), "active_coils", active_coils, "-", "more than zero")
    require(np.greater(shear_modulus, 0.0), "shear_modulus", shear_modulus, "Pa", "more than zero")
    return shear_modulus * wire_diameter**4 / (8.0 * mean_diameter**3 * active_coils)


def cut_coil_spring_rate(*, rate: Values, active_coils: Values, coils_removed: Values) -> Values:
    """Return the rate of a coil spring after coils have been cut off.

    Parameters
    ----------
    rate : float or array
        Rate before the cut. [N/m]
    active_coils : float or array
        Active coils before the cut. [-]
    coils_removed : float or array
        Active coils that the cut takes away. [-]

    Returns
    -------
    float or array
        Rate after the cut. [N/m]

    Notes
    -----
    k₂ = k₁ N₁ / (N₁ − ΔN): the rate goes with the inverse of the active coils.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-9.

    """
    left = active_coils - coils_removed
    require(np.greater(left, 0.0), "coils_removed", coils_removed, "-", "less than active_coils")
    return rate * active_coils / left


def bergstraesser_factor(*, spring_index: Values) -> Values:
    """Return the curvature and shear correction of Bergsträsser for a coil spring's stress.

    Parameters
    ----------
    spring_index : float or array
        Mean coil diameter over wire diameter. [-]

    Returns
    -------
    float or array
        Stress factor. [-]

    Notes
    -----
    K_B = (4C + 2) / (4C − 3).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-5.

    """
    require(np.greater(spring_index, 1.0), "spring_index", spring_index, "-", "more than one")
    return (4.0 * spring_index + 2.0) / (4.0 * spring_index - 3.0)


def wahl_factor(*, spring_index: Values) -> Values:
    """Return the curvature and shear correction of Wahl for a coil spring's stress.

    Parameters
    ----------
    spring_index : float or array
        Mean coil diameter over wire diameter. [-]

    Returns
    -------
    float or array
        Stress factor. [-]

    Notes
    -----
    K_W = (4C − 1) / (4C − 4) + 0.615 / C.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-4.

    """
    require(np.greater(spring_index, 1.0), "spring_index", spring_index, "-", "more than one")
    return (4.0 * spring_index - 1.0) / (4.0 * spring_index - 4.0) + 0.615 / spring_index


def coil_shear_stress(
    *, force: Values, wire_diameter: Values, mean_diameter: Values, stress_factor: Values
) -> Values:
    """Return the greatest shear stress in the wire of a coil spring.

    Parameters
    ----------
    force : float or array
        Force along the spring. [N]
    wire_diameter : float or array
        Diameter of the wire. [m]
    mean_diameter : float or array
        Mean diameter of the coil. [m]
    stress_factor : float or array
        Correction of `bergstraesser_factor` or `wahl_factor`. [-]

    Returns
    -------
    float or array
        Shear stress at the inside of the coil. [Pa]

    Notes
    -----
    τ = K · 8 F D / (π d³).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-7.

    """
    _positive(wire_diameter=wire_diameter, mean_diameter=mean_diameter)
    return stress_factor * 8.0 * force * mean_diameter / (np.pi * wire_diameter**3)


def buckling_free_length(*, mean_diameter: Values, end_condition: Values) -> Values:
    """Return the free length below which a steel coil spring cannot buckle.

    Parameters
    ----------
    mean_diameter : float or array
        Mean diameter of the coil. [m]
    end_condition : float or array
        0.5 both ends held square, 0.707 one end pivoted, 1 both pivoted. [-]

    Returns
    -------
    float or array
        Free length of absolute stability. [m]

    Notes
    -----
    L₀ < 2.63 D / α, for steel.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", Eq. 10-13 and Table 10-2.

    """
    _positive(mean_diameter=mean_diameter)
    require(np.greater(end_condition, 0.0), "end_condition", end_condition, "-", "more than zero")
    return 2.63 * mean_diameter / end_condition


def leaf_spring_rate(
    *,
    front_length: Values,
    rear_length: Values,
    inertia_sum: Values,
    youngs_modulus: Values,
    stiffening_factor: Values,
) -> Values:
    """Return the rate at the seat of a leaf spring, symmetrical or not.

    Parameters
    ----------
    front_length : float or array
        From the front eye to the seat, less the clamped part that does not bend. [m]
    rear_length : float or array
        From the seat to the rear eye or shackle, likewise. [m]
    inertia_sum : float or array
        Sum of b t³/12 over the leaves at the seat. [m⁴]
    youngs_modulus : float or array
        Young's modulus of the leaves. [Pa]
    stiffening_factor : float or array
        1 uniform strength, 1.10 tapered leaf ends, 1.15 square ends, 1.5 uniform beam. [-]

    Returns
    -------
    float or array
        Rate at the seat. [N/m]

    Notes
    -----
    k = 2 E ΣI SF (a + b) / (a² b²); for a = b = L/2 it is 32 E ΣI SF / L³. The ends are taken as
    pivots, the halves as cantilevers of uniform strength; friction between leaves is left out.

    References
    ----------
    .. [1] SAE, "Spring Design Manual", HS-788, rate of semi-elliptic springs.

    """
    _positive(front_length=front_length, rear_length=rear_length)
    require(np.greater(inertia_sum, 0.0), "inertia_sum", inertia_sum, "m⁴", "more than zero")
    bending = youngs_modulus * inertia_sum * stiffening_factor
    return 2.0 * bending * (front_length + rear_length) / (front_length * rear_length) ** 2


def leaf_deflection_with_full_leaves(
    *,
    end_load: Values,
    half_length: Values,
    width: Values,
    thickness: Values,
    graduated_leaves: Values,
    full_leaves: Values,
    youngs_modulus: Values,
) -> Values:
    """Return the deflection of a symmetrical leaf spring that has extra full-length leaves.

    Parameters
    ----------
    end_load : float or array
        Load at each end, half of the load at the seat. [N]
    half_length : float or array
        Half of the span, less half of the clamped part. [m]
    width : float or array
        Width of a leaf. [m]
    thickness : float or array
        Thickness of a leaf. [m]
    graduated_leaves : float or array
        Number of graduated leaves, the main leaf counted here. [-]
    full_leaves : float or array
        Number of extra leaves of full length. [-]
    youngs_modulus : float or array
        Young's modulus. [Pa]

    Returns
    -------
    float or array
        Deflection at the seat. [m]

    Notes
    -----
    δ = 12 W l³ / (E b t³ (2 n_G + 3 n_F)).

    References
    ----------
    .. [1] R. S. Khurmi and J. K. Gupta, "A Textbook of Machine Design", leaf springs.

    """
    _positive(half_length=half_length, width=width, thickness=thickness)
    leaves = 2.0 * graduated_leaves + 3.0 * full_leaves
    require(np.greater(leaves, 0.0), "graduated_leaves", graduated_leaves, "-", "at least one leaf")
    return 12.0 * end_load * half_length**3 / (youngs_modulus * width * thickness**3 * leaves)


def torsion_bar_twist_rate(
    *, diameter: Values, bore: Values, length: Values, shear_modulus: Values
) -> Values:
    """Return the twist rate of a round bar or tube.

    Parameters
    ----------
    diameter : float or array
        Outside diameter. [m]
    bore : float or array
        Inside diameter; zero for a solid bar. [m]
    length : float or array
        Active length. [m]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Torque per angle. [N·m/rad]

    Notes
    -----
    k_θ = π G (d⁴ − d_i⁴) / (32 L).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", torsion of round sections.

    """
    _positive(diameter=diameter, length=length)
    require(np.less(bore, diameter), "bore", bore, "m", "less than the diameter")
    return np.pi * shear_modulus * (diameter**4 - bore**4) / (32.0 * length)


def torsion_bar_wheel_rate(
    *, twist_rate: Values, arm_length: Values, arm_angle: Values, static_force: Values
) -> Values:
    """Return the vertical rate at the end of a torsion bar's arm.

    Parameters
    ----------
    twist_rate : float or array
        Torque per angle of the bar. [N·m/rad]
    arm_length : float or array
        Radius from the bar to the point that is loaded. [m]
    arm_angle : float or array
        Angle of the arm above level at its outer end. [rad]
    static_force : float or array
        Vertical force up on the arm's end at rest. [N]

    Returns
    -------
    float or array
        Vertical rate. [N/m]

    Notes
    -----
    K = (k_θ + F r sin β) / (r cos β)², from T(β) = F r cos β. A loaded arm below level is softer.

    References
    ----------
    .. [1] Equilibrium of the arm; see SAE, "Spring Design Manual", HS-796, for the same terms.

    """
    _positive(arm_length=arm_length)
    lever = arm_length * np.cos(arm_angle)
    return (twist_rate + static_force * arm_length * np.sin(arm_angle)) / lever**2


def anti_roll_bar_rate(
    *,
    diameter: Values,
    bore: Values,
    arm_length: Values,
    lever: Values,
    centre_length: Values,
    bush_spacing: Values,
    bush_rate: Values,
    youngs_modulus: Values,
    shear_modulus: Values,
) -> Values:
    """Return the force per travel at each end of a U-shaped anti-roll bar, ends moving apart.

    Parameters
    ----------
    diameter : float or array
        Outside diameter of the bar. [m]
    bore : float or array
        Inside diameter; zero for a solid bar. [m]
    arm_length : float or array
        Length of each arm along the bar, bend to end. [m]
    lever : float or array
        Distance of the end from the axis of the centre piece; not more than the arm. [m]
    centre_length : float or array
        Length between the bends. [m]
    bush_spacing : float or array
        Distance between the bushes that hold the centre piece. [m]
    bush_rate : float or array
        Radial rate of one bush; infinite for a rigid one. [N/m]
    youngs_modulus : float or array
        Young's modulus. [Pa]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Force at each end over the travel of each end, the two moving opposite ways. [N/m]

    Notes
    -----
    With w = √(c² − a²), e = (l − s)/2:
    δ/F = [c³ − w³ + (w + e)³ + (w + e)² s/2] / (3 E I) + a² l / (2 G J)
    + ((w + e + s/2)/(s/2))² / k_b. Without bushes and with G = 3E/8 it is the manual's U-bar
    formula. One end held and the other moved alone gives half of this rate.

    References
    ----------
    .. [1] SAE, "Spring Design Manual", HS-796, stabiliser bars.

    """
    _positive(diameter=diameter, arm_length=arm_length, lever=lever, bush_spacing=bush_spacing)
    require(np.less_equal(lever, arm_length), "lever", lever, "m", "not more than arm_length")
    require(
        np.less_equal(bush_spacing, centre_length), "bush_spacing", bush_spacing, "m", "within bar"
    )
    fourth = diameter**4 - bore**4
    bending = 3.0 * youngs_modulus * np.pi * fourth / 64.0
    twisting = 2.0 * shear_modulus * np.pi * fourth / 32.0
    splay = np.sqrt(arm_length**2 - lever**2)
    reach = splay + (centre_length - bush_spacing) / 2.0
    half = bush_spacing / 2.0
    bent = (arm_length**3 - splay**3 + reach**3 + reach**2 * half) / bending
    twisted = lever**2 * centre_length / twisting
    bushes = ((reach + half) / half) ** 2 / bush_rate
    return 1.0 / (bent + twisted + bushes)


def series_rate(*, first: Values, second: Values) -> Values:
    """Return the rate of two springs one after the other.

    Parameters
    ----------
    first : float or array
        Rate of one. [N/m]
    second : float or array
        Rate of the other. [N/m]

    Returns
    -------
    float or array
        Rate of the two in series. [N/m]

    Notes
    -----
    k = k₁ k₂ / (k₁ + k₂). The unit may as well be a twist rate, the same in both.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", spring rates.

    """
    require(np.greater(first + second, 0.0), "first + second", first, "N/m", "more than zero")
    return first * second / (first + second)


def _positive(**lengths: Values) -> None:
    for name, value in lengths.items():
        require(np.greater(value, 0.0), name, value, "m", "more than zero")
