"""Builds that no other build beats in everything at once.

Additive objectives (price, mass, hours) have an exact front over all complete builds; any other
objective is filtered among the candidates that were evaluated, and is only as good as they are.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.options.diagram import Diagram
from drybuild.options.labels import Candidate, Weights, best_builds, undominated
from drybuild.options.network import Picks
from drybuild.options.paths import NO_PICKS


def additive_front(
    diagram: Diagram, first: Weights, second: Weights, picks: Picks = NO_PICKS
) -> list[Candidate]:
    """Return one complete build for each best trade of two sums, least of the first sum first.

    Exact: no complete build has less of one without more of the other.
    """
    return best_builds(diagram, [first, second], picks, undominated)


def front(values: npt.ArrayLike) -> npt.NDArray[np.int64]:
    """Return the rows that no other row equals or beats in every column, in their order.

    Parameters
    ----------
    values : array
        One row a candidate, one column an objective, less is better; turn the sign of what should
        be large. Of equal rows the first stays. A row with a NaN is not comparable and is left
        out. [-]

    """
    rows = np.asarray(values, dtype=np.float64)
    known = np.flatnonzero(~np.isnan(rows).any(axis=1))
    # Sorted by all columns, a row can only be beaten by one before it.
    order = known[np.lexsort(rows[known].T[::-1])]
    kept: list[int] = []
    for row in order:
        if not kept or not (rows[kept] <= rows[row]).all(axis=1).any():
            kept.append(int(row))
    return np.array(sorted(kept), dtype=np.int64)
