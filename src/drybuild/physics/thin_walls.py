"""Thin walls of any outline: open sections with their warping, and walls with holes in them.

An outline is a chain of straight walls given by its corners on the middle line. A section that is
open twists easily, unless what it is welded to keeps it from warping: `restrained_torsion_constant`
says how much that is worth.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class OpenSection:
    """What an open thin-walled section is to a beam."""

    area: float
    """Metal area. [m²]"""
    centroid: tuple[float, float]
    """Across and up, in the axes of the corners. [m]"""
    second_moment_upright: float
    """For bending in the upright plane: about the axis across. [m⁴]"""
    second_moment_sideways: float
    """For bending in the level plane: about the upright axis. [m⁴]"""
    torsion_constant: float
    """De Saint-Venant's. [m⁴]"""
    warping_constant: float
    """[m⁶]"""
    shear_centre: tuple[float, float]
    """Across and up, in the axes of the corners. [m]"""


def open_outline(*, corners: npt.ArrayLike, thickness: npt.ArrayLike) -> OpenSection:
    """Return the properties of an open chain of straight thin walls.

    Parameters
    ----------
    corners : array_like
        Corners of the middle line in order, across and up, one a row. [m]
    thickness : array_like
        Thickness of each wall between two corners, or of all. [m]

    Returns
    -------
    OpenSection
        Properties; the shear centre and the warping constant about it. [m², m, m⁴, m⁶]

    Notes
    -----
    With the sectorial coordinate ω about the centroid, dω = y dz − z dy, the pole D of the shear
    centre follows from ∫ω_D y dA = ∫ω_D z dA = 0, and I_ω = ∫(ω_D − mean)² dA. All integrands are
    products of functions that are linear along a wall, so the sums are exact for thin walls.
    J = Σ s t³/3.

    References
    ----------
    .. [1] V. Z. Vlasov, "Thin-Walled Elastic Beams", 1940, ch. 1 (from memory).

    """
    p = np.asarray(corners, dtype=np.float64)
    t = np.broadcast_to(np.asarray(thickness, dtype=np.float64), (len(p) - 1,))
    span = np.linalg.norm(np.diff(p, axis=0), axis=1)
    require(t > 0.0, "thickness", t, "m", "more than zero")
    require(span > 0.0, "corners", span, "m", "away from each other")
    metal = t * span

    def integral(f: Array, g: Array) -> float:
        along = 2.0 * f[:-1] * g[:-1] + f[:-1] * g[1:] + f[1:] * g[:-1] + 2.0 * f[1:] * g[1:]
        return float(np.sum(metal * along) / 6.0)

    one, area = np.ones(len(p)), float(metal.sum())
    centre = np.array([integral(p[:, k], one) / area for k in (0, 1)])
    y, z = (p - centre).T
    swept = np.concatenate([[0.0], np.cumsum(y[:-1] * z[1:] - z[:-1] * y[1:])])
    swept = swept - integral(swept, one) / area
    moments = np.array([[integral(y, y), -integral(y, z)], [integral(y, z), -integral(z, z)]])
    up, across = np.linalg.solve(moments, [-integral(swept, y), -integral(swept, z)])
    swept = swept + up * y - across * z
    return OpenSection(
        area=area,
        centroid=(float(centre[0]), float(centre[1])),
        second_moment_upright=integral(z, z),
        second_moment_sideways=integral(y, y),
        torsion_constant=float(np.sum(span * t**3) / 3.0),
        warping_constant=integral(swept, swept),
        shear_centre=(float(centre[0] + across), float(centre[1] + up)),
    )


