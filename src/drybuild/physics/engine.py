"""The engine at full load: its torque curve and its rated speed.

A curve is kept as torque at `CURVE_POINTS` engine speeds, evenly spaced from standstill to the
limit speed: an array whose first axis runs along the curve and whose last axis is the samples.
"""

from __future__ import annotations

from typing import cast

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array

CURVE_POINTS = 65
"""Points of a sampled full-load curve; a straight line between them is within 0.03 % of a cubic."""


def cubic_torque(*, engine_speed: Values, peak_power: Values, rated_speed: Values) -> Values:
    """Return the full-load torque of a generic spark-ignition engine.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft. [rad/s]
    peak_power : float or array
        Greatest power at the flywheel. [W]
    rated_speed : float or array
        Angular speed of the greatest power. [rad/s]

    Returns
    -------
    float or array
        Torque; negative beyond 1.618 times the rated speed. [N·m]

    Notes
    -----
    P/P_r = x + x² − x³ with x = ω/ω_r, hence T/T_r = 1 + x − x²: the torque peaks at half the
    rated speed with 1.25 T_r. Forty-seven cars of 2014 to 2017 have T_max/T_r from 1.00 to 1.27
    (5 to 95 %), so the form is at the soft end: give peak torque and its speed where known.

    References
    ----------
    .. [1] M. D. Artamonov and others, "Motor Vehicles: Fundamentals and Design", Mir, 1976, as
       used by R. N. Jazar, "Vehicle Dynamics", ch. 4. From memory.

    """
    require_positive(peak_power=(peak_power, "W"), rated_speed=(rated_speed, "rad/s"))
    require(np.greater_equal(engine_speed, 0.0), "engine_speed", engine_speed, "rad/s", "not < 0")
    ratio = engine_speed / rated_speed
    return peak_power / rated_speed * (1.0 + ratio - ratio**2)


def torque_through_peaks(
    *,
    engine_speed: Values,
    peak_power: Values,
    rated_speed: Values,
    peak_torque: Values,
    band_start: Values,
    band_end: Values,
) -> Values:
    """Return the full-load torque through a torque peak or band and the power peak.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft. [rad/s]
    peak_power : float or array
        Greatest power at the flywheel. [W]
    rated_speed : float or array
        Angular speed of the greatest power. [rad/s]
    peak_torque : float or array
        Greatest torque at the flywheel. [N·m]
    band_start : float or array
        Angular speed at which the greatest torque begins. [rad/s]
    band_end : float or array
        Angular speed at which the greatest torque ends; the same for a single peak. [rad/s]

    Returns
    -------
    float or array
        Torque; nan where the two peaks contradict each other by more than a tenth, or the band
        ends beyond the rated speed. [N·m]

    Notes
    -----
    Below the band T = T_max (1 − 0.2 (1 − ω/ω_1)²), in it T_max, from it to the power peak the
    cubic with no slope at the band's end and the slope −T_r/ω_r of a power peak at the rated
    speed, limited to three times the chord so that it never rises; beyond, T_r (1 + x − x²).
    With 1.25 T_r at half the rated speed this is the generic cubic curve exactly. Published peaks
    are rounded, and sampled ones scatter: where the torque at the power peak would exceed the
    torque peak by up to a tenth it counts as the torque peak, and the power never exceeds its
    peak.

    References
    ----------
    .. [1] The generic curve of `cubic_torque`, carried over piece by piece.
    .. [2] F. N. Fritsch, R. E. Carlson, "Monotone Piecewise Cubic Interpolation", SIAM J. Numer.
       Anal. 17 (1980): the limit of three times the chord. From memory.

    """
    require_positive(peak_power=(peak_power, "W"), rated_speed=(rated_speed, "rad/s"))
    require_positive(peak_torque=(peak_torque, "N·m"), band_start=(band_start, "rad/s"))
    require(np.greater_equal(engine_speed, 0.0), "engine_speed", engine_speed, "rad/s", "not < 0")
    speed = np.asarray(engine_speed, dtype=np.float64)
    rated_torque = np.asarray(peak_power / rated_speed)
    span = np.asarray(rated_speed - band_end, dtype=np.float64)
    sound = (rated_torque <= 1.1 * peak_torque) & (peak_torque * band_end <= 1.1 * peak_power)
    sound &= (span >= 0.0) & np.less_equal(band_start, band_end)
    highest = np.maximum(peak_torque, rated_torque)
    drop = highest - rated_torque
    safe = np.where(span > 0.0, span, 1.0)
    along = np.clip((speed - band_end) / safe, 0.0, 1.0)
    slope = -np.minimum(rated_torque / rated_speed * safe, 3.0 * drop)
    falling = highest - drop * along**2 * (3.0 - 2.0 * along) + slope * along**2 * (along - 1.0)
    below = highest * (1.0 - 0.2 * np.clip(1.0 - speed / band_start, 0.0, None) ** 2)
    ratio = speed / rated_speed
    beyond = rated_torque * (1.0 + ratio - ratio**2)
    torque = np.where(speed > rated_speed, beyond, np.where(speed > band_end, falling, below))
    torque = np.minimum(torque, peak_power / np.maximum(speed, 1e-6))
    return cast(Array, np.where(sound, torque, np.nan))


