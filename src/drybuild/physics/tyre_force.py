"""Side force of a tyre from a few figures of it: load laws, curve over slip, camber and trail."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]
Array = npt.NDArray[np.float64]

SHAPE = 1.30
"""Shape factor C of side force; SAE 870421, a₀. [-]"""
CURVATURE = -0.709
"""Curvature E at the reference load; SAE 870421 at 4 kN. [-]"""
CURVATURE_SLOPE = -1.416
"""Change of E per reference load more; SAE 870421, 4 a₇. [-]"""
NEWTON = 8
"""Steps to the slip of the greatest force, at most."""
SETTLED = 1e-8
"""Last of these steps; the next would be about its square. [-]"""


@dataclass(frozen=True, kw_only=True)
class SideTyre:
    """What the sums of cornering know of a tyre; each broadcasts over samples."""

    reference_load: Values
    """Load at which the next two hold. [N]"""
    cornering_coefficient: Values
    """Cornering stiffness over load. [1/rad]"""
    friction: Values
    """Peak side force over load. [-]"""
    cornering_loss: Values
    """Relative loss of the cornering coefficient per relative load more. [-]"""
    friction_loss: Values
    """Relative loss of friction per relative load more. [-]"""
    camber_ratio: Values
    """Camber stiffness over cornering stiffness. [-]"""
    camber_friction_loss: Values
    """Relative loss of peak side force per camber squared. [1/rad²]"""
    pneumatic_trail: Values
    """Side force behind the contact centre at small slip. [m]"""


def cornering_stiffness(*, load: Values, tyre: SideTyre) -> Array:
    """Return the slope of side force over slip at zero slip.

    Parameters
    ----------
    load : float or array
        Load of the tyre. [N]
    tyre : SideTyre
        The tyre. [-]

    Returns
    -------
    array
        Cornering stiffness. [N/rad]

    Notes
    -----
    C = K₀ sin(2 arctan(F/F₁)) = c F (1 + x₀²)/(1 + x₀² (F/F₀)²) with x₀² = k/(2 − k): K₀ and F₁ are
    those that give the coefficient c and its relative loss k at F₀. C is greatest at F₀/x₀.

    References
    ----------
    .. [1] H. B. Pacejka, "Tyre and Vehicle Dynamics", 2nd ed. 2006, Eq. 4.E25 (from memory).

    """
    loss = np.asarray(tyre.cornering_loss, float)
    require((loss >= 0.0) & (loss < 2.0), "cornering_loss", loss, "-", "from 0 to below 2")
    relative = np.maximum(load, 0.0) / tyre.reference_load
    bend = loss / (2.0 - loss)
    slope = tyre.cornering_coefficient * np.maximum(load, 0.0)
    return np.asarray(slope * (1.0 + bend) / (1.0 + bend * relative**2), dtype=np.float64)


def peak_side_force(*, load: Values, camber: Values, tyre: SideTyre) -> Array:
    """Return the greatest side force of a tyre.

    Parameters
    ----------
    load : float or array
        Load of the tyre. [N]
    camber : float or array
        Lean of the wheel to the road, either way. [rad]
    tyre : SideTyre
        The tyre. [-]

    Returns
    -------
    array
        Peak side force; none at no load. [N]

    Notes
    -----
    D = μ₀ F (1 − s (F/F₀ − 1)) (1 − c_γ γ²): the load law of SAE 870421 with the camber term of
    the later book.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, SAE 870421, 1987.
    .. [2] H. B. Pacejka, "Tyre and Vehicle Dynamics", 2nd ed. 2006, Eq. 4.E23 (from memory).

    """
    carried = np.maximum(load, 0.0)
    share = 1.0 - tyre.friction_loss * (carried / tyre.reference_load - 1.0)
    leaning = np.maximum(1.0 - tyre.camber_friction_loss * np.square(camber), 0.0)
    return np.asarray(tyre.friction * carried * np.maximum(share, 0.0) * leaning, dtype=np.float64)


@dataclass(frozen=True, kw_only=True)
class SideCurve:
    """Side force over slip of a tyre at one load and lean."""

    peak: Array
    """Greatest force. [N]"""
    steepness: Array
    """B of the formula. [1/rad]"""
    curvature: Array
    """E of the formula. [-]"""
    shift: Array
    """Slip that the lean is worth. [rad]"""

    def force(self, slip: Values) -> Array:
        """Return the side force at a slip angle. [N]."""
        reach = self.steepness * (slip + self.shift)
        bent = reach - self.curvature * (reach - np.arctan(reach))
        return np.asarray(self.peak * np.sin(SHAPE * np.arctan(bent)), dtype=np.float64)

    def slip_at_peak(self) -> Array:
        """Return the slip angle of the greatest force; nan at no load. [rad]."""
        steep = np.where(self.steepness > 0.0, self.steepness, np.nan)
        return np.asarray(_reach_of_peak(self.curvature) / steep - self.shift, dtype=np.float64)


def side_curve(*, load: Values, camber: Values, tyre: SideTyre) -> SideCurve:
    """Return the side force over slip of a tyre at one load and lean.

    Parameters
    ----------
    load : float or array
        Load of the tyre. [N]
    camber : float or array
        Lean of the wheel to the road, positive towards where positive force points. [rad]
    tyre : SideTyre
        The tyre. [-]

    Returns
    -------
    SideCurve
        The curve; no force at no load.

    Notes
    -----
    y = D sin(C arctan(Bx − E (Bx − arctan Bx))), B = C_α/(C D), x = α + (C_γ/C_α) γ; C is that of
    the paper's tyre, E = −0.709 − 1.416 (F/F₀ − 1) its curvature about 4 kN. The greatest force is
    where C arctan(...) is a right angle.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, SAE 870421, 1987.

    """
    peak = peak_side_force(load=load, camber=camber, tyre=tyre)
    stiff = cornering_stiffness(load=load, tyre=tyre)
    relative = np.maximum(load, 0.0) / tyre.reference_load
    return SideCurve(
        peak=peak,
        steepness=np.asarray(stiff / (SHAPE * np.maximum(peak, 1e-9)), dtype=np.float64),
        curvature=np.asarray(CURVATURE + CURVATURE_SLOPE * (relative - 1.0), dtype=np.float64),
        shift=np.asarray(tyre.camber_ratio * camber, dtype=np.float64),
    )


def trail_at(*, slip: Values, load: Values, tyre: SideTyre) -> Array:
    """Return how far behind the contact centre the side force acts.

    Parameters
    ----------
    slip : float or array
        Slip angle. [rad]
    load : float or array
        Load of the tyre. [N]
    tyre : SideTyre
        The tyre. [-]

    Returns
    -------
    array
        Pneumatic trail: full at no slip, none once the whole contact slides. [m]

    Notes
    -----
    Brush model: t = t₀ (1 − σ)³/(1 − σ + σ²/3), σ = C_α |tan α|/(3 D).

    References
    ----------
    .. [1] H. B. Pacejka, "Tyre and Vehicle Dynamics", 2nd ed. 2006, Eq. 3.13 (from memory).

    """
    peak = np.maximum(peak_side_force(load=load, camber=0.0, tyre=tyre), 1e-9)
    stiff = cornering_stiffness(load=load, tyre=tyre)
    sliding = np.minimum(stiff * np.abs(np.tan(slip)) / (3.0 * peak), 1.0)
    left = (1.0 - sliding) ** 3 / (1.0 - sliding + sliding**2 / 3.0)
    return np.asarray(tyre.pneumatic_trail * left, dtype=np.float64)


def _reach_of_peak(curvature: Array) -> Array:
    """Return B·α at the greatest force: Bα − E (Bα − arctan Bα) = tan(π/(2C))."""
    wanted, reach = np.tan(np.pi / (2.0 * SHAPE)), np.full_like(curvature, 2.0)
    for _ in range(NEWTON):
        off = reach - curvature * (reach - np.arctan(reach)) - wanted
        step = off / (1.0 - curvature * (1.0 - 1.0 / (1.0 + reach**2)))
        reach = reach - step
        if not np.any(np.abs(step) > SETTLED):
            break
    return reach
