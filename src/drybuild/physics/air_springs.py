"""Springs of gas: air springs and the gas in a hydropneumatic unit."""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values

ATMOSPHERE = 101325.0
"""Standard atmosphere, ISO 2533:1975. [Pa]"""


def air_spring_rate(
    *, pressure: Values, area: Values, volume: Values, area_slope: Values, exponent: Values
) -> Values:
    """Return the rate of an air spring about its standing height.

    Parameters
    ----------
    pressure : float or array
        Gauge pressure standing. [Pa]
    area : float or array
        Effective area: force over gauge pressure. [m²]
    volume : float or array
        Volume of gas, with its tank. [m³]
    area_slope : float or array
        Growth of the effective area per shortening; zero for a plain piston. [m]
    exponent : float or array
        1 for slow motion, 1.4 for quick, 1.3 to 1.38 for a body's bounce. [-]

    Returns
    -------
    float or array
        Rate along the spring. [N/m]

    Notes
    -----
    F = p A, (p + p₀) Vⁿ constant, dV = −A dx: k = n (p + p₀) A²/V + p dA/dx.

    References
    ----------
    .. [1] J. Reimpell, H. Stoll, J. Betzler, "The Automotive Chassis", 2nd ed. 2001, air springs.

    """
    require(np.greater(volume, 0.0), "volume", volume, "m³", "more than zero")
    require(np.greater(area, 0.0), "area", area, "m²", "more than zero")
    gas = exponent * (pressure + ATMOSPHERE) * np.asarray(area) ** 2 / volume
    return np.asarray(gas + pressure * area_slope)


def air_spring_pressure(*, load: Values, area: Values) -> Values:
    """Return the gauge pressure that carries a load.

    Parameters
    ----------
    load : float or array
        Force along the spring. [N]
    area : float or array
        Effective area. [m²]

    Returns
    -------
    float or array
        Gauge pressure. [Pa]

    Notes
    -----
    p = F/A.

    References
    ----------
    .. [1] Definition of the effective area.

    """
    require(np.greater(area, 0.0), "area", area, "m²", "more than zero")
    return load / area
