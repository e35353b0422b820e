"""Many frames of one shape: the same band for all, a direct solution for each."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.physics.frame.assembly import Elements, Factors, element_stiffness
from drybuild.physics.frame.cases import Case
from drybuild.physics.frame.solve import free_freedoms

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]

AT_ONCE = 50
"""Samples whose element matrices are held in memory at a time."""


def sampled_stiffness(*, elements: Elements, factors: Factors, case: Case) -> Array:
    """Return the stiffness of every sample of a frame by a direct solution each.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels; samples in front. [-]
    case : Case
        The load case. [N, N·m]

    Returns
    -------
    array
        Stiffness by sample; nan where a sample is a mechanism. [N·m/rad or N/m]

    Notes
    -----
    Freedoms are numbered by the reverse Cuthill-McKee order, so that all but a narrow band about
    the diagonal is nought; the place of every element's entry in the band is found once. Each
    sample is then a sum into the band and a banded Cholesky solution.

    References
    ----------
    .. [1] E. Cuthill, J. McKee, "Reducing the bandwidth of sparse symmetric matrices", 1969
       (from memory).

    """
    from scipy.linalg import solveh_banded  # noqa: PLC0415  slow to import

    order = _band_order(elements, free_freedoms(elements=elements, case=case))
    slots, kept, width, size = _slots(elements, order)
    load = np.zeros(size)
    load[order[order >= 0]] = case.load[order >= 0]
    found = []
    for part in _parts(factors):
        beams, sheets = element_stiffness(elements=elements, factors=part)
        flat = [one.reshape(len(part.member), one.shape[-3] * 144) for one in (beams, sheets)]
        for values in np.concatenate(flat, axis=1)[:, kept]:
            band = np.bincount(slots, weights=values, minlength=width * size)
            try:
                motion = solveh_banded(band.reshape(width, size), load, lower=True)
                found.append(1.0 / float(load @ motion))
            except np.linalg.LinAlgError:
                found.append(np.nan)
    return np.array(found)


def _band_order(elements: Elements, free: Places) -> Places:
    """Return the place of every freedom in the band, −1 for one that is held."""
    from scipy.sparse import coo_array  # noqa: PLC0415  slow to import
    from scipy.sparse.csgraph import reverse_cuthill_mckee  # noqa: PLC0415  likewise

    pairs = [
        (one[:, :, None] + 0 * one[:, None, :], one[:, None, :] + 0 * one[:, :, None])
        for one in (elements.member_freedoms // 6, elements.panel_freedoms // 6)
    ]
    rows, columns = (np.concatenate([pair[k].ravel() for pair in pairs]) for k in (0, 1))
    count = len(elements.frame.nodes)
    graph = coo_array((np.ones(len(rows)), (rows, columns)), shape=(count, count)).tocsr()
    nodes = reverse_cuthill_mckee(graph, symmetric_mode=True)
    freedoms = (6 * np.asarray(nodes, dtype=np.int64)[:, None] + np.arange(6)).ravel()
    freedoms = freedoms[np.isin(freedoms, free)]
    order = np.full(elements.freedoms, -1, dtype=np.int64)
    order[freedoms] = np.arange(len(freedoms))
    return order


def _slots(elements: Elements, order: Places) -> tuple[Places, Places, int, int]:
    """Return where each kept element entry goes in the lower band, its width and its length."""
    rows, columns = [], []
    for one in (elements.member_freedoms, elements.panel_freedoms):
        place = order[one]
        rows.append(np.broadcast_to(place[:, :, None], (*place.shape, 12)).ravel())
        columns.append(np.broadcast_to(place[:, None, :], (*place.shape, 12)).ravel())
    row, column = np.concatenate(rows), np.concatenate(columns)
    kept = np.flatnonzero((column >= 0) & (row >= column))
    depth = row[kept] - column[kept]
    size = int(order.max()) + 1
    return depth * size + column[kept], kept, int(depth.max()) + 1, size


def _parts(factors: Factors) -> list[Factors]:
    """Return the samples in handfuls."""
    count = len(factors.member)
    return [
        Factors(
            member=factors.member[k : k + AT_ONCE],
            joint=factors.joint[k : k + AT_ONCE],
            panel=factors.panel[k : k + AT_ONCE],
        )
        for k in range(0, count, AT_ONCE)
    ]
