"""Body roll, the load it moves across an axle, and tipping over."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]


def roll_gradient(*, sprung_mass: Values, roll_arm: Values, roll_stiffness: Values) -> Values:
    """Return the body's roll angle per lateral acceleration.

    Parameters
    ----------
    sprung_mass : float or array
        Sprung mass. [kg]
    roll_arm : float or array
        Height of the sprung centre of gravity over the roll axis below it. [m]
    roll_stiffness : float or array
        Roll stiffness of both axles together. [N·m/rad]

    Returns
    -------
    float or array
        Roll gradient; nan where the springs cannot hold the body up. [rad·s²/m]

    Notes
    -----
    φ/a_y = m_s d / (K_φ − m_s g d). Small angles, linear springs, rigid body.

    References
    ----------
    .. [1] D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, Eq. 3.18.
    .. [2] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-41.

    """
    require(np.greater(sprung_mass, 0.0), "sprung_mass", sprung_mass, "kg", "more than zero")
    left = roll_stiffness - sprung_mass * STANDARD_GRAVITY * roll_arm
    with np.errstate(divide="ignore", invalid="ignore"):
        return sprung_mass * roll_arm / np.where(np.greater(left, 0.0), left, np.nan)


@dataclass(frozen=True, kw_only=True)
class LoadTransfer:
    """Load that moves from the inner to the outer wheel of one axle, in its parts."""

    elastic: Values
    """Through springs and bars. [N]"""
    geometric: Values
    """Straight through the links, by the roll centre. [N]"""
    unsprung: Values
    """Of the unsprung mass itself. [N]"""

    @property
    def total(self) -> Values:
        """All three together, in newton."""
        return self.elastic + self.geometric + self.unsprung


def lateral_load_transfer(
    *,
    lateral_acceleration: Values,
    roll_angle: Values,
    axle_roll_stiffness: Values,
    track: Values,
    sprung_mass_on_axle: Values,
    roll_centre_height: Values,
    unsprung_mass: Values,
    unsprung_height: Values,
) -> LoadTransfer:
    """Return the lateral load transfer of one axle.

    Parameters
    ----------
    lateral_acceleration : float or array
        Lateral acceleration. [m/s²]
    roll_angle : float or array
        Roll angle of the body at that acceleration. [rad]
    axle_roll_stiffness : float or array
        Roll stiffness of this axle. [N·m/rad]
    track : float or array
        Distance between its wheels. [m]
    sprung_mass_on_axle : float or array
        Share of the sprung mass that this axle carries. [kg]
    roll_centre_height : float or array
        Height of its roll centre over the road. [m]
    unsprung_mass : float or array
        Its unsprung mass, both wheels. [kg]
    unsprung_height : float or array
        Height of the unsprung mass over the road. [m]

    Returns
    -------
    LoadTransfer
        Gain of the outer wheel, loss of the inner wheel. [N]

    Notes
    -----
    ΔF = (K_φ φ + m_s,axle a_y h_rc + m_u a_y h_u) / t.

    References
    ----------
    .. [1] D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, sec. 3.9.
    .. [2] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, Eq. 6-42.

    """
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    return LoadTransfer(
        elastic=axle_roll_stiffness * roll_angle / track,
        geometric=sprung_mass_on_axle * lateral_acceleration * roll_centre_height / track,
        unsprung=unsprung_mass * lateral_acceleration * unsprung_height / track,
    )


def static_stability_factor(*, track: Values, cg_height: Values) -> Values:
    """Return the lateral acceleration, in g, at which a rigid car would tip.

    Parameters
    ----------
    track : float or array
        Mean of front and rear track. [m]
    cg_height : float or array
        Height of the centre of gravity over the road. [m]

    Returns
    -------
    float or array
        Static stability factor. [-]

    Notes
    -----
    t / (2 h).

    References
    ----------
    .. [1] NHTSA, "Consumer Information; New Car Assessment Program; Rollover Resistance",
       68 FR 59291, 2003.

    """
    require(np.greater(track, 0.0), "track", track, "m", "more than zero")
    require(np.greater(cg_height, 0.0), "cg_height", cg_height, "m", "more than zero")
    return track / (2.0 * cg_height)


def rollover_risk_nhtsa_2003(*, static_stability_factor: Values) -> Values:
    """Return the share of single-car crashes in which a car of this factor rolls over.

    Parameters
    ----------
    static_stability_factor : float or array
        Half the track over the height of the centre of gravity. [-]

    Returns
    -------
    float or array
        Probability, given that a single-car crash has happened. [-]

    Notes
    -----
    P = 1 / (1 + exp(2.8891 + 1.1686 ln(SSF − 0.90))). Fitted to crashes from 2000 on of cars
    with factors of about 1.0 to 1.5; needs more than 0.90.

    References
    ----------
    .. [1] NHTSA, 68 FR 59291, 2003, logistic model without dynamic test.

    """
    require(
        np.greater(static_stability_factor, 0.9),
        "static_stability_factor",
        static_stability_factor,
        "-",
        "more than 0.90",
    )
    return 1.0 / (1.0 + np.exp(2.8891 + 1.1686 * np.log(static_stability_factor - 0.90)))
