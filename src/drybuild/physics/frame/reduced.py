"""Many frames from a few full solutions: each sample moves as a blend of solved ones."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.crossing import crossing
from drybuild.physics.frame.assembly import (
    Elements,
    Factors,
    element_motion,
)
from drybuild.physics.frame.cases import Case
from drybuild.physics.frame.levels import solve_levels

Array = npt.NDArray[np.float64]

KEPT = 1e-10
"""Blends that add less than this share of the strongest one are left out."""
NEAR_ENOUGH = 1e-9
"""Last change of the logarithm of the joints' factor. [-]"""


@dataclass(frozen=True, kw_only=True)
class Basis:
    """What members, joints and panels do in each of a few solved shapes, by pairs of shapes."""

    member: Array
    joint: Array
    panel: Array
    load: Array


@dataclass(frozen=True, kw_only=True)
class Sampled:
    """Stiffness by sample and, by part and sample, the share of the strain energy."""

    basis: Basis
    factors: Factors
    blend: Array
    """Weights of the basis by sample, of unit energy."""
    stiffness: Array

    @cached_property
    def member_share(self) -> Array:
        """Share in each member's own metal, (members, samples)."""
        return self._shares(self.factors.member, self.basis.member)

    @cached_property
    def joint_share(self) -> Array:
        """Share in the joints at each member's ends, (members, samples)."""
        return self._shares(self.factors.joint, self.basis.joint)

    @cached_property
    def panel_share(self) -> Array:
        """Share in each panel, (panels, samples)."""
        return self._shares(self.factors.panel, self.basis.panel)

    def _shares(self, factor: Array, parts: Array) -> Array:
        pairs = self.blend[:, :, None] * self.blend[:, None, :]
        size = parts.shape[-1] ** 2
        found = pairs.reshape(len(pairs), size) @ parts.reshape(len(parts), size).T
        return np.asarray((factor * found).T)


def reduced_basis(*, elements: Elements, factors: Factors, case: Case) -> Basis:
    """Return a basis from full solutions at some samples of the factors.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        The samples to solve in full, one a row. [-]
    case : Case
        The load case. [N, N·m]

    Returns
    -------
    Basis
        For `reduced_stiffness`. [J, N·m]

    Notes
    -----
    Nodes' motion and the beams' own end turns are blended with the same weights y, so that energy
    is a sum over parts of factor times a small matrix: exact in members, joints and panels alike.

    References
    ----------
    .. [1] Reduced basis method after Galerkin, for example A. Quarteroni, A. Manzoni, F. Negri,
       "Reduced Basis Methods for Partial Differential Equations" (from memory).

    """
    motion, _ = solve_levels(elements=elements, factors=factors, case=case)
    motion /= np.linalg.norm(motion, axis=1, keepdims=True)
    ends, springs = element_motion(elements=elements, factors=factors)
    nodes = (elements.turn @ motion[:, elements.member_freedoms][..., None])[..., None, :, 0]
    own = np.sum(ends * nodes, axis=-1)
    twist = np.sum(springs * nodes, axis=-1)
    gamma = np.einsum("pk,bpk->bp", elements.shear, motion[:, elements.panel_freedoms])
    soft = elements.frame.members.flexibility
    rate = np.divide(1.0, soft, out=np.zeros_like(soft), where=soft > 0.0)
    force = np.einsum("mij,bmj->bmi", elements.beam, own)
    basis = Basis(
        member=np.einsum("ami,bmi->mab", own, force),
        joint=np.einsum("ami,bmi->mab", twist, twist * rate),
        panel=np.einsum("ap,bp->pab", gamma, gamma * elements.rate),
        load=motion @ case.load,
    )
    return _orthogonal(basis)


