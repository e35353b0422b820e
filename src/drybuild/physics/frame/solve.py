"""Solve a load case: motion, stiffness, shares of strain energy, and what a lost part costs."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError
from drybuild.physics.frame.assembly import (
    Elements,
    Factors,
    dense_stiffness,
    element_motion,
)
from drybuild.physics.frame.cases import AXES, Case
from drybuild.physics.frame.elements import TURNS
from drybuild.physics.frame.levels import freedom_levels, solve_levels

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]

LOOSE = 1e-12
"""A freedom whose pivot is below this share of its own stiffness is free: a mechanism."""


@dataclass(frozen=True, kw_only=True)
class Solution:
    """A load case solved."""

    stiffness: float
    """Load over its own motion: N·m/rad in torsion, N/m in bending."""
    motion: Array
    """Motion of every freedom under the unit load."""
    member_share: Array
    """Share of the strain energy in each member's own metal."""
    twist_share: Array
    """The part of that in the member's own torsion."""
    joint_share: Array
    """Share in the springs at each member's ends."""
    panel_share: Array
    """Share in each panel."""


def solve(*, elements: Elements, factors: Factors, case: Case) -> Solution:
    """Return motion, stiffness and energy shares of a frame under a load case.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]
    case : Case
        What holds the frame and what pulls at it. [N, N·m]

    Returns
    -------
    Solution
        Stiffness, motion, shares that sum to one. [SI]

    Raises
    ------
    InputError
        The frame is a mechanism: some node moves without straining anything.

    Notes
    -----
    K u = f level by level (`levels`); stiffness = 1/(fᵀ u) for a load of unit size.

    References
    ----------
    .. [1] W. McGuire, R. H. Gallagher, R. D. Ziemian, "Matrix Structural Analysis" (from memory).

    """
    try:
        motion, stands = solve_levels(elements=elements, factors=factors, case=case)
    except np.linalg.LinAlgError:
        _refuse_singular(elements, factors, case)
        raise
    _refuse_mechanism(elements, case, stands)
    compliance = float(case.load @ motion)
    member, twist, joint, panel = energies(elements=elements, factors=factors, motion=motion)
    return Solution(
        stiffness=1.0 / compliance,
        motion=motion,
        member_share=member / compliance,
        twist_share=twist / compliance,
        joint_share=joint / compliance,
        panel_share=panel / compliance,
    )


def free_freedoms(*, elements: Elements, case: Case) -> Places:
    """Return the freedoms that a case leaves free.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    case : Case
        The case. [N, N·m]

    Returns
    -------
    array
        Numbers of freedoms. [-]

    """
    free = np.ones(elements.freedoms, dtype=bool)
    free[case.held] = False
    return np.flatnonzero(free)


def energies(
    *, elements: Elements, factors: Factors, motion: Array
) -> tuple[Array, Array, Array, Array]:
    """Return twice the strain energy of members, of their torsion, of joints and of panels.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]
    motion : array
        Motion of every freedom; samples in front. [m, rad]

    Returns
    -------
    tuple
        Four arrays, the first three by member, the last by panel. [J]

    """
    ends, _ = element_motion(elements=elements, factors=factors)
    own = ends @ elements.turn @ motion[..., elements.member_freedoms][..., None]
    force = factors.member[..., None] * (elements.beam @ own)[..., 0]
    own = own[..., 0]
    moment = force[..., list(TURNS)]
    soft = elements.frame.members.flexibility / factors.joint[..., None]
    gamma = np.einsum("pk,...pk->...p", elements.shear, motion[..., elements.panel_freedoms])
    return (
        np.sum(own * force, axis=-1),
        (own[..., 9] - own[..., 3]) * force[..., 9],
        np.sum(moment**2 * soft, axis=-1),
        elements.rate * factors.panel * gamma**2,
    )


def end_forces(*, elements: Elements, factors: Factors, motion: Array) -> Array:
    """Return the forces and moments at both ends of every member, in its own axes.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]
    motion : array
        Motion of every freedom; samples in front. [m, rad]

    Returns
    -------
    array
        (..., members, 12): along, across in y and z, turning about x, y, z; start then end.
        [N, N·m]

    """
    ends, _ = element_motion(elements=elements, factors=factors)
    own = ends @ elements.turn @ motion[..., elements.member_freedoms][..., None]
    return np.asarray(factors.member[..., None] * (elements.beam @ own)[..., 0])


