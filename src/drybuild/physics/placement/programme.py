"""Linear programmes of a few unknowns, as a climb asks for one at each of its steps.

A solver for large ones takes longer to be called, and far longer to be loaded, than these take.
"""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.placement.question import Array

NOTHING = 1e-10
"""A gain, or a change of what is bounded, that is no more than this is none. [-]"""


def maximised(*, gains: Array, rows: Array, bounds: Array, most: Array) -> Array:
    """Return the unknowns that gain most within bounds.

    Parameters
    ----------
    gains : array
        What each unknown gains, shape (unknowns,). [-]
    rows : array
        How they add up to what is bounded, shape (rows, unknowns). [-]
    bounds : array
        The most of each row, zero or more, shape (rows,). [-]
    most : array
        The most of each unknown, zero or more; the least is zero. [-]

    Returns
    -------
    array
        The unknowns, shape (unknowns,). [-]

    Notes
    -----
    max c·x, A x ≤ b, 0 ≤ x ≤ u, with b ≥ 0, so that nothing at all is a place to start from. The
    simplex method with bounded variables: what gains fastest is raised until a row or an unknown
    meets its bound. After a step of no length the first unknown that gains is taken instead, and
    the first row that bounds it, so that no order of steps comes round again.

    References
    ----------
    .. [1] V. Chvátal, "Linear Programming", 1983, ch. 2, 3 and 8 (from memory).
    .. [2] R. Bland, "New finite pivoting rules for the simplex method", Mathematics of Operations
       Research 2, 1977 (from memory).

    """
    require(bounds >= 0.0, "bounds", bounds, "-", "zero or more")
    require(most >= 0.0, "most", most, "-", "zero or more")
    table = _Table(gains, rows, bounds, most)
    careful = False
    while (column := table.entering(careful)) is not None:
        careful = table.raised(column, careful) <= 0.0
    return table.unknowns()


class _Table:
    """Unknowns and rows' slacks: some rest at a bound, the others, one a row, follow from them."""

    def __init__(self, gains: Array, rows: Array, bounds: Array, most: Array) -> None:
        count, unknowns = rows.shape
        self._gains, self._rows, self._left = gains.copy(), rows.copy(), bounds.copy()
        self._most = np.concatenate((most, np.full(count, np.inf)))
        self._resting = np.arange(unknowns)
        self._following = unknowns + np.arange(count)
        self._full = np.zeros(unknowns, dtype=np.bool_)  # resting at its most, not at zero

    def entering(self, careful: bool) -> int | None:
        """Return which of those at rest gains by being moved; None where none does."""
        gain = np.where(self._full, -self._gains, self._gains)
        if not careful:
            best = int(gain.argmax())
            return best if gain[best] > NOTHING else None
        able = np.flatnonzero(gain > NOTHING)
        return int(able[self._resting[able].argmin()]) if len(able) else None

    def raised(self, column: int, careful: bool) -> float:
        """Move one from its bound until something ends it, and return how far that was."""
        way = -1.0 if self._full[column] else 1.0
        change = way * self._rows[:, column]
        room = np.full(len(change), np.inf)
        down, up = change > NOTHING, change < -NOTHING
        room[down] = self._left[down] / change[down]
        room[up] = (self._left[up] - self._most[self._following[up]]) / change[up]
        room = np.maximum(room, 0.0)  # rounding
        length = float(room.min(initial=np.inf))
        whole = float(self._most[self._resting[column]])
        require(min(length, whole) < np.inf, "gains", self._gains, "-", "bounded")
        if whole <= length:
            self._left -= whole * change
            self._full[column] = ~self._full[column]
            return whole
        ends = np.flatnonzero(room <= length)
        by = self._following[ends].argmin() if careful else np.abs(change[ends]).argmax()
        row = int(ends[by])
        self._left -= length * change
        self._left[row] = whole - length if way < 0.0 else length
        self._full[column] = bool(up[row])
        self._exchanged(row, column)
        return length

    def unknowns(self) -> Array:
        """Return what each unknown is."""
        found = np.zeros(len(self._most))
        found[self._resting[self._full]] = self._most[self._resting[self._full]]
        found[self._following] = self._left
        return found[: len(self._resting)]

    def _exchanged(self, row: int, column: int) -> None:
        """Let one at rest follow, and the one that followed by a row rest."""
        each = self._rows[:, column].copy()
        new = self._rows[row] / each[row]
        new[column] = 1.0 / each[row]
        self._rows[:, column] = 0.0
        self._rows -= each[:, None] * new
        self._rows[row] = new
        gain = self._gains[column]
        self._gains[column] = 0.0
        self._gains -= gain * new
        self._resting[column], self._following[row] = self._following[row], self._resting[column]
