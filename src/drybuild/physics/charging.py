"""Alternator, battery and starter: output over speed, reserve, cranking voltage."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]

CRANKING_TEST_LOSS = 12.6 - 7.2  # [V], rest voltage less the limit of SAE J537's cold test
RESERVE_TEST_CURRENT = 25.0  # [A], SAE J537


def alternator_output(
    *, speed: Values, cut_in_speed: Values, rated_output: Values, rated_speed: Values
) -> Values:
    """Return the current that an alternator can give at a speed.

    Parameters
    ----------
    speed : float or array
        Speed of the alternator's shaft. [rad/s]
    cut_in_speed : float or array
        Speed below which it gives nothing. [rad/s]
    rated_output : float or array
        Current at the rated speed, at its working temperature. [A]
    rated_speed : float or array
        Speed of the rating, 6000 rpm. [rad/s]

    Returns
    -------
    float or array
        Current, zero below the cut-in speed. [A]

    Notes
    -----
    I = I_r (1 − n₀/n)/(1 − n₀/n_r): a curve in 1/n that rises from the cut-in speed and levels off.

    References
    ----------
    .. [1] Shape from measured curves, common practice, no source; rating points SAE J56, ISO 8854.

    """
    require(np.greater(cut_in_speed, 0.0), "cut_in_speed", cut_in_speed, "rad/s", "above zero")
    ok = np.greater(rated_speed, cut_in_speed)
    require(ok, "rated_speed", rated_speed, "rad/s", "above the cut-in speed")
    turning = np.maximum(speed, cut_in_speed)
    output: Values = (
        rated_output * (1.0 - cut_in_speed / turning) / (1.0 - cut_in_speed / rated_speed)
    )
    return output


def shaft_power(*, voltage: Values, current: Values, efficiency: Values) -> Values:
    """Return the power that a generator takes from its belt.

    Parameters
    ----------
    voltage : float or array
        Voltage of the system. [V]
    current : float or array
        Current given. [A]
    efficiency : float or array
        Electrical over mechanical power. [-]

    Returns
    -------
    float or array
        Mechanical power. [W]

    Notes
    -----
    P = U I/η.

    References
    ----------
    .. [1] Definition of efficiency.

    """
    ok = np.greater(efficiency, 0.0) & np.less_equal(efficiency, 1.0)
    require(ok, "efficiency", efficiency, "-", "more than 0, at most 1")
    return voltage * current / efficiency


def reserve_time(*, reserve_capacity: Values, current: Values, exponent: Values) -> Values:
    """Return how long a battery carries a load by itself.

    Parameters
    ----------
    reserve_capacity : float or array
        Time at 25 A down to 10.5 V. [s]
    current : float or array
        Load. [A]
    exponent : float or array
        Peukert's exponent, 1.1 to 1.3 for lead-acid. [-]

    Returns
    -------
    float or array
        Time. [s]

    Notes
    -----
    t = RC (25 A/I)^k.

    References
    ----------
    .. [1] W. Peukert, Elektrotechnische Zeitschrift 18 (1897).
    .. [2] SAE J537 for the reserve capacity.

    """
    require(np.greater(current, 0.0), "current", current, "A", "more than zero")
    require(np.greater_equal(exponent, 1.0), "exponent", exponent, "-", "1 or more")
    return reserve_capacity * (RESERVE_TEST_CURRENT / current) ** exponent


def parked_time(*, capacity: Values, usable_share: Values, drain: Values) -> Values:
    """Return how long a parked car's battery lasts.

    Parameters
    ----------
    capacity : float or array
        Capacity at the twenty-hour rate. [C]
    usable_share : float or array
        Share that may go before it will not start the engine. [-]
    drain : float or array
        Current with everything switched off. [A]

    Returns
    -------
    float or array
        Time. [s]

    Notes
    -----
    t = Q · share/I; self-discharge left out.

    References
    ----------
    .. [1] Conservation of charge.

    """
    require(np.greater(drain, 0.0), "drain", drain, "A", "more than zero")
    ok = np.greater(usable_share, 0.0) & np.less_equal(usable_share, 1.0)
    require(ok, "usable_share", usable_share, "-", "more than 0, at most 1")
    return capacity * usable_share / drain


def battery_resistance(*, cold_cranking_current: Values) -> Values:
    """Return a battery's internal resistance when cold, from its cold cranking rating.

    Parameters
    ----------
    cold_cranking_current : float or array
        Current held for 30 s at −18 °C above 7.2 V. [A]

    Returns
    -------
    float or array
        Internal resistance at −18 °C. [Ω]

    Notes
    -----
    R = (12.6 V − 7.2 V)/CCA.

    References
    ----------
    .. [1] SAE J537, "Storage batteries".

    """
    ok = np.greater(cold_cranking_current, 0.0)
    require(ok, "cold_cranking_current", cold_cranking_current, "A", "more than zero")
    return CRANKING_TEST_LOSS / cold_cranking_current


def cranking_voltage(
    *,
    rest_voltage: Values,
    current: Values,
    internal_resistance: Values,
    loop_resistance: Values,
) -> Values:
    """Return the voltage at the starter while it cranks.

    Parameters
    ----------
    rest_voltage : float or array
        Voltage of the battery at rest. [V]
    current : float or array
        Current of the starter. [A]
    internal_resistance : float or array
        Of the battery. [Ω]
    loop_resistance : float or array
        Of cables, straps and joints, out and back. [Ω]

    Returns
    -------
    float or array
        Voltage. [V]

    Notes
    -----
    U = U₀ − I (R_i + R_loop).

    References
    ----------
    .. [1] Ohm's law.

    """
    return rest_voltage - current * (internal_resistance + loop_resistance)
