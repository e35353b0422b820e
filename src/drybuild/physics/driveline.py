"""Clutch, torque along the driveline, what its parts must be designed for, and the mounts."""

from __future__ import annotations

from typing import cast

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def clutch_capacity_uniform_wear(
    *,
    friction: Values,
    clamp_force: Values,
    outer_radius: Values,
    inner_radius: Values,
    faces: Values,
) -> Values:
    """Return the torque at which a worn-in plate clutch slips.

    Parameters
    ----------
    friction : float or array
        Friction coefficient of the lining. [-]
    clamp_force : float or array
        Force of the pressure plate. [N]
    outer_radius : float or array
        Outer radius of the lining. [m]
    inner_radius : float or array
        Inner radius of the lining. [m]
    faces : float or array
        Friction faces, two for each driven plate. [-]

    Returns
    -------
    float or array
        Torque. [N·m]

    Notes
    -----
    T = z μ F (r_o + r_i)/2.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", ch. 16. From memory.

    """
    _check_clutch(friction, clamp_force, outer_radius, inner_radius, faces)
    return faces * friction * clamp_force * (outer_radius + inner_radius) / 2.0


def clutch_capacity_uniform_pressure(
    *,
    friction: Values,
    clamp_force: Values,
    outer_radius: Values,
    inner_radius: Values,
    faces: Values,
) -> Values:
    """Return the torque at which a new plate clutch slips.

    Parameters
    ----------
    friction : float or array
        Friction coefficient of the lining. [-]
    clamp_force : float or array
        Force of the pressure plate. [N]
    outer_radius : float or array
        Outer radius of the lining. [m]
    inner_radius : float or array
        Inner radius of the lining. [m]
    faces : float or array
        Friction faces, two for each driven plate. [-]

    Returns
    -------
    float or array
        Torque. [N·m]

    Notes
    -----
    T = z μ F (2/3)(r_o³ − r_i³)/(r_o² − r_i²).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", ch. 16. From memory.

    """
    _check_clutch(friction, clamp_force, outer_radius, inner_radius, faces)
    cubes = np.asarray(outer_radius) ** 3 - np.asarray(inner_radius) ** 3
    squares = np.asarray(outer_radius) ** 2 - np.asarray(inner_radius) ** 2
    return cast(Array, faces * friction * clamp_force * (2.0 / 3.0) * cubes / squares)


def clutch_lining_pressure(
    *, clamp_force: Values, outer_radius: Values, inner_radius: Values
) -> Values:
    """Return the mean pressure on a clutch lining.

    Parameters
    ----------
    clamp_force : float or array
        Force of the pressure plate. [N]
    outer_radius : float or array
        Outer radius of the lining. [m]
    inner_radius : float or array
        Inner radius of the lining. [m]

    Returns
    -------
    float or array
        Pressure; organic linings last up to 0.2 to 0.3 MPa. [Pa]

    Notes
    -----
    p = F / (π (r_o² − r_i²)).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", ch. 16. From memory.

    """
    _check_clutch(1.0, clamp_force, outer_radius, inner_radius, 1.0)
    ring = np.square(outer_radius) - np.square(inner_radius)
    return clamp_force / (np.pi * ring)


