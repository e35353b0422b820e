"""A quick look at thousands of places: margins from below, by planes that may part the pieces.

Held in its turn, a piece that is shifted keeps its corners' heights over any plane but for n·t. So
for each turn every pair of pieces is a handful of planes with a number each, and the margin at a
place is the least over pairs of the most over planes: a few products of matrices.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.physics.placement.near import Near, Part
from drybuild.physics.placement.question import Array, Question
from drybuild.physics.solids.shapes import Whole

AXES = np.concatenate((np.eye(3), -np.eye(3)))
ROOMY = 0.05
"""Pairs that keep so much margin everywhere are passed over; margins are told up to this. [m]"""
AT_ONCE = 4_000_000
"""Numbers held at once."""
ROUND = 9
"""Digits to which two turns are the same."""


@dataclass(frozen=True, kw_only=True, eq=False)
class _Planes:
    """Planes of all pairs in one turn of the moving solids."""

    ways: Array
    offsets: Array
    starts: Whole
    """Where each pair's planes begin."""


class Screen:
    """A question made ready for a quick look at many places."""

    def __init__(self, near: Near, question: Question) -> None:
        self.question = question
        self._moving, self._fixed = near.parts()
        self._needs, self._shut = near.wanted()
        self._b = np.concatenate([_hull(one) for one in self._fixed])
        sizes = [len(_hull(one)) for one in self._fixed]
        self._b_starts = np.concatenate(([0], np.cumsum(sizes)[:-1])).astype(np.int64)
        self._ways_b, self._of_b, self._top_b = self._fixed_planes()
        self._own_starts = np.flatnonzero(np.diff(self._of_b, prepend=-1))
        faces = [len(one.normals) for one in self._moving]
        self._face_starts = np.concatenate(([0], np.cumsum(faces)[:-1])).astype(np.int64)

    def margins(self, places: Array) -> Array:
        """Return lower bounds of the least margin at places (5, places), up to `ROOMY`.

        Exact where a face parts the nearest pieces; too small where only an edge or a corner does.
        """
        found = np.empty(places.shape[1])
        turns, of = np.unique(places[3:].round(ROUND), axis=1, return_inverse=True)
        for k in range(turns.shape[1]):
            which = np.flatnonzero(of.ravel() == k)
            shifts = places[:3, which]
            planes = self._planes(float(turns[0, k]), float(turns[1, k]), shifts)
            found[which] = _least(planes, shifts)
        return found

    def _fixed_planes(self) -> tuple[Array, Whole, Array]:
        ways, of, top = [], [], []
        for c, one in enumerate(self._fixed):
            own = np.concatenate((_faces(one), AXES))
            ways.append(own)
            of.append(np.full(len(own), c))
            top.append((_hull(one) @ own.T).max(axis=0))
        return np.concatenate(ways), np.concatenate(of), np.concatenate(top)

    def _planes(self, pitch: float, yaw: float, shifts: Array) -> _Planes:
        """Return the planes of the pairs that can come near within some shifts."""
        middle = (shifts.min(axis=1) + shifts.max(axis=1)) / 2.0
        half = (shifts.max(axis=1) - shifts.min(axis=1)) / 2.0
        turn = self.question.pose(np.array([0.0, 0.0, 0.0, pitch, yaw])).turn
        points, starts, faces, of_face = self._placed(turn)
        count = len(self._fixed)
        # Planes of the fixed pieces: rows of planes, columns of moving parts.
        low = np.minimum.reduceat(self._ways_b @ points.T, starts, axis=1)
        by_fixed = low - self._top_b[:, None] - self._needs[:, self._of_b].T
        pairs_b = self._of_b[:, None] + count * np.arange(len(starts))[None, :]
        # Planes of the moving pieces: rows of planes, columns of fixed parts.
        heights = faces @ points.T
        own = np.minimum.reduceat(heights, starts, axis=1)[np.arange(len(faces)), of_face]
        top = np.maximum.reduceat(faces @ self._b.T, self._b_starts, axis=1)
        by_moving = own[:, None] - top - self._needs[of_face]
        pairs_a = np.arange(count)[None, :] + count * of_face[:, None]
        sets = (
            (self._ways_b, by_fixed, pairs_b),
            (faces, by_moving, pairs_a),
        )
        return self._useful(sets, middle, half)

    def _useful(
        self, sets: Sequence[tuple[Array, Array, Whole]], middle: Array, half: Array
    ) -> _Planes:
        """Keep the pairs that can come near, and of them the planes that can part them best."""
        floor = np.full(len(self._moving) * len(self._fixed), -np.inf)
        for k, (ways, offsets, _) in enumerate(sets):
            sure = offsets + (ways @ middle - np.abs(ways) @ half)[:, None]
            if k == 0:  # planes of one fixed part lie together
                best = np.maximum.reduceat(sure, self._own_starts, axis=0).T.ravel()
            else:
                best = np.maximum.reduceat(sure, self._face_starts, axis=0).ravel()
            floor = np.maximum(floor, best)
        floor[self._shut.ravel()] = np.inf
        ways_, offsets_, pairs_ = [], [], []
        for ways, offsets, pairs in sets:
            most = offsets + (ways @ middle + np.abs(ways) @ half)[:, None]
            kept = (floor[pairs] < ROOMY) & (most >= floor[pairs])
            plane = np.nonzero(kept)[0]
            ways_.append(ways[plane])
            offsets_.append(offsets[kept])
            pairs_.append(pairs[kept])
        pairs = np.concatenate(pairs_)
        order = np.argsort(pairs, kind="stable")
        starts = np.flatnonzero(np.diff(pairs[order], prepend=-1))
        return _Planes(
            ways=np.concatenate(ways_)[order],
            offsets=np.concatenate(offsets_)[order],
            starts=starts,
        )

    def _placed(self, turn: Array) -> tuple[Array, Whole, Array, Whole]:
        """Return the moving parts' points, where each part's begin, its planes, and whose."""
        points, faces = [], []
        for one in self._moving:
            own = turn @ one.turn
            points.append(one.points @ own.T + turn @ one.shift)
            faces.append(-(one.normals @ own.T))
        starts = np.concatenate(([0], np.cumsum([len(one) for one in points])[:-1]))
        of_face = np.repeat(np.arange(len(faces)), [len(one) for one in faces])
        return np.concatenate(points), starts.astype(np.int64), np.concatenate(faces), of_face


def _least(planes: _Planes, shifts: Array) -> Array:
    count = shifts.shape[1]
    if not len(planes.starts):
        return np.full(count, ROOMY)
    found = np.empty(count)
    block = max(1, AT_ONCE // len(planes.ways))
    for k in range(0, count, block):
        apart = planes.ways @ shifts[:, k : k + block] + planes.offsets[:, None]
        found[k : k + block] = np.maximum.reduceat(apart, planes.starts, axis=0).min(axis=0)
    return np.minimum(found, ROOMY)


def _hull(one: Part) -> Array:
    return one.points @ one.turn.T + one.shift


def _faces(one: Part) -> Array:
    return one.normals @ one.turn.T
