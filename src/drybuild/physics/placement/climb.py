"""From one place to the best one near it: linear programmes one after another.

Near a place each contact's gap changes by its normal, so the best step within reach is a linear
programme: the largest smallest margin over all contacts, with the limits held. The step is kept
where the exact margin grew; else the reach is halved.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.physics.placement.near import Near
from drybuild.physics.placement.programme import maximised
from drybuild.physics.placement.question import Array, Question, limit_gradients, margin_gradients
from drybuild.physics.solids.nearest import Clearance

REACH = np.array([0.02, 0.015, 0.02, 0.015, 0.01])
"""How far the first step may go. [m, rad]"""
SMALLEST = 0.005
"""Share of the first reach at which the climb ends: a tenth of a millimetre."""
STEPS = 40
GAIN = 2e-5
"""A step that promises less margin ends the climb. [m]"""
PENALTY = 20.0
"""What a limit that is not kept costs, in margin per metre or radian: more than any gap gains."""
WITHIN = 0.04
"""Contacts with so much more margin than the least are watched in a whole step. [m]"""
ALWAYS = 0.004
"""And in the smallest. [m]"""
LAZY = 1e-3
"""What a step costs, in margin per metre: nothing is moved that does not gain by it. [-]"""
KEPT = 1e-6
"""A limit is kept where no more than this lacks. [m, rad]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Spot:
    """A place with what it leaves."""

    at: Array
    margin: float
    """Least gap over its need (m)."""
    contacts: tuple[Clearance, ...]
    """Contacts near the least, the least first."""
    spares: Array
    """Left of each limit; minus where it is not kept."""

    @property
    def lacking(self) -> float:
        """How much of the limits is not kept, summed."""
        return float(np.maximum(-self.spares, 0.0).sum())

    @property
    def worth(self) -> float:
        """Return the margin less what the limits lack, weighted: what a climb raises."""
        return self.margin - PENALTY * self.lacking

    @property
    def keeps(self) -> bool:
        """Whether every limit is kept."""
        return bool(np.all(self.spares >= -KEPT))


def look(*, near: Near, question: Question, at: Array, within: float = WITHIN) -> Spot:
    """Return what a place leaves.

    Parameters
    ----------
    near : Nearest
        The question's scene, made ready. [m]
    question : Question
        Its limits. [-]
    at : array
        The place, shape (5,). [m]
    within : float
        How much more margin than the least a contact may have to be told. [m]

    Returns
    -------
    Spot
        Exact margin with the contacts near it, and what is left of the limits. [m]

    """
    contacts = tuple(near.contacts(question.pose(at), within=within))
    margin = contacts[0].margin if contacts else np.inf
    spares = question.spares(at[:, None])[:, 0]
    return Spot(at=at, margin=margin, contacts=contacts, spares=spares)


def climb(
    *,
    near: Near,
    question: Question,
    start: Array,
    enough: float = np.inf,
    between: Callable[[], None] | None = None,
) -> Spot:
    """Return the best place that steps from a place lead to.

    Parameters
    ----------
    near : Nearest
        The question's scene, made ready. [m]
    question : Question
        Bounds and limits. [-]
    start : array
        Where to begin, shape (5,). [m]
    enough : float
        Stop where the margin is as large as this and the limits are kept. [m]
    between : callable
        Called before each step; may raise to stop.

    Returns
    -------
    Spot
        Never worse than the start. [m]

    Notes
    -----
    max s − P Σe − w Σ|Δq|, s ≤ mᵢ + gᵢ·Δq, 0 ≤ cₖ + hₖ·Δq + eₖ, |Δq| ≤ reach; see `programme`.

    References
    ----------
    .. [1] R. Fletcher, E. Sainz de la Maza, "Nonlinear programming and nonsmooth optimization by
       successive linear programming", Mathematical Programming 43, 1989 (from memory).

    """
    at = np.clip(start, question.low, question.high)
    spot, share = look(near=near, question=question, at=at), 1.0
    for _ in range(STEPS):
        if between is not None:
            between()
        if spot.keeps and spot.margin >= enough:
            break
        step, promised = _step(spot, question, share * REACH)
        if promised - spot.worth < GAIN:
            break
        within = min(WITHIN, share * WITHIN + ALWAYS)
        there = look(near=near, question=question, at=spot.at + step, within=within)
        gained = (there.worth - spot.worth) / (promised - spot.worth)
        if gained > 0.0:
            spot = there
        share *= 0.5 if gained < 0.25 else 1.5 if gained > 0.75 else 1.0
        share = min(share, 2.0)
        if share < SMALLEST:
            break
    return spot


def _step(spot: Spot, question: Question, reach: Array) -> tuple[Array, float]:
    """Return the best step within reach, and the worth that it promises."""
    spare, ways = limit_gradients(question=question, at=spot.at)
    slopes, margins = _contact_rows(spot.contacts, spot.at)
    contacts, limits = len(slopes), len(spare)
    least, lacking = margins.min(), np.maximum(-spare, 0.0)
    # Unknowns: steps ahead and back in each direction, margin gained and lost, then for each limit
    # how much less it lacks than now, and how much more.
    rows = np.zeros((contacts + limits, 12 + 2 * limits))
    rows[:, :5] = -np.concatenate((slopes, ways))
    rows[:, 5:10] = -rows[:, :5]
    rows[:contacts, 10:12] = 1.0, -1.0
    rows[contacts:, 12:] = np.concatenate((np.eye(limits), -np.eye(limits)), axis=1)
    ahead = np.maximum(np.minimum(reach, question.high - spot.at), 0.0)
    back = np.maximum(np.minimum(reach, spot.at - question.low), 0.0)
    found = maximised(
        gains=np.repeat((-LAZY, 1.0, -1.0, PENALTY, -PENALTY), (10, 1, 1, limits, limits)),
        rows=rows,
        bounds=np.concatenate((margins - least, spare + lacking)),
        most=np.concatenate((ahead, back, np.full(2, np.inf), lacking, np.full(limits, np.inf))),
    )
    left = lacking - found[12 : 12 + limits] + found[12 + limits :]
    promised = least + found[10] - found[11] - PENALTY * left.sum()
    return found[:5] - found[5:10], float(promised)


def _contact_rows(contacts: Sequence[Clearance], at: Array) -> tuple[Array, Array]:
    """Return how each contact's margin grows with the place, and the margins."""
    if not contacts:
        return np.zeros((1, 5)), np.zeros(1)
    slopes = margin_gradients(contacts=contacts, at=at)
    return slopes, np.array([one.margin for one in contacts])