def clutch_launch_work(
    *,
    mass: Values,
    rolling_radius: Values,
    overall_ratio: Values,
    launch_speed: Values,
    clutch_torque: Values,
    resisting_torque: Values,
) -> Values:
    """Return the heat that one start from rest leaves in the clutch.

    Parameters
    ----------
    mass : float or array
        Mass of the laden car and what it tows. [kg]
    rolling_radius : float or array
        Distance rolled per radian. [m]
    overall_ratio : float or array
        Overall ratio of first gear. [-]
    launch_speed : float or array
        Engine speed held while the clutch slips. [rad/s]
    clutch_torque : float or array
        Torque of the slipping clutch. [N·m]
    resisting_torque : float or array
        Road load and grade felt at the clutch. [N·m]

    Returns
    -------
    float or array
        Work; nan where the clutch cannot overcome the resistance. [J]

    Notes
    -----
    W = ½ J ω² T_c/(T_c − T_R), J = m (r/N)².

    References
    ----------
    .. [1] H. Naunheimer, B. Bertsche, J. Ryborz, W. Novak, "Automotive Transmissions", 2nd ed.,
       2011, ch. 8. From memory.

    """
    require_positive(mass=(mass, "kg"), overall_ratio=(overall_ratio, "-"))
    require_positive(clutch_torque=(clutch_torque, "N·m"))
    left = np.asarray(clutch_torque - resisting_torque, dtype=np.float64)
    inertia = mass * np.square(rolling_radius / overall_ratio)
    share = np.where(left > 0.0, clutch_torque / np.where(left > 0.0, left, 1.0), np.nan)
    return 0.5 * inertia * np.square(launch_speed) * share


def shaft_torque_from_engine(
    *,
    engine_torque: Values,
    lowest_gear: Values,
    gearbox_efficiency: Values,
    stall_torque_ratio: Values,
    transfer_ratio: Values,
) -> Values:
    """Return the propshaft torque that the engine can make in its lowest gear.

    Parameters
    ----------
    engine_torque : float or array
        Greatest net engine torque. [N·m]
    lowest_gear : float or array
        Lowest gearbox ratio. [-]
    gearbox_efficiency : float or array
        0.85 for a manual and 0.80 for an automatic gearbox in this rule. [-]
    stall_torque_ratio : float or array
        Of a torque converter; 1 with a clutch. [-]
    transfer_ratio : float or array
        Low range of a transfer box; 1 without. [-]

    Returns
    -------
    float or array
        Torque. [N·m]

    Notes
    -----
    LGT = T · TLGR · TE · SR · TCR. The propshaft is designed for the lesser of this and the
    wheel-slip torque.

    References
    ----------
    .. [1] "Driveline installation" manual J3311-1, driveshaft torque. Reprint.

    """
    require_positive(lowest_gear=(lowest_gear, "-"), gearbox_efficiency=(gearbox_efficiency, "-"))
    return engine_torque * lowest_gear * gearbox_efficiency * stall_torque_ratio * transfer_ratio


def shaft_torque_at_wheel_slip(
    *, axle_weight: Values, rolling_radius: Values, final_drive: Values
) -> Values:
    """Return the propshaft torque at which the driven tyres slip.

    Parameters
    ----------
    axle_weight : float or array
        Weight on the driven axle, loaded. [N]
    rolling_radius : float or array
        Radius of the loaded tyre. [m]
    final_drive : float or array
        Ratio of the axle. [-]

    Returns
    -------
    float or array
        Torque. [N·m]

    Notes
    -----
    WST = 0.71 W RR / (11.4 AR) in lb·ft with RR in inches: a friction of 0.71 and an axle
    efficiency of 0.95.

    References
    ----------
    .. [1] "Driveline installation" manual J3311-1, driveshaft torque. Reprint.

    """
    require_positive(axle_weight=(axle_weight, "N"), rolling_radius=(rolling_radius, "m"))
    require_positive(final_drive=(final_drive, "-"))
    return 0.71 * axle_weight * rolling_radius / (0.95 * final_drive)


