"""Electric conversion: energy over distance, and what keeps people safe from the bus."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require, require_positive

Array = npt.NDArray[np.float64]
Values = float | Array


def energy_per_distance(*, road_load: Values, efficiency: Values) -> Values:
    """Return the battery energy that a steady speed takes.

    Parameters
    ----------
    road_load : float or array
        Force at the tyres. [N]
    efficiency : float or array
        Efficiency from battery to tyre. [-]

    Returns
    -------
    float or array
        Energy per distance; 1 J/m is 0.2778 Wh/km. [J/m]

    Notes
    -----
    E = F/η. Without heating, acceleration and standing losses.

    References
    ----------
    .. [1] Work over efficiency.

    """
    require_positive(efficiency=(efficiency, "-"))
    require(np.less_equal(efficiency, 1.0), "efficiency", efficiency, "-", "one or less")
    return road_load / efficiency


def least_isolation_resistance(*, voltage: Values, alternating_parts: bool) -> Values:
    """Return the least isolation resistance of a traction bus to the body.

    Parameters
    ----------
    voltage : float or array
        Working voltage of the bus. [V]
    alternating_parts : bool
        Whether alternating-current parts are galvanically joined to the bus. [-]

    Returns
    -------
    float or array
        Resistance. [Ω]

    Notes
    -----
    100 Ω/V for direct current, 500 Ω/V with alternating-current parts joined to it. The
    regulation calls more than 60 V DC or 30 V AC high voltage: licensed practice only.

    References
    ----------
    .. [1] UN Regulation No. 100, para. 5.1.3. Reprint.

    """
    require_positive(voltage=(voltage, "V"))
    return (500.0 if alternating_parts else 100.0) * voltage
