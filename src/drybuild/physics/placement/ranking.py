"""Places in the order of their worth, each looked at closely only once nothing else can lead.

A few pairs of pieces hold the margin almost everywhere. They are found at some places of each turn;
over these pairs alone the margin at every other place is bounded from above. Whatever place leads
by that bound is looked at with all pairs, until one that has been looked at leads.
"""

from __future__ import annotations

import numpy as np

from drybuild.physics.placement.question import Array
from drybuild.physics.placement.screen import Planes, Screen
from drybuild.physics.solids.nearest import Flags
from drybuild.physics.solids.shapes import Whole

PROBES = 24
"""Places of each turn at which the pairs are found that hold the margin."""
BATCH = 24
"""Places that are looked at closely at once."""
ROUND = 9
"""Digits to which two worths are the same: of equals the first place leads."""


class Ranking:
    """Places (5, places) by the screen's margin less what each costs."""

    def __init__(self, *, screen: Screen, places: Array, costs: Array) -> None:
        self._shifts, self._costs = places[:3], costs
        self._planes: list[Planes] = []
        self._of = np.empty(len(costs), dtype=np.int64)
        self._most = np.empty(len(costs))
        self._known = np.zeros(len(costs), dtype=np.bool_)
        for k, (which, planes) in enumerate(screen.turns(places)):
            self._planes.append(planes)
            self._of[which] = k
            self._bound(which, planes)

    def best(self, among: Flags) -> int:
        """Return the place with the most worth among some, one or more."""
        left = np.flatnonzero(among)
        while True:
            first = left[np.argsort(-self._most[left], kind="stable")]
            if self._known[first[0]]:
                return int(first[0])
            self._look(first[~self._known[first]][:BATCH])

    def _bound(self, which: Whole, planes: Planes) -> None:
        """Bound a turn's places by the pairs that hold the margin at some of them."""
        probes = which[:: max(1, len(which) // PROBES)]
        margins, holding = planes.least_with_pairs(self._shifts[:, probes])
        self._note(which, holding.least(self._shifts[:, which]))
        self._note(probes, margins)
        self._known[probes] = True

    def _look(self, which: Whole) -> None:
        for k in np.unique(self._of[which]):
            here = which[self._of[which] == k]
            self._note(here, self._planes[k].least(self._shifts[:, here]))
        self._known[which] = True

    def _note(self, which: Whole, margins: Array) -> None:
        self._most[which] = (margins - self._costs[which]).round(ROUND)
