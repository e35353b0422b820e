"""A scene made ready for a search: the contacts round a pose, and its pieces for a quick look."""

from __future__ import annotations

from dataclasses import dataclass
from operator import attrgetter

import numpy as np

from drybuild.physics.solids.collider import Item
from drybuild.physics.solids.nearest import FEW, Asked, Clearance, Flags, Nearest, nearest_first
from drybuild.physics.solids.scene import Pose
from drybuild.physics.solids.shapes import Array, Whole
from drybuild.physics.solids.standing import Spot

ALIKE = 1e-12
"""Ways that differ by less are the same. [-]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Part:
    """A convex piece, or the hull round a cell of a sheet, in one position of its movement."""

    points: Array
    """Nominal, shape (points, 3). [m]"""
    normals: Array
    """Of its faces, outward, each way once, shape (faces, 3). [-]"""


class Near(Nearest):
    """Clearances of a scene, with what a search asks for."""

    def contacts(self, pose: Pose, *, within: float) -> list[Clearance]:
        """Return every pair of pieces whose margin is near the least, the least first.

        Parameters
        ----------
        pose : Pose
            Where the moving solids are put. [m]
        within : float
            How much more margin than the least a contact may have. [m]

        """
        bounds, placed = self._bounds(pose)
        best = np.inf
        found: list[Asked] = []
        for bound, position, row, column in nearest_first(bounds=bounds):
            if bound > best + within - FEW:
                break
            one = self._ask(position, row, column, placed)
            best = min(best, one.margin)
            found.append(one)
        kept = [one for one in found if one.margin <= best + within]
        kept.sort(key=attrgetter("margin"))
        return [self._told(one, placed) for one in kept]

    def least(self, pose: Pose, pairs: Whole, bounds: Array) -> float:
        """Return the least margin of some pairs of `parts`, each bounded from below.

        Parameters
        ----------
        pose : Pose
            Where the moving solids are put. [m]
        pairs : array
            Each the moving part's place, times how many fixed parts there are, plus the fixed
            one's. [-]
        bounds : array
            Least margin of each. [m]

        """
        placed, best = self._put(pose), np.inf
        for k in np.argsort(bounds, kind="stable"):
            if bounds[k] >= best - FEW:
                break
            part, column = divmod(int(pairs[k]), len(self._columns))
            position, row = divmod(part, len(self._rows))
            best = min(best, self._ask(position, row, column, placed).margin)
        return best

    def parts(self) -> tuple[list[Part], list[Part]]:
        """Return the moving pieces in each position of theirs, and the fixed ones in each."""
        own = [_part(item) for item, _, _ in self._rows]
        moving = [
            _put(part, spots[i])
            for spots in self._moved
            for part, (_, i, _) in zip(own, self._rows, strict=True)
        ]
        return moving, [_put(_part(one.item), one.spot) for one, _ in self._columns]

    def wanted(self) -> tuple[Array, Flags]:
        """Return need with doubt, and which are not asked about: moving parts by fixed parts."""
        return np.concatenate([self._wanted] * self._positions), np.concatenate(self._shut)


def _part(item: Item) -> Part:
    if not item.sheet:
        return Part(points=item.points, normals=_once(item.normals))
    points = _outermost(item.points)
    middle = points - points.mean(axis=0)
    flat = np.linalg.svd(middle, full_matrices=False)[2][2]  # square to the cell's mean plane
    return Part(points=points, normals=np.stack((flat, -flat)))


def _once(normals: Array) -> Array:
    """Leave out normals that the one before them has: halves of a flat face lie together."""
    kept = np.ones(len(normals), dtype=np.bool_)
    kept[1:] = np.abs(np.diff(normals, axis=0)).max(axis=1) > ALIKE
    return normals[kept]


def _put(part: Part, spot: Spot) -> Part:
    turn, shift = spot
    return Part(points=part.points @ turn.T + shift, normals=part.normals @ turn.T)


def _outermost(points: Array) -> Array:
    from scipy.spatial import ConvexHull, QhullError  # noqa: PLC0415  slow to import

    try:
        return points[ConvexHull(points).vertices]
    except QhullError:  # all in one plane
        return points
