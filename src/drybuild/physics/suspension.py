"""What springs and dampers do at the wheels: rates, frequencies, damping, roll stiffness."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]


def wheel_rate(
    *,
    spring_rate: Values,
    motion_ratio: Values,
    spring_force: Values,
    motion_ratio_slope: Values,
) -> Values:
    """Return the vertical rate at the wheel that a spring gives.

    Parameters
    ----------
    spring_rate : float or array
        Rate along the spring. [N/m]
    motion_ratio : float or array
        Spring travel over wheel travel. [-]
    spring_force : float or array
        Compression force in the spring. [N]
    motion_ratio_slope : float or array
        Change of the motion ratio over wheel travel in bump. [1/m]

    Returns
    -------
    float or array
        Rate at the wheel. [N/m]

    Notes
    -----
    K_w = K_s MR² + F_s dMR/dz, by virtual work. For a live axle the ratio is one.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 16.

    """
    require(np.greater(spring_rate, 0.0), "spring_rate", spring_rate, "N/m", "more than zero")
    require(np.greater(motion_ratio, 0.0), "motion_ratio", motion_ratio, "-", "more than zero")
    return spring_rate * motion_ratio**2 + spring_force * motion_ratio_slope


def ride_rate(*, wheel_rate: Values, tyre_rate: Values) -> Values:
    """Return the rate of spring and tyre one after the other.

    Parameters
    ----------
    wheel_rate : float or array
        Suspension rate at the wheel. [N/m]
    tyre_rate : float or array
        Vertical rate of the tyre. [N/m]

    Returns
    -------
    float or array
        Ride rate. [N/m]

    Notes
    -----
    RR = K_w K_t / (K_w + K_t).

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 5-7.

    """
    require(np.greater(wheel_rate, 0.0), "wheel_rate", wheel_rate, "N/m", "more than zero")
    require(np.greater(tyre_rate, 0.0), "tyre_rate", tyre_rate, "N/m", "more than zero")
    return wheel_rate * tyre_rate / (wheel_rate + tyre_rate)


def natural_frequency(*, rate: Values, mass: Values) -> Values:
    """Return the undamped natural frequency of a mass on a spring.

    Parameters
    ----------
    rate : float or array
        Rate of the spring. [N/m]
    mass : float or array
        Mass that it carries. [kg]

    Returns
    -------
    float or array
        Frequency. [Hz]

    Notes
    -----
    f = √(K/m) / 2π. With ride rate and sprung corner mass it is the ride frequency; with
    K_w + K_t and the unsprung mass, wheel hop.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 5-8.

    """
    require(np.greater_equal(rate, 0.0), "rate", rate, "N/m", "zero or more")
    require(np.greater(mass, 0.0), "mass", mass, "kg", "more than zero")
    return np.sqrt(rate / mass) / (2.0 * np.pi)


def damping_ratio(*, wheel_damping: Values, wheel_rate: Values, sprung_mass: Values) -> Values:
    """Return the damping of the body's bounce as a share of the critical.

    Parameters
    ----------
    wheel_damping : float or array
        Damper coefficient at the wheel, the mean of bump and rebound. [N·s/m]
    wheel_rate : float or array
        Suspension rate at the wheel. [N/m]
    sprung_mass : float or array
        Sprung mass at that wheel. [kg]

    Returns
    -------
    float or array
        Damping ratio. [-]

    Notes
    -----
    ζ = c_w / (2 √(K_w m_s)); the tyre counts as rigid. c_w = c_d MR².

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 5-11.

    """
    require(np.greater_equal(wheel_damping, 0.0), "wheel_damping", wheel_damping, "N·s/m", ">= 0")
    require(np.greater(wheel_rate, 0.0), "wheel_rate", wheel_rate, "N/m", "more than zero")
    require(np.greater(sprung_mass, 0.0), "sprung_mass", sprung_mass, "kg", "more than zero")
    return wheel_damping / (2.0 * np.sqrt(wheel_rate * sprung_mass))


@dataclass(frozen=True, kw_only=True)
class BodyModes:
    """The two undamped motions of a body on its axles, slower one first."""

    slow_frequency: Values
    """[Hz]"""
    fast_frequency: Values
    """[Hz]"""
    slow_node: Values
    """Distance of the point that stands still ahead of the centre of gravity. [m]"""
    fast_node: Values
    """[m]"""


def bounce_and_pitch(
    *,
    front_rate: Values,
    rear_rate: Values,
    sprung_mass: Values,
    front_distance: Values,
    rear_distance: Values,
    gyration_radius: Values,
) -> BodyModes:
    """Return the bounce and pitch motions of a rigid body on two axles.

    Parameters
    ----------
    front_rate : float or array
        Ride rate of the front axle, both wheels. [N/m]
    rear_rate : float or array
        Ride rate of the rear axle, both wheels. [N/m]
    sprung_mass : float or array
        Sprung mass. [kg]
    front_distance : float or array
        From the front axle to the sprung centre of gravity. [m]
    rear_distance : float or array
        From the sprung centre of gravity to the rear axle. [m]
    gyration_radius : float or array
        Radius of gyration in pitch of the sprung mass. [m]

    Returns
    -------
    BodyModes
        Frequencies and nodes. The node lies infinitely far away where bounce is pure.

    Notes
    -----
    D₁ = (K_f + K_r)/m, D₂ = (K_r b − K_f a)/m, D₃ = (K_f a² + K_r b²)/(m k²);
    ω² = (D₁ + D₃)/2 ∓ √((D₁ − D₃)²/4 + D₂²/k²); node at D₂/(ω² − D₁).

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, sec. 7.3.

    """
    require(np.greater(sprung_mass, 0.0), "sprung_mass", sprung_mass, "kg", "more than zero")
    require(np.greater(gyration_radius, 0.0), "gyration_radius", gyration_radius, "m", "> 0")
    bounce = (front_rate + rear_rate) / sprung_mass
    coupling = (rear_rate * rear_distance - front_rate * front_distance) / sprung_mass
    moment = front_rate * front_distance**2 + rear_rate * rear_distance**2
    pitch = moment / (sprung_mass * gyration_radius**2)
    middle = (bounce + pitch) / 2.0
    spread = np.sqrt((bounce - pitch) ** 2 / 4.0 + coupling**2 / gyration_radius**2)
    with np.errstate(divide="ignore", invalid="ignore"):
        slow_node = np.divide(coupling, middle - spread - bounce)
        fast_node = np.divide(coupling, middle + spread - bounce)
    return BodyModes(
        slow_frequency=np.sqrt(middle - spread) / (2.0 * np.pi),
        fast_frequency=np.sqrt(middle + spread) / (2.0 * np.pi),
        slow_node=slow_node,
        fast_node=fast_node,
    )


def independent_roll_stiffness(*, rate: Values, track: Values) -> Values:
    """Return the roll stiffness of a pair of wheels that are sprung one by one.

    Parameters
    ----------
    rate : float or array
        Vertical rate at each wheel: of the suspension, of the tyre, or of both in series. [N/m]
    track : float or array
        Distance between the wheels; for a live axle, between its springs. [m]

    Returns
    -------
    float or array
        Moment per roll angle. [N·m/rad]

    Notes
    -----
    K_φ = K t² / 2. A live axle's springs act at their own spacing, its tyres at the track.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-33.

    """
    require(np.greater_equal(rate, 0.0), "rate", rate, "N/m", "zero or more")
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    return rate * track**2 / 2.0


def anti_roll_bar_roll_stiffness(
    *, end_rate: Values, motion_ratio: Values, track: Values
) -> Values:
    """Return the roll stiffness that an anti-roll bar gives at the wheels.

    Parameters
    ----------
    end_rate : float or array
        Force at each end over the travel of each end, opposite ways. [N/m]
    motion_ratio : float or array
        Travel of the bar's end over travel of the wheel. [-]
    track : float or array
        Distance between the wheels. [m]

    Returns
    -------
    float or array
        Moment per roll angle. [N·m/rad]

    Notes
    -----
    K_φ = k_end MR² t² / 2.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 16.

    """
    require(np.greater_equal(end_rate, 0.0), "end_rate", end_rate, "N/m", "zero or more")
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    return end_rate * motion_ratio**2 * track**2 / 2.0


def static_deflection(*, frequency: Values) -> Values:
    """Return how far a linear spring of this natural frequency sags under its load.

    Parameters
    ----------
    frequency : float or array
        Undamped natural frequency. [Hz]

    Returns
    -------
    float or array
        Static deflection. [m]

    Notes
    -----
    δ = g / (2π f)², about 0.2485 m / f².

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 5.

    """
    require(np.greater(frequency, 0.0), "frequency", frequency, "Hz", "more than zero")
    return STANDARD_GRAVITY / (2.0 * np.pi * frequency) ** 2
