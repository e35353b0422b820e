"""Anti-roll bars of any bend: compliance along their own line, stress, the diameter for a rate."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.springs import Values

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class BarShape:
    """What the line of a bar makes of a force at its end, whatever its section."""

    bending: Values
    """Integral of the bending moment squared along half of the bar, per force squared. [m³]"""
    twisting: Values
    """The same of the twisting moment. [m³]"""
    bush_share: Values
    """Force on each bush over the force at the end. [-]"""
    worst: Values
    """Greatest √(M² + ¾ T²) along it, per force: the lever of von Mises' stress. [m]"""


def bar_shape(*, line: Array, bush: Values) -> BarShape:
    """Return what the line of the left half of a bar makes of equal and opposite end forces.

    Parameters
    ----------
    line : array
        Points from the end to the car's middle: (points, 3, ...); x forward, y left, z up. [m]
    bush : array
        Distance of the bush from the car's middle along y; it stands where the line
        passes there. [m]

    Returns
    -------
    BarShape
        Integrals along the half, per force.

    Notes
    -----
    Vertical forces ± F at the ends, bushes that hold square to the bar: R = F y_end/y_bush by
    balance of roll, and by symmetry nothing but twist and no bending passes the middle. Along
    each straight piece the moment of F and R about a point is linear, so Simpson's rule is exact.
    Energy: δ/F = ∫M²/EI + ∫T²/GJ + (R/F)²/k_bush.

    References
    ----------
    .. [1] A. Castigliano's theorem, e.g. J. E. Shigley and others, "Mechanical Engineering
       Design", sec. 4-8.

    """
    require(len(line) > 1, "line", len(line), "-", "two points or more")
    require(np.greater(bush, 0.0), "bush", bush, "m", "more than zero")
    require(np.less_equal(bush, line[0, 1]), "bush", bush, "m", "not outside the bar's end")
    share = np.asarray(line[0, 1] / bush)
    pieces, held = _pieces(line, np.asarray(bush))
    bending, twisting, worst = np.zeros(1), np.zeros(1), np.zeros(1)
    for start, end in pieces:
        along = end - start
        length = np.sqrt((along**2).sum(axis=0))
        direction = along / np.where(length > 0.0, length, 1.0)
        inside = (start[1] + end[1]) / 2.0 < bush
        for weight, point in ((1.0, start), (4.0, (start + end) / 2.0), (1.0, end)):
            moment = _moment(line[0], point) - np.where(inside, share, 0.0) * _moment(held, point)
            twist = ((moment * direction).sum(axis=0)) ** 2
            bend = np.maximum((moment**2).sum(axis=0) - twist, 0.0)
            bending = bending + length / 6.0 * weight * bend
            twisting = twisting + length / 6.0 * weight * twist
            worst = np.maximum(worst, np.sqrt(bend + 0.75 * twist))
    return BarShape(bending=bending, twisting=twisting, bush_share=share, worst=worst)


def shaped_bar_rate(
    *,
    shape: BarShape,
    diameter: Values,
    bore: Values,
    bush_rate: Values,
    youngs_modulus: Values,
    shear_modulus: Values,
) -> Values:
    """Return the force per travel at each end of a bar, ends moving opposite ways.

    Parameters
    ----------
    shape : BarShape
        What its line makes of a force. [-]
    diameter : float or array
        Outside diameter. [m]
    bore : float or array
        Inside diameter; zero for a solid bar. [m]
    bush_rate : float or array
        Radial rate of one bush; infinite for a rigid one. [N/m]
    youngs_modulus : float or array
        Young's modulus. [Pa]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Rate at the ends. [N/m]

    Notes
    -----
    1/k = ∫M²/(E I) + ∫T²/(G J) + s²/k_bush, I = π(d⁴ − b⁴)/64, J = 2 I.

    References
    ----------
    .. [1] SAE, "Spring Design Manual", HS-796; equal to its U-bar form where the bar is one.

    """
    require(np.greater(diameter, bore), "diameter", diameter, "m", "more than the bore")
    second = np.pi * (diameter**4 - bore**4) / 64.0
    give = shape.bending / (youngs_modulus * second)
    give = give + shape.twisting / (2.0 * shear_modulus * second)
    return 1.0 / (give + shape.bush_share**2 / bush_rate)


def bar_diameter_for(
    *,
    shape: BarShape,
    rate: Values,
    bush_rate: Values,
    youngs_modulus: Values,
    shear_modulus: Values,
) -> Values:
    """Return the diameter of a solid bar that has a rate at its ends.

    Parameters
    ----------
    shape : BarShape
        What its line makes of a force. [-]
    rate : float or array
        Rate wanted at the ends. [N/m]
    bush_rate : float or array
        Radial rate of one bush. [N/m]
    youngs_modulus : float or array
        Young's modulus. [Pa]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Diameter; zero for no rate, nan where the bushes alone are softer than the rate. [m]

    Notes
    -----
    The inverse of the rate: d⁴ = (64/π) (∫M²/E + ∫T²/2G)/(1/k − s²/k_bush).

    References
    ----------
    .. [1] SAE, "Spring Design Manual", HS-796.

    """
    require(np.greater_equal(rate, 0.0), "rate", rate, "N/m", "zero or more")
    give = shape.bending / youngs_modulus + shape.twisting / (2.0 * shear_modulus)
    with np.errstate(divide="ignore", invalid="ignore"):
        left = 1.0 / np.asarray(rate, dtype=np.float64) - shape.bush_share**2 / bush_rate
        fourth = 64.0 / np.pi * give / np.where(left > 0.0, left, np.nan)
    return np.where(np.equal(rate, 0.0), 0.0, fourth**0.25)


def bar_stress(*, shape: BarShape, force: Values, diameter: Values, bore: Values) -> Values:
    """Return the greatest stress in a bar by von Mises.

    Parameters
    ----------
    shape : BarShape
        What its line makes of a force. [-]
    force : float or array
        Force at each end. [N]
    diameter : float or array
        Outside diameter. [m]
    bore : float or array
        Inside diameter. [m]

    Returns
    -------
    float or array
        Equivalent stress at the surface. [Pa]

    Notes
    -----
    σ = 32 M/π d³, τ = 16 T/π d³, √(σ² + 3τ²) = 32/π d³ √(M² + ¾ T²), the section of a tube less
    its bore. The bends' own curvature is left out.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", sec. 5-5, distortion energy.

    """
    require(np.greater(diameter, bore), "diameter", diameter, "m", "more than the bore")
    section = np.pi * (diameter**4 - bore**4) / (32.0 * diameter)
    return np.abs(force) * shape.worst / section


def _pieces(line: Array, bush: Array) -> tuple[list[tuple[Array, Array]], Array]:
    """Return the straight pieces, cut in two where the bush stands, and that place."""
    found, held = [], np.zeros(1)
    for start, end in pairwise(line):
        fall = start[1] - end[1]
        share = np.clip((start[1] - bush) / np.where(np.abs(fall) > 0.0, fall, np.inf), 0.0, 1.0)
        middle = start + share * (end - start)
        found += [(start, middle), (middle, end)]
        held = held + np.where((start[1] >= bush) & (bush > end[1]), middle, 0.0)
    return found, held


def _moment(at: Array, about: Array) -> Array:
    """Return the moment of a unit force upward about a point, (3, ...)."""
    reach = at - about
    return np.stack((reach[1], -reach[0], 0.0 * reach[0]))