def reduced_stiffness(*, basis: Basis, factors: Factors) -> Sampled:
    """Return stiffness and energy shares of every sample within a basis.

    Parameters
    ----------
    basis : Basis
        From `reduced_basis`. [J, N·m]
    factors : Factors
        The samples, one a row. [-]

    Returns
    -------
    Sampled
        Stiffness, never less than the full solution's, and shares. [N·m/rad or N/m, -]

    Notes
    -----
    The blend that balances the load best: (Σ factor × matrix) y = load; stiffness = 1/(load · y).
    As with every method after Ritz the stiffness is bounded from below by the true one, and the
    error is of second order in the distance to the nearest blend.

    References
    ----------
    .. [1] W. Ritz, 1909, as in any text on variational methods (from memory).

    """
    y = np.linalg.solve(
        _whole(basis, factors),
        np.broadcast_to(basis.load[:, None], (len(factors.member), len(basis.load), 1)),
    )[..., 0]
    compliance = y @ basis.load
    return Sampled(
        basis=basis,
        factors=factors,
        blend=y / np.sqrt(compliance)[:, None],
        stiffness=1.0 / compliance,
    )


def joint_scale(*, basis: Basis, factors: Factors, stiffness: npt.ArrayLike) -> Array:
    """Return the one factor on all joint rates that gives a frame a known stiffness.

    Parameters
    ----------
    basis : Basis
        From `reduced_basis`, with softer and stiffer joints among its samples. [J, N·m]
    factors : Factors
        The samples, one a row. [-]
    stiffness : array_like
        Stiffness as measured, by sample. [N·m/rad or N/m]

    Returns
    -------
    array
        Factor; nan where even joints ten thousand times as stiff, or as soft, do not reach
        it. [-]

    Notes
    -----
    False position over log s between ln 10⁻⁴ and ln 10⁴; k(s) rises with s throughout.

    References
    ----------
    .. [1] Joint rates are the largest doubt of a body model, so one test sets them (derived).

    """
    wanted = np.broadcast_to(np.asarray(stiffness, float), (len(factors.member),))
    require(wanted > 0.0, "stiffness", wanted, "N·m/rad or N/m", "more than zero")
    # In the axes of the whole at s = 1 both parts are diagonal: k(s) costs one division a shape.
    springs = _sum(factors.joint, basis.joint)
    fixed = _sum(factors.member, basis.member) + _sum(factors.panel, basis.panel)
    root = np.linalg.inv(np.linalg.cholesky(fixed + springs))
    sprung = root @ springs @ np.swapaxes(root, -1, -2)
    rates, axes = np.linalg.eigh(sprung)
    loads = np.square(np.swapaxes(axes, -1, -2) @ (root @ basis.load)[..., None])[..., 0]
    rates = np.clip(rates, 0.0, 1.0)

    def surplus(log: Array) -> Array:
        return np.asarray(
            1.0 / np.sum(loads / (1.0 + np.expm1(log)[:, None] * rates), axis=1) - wanted
        )

    low, high = np.full(len(wanted), np.log(1e-4)), np.full(len(wanted), np.log(1e4))
    reached = (surplus(low) <= 0.0) & (surplus(high) >= 0.0)
    found = crossing(function=surplus, low=low, high=high, tolerance=NEAR_ENOUGH)
    return np.where(reached, np.exp(found), np.nan)


def _sum(factor: Array, parts: Array) -> Array:
    """Return each sample's sum of factor times matrix; one by one, so that no threads fight."""
    size = parts.shape[-1]
    found = factor[:, None, :] @ parts.reshape(len(parts), size**2)
    return found.reshape(len(factor), size, size)


def _whole(basis: Basis, factors: Factors) -> Array:
    return (
        _sum(factors.member, basis.member)
        + _sum(factors.joint, basis.joint)
        + _sum(factors.panel, basis.panel)
    )


def _orthogonal(basis: Basis) -> Basis:
    """Return the basis in blends that share no energy, without those that add nothing."""
    gram = basis.member.sum(axis=0) + basis.joint.sum(axis=0) + basis.panel.sum(axis=0)
    size = 1.0 / np.sqrt(np.diag(gram))
    values, axes = np.linalg.eigh(size[:, None] * gram * size)
    kept = values > KEPT * values[-1]
    blend = size[:, None] * axes[:, kept] / np.sqrt(values[kept])
    return Basis(
        member=blend.T @ basis.member @ blend,
        joint=blend.T @ basis.joint @ blend,
        panel=blend.T @ basis.panel @ blend,
        load=blend.T @ basis.load,
    )
