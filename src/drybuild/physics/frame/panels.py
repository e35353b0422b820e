"""Panels that carry shear in their own plane and nothing else."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


def panel_shear(*, corners: npt.ArrayLike) -> tuple[Array, Array]:
    """Return how far panels shear by the motion of their corners, and their area.

    Parameters
    ----------
    corners : array_like
        Four corners in order round each panel, of shape (panels, 4, 3). [m]

    Returns
    -------
    tuple
        Shear angle per motion of the twelve corner coordinates (panels, 12), and area in the
        panel's mean plane. [1/m, m²]

    Notes
    -----
    One point in the middle: γ = b·u with the gradients of the bilinear shape functions there,
    b_x = [y24, y31, y42, y13]/2A and b_y = [x42, x13, x24, x31]/2A in the mean plane, x along the
    mean of the first and third edge. K = G t A b bᵀ has rank one: no stretch, no bending; the edge
    members carry the axial forces. A warped panel is free of strain in every rigid motion.

    References
    ----------
    .. [1] Derived; the idealisation is the shear panel of aircraft practice and of the simple
       structural surfaces in Brown, Robertson, Serpento, "Motor Vehicle Structures", 2002
       (reprint).

    """
    p = np.asarray(corners, float)
    normal = np.cross(p[:, 2] - p[:, 0], p[:, 3] - p[:, 1])
    double = np.linalg.norm(normal, axis=1, keepdims=True)
    require(double > 0.0, "corners", double, "m²", "round a panel that has an area")
    normal = normal / double
    first = p[:, 1] - p[:, 0] + p[:, 2] - p[:, 3]
    first = first - np.sum(first * normal, axis=1, keepdims=True) * normal
    first = first / np.linalg.norm(first, axis=1, keepdims=True)
    second = np.cross(normal, first)
    x = np.einsum("pck,pk->pc", p, first)
    y = np.einsum("pck,pk->pc", p, second)
    ahead, behind = [1, 2, 3, 0], [3, 0, 1, 2]
    along = (y[:, ahead] - y[:, behind]) / double  # shape functions' slope along first
    across = (x[:, behind] - x[:, ahead]) / double  # and along second
    shear = across[:, :, None] * first[:, None, :] + along[:, :, None] * second[:, None, :]
    return shear.reshape(-1, 12), double[:, 0] / 2.0
