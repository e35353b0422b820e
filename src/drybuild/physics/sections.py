"""Thin-walled sections: area, second moments, torsion constant.

Dimensions of rectangles are those of the wall's middle line. A slit or rusted-through seam turns a
closed section into an open one and takes nearly all its torsion constant.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Section:
    """What a beam needs to know of its section."""

    area: Array
    """Metal area. [m²]"""
    second_moment_upright: Array
    """Second moment for bending in the section's upright plane. [m⁴]"""
    second_moment_sideways: Array
    """Second moment for bending in the section's other plane. [m⁴]"""
    torsion_constant: Array
    """St Venant torsion constant. [m⁴]"""


def closed_rectangle(
    *, width: npt.ArrayLike, height: npt.ArrayLike, thickness: npt.ArrayLike
) -> Section:
    """Return the properties of a closed thin rectangular box.

    Parameters
    ----------
    width : array_like
        Width between the middle lines of the upright walls. [m]
    height : array_like
        Height between the middle lines of the level walls. [m]
    thickness : array_like
        Wall thickness. [m]

    Returns
    -------
    Section
        Properties. [m², m⁴]

    Notes
    -----
    A = 2t(b + h); I_upright = t h³/6 + b t h²/2; I_sideways = t b³/6 + h t b²/2;
    J = 4 A_m²/∮ds/t = 2 t b² h²/(b + h). Walls thin against b and h.

    References
    ----------
    .. [1] R. Bredt, "Kritische Bemerkungen zur Drehungselastizität", Z. VDI 40, 1896 (from memory).

    """
    b, h, t = _positive(width=width, height=height, thickness=thickness)
    return Section(
        area=2.0 * t * (b + h),
        second_moment_upright=t * h**3 / 6.0 + b * t * h**2 / 2.0,
        second_moment_sideways=t * b**3 / 6.0 + h * t * b**2 / 2.0,
        torsion_constant=2.0 * t * b**2 * h**2 / (b + h),
    )


def round_tube(*, outside_diameter: npt.ArrayLike, wall: npt.ArrayLike) -> Section:
    """Return the exact properties of a round tube.

    Parameters
    ----------
    outside_diameter : array_like
        Outside diameter. [m]
    wall : array_like
        Wall thickness. [m]

    Returns
    -------
    Section
        Properties. [m², m⁴]

    Notes
    -----
    A = π/4 (D² − d²); I = π/64 (D⁴ − d⁴); J = 2 I.

    References
    ----------
    .. [1] Any text on strength of materials, for example S. Timoshenko, "Strength of Materials",
       part I (from memory).

    """
    outer, w = _positive(outside_diameter=outside_diameter, wall=wall)
    require(2.0 * w <= outer, "wall", w, "m", "at most half the outside diameter")
    inner = outer - 2.0 * w
    moment = np.pi / 64.0 * (outer**4 - inner**4)
    return Section(
        area=np.pi / 4.0 * (outer**2 - inner**2),
        second_moment_upright=moment,
        second_moment_sideways=moment,
        torsion_constant=2.0 * moment,
    )


def elastic_modulus(*, second_moment: npt.ArrayLike, depth: npt.ArrayLike) -> Array:
    """Return the elastic section modulus of a section symmetric about its neutral axis.

    Parameters
    ----------
    second_moment : array_like
        Second moment of area. [m⁴]
    depth : array_like
        Whole depth across the neutral axis. [m]

    Returns
    -------
    array
        Section modulus. [m³]

    Notes
    -----
    Z = 2 I / h.

    References
    ----------
    .. [1] S. Timoshenko, "Strength of Materials", part I (from memory).

    """
    moment, h = _positive(second_moment=second_moment, depth=depth)
    return np.asarray(2.0 * moment / h, dtype=np.float64)


def bredt_torsion_constant(
    *, enclosed_area: npt.ArrayLike, perimeter: npt.ArrayLike, thickness: npt.ArrayLike
) -> Array:
    """Return the torsion constant of any closed single-cell section of even thickness.

    Parameters
    ----------
    enclosed_area : array_like
        Area inside the wall's middle line. [m²]
    perimeter : array_like
        Length of the wall's middle line. [m]
    thickness : array_like
        Wall thickness. [m]

    Returns
    -------
    array
        Torsion constant. [m⁴]

    Notes
    -----
    J = 4 A_m² t / s.

    References
    ----------
    .. [1] R. Bredt, "Kritische Bemerkungen zur Drehungselastizität", Z. VDI 40, 1896 (from memory).

    """
    a, s, t = _positive(enclosed_area=enclosed_area, perimeter=perimeter, thickness=thickness)
    return np.asarray(4.0 * a**2 * t / s, dtype=np.float64)


def open_torsion_constant(*, developed_length: npt.ArrayLike, thickness: npt.ArrayLike) -> Array:
    """Return the torsion constant of an open section of even thickness.

    Parameters
    ----------
    developed_length : array_like
        Length of the wall's middle line, all limbs together. [m]
    thickness : array_like
        Wall thickness. [m]

    Returns
    -------
    array
        Torsion constant. [m⁴]

    Notes
    -----
    J = s t³/3. Warping held at the ends is left out, so this is a lower bound for an open rail or
    tunnel that is welded in at both ends.

    References
    ----------
    .. [1] A. J. C. B. de Saint-Venant, 1855, as in any text on strength of materials (from memory).

    """
    s, t = _positive(developed_length=developed_length, thickness=thickness)
    return np.asarray(s * t**3 / 3.0, dtype=np.float64)


def _positive(**values: npt.ArrayLike) -> list[Array]:
    """Return the values as arrays, refusing any that is not more than zero."""
    arrays = []
    for name, value in values.items():
        array = np.asarray(value, dtype=np.float64)
        require(array > 0.0, name, array, "SI", "more than zero")
        arrays.append(array)
    return arrays
