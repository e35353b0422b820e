"""How an engine moves on its mounts; what is left round it is found in `solids`."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


def rock_angle(*, movement: npt.ArrayLike, height: npt.ArrayLike) -> Array:
    """Return the roll that moves the top of an engine sideways by so much.

    Parameters
    ----------
    movement : array_like
        Sideways movement of the top, to each side. [m]
    height : array_like
        Height of the top above the roll axis. [m]

    Returns
    -------
    array
        Roll. [rad]

    Notes
    -----
    φ = arcsin(s/h).

    References
    ----------
    .. [1] Geometry of a circle, definition.

    """
    s, h = np.asarray(movement, float), np.asarray(height, float)
    require(h > 0.0, "height", h, "m", "more than zero")
    require((s >= 0.0) & (s < 0.4 * h), "movement", s, "m", "from zero to 0.4 of the height")
    return np.asarray(np.arcsin(s / h), dtype=np.float64)
