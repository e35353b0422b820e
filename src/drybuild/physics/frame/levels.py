"""Direct solution level by level: each level of nodes touches only the one before and after."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import numpy.typing as npt

from drybuild.physics.frame.assembly import Elements, Factors, dense_stiffness
from drybuild.physics.frame.cases import Case

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]


def freedom_levels(*, elements: Elements, case: Case) -> list[Places]:
    """Return the free freedoms of a frame in levels that touch only their neighbours.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    case : Case
        What is held. [-]

    Returns
    -------
    list
        Numbers of freedoms, one array a level. [-]

    Notes
    -----
    Levels of nodes by their distance, counted in elements, from the node at the front end; the
    start of the order of Cuthill and McKee.

    References
    ----------
    .. [1] E. Cuthill, J. McKee, "Reducing the bandwidth of sparse symmetric matrices", 1969
       (from memory).

    """
    free = np.ones(elements.freedoms, dtype=bool)
    free[case.held] = False
    each = np.repeat(elements.node_levels, 6)
    found = [np.flatnonzero(free & (each == one)) for one in range(int(each.max()) + 1)]
    return [one for one in found if len(one)]


def solve_levels(*, elements: Elements, factors: Factors, case: Case) -> tuple[Array, list[Array]]:
    """Return the motion of one or more samples of a frame, and what each level stands on.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels; samples in front or none. [-]
    case : Case
        The load case. [N, N·m]

    Returns
    -------
    tuple
        Motion of every freedom (..., freedoms), and the matrix of each level after all before it
        are eliminated. [m, rad; N/m, N·m]

    Notes
    -----
    D₀ = A₀₀, D_l = A_ll − A_l,l−1 D_l−1⁻¹ A_l−1,l; likewise the load; then backwards. The matrices
    stay small, so that many threads have nothing to fight over.

    References
    ----------
    .. [1] Block elimination of a block tridiagonal matrix: G. H. Golub, C. F. Van Loan, "Matrix
       Computations" (from memory).

    """
    whole = dense_stiffness(elements=elements, factors=factors)
    levels = freedom_levels(elements=elements, case=case)
    lead = whole.shape[:-2]
    own, load = [_block(whole, levels[0], levels[0])], []
    load.append(np.broadcast_to(case.load[levels[0], None], (*lead, len(levels[0]), 1)))
    reach: list[Array] = []
    for before, here in pairwise(levels):
        cross = _block(whole, before, here)
        solved = np.linalg.solve(own[-1], np.concatenate([cross, load[-1]], axis=-1))
        reach.append(solved)
        back = np.swapaxes(cross, -1, -2)
        own.append(_block(whole, here, here) - back @ solved[..., :-1])
        load.append(case.load[here, None] - back @ solved[..., -1:])
    motion = np.zeros((*lead, elements.freedoms))
    after = np.linalg.solve(own[-1], load[-1])
    motion[..., levels[-1]] = after[..., 0]
    for here, solved in zip(levels[-2::-1], reach[::-1], strict=True):
        after = solved[..., -1:] - solved[..., :-1] @ after
        motion[..., here] = after[..., 0]
    return motion, own


def _block(whole: Array, rows: Places, columns: Places) -> Array:
    return whole[..., rows[:, None], columns]
