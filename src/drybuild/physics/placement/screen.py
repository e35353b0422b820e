"""A quick look at thousands of places: margins from below, by planes that may part the pieces.

Held in its turn, a piece that is shifted keeps its corners' heights over any plane but for n·t. So
for each turn every pair of pieces is a handful of planes with a number each, and the margin at a
place is the least over pairs of the most over planes: a few products of matrices.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from drybuild.physics.placement.near import Near, Part
from drybuild.physics.placement.question import Array, Question
from drybuild.physics.solids.shapes import Whole

AXES = np.concatenate((np.eye(3), -np.eye(3)))
ROOMY = 0.05
"""Pairs that keep so much margin everywhere are passed over; margins are told up to this. [m]"""
AT_ONCE = 200_000
"""Numbers held at once: few enough to stay near the processor."""
ROUND = 9
"""Digits to which two turns are the same."""
ALONG = 1.0 - 1e-12
"""A unit way with so large a part along an axis lies along it."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Planes:
    """Planes of all pairs that can come near in one turn of the moving solids."""

    ways: Array
    """Shape (planes, 3). [-]"""
    offsets: Array
    """Margin by each plane at no shift, shape (planes,). [m]"""
    starts: Whole
    """Where each pair's planes begin."""
    pairs: Whole
    """Which pair: the moving part times how many fixed ones there are, plus the fixed one."""

    def least(self, shifts: Array) -> Array:
        """Return the margin at shifts (3, places), up to `ROOMY`."""
        found: Array = np.full(shifts.shape[1], ROOMY)
        if len(self.starts):
            for block in self._blocks(shifts):
                np.minimum(self._pairs(shifts[:, block]).min(axis=1), ROOMY, out=found[block])
        return found

    def least_with_pairs(self, shifts: Array) -> tuple[Array, Planes]:
        """Return the margin at shifts, and the planes of the pairs that hold it somewhere."""
        if not len(self.starts):
            return np.full(shifts.shape[1], ROOMY), self
        apart = self.each(shifts)
        held = np.unique(apart.argmin(axis=1))
        ends = np.append(self.starts[1:], len(self.ways))
        kept = np.concatenate([np.arange(self.starts[k], ends[k]) for k in held])
        sizes = (ends - self.starts)[held]
        few = Planes(ways=self.ways[kept], offsets=self.offsets[kept], starts=_begins(sizes),
                     pairs=self.pairs[held])  # fmt: skip
        return np.minimum(apart.min(axis=1), ROOMY), few

    def each(self, shifts: Array) -> Array:
        """Return what each pair keeps at shifts (3, places) at least, shape (places, pairs)."""
        return np.concatenate([self._pairs(shifts[:, one]) for one in self._blocks(shifts)])

    def _pairs(self, shifts: Array) -> Array:
        """Return what each pair keeps at shifts, shape (places, pairs)."""
        apart = shifts.T @ self.ways.T + self.offsets
        return np.asarray(np.maximum.reduceat(apart, self.starts, axis=1))

    def _blocks(self, shifts: Array) -> Sequence[slice]:
        step = max(1, AT_ONCE // len(self.ways))
        return [slice(k, k + step) for k in range(0, shifts.shape[1], step)]


class Screen:
    """A question made ready for a quick look at many places."""

    def __init__(self, near: Near, question: Question) -> None:
        self.question, self._near = question, near
        moving, fixed = near.parts()
        self._needs, self._shut = near.wanted()
        self._a, self._b = _Corners(moving), _Corners(fixed)
        self._faces_a = _Faces(moving, [one.normals for one in moving])
        own = [np.concatenate((AXES, _oblique(one.normals))) for one in fixed]
        self._faces_b = _Faces(fixed, own)

    def margins(self, places: Array) -> Array:
        """Return lower bounds of the least margin at places (5, places), up to `ROOMY`.

        Exact where a face parts the nearest pieces; too small where only an edge or a corner does.
        """
        found = np.empty(places.shape[1])
        for which, planes in self.turns(places):
            found[which] = planes.least(places[:3, which])
        return found

    def exact(self, places: Array) -> Array:
        """Return the least margin itself at places (5, places), up to `ROOMY`."""
        found = np.full(places.shape[1], ROOMY)
        for which, planes in self.turns(places):
            if not len(planes.pairs):
                continue
            for k, bounds in zip(which, planes.each(places[:3, which]), strict=True):
                pose = self.question.pose(places[:, k])
                found[k] = min(self._near.least(pose, planes.pairs, bounds), ROOMY)
        return found

    def turns(self, places: Array) -> Iterator[tuple[Whole, Planes]]:
        """Tell for each turn among places (5, places) which of them have it, and its planes."""
        turns, of = np.unique(places[3:].round(ROUND), axis=1, return_inverse=True)
        for k in range(turns.shape[1]):
            which = np.flatnonzero(of.ravel() == k)
            pitch, yaw = (float(one) for one in turns[:, k])
            yield which, self._planes(pitch, yaw, places[:3, which])

    def _planes(self, pitch: float, yaw: float, shifts: Array) -> Planes:
        """Return the planes of the pairs that can come near within some shifts.

        Of such a pair the planes are kept that can part its pieces best.
        """
        turn = self.question.pose(np.array([0.0, 0.0, 0.0, pitch, yaw])).turn
        a, b = self._faces_a, self._faces_b
        # Rows of moving parts and the fixed parts' planes; rows of fixed parts and the others'.
        ways = (b.ways, -(a.ways @ turn.T))
        apart = (
            self._a.least(b.ways @ turn) - b.tops - self._needs[:, b.of],
            self._b.least(-ways[1]) - a.tops - self._needs[a.of].T,
        )
        middle = (shifts.min(axis=1) + shifts.max(axis=1)) / 2.0
        half = (shifts.max(axis=1) - shifts.min(axis=1)) / 2.0
        sure = [one + (n @ middle - np.abs(n) @ half) for n, one in zip(ways, apart, strict=True)]
        floor = np.maximum(
            np.maximum.reduceat(sure[0], b.starts, axis=1),
            np.maximum.reduceat(sure[1], a.starts, axis=1).T,
        )
        floor[self._shut | (floor >= ROOMY)] = np.inf
        most = [one + 2.0 * (np.abs(n) @ half) for n, one in zip(ways, sure, strict=True)]
        kept = (most[0] >= floor[:, b.of], most[1] >= floor.T[:, a.of])
        (p, by_b), (c, by_a) = (np.nonzero(one) for one in kept)
        pairs = np.concatenate((p * len(floor[0]) + b.of[by_b], a.of[by_a] * len(floor[0]) + c))
        order = np.argsort(pairs, kind="stable")
        starts = np.flatnonzero(np.diff(pairs[order], prepend=-1))
        return Planes(
            ways=np.concatenate((ways[0][by_b], ways[1][by_a]))[order],
            offsets=np.concatenate((apart[0][kept[0]], apart[1][kept[1]]))[order],
            starts=starts,
            pairs=pairs[order][starts],
        )


class _Corners:
    """The corners of many parts, those with as many of them side by side."""

    def __init__(self, parts: Sequence[Part]) -> None:
        sizes = np.array([len(one.points) for one in parts])
        order = np.argsort(sizes, kind="stable")
        self._points = np.concatenate([parts[k].points for k in order])
        self._alike = [order[sizes[order] == size] for size in np.unique(sizes)]
        self._sizes = sizes

    def least(self, ways: Array) -> Array:
        """Return the least n·p of each part along ways (ways, 3), shape (parts, ways)."""
        heights = self._points @ ways.T
        found = np.empty((len(self._sizes), len(ways)))
        begin = 0
        for which in self._alike:
            size = int(self._sizes[which[0]])
            end = begin + size * len(which)
            found[which] = heights[begin:end].reshape(len(which), size, -1).min(axis=1)
            begin = end
        return found


class _Faces:
    """Planes of many parts, one part's after another's."""

    def __init__(self, parts: Sequence[Part], normals: Sequence[Array]) -> None:
        sizes = [len(one) for one in normals]
        self.ways = np.concatenate(normals)
        self.of = np.repeat(np.arange(len(sizes)), sizes)
        self.starts = _begins(sizes)
        self.tops = np.concatenate(
            [(one.points @ n.T).max(axis=0) for one, n in zip(parts, normals, strict=True)]
        )


def _oblique(ways: Array) -> Array:
    """Return the unit ways that lie along no axis."""
    found: Array = ways[np.abs(ways).max(axis=1) < ALONG]
    return found


def _begins(sizes: Sequence[int] | Whole) -> Whole:
    """Return where each of some runs begins that lie one after another."""
    return np.concatenate(([0], np.cumsum(sizes)[:-1])).astype(np.int64)
