"""Published tyre force curves against slip angle: what a handling sum needs of a tyre."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class LateralCoefficients1987:
    """Coefficients of the 1987 load laws, in the paper's units (kN, degrees, N)."""

    a0: float
    """Shape factor C. [-]"""
    a1: float
    """[N/kN²]"""
    a2: float
    """[N/kN]"""
    a3: float
    """[N/deg]"""
    a4: float
    """[-]"""
    a5: float
    """[1/kN]"""
    a6: float
    """[1/kN²]"""
    a7: float
    """[1/kN]"""
    a8: float
    """[-]"""


def peak_lateral_force_1987(*, load: Values, coefficients: LateralCoefficients1987) -> Values:
    """Return the greatest side force of a tyre.

    Parameters
    ----------
    load : float or array
        Vertical load. [N]
    coefficients : LateralCoefficients1987
        The tyre, in the paper's own units. [-]

    Returns
    -------
    float or array
        Peak side force. [N]

    Notes
    -----
    D = a₁ F² + a₂ F with F in kN.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, "Tyre Modelling for Use in Vehicle Dynamics
       Studies", SAE 870421.

    """
    require(np.greater_equal(load, 0.0), "load", load, "N", "zero or more")
    kn = load / 1000.0
    return coefficients.a1 * kn**2 + coefficients.a2 * kn


def cornering_stiffness_1987(*, load: Values, coefficients: LateralCoefficients1987) -> Values:
    """Return the slope of side force against slip angle at zero slip.

    Parameters
    ----------
    load : float or array
        Vertical load. [N]
    coefficients : LateralCoefficients1987
        The tyre, in the paper's own units. [-]

    Returns
    -------
    float or array
        Cornering stiffness. [N/rad]

    Notes
    -----
    BCD = a₃ sin(a₄ arctan(a₅ F)) in N per degree, F in kN.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, SAE 870421.

    """
    require(np.greater_equal(load, 0.0), "load", load, "N", "zero or more")
    slope = coefficients.a3 * np.sin(coefficients.a4 * np.arctan(coefficients.a5 * load / 1000.0))
    return slope * 180.0 / np.pi


def lateral_force_1987(
    *, load: Values, slip_angle: Values, coefficients: LateralCoefficients1987
) -> Values:
    """Return the side force of a tyre at a slip angle.

    Parameters
    ----------
    load : float or array
        Vertical load. [N]
    slip_angle : float or array
        Slip angle, positive for positive force. [rad]
    coefficients : LateralCoefficients1987
        The tyre, in the paper's own units. [-]

    Returns
    -------
    float or array
        Side force. [N]

    Notes
    -----
    y = D sin(C arctan(Bx − E (Bx − arctan Bx))), E = a₆ F² + a₇ F + a₈; no camber, no offsets.

    References
    ----------
    .. [1] E. Bakker, L. Nyborg, H. B. Pacejka, SAE 870421.

    """
    require(np.greater(load, 0.0), "load", load, "N", "more than zero")
    kn = load / 1000.0
    peak = peak_lateral_force_1987(load=load, coefficients=coefficients)
    slope = cornering_stiffness_1987(load=load, coefficients=coefficients)
    stiff = slope / (coefficients.a0 * peak) * slip_angle
    curve = coefficients.a6 * kn**2 + coefficients.a7 * kn + coefficients.a8
    bent = stiff - curve * (stiff - np.arctan(stiff))
    return peak * np.sin(coefficients.a0 * np.arctan(bent))
