"""What every member, joint and panel is worth: exact slopes of a stiffness from one solution."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.physics.frame.assembly import Elements
from drybuild.physics.frame.solve import Solution

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Slopes:
    """Gain in stiffness for the whole of a part again, as long as the gain is small."""

    member: Array
    """By each member's wall, as a share of it. [N·m/rad or N/m]"""
    joint: Array
    """By the rate of each member's joints, likewise."""
    panel: Array
    """By each panel's shear rate, likewise."""
    member_by_mass: Array
    """By each member's metal. [per kg]"""
    panel_by_mass: Array
    """By each panel's metal. [per kg]"""


def slopes(*, elements: Elements, solution: Solution) -> Slopes:
    """Return the slope of a stiffness by every wall, joint rate and panel rate.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    solution : Solution
        One solved case of unit load, at the factors that the slopes are wanted for. [SI]

    Returns
    -------
    Slopes
        Slopes; by mass where a part has mass. [N·m/rad, N/m, per kg]

    Notes
    -----
    With c = fᵀ u and k = 1/c the problem is its own adjoint: dk/dp = k² uᵀ (dK/dp) u. For a factor
    on a part this is k times the part's share of the energy, so no further solution is needed. Of
    a closed section area, second moments and torsion constant grow with the wall; of an open one
    the torsion constant with its third power. A slope is local: metal put into a soft spot that
    is then soft no more is worth less, and a part taken away costs more; solve again for steps.

    References
    ----------
    .. [1] R. T. Haftka, Z. Gürdal, "Elements of Structural Optimization": adjoint method,
       compliance (from memory).

    """
    power = elements.frame.members.twist_power
    member = solution.stiffness * (solution.member_share + (power - 1.0) * solution.twist_share)
    panel = solution.stiffness * solution.panel_share
    return Slopes(
        member=member,
        joint=solution.stiffness * solution.joint_share,
        panel=panel,
        member_by_mass=_by_mass(member, elements.member_mass),
        panel_by_mass=_by_mass(panel, elements.panel_mass),
    )


def _by_mass(slope: Array, mass: Array) -> Array:
    """Return slopes over masses; nought for a part without mass, such as rubber."""
    return np.divide(slope, mass, out=np.zeros_like(slope), where=mass > 0.0)