def half_shaft_torque(
    *,
    axle_torque: Values,
    torque_share: Values,
    wheel_weight: Values,
    friction: Values,
    rolling_radius: Values,
) -> Values:
    """Return the torque that one half-shaft must carry.

    Parameters
    ----------
    axle_torque : float or array
        Torque of both wheels together. [N·m]
    torque_share : float or array
        Greatest share of one side: 0.5 open, TBR/(1 + TBR) biased, 1 locked or spool. [-]
    wheel_weight : float or array
        Greatest weight on one driven wheel. [N]
    friction : float or array
        Peak friction coefficient of tyre and road. [-]
    rolling_radius : float or array
        Radius of the loaded tyre. [m]

    Returns
    -------
    float or array
        Torque: the lesser of what arrives and what the tyre holds. [N·m]

    Notes
    -----
    T = min(s T_axle, μ W r).

    References
    ----------
    .. [1] Equilibrium; common practice for the shares.

    """
    inside = np.greater_equal(torque_share, 0.5) & np.less_equal(torque_share, 1.0)
    require(inside, "torque_share", torque_share, "-", "from one half to one")
    return np.minimum(torque_share * axle_torque, friction * wheel_weight * rolling_radius)


def biased_torque_share(*, bias_ratio: Values) -> Values:
    """Return the greatest share of one side of a torque-biasing differential.

    Parameters
    ----------
    bias_ratio : float or array
        Torque of the slower wheel over that of the faster; 1 for an open differential. [-]

    Returns
    -------
    float or array
        Share of the axle's torque. [-]

    Notes
    -----
    TBR/(1 + TBR).

    References
    ----------
    .. [1] Definition of the torque bias ratio.

    """
    require(np.greater_equal(bias_ratio, 1.0), "bias_ratio", bias_ratio, "-", "one or more")
    return bias_ratio / (1.0 + bias_ratio)


def mount_pair_force(*, engine_torque: Values, gear_ratio: Values, mount_spacing: Values) -> Values:
    """Return the up and down force on the two engine mounts from the driveline's torque.

    Parameters
    ----------
    engine_torque : float or array
        Engine torque. [N·m]
    gear_ratio : float or array
        Gearbox ratio in use. [-]
    mount_spacing : float or array
        Distance between the two mounts across the crankshaft. [m]

    Returns
    -------
    float or array
        Force, up on one side and down on the other. [N]

    Notes
    -----
    F = T i / b: engine and gearbox are one body, so the case reacts the propshaft's torque. A
    clutch dumped at speed raises it by 1.5 to 2.

    References
    ----------
    .. [1] Equilibrium of the engine and gearbox about the crankshaft.

    """
    require_positive(mount_spacing=(mount_spacing, "m"))
    return engine_torque * gear_ratio / mount_spacing


def highest_mount_frequency(*, firing_frequency: Values) -> Values:
    """Return the roll frequency on the mounts above which idle is not isolated at all.

    Parameters
    ----------
    firing_frequency : float or array
        Firing frequency at idle. [Hz]

    Returns
    -------
    float or array
        Frequency; half the firing frequency isolates well. [Hz]

    Notes
    -----
    f_fire/√2: a spring isolates only above √2 times its own frequency.

    References
    ----------
    .. [1] J. P. Den Hartog, "Mechanical Vibrations", sec. 2.9. From memory.

    """
    require_positive(firing_frequency=(firing_frequency, "Hz"))
    return cast(Array, firing_frequency / np.sqrt(2.0))


def axle_pitch_torque(*, drive_force: Values, rolling_radius: Values) -> Values:
    """Return the torque that tries to turn an axle's nose up under drive.

    Parameters
    ----------
    drive_force : float or array
        Drive force of the axle. [N]
    rolling_radius : float or array
        Radius of the loaded tyre. [m]

    Returns
    -------
    float or array
        Torque that springs or links must hold. [N·m]

    Notes
    -----
    T = F r.

    References
    ----------
    .. [1] Equilibrium of the axle.

    """
    require_positive(rolling_radius=(rolling_radius, "m"))
    return drive_force * rolling_radius


def _check_clutch(
    friction: Values, clamp_force: Values, outer: Values, inner: Values, faces: Values
) -> None:
    require_positive(friction=(friction, "-"), clamp_force=(clamp_force, "N"), faces=(faces, "-"))
    ring = np.greater_equal(inner, 0.0) & np.less(inner, outer)
    require(ring, "inner_radius", inner, "m", "from nothing to the outer radius")
