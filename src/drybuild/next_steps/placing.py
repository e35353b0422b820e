"""Which measurement would settle whether the engine fits at its best place, and where."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.checks.verdicts import doubt_shares
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_place_search import Placement

MOST = 5
"""So many readings are told."""
SETTLED = 0.01
"""Nearer to nothing or to all than this, no measurement changes the answer."""
TAIL = 1.0 / 3.0
"""Share of the draws that stand for a reading that turns out low, or high."""


@dataclass(frozen=True, kw_only=True, eq=False)
class ToMeasure:
    """A reading that the doubt comes from."""

    path: str
    share: float
    """Of the variance of the least margin. [-]"""
    if_low: float
    """Chance of the fit if the reading turns out in its lowest third. [-]"""
    if_high: float
    """And in its highest third. [-]"""

    @property
    def settles(self) -> float:
        """How far apart the two leave the chance: a reading that settles it makes them 0 and 1."""
        return abs(self.if_high - self.if_low)


@dataclass(frozen=True, kw_only=True, eq=False)
class Spot:
    """Where the fit is decided: a point to put the tape to, in body axes."""

    pair: str
    at_moving: tuple[float, float, float]
    at_fixed: tuple[float, float, float]
    """[m]"""
    margin: float
    """Nominal gap over its need. [m]"""
    odds: float


def to_measure(placement: Placement, evaluation: Evaluation) -> tuple[ToMeasure, ...]:
    """Return the readings that the fit's doubt comes from, the largest share first.

    None where the answer is sure already.

    Parameters
    ----------
    placement : Placement
        The best place, with its margin over the samples.
    evaluation : Evaluation
        The same evaluation as it was found with.

    """
    if not SETTLED < placement.chance < 1.0 - SETTLED:
        return ()
    shares = doubt_shares(placement.margin, placement.inputs, evaluation)
    return tuple(
        ToMeasure(
            path=one.path,
            share=one.share,
            if_low=_chance(placement.margin, evaluation.drawn(one.path), low=True),
            if_high=_chance(placement.margin, evaluation.drawn(one.path), low=False),
        )
        for one in shares[:MOST]
    )


def where_to_measure(placement: Placement) -> tuple[Spot, ...]:
    """Return the points that decide, the least sure first: where the tape or a card goes."""
    spots = []
    for name, one in placement.gaps.items():
        drawn = one.margin[1:] if one.margin.size > 1 else one.margin
        odds = float(np.mean(drawn >= 0.0))
        contact = one.nominal
        spots.append(
            Spot(
                pair=f"{contact.piece} to {contact.fixed}" if name else name,
                at_moving=_point(contact.at_moving),
                at_fixed=_point(contact.at_fixed),
                margin=float(one.margin[0]),
                odds=odds,
            )
        )
    return tuple(sorted(spots, key=lambda one: (one.odds, one.margin))[:MOST])


def _chance(margin: Values, drawn: Values, *, low: bool) -> float:
    values, held = drawn[1:], margin[1:] >= 0.0
    bound = np.quantile(values, TAIL if low else 1.0 - TAIL)
    chosen = values <= bound if low else values >= bound
    return float(np.mean(held[chosen]))


def _point(at: Values) -> tuple[float, float, float]:
    x, y, z = (float(one) for one in at)
    return x, y, z
