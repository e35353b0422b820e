"""Bring a mesh into the car's axes by points known in both, and judge how well they agree."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array


@dataclass(frozen=True, kw_only=True, eq=False)
class Registration:
    """How a mesh is put into the car."""

    turn: Array
    """Rotation, shape (3, 3). [-]"""
    shift: Array
    """Shift after that, shape (3,). [m]"""
    residuals: Array
    """Distance of each point from where it was measured on the car. [m]"""

    @property
    def rms(self) -> float:
        """Root mean square of the residuals, over the degrees of freedom that are left (m).

        Three numbers a point, less six for the placing.
        """
        left = 3 * len(self.residuals) - 6
        return float(np.sqrt((self.residuals**2).sum() / left))


def register(*, scan: npt.ArrayLike, car: npt.ArrayLike) -> Registration:
    """Return the rotation and shift that bring points of a mesh onto points of the car.

    Parameters
    ----------
    scan : array_like
        Three or more points that are not in one line, in the mesh, shape (points, 3). [m]
    car : array_like
        The same points on the car. [m]

    Returns
    -------
    Registration
        Least squares, without change of scale and without mirroring. [m]

    Notes
    -----
    With both sets about their middles, H = Σ a bᵀ = U S Vᵀ; R = V diag(1, 1, det(V Uᵀ)) Uᵀ.

    References
    ----------
    .. [1] W. Kabsch, "A solution for the best rotation to relate two sets of vectors", Acta
       Crystallographica A32, 1976, p. 922; A34, 1978, p. 827 (from memory).

    """
    a, b = np.asarray(scan, float), np.asarray(car, float)
    require(
        a.shape == b.shape and a.ndim == 2, "scan", a.shape, "-", "as many points as on the car"
    )
    require(len(a) >= 3, "scan", len(a), "-", "three or more points")
    middle, other = a.mean(axis=0), b.mean(axis=0)
    spread = np.linalg.svd(a - middle, compute_uv=False)
    require(spread[1] > 1e-6 * spread[0], "scan", float(spread[1]), "m", "not all in one line")
    u, _, vt = np.linalg.svd((a - middle).T @ (b - other))
    sign = np.sign(np.linalg.det(vt.T @ u.T))
    turn = vt.T @ np.diag([1.0, 1.0, sign]) @ u.T
    shift = other - turn @ middle
    residuals = np.linalg.norm(a @ turn.T + shift - b, axis=1)
    return Registration(turn=turn, shift=shift, residuals=residuals)


def scale_ratio(*, scan: npt.ArrayLike, taped: npt.ArrayLike) -> float:
    """Return by how much the mesh's distances are to be multiplied to be the taped ones.

    Parameters
    ----------
    scan : array_like
        Distances between points in the mesh. [m]
    taped : array_like
        The same distances by the tape. [m]

    Returns
    -------
    float
        Least-squares ratio; 1 where the scale is right, 0.001 for millimetres read as metres. [-]

    Notes
    -----
    k = Σ d t / Σ d².

    References
    ----------
    .. [1] Linear least squares through the origin, definition.

    """
    d, t = np.asarray(scan, float), np.asarray(taped, float)
    require(d.shape == t.shape and d.size > 0, "scan", d.size, "-", "as many as taped, one or more")
    require((d > 0.0) & (t > 0.0), "taped", t, "m", "more than zero")
    return float((d * t).sum() / (d * d).sum())