def restrained_torsion_constant(
    *,
    torsion_constant: npt.ArrayLike,
    warping_constant: npt.ArrayLike,
    length: npt.ArrayLike,
    elastic_modulus: npt.ArrayLike,
    shear_modulus: npt.ArrayLike,
    held: npt.ArrayLike,
) -> Array:
    """Return the torsion constant that stands for a beam whose ends cannot warp freely.

    Parameters
    ----------
    torsion_constant : array_like
        De Saint-Venant's torsion constant. [m⁴]
    warping_constant : array_like
        Warping constant. [m⁶]
    length : array_like
        Length between the ends. [m]
    elastic_modulus : array_like
        Young's modulus. [Pa]
    shear_modulus : array_like
        Shear modulus. [Pa]
    held : array_like
        Share of the warping that the ends keep from happening: 0 free, 1 built in. [-]

    Returns
    -------
    array
        Torsion constant of a plain beam of the same length that twists as much. [m⁴]

    Notes
    -----
    E I_ω θ'''' − G J θ'' = 0 under an end torque T has θ' = T/(G J) (1 − β cosh k(x − L/2)/cosh
    kL/2), k² = G J/(E I_ω), where β = 1 − G J θ'(end)/T is the share held. Then θ = T L/(G J) (1 −
    β tanh(x)/x) with x = k L/2, so J_eff = J/(1 − β tanh(x)/x); built in and short, this is 12 E
    I_ω/(G L²).

    References
    ----------
    .. [1] V. Z. Vlasov, "Thin-Walled Elastic Beams", 1940 (from memory).
    .. [2] S. P. Timoshenko, J. M. Gere, "Theory of Elastic Stability", 2nd ed. 1961, sec. 5.3,
       nonuniform torsion of thin-walled bars (from memory).

    """
    j, warping, span, e, g, share = (
        np.asarray(one, dtype=np.float64)
        for one in (
            torsion_constant,
            warping_constant,
            length,
            elastic_modulus,
            shear_modulus,
            held,
        )
    )
    require(j > 0.0, "torsion_constant", j, "m⁴", "more than zero")
    require(warping >= 0.0, "warping_constant", warping, "m⁶", "zero or more")
    require(span > 0.0, "length", span, "m", "more than zero")
    require((share >= 0.0) & (share <= 1.0), "held", share, "-", "between zero and one")
    some = np.where(warping > 0.0, warping, 1.0)
    x = 0.5 * span * np.sqrt(g * j / (e * some))
    # near nought 1 − tanh(x)/x loses its digits: there it is x²/3 − 2x⁴/15
    near = x**2 / 3.0 - 2.0 * x**4 / 15.0
    lost = np.where(x < 1e-3, near, 1.0 - np.tanh(x) / x)
    stiffer = j / (1.0 - share + share * lost)
    return np.asarray(np.where(warping > 0.0, stiffer, j), dtype=np.float64)


def holed_shares(*, holes: npt.ArrayLike, poisson_ratio: npt.ArrayLike) -> tuple[Array, Array]:
    """Return what round holes leave of a wall's stiffness in stretch and in shear.

    Parameters
    ----------
    holes : array_like
        Share of the wall's area that is cut away by round holes spread over it. [-]
    poisson_ratio : array_like
        Poisson's ratio of the metal. [-]

    Returns
    -------
    tuple
        Share left in stretch and share left in shear. [-]

    Notes
    -----
    Holes that do not feel each other: E/E₀ = 1/(1 + 3 φ), ν/E = (ν₀ + φ)/E₀, from which G/G₀ =
    1/(1 + 4 φ/(1 + ν₀)). Good for a few per cent of holes, fair to a quarter; holes in one row that
    nearly touch leave less.

    References
    ----------
    .. [1] M. Kachanov, I. Tsukrov, B. Shafiro, "Effective moduli of solids with cavities of various
       shapes", Applied Mechanics Reviews 47, 1994, circular holes in plane stress (from memory).

    """
    share, ratio = np.asarray(holes, dtype=np.float64), np.asarray(poisson_ratio, dtype=np.float64)
    require((share >= 0.0) & (share < 0.5), "holes", share, "-", "zero or more, under a half")
    return 1.0 / (1.0 + 3.0 * share), 1.0 / (1.0 + 4.0 * share / (1.0 + ratio))