def knock_out(
    *, elements: Elements, factors: Factors, case: Case, members: tuple[str, ...], left: float
) -> float:
    """Return the stiffness after the named members or panels lose some or all of theirs.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels before. [-]
    case : Case
        The load case. [N, N·m]
    members : tuple
        Names of members and panels. [-]
    left : float
        What is left of them: zero for gone, two for doubled. [-]

    Returns
    -------
    float
        Stiffness, zero where the rest is a mechanism. [N·m/rad or N/m]

    """
    changed = changed_factors(elements=elements, factors=factors, names=members, left=left)
    try:
        return solve(elements=elements, factors=changed, case=case).stiffness
    except InputError:
        return 0.0


def changed_factors(
    *, elements: Elements, factors: Factors, names: tuple[str, ...], left: float
) -> Factors:
    """Return factors with those of named members or panels multiplied.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels before. [-]
    names : tuple
        Names of members and panels. [-]
    left : float
        What is left of them. [-]

    Returns
    -------
    Factors
        Changed. [-]

    """
    known = {*elements.frame.members.names, *elements.frame.panels.names}
    for name in names:
        if name not in known:
            raise InputError(f"the frame has no member or panel {name}; name one that it has")
    beams = np.where([one in names for one in elements.frame.members.names], left, 1.0)
    sheets = np.where([one in names for one in elements.frame.panels.names], left, 1.0)
    return replace(
        factors,
        member=factors.member * beams,
        panel=factors.panel * sheets if len(sheets) else factors.panel,
    )


def support_forces(
    *, elements: Elements, factors: Factors, case: Case, motion: Array
) -> dict[tuple[str, str], float]:
    """Return the force at every held freedom by node and axis.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]
    case : Case
        The load case. [N, N·m]
    motion : array
        Its solution. [m, rad]

    Returns
    -------
    dict
        Force or moment that the support puts on the frame. [N, N·m]

    """
    whole = dense_stiffness(elements=elements, factors=factors)
    axes = {number: axis for axis, number in AXES.items()}
    return {
        (elements.frame.nodes[place // 6], axes[place % 6]): float(
            whole[place] @ motion - case.load[place]
        )
        for place in (int(one) for one in case.held)
    }


def _refuse_mechanism(elements: Elements, case: Case, stands: list[Array]) -> None:
    """Raise when some level of the frame stands on nothing."""
    for freedoms, own in zip(freedom_levels(elements=elements, case=case), stands, strict=True):
        size = np.sqrt(np.abs(np.diag(own)))
        scaled = own / np.outer(size, size)
        try:
            loose = np.diag(np.linalg.cholesky(scaled)) ** 2 <= LOOSE
        except np.linalg.LinAlgError:
            _, shapes = np.linalg.eigh(np.nan_to_num(scaled))
            loose = np.abs(shapes[:, 0]) == np.abs(shapes[:, 0]).max()
        if loose.any():
            _refuse_motion(elements, int(freedoms[int(np.argmax(loose))]))


def _refuse_singular(elements: Elements, factors: Factors, case: Case) -> None:
    """Raise for the softest motion of the whole frame."""
    free = free_freedoms(elements=elements, case=case)
    whole = dense_stiffness(elements=elements, factors=factors)[np.ix_(free, free)]
    own = np.diag(whole)
    if not (own > 0.0).all():
        _refuse_motion(elements, int(free[int(np.argmin(own))]))
    _, shapes = np.linalg.eigh(whole / np.sqrt(np.outer(own, own)))
    _refuse_motion(elements, int(free[int(np.argmax(np.abs(shapes[:, 0])))]))


def _refuse_motion(elements: Elements, freedom: int) -> None:
    """Raise, naming the node that moves without straining anything and the members at it."""
    frame, axis, node = elements.frame, list(AXES)[freedom % 6], freedom // 6
    members = zip(frame.members.names, frame.members.start, frame.members.end, strict=True)
    reach = ", ".join(name for name, *ends in members if node in ends)
    raise InputError(
        f"node {frame.nodes[node]} (members {reach}) moves freely along {axis}: the frame is a "
        "mechanism; brace it by a member or a panel, or hold it"
    )