def torque_from_points(*, engine_speed: Values, speeds: Array, torques: Array) -> Values:
    """Return the full-load torque between measured points.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft, last axis samples. [rad/s]
    speeds : array
        Angular speeds of the points, rising along the first axis; last axis samples. [rad/s]
    torques : array
        Torques of the points, the same shape. [N·m]

    Returns
    -------
    float or array
        Torque; below the first point that of the first, beyond the last nan. [N·m]

    Notes
    -----
    Straight lines between neighbours. An engine is not measured below its idle, where the clutch
    slips anyway; beyond the last point nothing is known, so nothing is returned.

    References
    ----------
    .. [1] Linear interpolation; the points are the person's own.

    """
    require(np.diff(speeds, axis=0) > 0.0, "speeds", speeds, "rad/s", "rising")
    asked = np.asarray(engine_speed, dtype=np.float64)
    torque = np.broadcast_to(torques[0], np.broadcast_shapes(asked.shape, torques[0].shape)).copy()
    for low, high, before, after in zip(
        speeds[:-1], speeds[1:], torques[:-1], torques[1:], strict=True
    ):
        along = (asked - low) / (high - low)
        torque = np.where(along >= 0.0, before + (after - before) * along, torque)
    return np.where(asked <= speeds[-1] * (1.0 + 1e-12), torque, np.nan)


def rated_speed_from_piston_speed(
    *, swept_volume: Values, cylinders: Values, piston_speed: Values
) -> Values:
    """Return the angular speed at which a square engine reaches a mean piston speed.

    Parameters
    ----------
    swept_volume : float or array
        Swept volume of all cylinders. [m³]
    cylinders : float or array
        Number of cylinders. [-]
    piston_speed : float or array
        Mean piston speed at the greatest power. [m/s]

    Returns
    -------
    float or array
        Angular speed of the crankshaft. [rad/s]

    Notes
    -----
    U_p = 2 S n with the stroke of a square engine, S = (4 V / (π z))^(1/3). Heywood gives 8 to
    15 m/s for the greatest power, cars near the top; the 93 cars of 1993 in the Cars93 table have
    a median of 15.2 m/s (12.8 to 17.7).

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, sec. 2.2. From memory.

    """
    require_positive(piston_speed=(piston_speed, "m/s"))
    return np.pi * piston_speed / square_stroke(swept_volume=swept_volume, cylinders=cylinders)


def mean_piston_speed(*, engine_speed: Values, stroke: Values) -> Values:
    """Return the mean speed of the pistons.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft. [rad/s]
    stroke : float or array
        Stroke. [m]

    Returns
    -------
    float or array
        Mean piston speed. [m/s]

    Notes
    -----
    U_p = 2 S n = S ω/π.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, sec. 2.2. From memory.

    """
    require_positive(stroke=(stroke, "m"))
    return stroke * engine_speed / np.pi


