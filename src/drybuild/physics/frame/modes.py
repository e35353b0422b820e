"""First modes of a free frame with its mass lumped at the nodes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.frame.assembly import Elements, Factors, dense_stiffness

Array = npt.NDArray[np.float64]

RIGID = 6
"""Motions of a free body that strain nothing."""


@dataclass(frozen=True, kw_only=True)
class Modes:
    """Elastic modes, slowest first."""

    frequency: Array
    """[Hz]"""
    shape: Array
    """Motion of every node (modes, nodes, 3), the greatest of each mode one."""


def lumped_mass(*, elements: Elements, factors: Factors) -> Array:
    """Return the frame's own mass at its nodes.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What there is of members and panels; mass goes with it. [-]

    Returns
    -------
    array
        Mass at every node. [kg]

    Notes
    -----
    Half of a member to each end, a quarter of a panel to each corner.

    References
    ----------
    .. [1] Lumped masses, any text on structural dynamics (from memory).

    """
    members, panels, count = (
        elements.frame.members,
        elements.frame.panels,
        len(elements.frame.nodes),
    )
    half = 0.5 * elements.member_mass * factors.member
    quarter = np.repeat(0.25 * elements.panel_mass * factors.panel, 4)
    found = np.zeros(count)
    found += np.bincount(members.start, weights=half, minlength=count)
    found += np.bincount(members.end, weights=half, minlength=count)
    found += np.bincount(panels.corners.ravel(), weights=quarter, minlength=count)
    return found


def free_modes(*, elements: Elements, factors: Factors, mass: npt.ArrayLike, count: int) -> Modes:
    """Return the first elastic modes of a frame that nothing holds.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]
    mass : array_like
        Mass at every node, its own and what it carries. [kg]
    count : int
        How many modes. [-]

    Returns
    -------
    Modes
        Frequencies and shapes. [Hz, -]

    Notes
    -----
    Turns of nodes carry no mass and are condensed: K̂ = K_tt − K_tr K_rr⁻¹ K_rt; then
    M^−½ K̂ M^−½ φ = ω² φ, the first six of which are rigid motions.

    References
    ----------
    .. [1] R. J. Guyan, "Reduction of stiffness and mass matrices", AIAA Journal 3, 1965; exact for
       massless freedoms (from memory).

    """
    lumps = np.asarray(mass, float)
    require(lumps > 0.0, "mass", lumps, "kg", "more than zero at every node")
    whole = dense_stiffness(elements=elements, factors=factors)
    places = np.arange(elements.freedoms).reshape(-1, 6)
    shift, turn = places[:, :3].ravel(), places[:, 3:].ravel()
    cross = whole[np.ix_(turn, shift)]
    condensed = whole[np.ix_(shift, shift)] - cross.T @ np.linalg.solve(
        whole[np.ix_(turn, turn)], cross
    )
    root = np.repeat(1.0 / np.sqrt(lumps), 3)
    squares, shapes = np.linalg.eigh(root[:, None] * condensed * root)
    kept = slice(RIGID, RIGID + count)
    shape = (root[:, None] * shapes[:, kept]).T.reshape(-1, len(lumps), 3)
    size = np.linalg.norm(shape, axis=2).max(axis=1)
    return Modes(
        frequency=np.sqrt(np.maximum(squares[kept], 0.0)) / (2.0 * np.pi),
        shape=shape / size[:, None, None],
    )
