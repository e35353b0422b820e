"""Beams in space: direction, stiffness with or without shear, springs at their ends condensed."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])
VERTICAL = 1e-9
"""A member whose horizontal part is less than this share of its length counts as vertical."""
SHIFTS = (0, 1, 2, 6, 7, 8)
TURNS = (3, 4, 5, 9, 10, 11)


def beam_axes(*, start: npt.ArrayLike, end: npt.ArrayLike) -> Array:
    """Return the local axes of members as rows of a rotation matrix.

    Parameters
    ----------
    start : array_like
        Places where members begin, one a row: x forward, y left, z up. [m]
    end : array_like
        Places where they end. [m]

    Returns
    -------
    array
        Rotation matrices, global to local, of shape (members, 3, 3). [-]

    Notes
    -----
    Local x runs along the member, local z is horizontal, local y has the upward part; an exactly
    vertical member takes local z to the right (minus y).

    References
    ----------
    .. [1] Matrix structural analysis, for example W. McGuire, R. H. Gallagher, R. D. Ziemian
       (from memory); the choice of axes is that of common frame programs, so results compare.

    """
    first, last = np.atleast_2d(start).astype(float), np.atleast_2d(end).astype(float)
    along = last - first
    length = np.linalg.norm(along, axis=1, keepdims=True)
    require(length > 0.0, "end", length, "m", "away from the start")
    x = along / length
    across = np.cross(x, UP)
    size = np.linalg.norm(across, axis=1, keepdims=True)
    level = size > VERTICAL
    z = np.where(level, across / np.where(level, size, 1.0), [0.0, -1.0, 0.0])
    return np.stack([x, np.cross(z, x), z], axis=1)


def beam_stiffness(
    *,
    length: npt.ArrayLike,
    elastic_modulus: npt.ArrayLike,
    shear_modulus: npt.ArrayLike,
    area: npt.ArrayLike,
    second_moment_upright: npt.ArrayLike,
    second_moment_sideways: npt.ArrayLike,
    torsion_constant: npt.ArrayLike,
    shear_area_upright: npt.ArrayLike,
    shear_area_sideways: npt.ArrayLike,
) -> Array:
    """Return the stiffness matrices of straight beams in their own axes.

    Parameters
    ----------
    length : array_like
        Length. [m]
    elastic_modulus : array_like
        Young's modulus. [Pa]
    shear_modulus : array_like
        Shear modulus. [Pa]
    area : array_like
        Metal area. [m²]
    second_moment_upright : array_like
        Second moment for bending in the plane of local x and y. [m⁴]
    second_moment_sideways : array_like
        Second moment for bending in the plane of local x and z. [m⁴]
    torsion_constant : array_like
        Torsion constant. [m⁴]
    shear_area_upright : array_like
        Shear area for bending in the plane of x and y; infinite leaves shear out. [m²]
    shear_area_sideways : array_like
        Shear area for bending in the plane of x and z; infinite leaves shear out. [m²]

    Returns
    -------
    array
        Matrices of shape (..., 12, 12): u, v, w and three rotations at the start, then at the
        end. [N/m, N, N·m]

    Notes
    -----
    Axial EA/L, torsion GJ/L; bending with f = 12 E I/(G A_s L²) and b = E I/(L³ (1 + f)): shift
    with shift 12 b, shift with turn 6 b L, turn with turn (4 + f) b L² near and (2 − f) b L² far;
    f = 0 is Euler and Bernoulli's beam, else Timoshenko's. Warping is left free.

    References
    ----------
    .. [1] W. McGuire, R. H. Gallagher, R. D. Ziemian, "Matrix Structural Analysis" (from memory).
    .. [2] D. L. Logan, "A First Course in the Finite Element Method", ch. 5 (from memory).

    """
    span, e, g, a, upright, sideways, twist, by_y, by_z = np.broadcast_arrays(
        length,
        elastic_modulus,
        shear_modulus,
        area,
        second_moment_upright,
        second_moment_sideways,
        torsion_constant,
        shear_area_upright,
        shear_area_sideways,
    )
    for name, value in (("length", span), ("area", a), ("torsion_constant", twist)):
        require(value > 0.0, name, value, "SI", "more than zero")
    require((upright > 0.0) & (sideways > 0.0), "second_moment_upright", upright, "m⁴", "positive")
    k = np.zeros((*span.shape, 12, 12))
    _stretch(k, 0, e * a / span)
    _stretch(k, 3, g * twist / span)
    _bend(k, (1, 5), 1.0, span, e * upright, 12.0 * e * upright / (g * by_y * span**2))
    _bend(k, (2, 4), -1.0, span, e * sideways, 12.0 * e * sideways / (g * by_z * span**2))
    return k


def sprung_ends(*, stiffness: Array, flexibility: Array) -> tuple[Array, Array]:
    """Return how a beam and its end springs move with the nodes they join.

    Parameters
    ----------
    stiffness : array
        Stiffness of the beam itself in its principal axes, as `beam_stiffness` gives it, of shape
        (..., 12, 12). [N/m, N, N·m]
    flexibility : array
        Turn per moment of the springs about the beam's axes, start then end, of shape (..., 6);
        zero for a rigid joint. [rad/(N·m)]

    Returns
    -------
    tuple
        Motion of the beam's own ends by the nodes' motion (..., 12, 12), and turn of each spring
        by the nodes' motion (..., 6, 12). [-, 1/m]

    Notes
    -----
    The beam's end turns θ_i and the node's θ_o are tied by m = S (θ_o − θ_i). With F = S⁻¹:
    θ_i = H (θ_o − F K_rt t), H = (I + F K_rr)⁻¹. Then K* = Tᵀ K T + Gᵀ S G, which is the condensed
    K_oo − K_oi K_ii⁻¹ K_io, and stays finite as the joint becomes rigid. In principal axes the
    turns about one axis at both ends hang on each other only, so H is three inverses of 2 × 2.

    References
    ----------
    .. [1] Static condensation, any text on matrix structural analysis (from memory).

    """
    turns, shifts = list(TURNS), list(SHIFTS)
    own = stiffness[..., turns, :][..., :, turns]
    cross = stiffness[..., turns, :][..., :, shifts]
    soft = flexibility[..., :, None]
    h = _inverse_by_axis(np.eye(6) + soft * own)
    motion = np.zeros(np.broadcast_shapes(stiffness.shape, (*h.shape[:-2], 12, 12)))
    motion[..., shifts, shifts] = 1.0
    inner = np.zeros((*motion.shape[:-2], 6, 12))
    inner[..., :, turns] = h
    inner[..., :, shifts] = -h @ (soft * cross)
    motion[..., turns, :] = inner
    spring = -inner
    spring[..., range(6), turns] += 1.0
    return motion, spring


def _inverse_by_axis(matrix: Array) -> Array:
    """Return the inverse of 6 × 6 matrices that tie only the two ends' turns about each axis."""
    first, second = [0, 1, 2], [3, 4, 5]
    a, b = matrix[..., first, first], matrix[..., first, second]
    c, d = matrix[..., second, first], matrix[..., second, second]
    whole = a * d - b * c
    found = np.zeros_like(matrix)
    found[..., first, first], found[..., first, second] = d / whole, -b / whole
    found[..., second, first], found[..., second, second] = -c / whole, a / whole
    return found


def _stretch(k: Array, place: int, rate: Array) -> None:
    k[..., place, place] = k[..., place + 6, place + 6] = rate
    k[..., place, place + 6] = k[..., place + 6, place] = -rate


def _bend(
    k: Array, places: tuple[int, int], sign: float, span: Array, rigidity: Array, shear: Array
) -> None:
    """Enter one plane of bending: the shift and the turn, at both ends."""
    b = rigidity / (span**3 * (1.0 + shear))
    v, r = places
    terms = {
        (v, v): 12.0 * b,
        (v, r): sign * 6.0 * b * span,
        (v, v + 6): -12.0 * b,
        (v, r + 6): sign * 6.0 * b * span,
        (r, r): (4.0 + shear) * b * span**2,
        (r, v + 6): -sign * 6.0 * b * span,
        (r, r + 6): (2.0 - shear) * b * span**2,
        (v + 6, v + 6): 12.0 * b,
        (v + 6, r + 6): -sign * 6.0 * b * span,
        (r + 6, r + 6): (4.0 + shear) * b * span**2,
    }
    for (i, j), value in terms.items():
        k[..., i, j] = k[..., j, i] = value