def square_stroke(*, swept_volume: Values, cylinders: Values) -> Values:
    """Return the stroke of an engine whose bore equals it.

    Parameters
    ----------
    swept_volume : float or array
        Swept volume of all cylinders. [m³]
    cylinders : float or array
        Number of cylinders. [-]

    Returns
    -------
    float or array
        Stroke. [m]

    Notes
    -----
    S = (4 V / (π z))^(1/3).

    References
    ----------
    .. [1] Geometry.

    """
    require_positive(swept_volume=(swept_volume, "m³"), cylinders=(cylinders, "-"))
    return cast(Array, (4.0 * swept_volume / (np.pi * cylinders)) ** (1.0 / 3.0))


def speed_for_mean_pressure(
    *, power: Values, swept_volume: Values, mean_pressure: Values
) -> Values:
    """Return the speed at which a four-stroke engine makes a power at a mean effective pressure.

    Parameters
    ----------
    power : float or array
        Power at the flywheel. [W]
    swept_volume : float or array
        Swept volume of all cylinders. [m³]
    mean_pressure : float or array
        Brake mean effective pressure. [Pa]

    Returns
    -------
    float or array
        Angular speed of the crankshaft. [rad/s]

    Notes
    -----
    P = p_me V ω / (4π), so with the greatest credible pressure this is the least credible speed
    for the power: a naturally aspirated spark-ignition engine reaches 850 to 1050 kPa at its
    torque peak and 10 to 15 % less at the power peak.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, sec. 2.7. From memory;
       the range was found again in two reprints.

    """
    require_positive(power=(power, "W"), swept_volume=(swept_volume, "m³"))
    require_positive(mean_pressure=(mean_pressure, "Pa"))
    return 4.0 * np.pi * power / (mean_pressure * swept_volume)


def mean_effective_pressure(*, torque: Values, swept_volume: Values) -> Values:
    """Return the brake mean effective pressure of a four-stroke engine.

    Parameters
    ----------
    torque : float or array
        Torque at the flywheel. [N·m]
    swept_volume : float or array
        Swept volume of all cylinders. [m³]

    Returns
    -------
    float or array
        Brake mean effective pressure. [Pa]

    Notes
    -----
    p_me = 4π T / V.

    References
    ----------
    .. [1] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, Eq. 2.20. From memory.

    """
    require_positive(swept_volume=(swept_volume, "m³"))
    return 4.0 * np.pi * torque / swept_volume


def curve_speeds(*, limit_speed: Values) -> Array:
    """Return the speeds at which a sampled full-load curve holds its torque.

    Parameters
    ----------
    limit_speed : float or array
        Highest speed that the engine is run to. [rad/s]

    Returns
    -------
    array
        `CURVE_POINTS` speeds from nothing to the limit along the first axis. [rad/s]

    Notes
    -----
    Evenly spaced, so that a look-up is one multiplication and not a search.

    References
    ----------
    .. [1] Numerical layout of this program.

    """
    require_positive(limit_speed=(limit_speed, "rad/s"))
    limit = np.atleast_1d(np.asarray(limit_speed, dtype=np.float64))
    return np.linspace(0.0, 1.0, CURVE_POINTS)[:, None] * limit


def firing_frequency(*, engine_speed: Values, cylinders: Values) -> Values:
    """Return how often a four-stroke engine fires.

    Parameters
    ----------
    engine_speed : float or array
        Angular speed of the crankshaft. [rad/s]
    cylinders : float or array
        Number of cylinders. [-]

    Returns
    -------
    float or array
        Firing frequency. [Hz]

    Notes
    -----
    f = z ω / (4π): each cylinder fires once in two turns.

    References
    ----------
    .. [1] Kinematics of the four-stroke cycle.

    """
    require_positive(cylinders=(cylinders, "-"))
    return cylinders * engine_speed / (4.0 * np.pi)
