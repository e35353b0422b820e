"""A scene made ready for a search: the contacts round a pose, and its pieces for a quick look."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.physics.solids.collider import Item
from drybuild.physics.solids.nearest import Clearance, Nearest
from drybuild.physics.solids.scene import Pose, moved_by
from drybuild.physics.solids.shapes import Array

Flags = npt.NDArray[np.bool_]
FEW = 1e-6
"""Margins nearer than this are the same. [m]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Part:
    """A convex piece, or the hull round a cell of a sheet, in one position of its movement."""

    points: Array
    """Nominal, in its own axes, shape (points, 3). [m]"""
    normals: Array
    """Of its faces, outward, shape (faces, 3). [-]"""
    turn: Array
    shift: Array
    """What its movement does to it: rotation [-] and shift [m]."""


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
        bounds, spots = self._bounds(pose)
        flat = bounds.ravel()
        best = np.inf
        found: list[Clearance] = []
        for at in np.argsort(flat, kind="stable"):
            if not np.isfinite(flat[at]) or flat[at] > best + within - FEW:
                break
            k, i, j = np.unravel_index(int(at), bounds.shape)
            one = self._ask(k, i, j, spots)
            best = min(best, one.margin)
            found.append(one)
        kept = [one for one in found if one.margin <= best + within]
        return sorted(kept, key=lambda one: one.margin)

    def parts(self) -> tuple[list[Part], list[Part]]:
        """Return the moving pieces in each position of theirs, and the fixed ones in each."""
        moving = []
        for position in range(self._positions):
            for item, i, _ in self._rows:
                movement = self._movement(self.scene.moving[i])
                far = movement is None or position >= len(movement.positions)
                turn, shift = moved_by(movement=movement, position=0 if far else position)
                moving.append(_part(item, turn, shift))
        return moving, [_part(one.item, *one.spot) for one in self._columns]

    def wanted(self) -> tuple[Array, Flags]:
        """Return need with doubt, and which are not asked about: moving parts by fixed parts."""
        need = (self._need + self._doubt)[self._of_row][:, self._of_column]
        return np.concatenate([need] * self._positions), np.concatenate(self._shut)


def _part(item: Item, turn: Array, shift: Array) -> Part:
    if not item.sheet:
        return Part(points=item.points, normals=item.normals, turn=turn, shift=shift)
    points = _outermost(item.points)
    middle = points - points.mean(axis=0)
    flat = np.linalg.svd(middle, full_matrices=False)[2][2]  # square to the cell's mean plane
    return Part(points=points, normals=np.stack((flat, -flat)), turn=turn, shift=shift)


def _outermost(points: Array) -> Array:
    from scipy.spatial import ConvexHull, QhullError  # noqa: PLC0415  slow to import

    try:
        return points[ConvexHull(points).vertices]
    except QhullError:  # all in one plane
        return points
