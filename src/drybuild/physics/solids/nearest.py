"""Clearances of a scene at its nominal readings: all pairs, or only the least margin, quickly.

Boxes round the pieces bound each distance from below (also where pieces overlap: whatever parts
the boxes parts the pieces), so most queries are never made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.solids.collider import (
    Answer,
    Item,
    Placing,
    ask,
    piece_item,
    placing,
    put,
    way_out,
)
from drybuild.physics.solids.scene import Movement, Pose, Scene, moved_by
from drybuild.physics.solids.shapes import Array, Solid, Whole
from drybuild.physics.solids.standing import Spot, stands_of

Flags: TypeAlias = npt.NDArray[np.bool_]
AT_ONCE = 64
"""Bounds that are taken up at once."""
FEW = 1e-6
"""Margins nearer than this are the same. [m]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Clearance:
    """What is left between a moving and a fixed solid, where they come nearest to their need."""

    pair: str
    """Name of the row: the fixed solid, behind the moving one's group if it has one."""
    moving: str
    fixed: str
    """Names of the solids."""
    piece: str
    """Name of the moving solid's piece."""
    against: str
    """Name of the fixed solid's piece."""
    gap: float
    """Signed: minus the depth where one is inside the other; less both doubts (m)."""
    need: float
    """Room that this pair has to have (m)."""
    at_moving: Array
    at_fixed: Array
    """Closest (or deepest) points in body axes, shape (3,) (m)."""
    normal: Array
    """Unit way for the moving solid to gain room soonest: the gap's gradient by its place."""
    position: str
    """Where the movements stand in words: "rocked left, half lock"; empty at rest."""
    place: Place

    @property
    def margin(self) -> float:
        """Gap over need; minus where room lacks (m)."""
        return self.gap - self.need

    @property
    def state(self) -> str:
        """Return `clear`, `too near` (less than needed) or `clash` (inside each other)."""
        if self.gap < 0.0:
            return "clash"
        return "clear" if self.margin >= 0.0 else "too near"


class Place(NamedTuple):
    """Which items and positions a clearance belongs to: indices, for those who go on from it."""

    moving: int
    """Place of the moving solid in the scene."""
    piece: int
    """Of its piece."""
    moved: int
    """Position of its movement."""
    fixed: int
    """Place of the fixed solid in the scene."""
    against: int
    """Of its piece; -1 for its sheet."""
    turned: int
    """Position of its movement."""


class Asked(NamedTuple):
    """An answer, with what it was asked about."""

    margin: float
    """Gap over need. [m]"""
    position: int
    row: int
    column: int
    answer: Answer


class _Placed:
    """Where each moving solid is put at a pose, by position of the movements."""

    def __init__(self, spots: list[list[Spot]]) -> None:
        self.spots = spots
        self._places: dict[tuple[int, int], Placing] = {}

    def place(self, position: int, solid: int) -> Placing:
        """Return a place as the collision library has it, made once."""
        key = (position, solid)
        if key not in self._places:
            turn, shift = self.spots[position][solid]
            self._places[key] = placing(turn=turn, shift=shift)
        return self._places[key]


class Nearest:
    """A scene made ready to be asked for one pose after another."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self._rows: list[tuple[Item, int, int]] = []
        for i, solid in enumerate(scene.moving):
            require(solid.sheet is None, solid.name, "a sheet", "-", "convex pieces to be moved")
            self._rows += [(piece_item(piece=p), i, k) for k, p in enumerate(solid.pieces)]
        standing = [stands_of(solid=one, movement=self._movement(one)) for one in scene.fixed]
        self._columns = [(one, j) for j, each in enumerate(standing) for one in each]
        self._row_at = {(i, k): item for item, i, k in self._rows}
        self._column_at = {(j, one.piece, one.position): one for one, j in self._columns}
        none = [np.zeros((0, 3))]
        self._points = [
            np.concatenate([item.points for item, of, _ in self._rows if of == i] or none)
            for i in range(len(scene.moving))
        ]
        sizes = [len(item.points) for item, _, _ in self._rows]
        self._starts = np.concatenate(([0], np.cumsum(sizes)[:-1])).astype(int)
        self._of_row = np.array([i for _, i, _ in self._rows], dtype=int)
        self._of_column = np.array([j for _, j in self._columns], dtype=int)
        self._low = np.array([one.low for one, _ in self._columns]).reshape(-1, 3)
        self._high = np.array([one.high for one, _ in self._columns]).reshape(-1, 3)
        self._need = [[float(scene.needed(a, b)) for b in scene.fixed] for a in scene.moving]
        doubts = [_nominal(one.doubt) for one in scene.fixed]
        self._doubt = [[_nominal(a.doubt) + one for one in doubts] for a in scene.moving]
        wanted = np.array(self._need) + np.array(self._doubt)
        self._wanted = wanted[self._of_row][:, self._of_column]
        self._positions = 1 + max(
            (len(m.positions) - 1 for m in map(self._movement, scene.moving) if m), default=0
        )
        self._moved = self._places()
        self._shut = [self._closed(k) for k in range(self._positions)]
        self._pairs = self._pair_groups()

    @classmethod
    def of(cls, scene: Scene) -> Nearest:
        """Make a scene ready; the same as calling the class."""
        return cls(scene)

    def margin(self, pose: Pose) -> Clearance | None:
        """Return the least margin of all pairs and positions at a pose; None without pairs.

        The normal of what is returned is the margin's gradient by the place of the moving solids.
        """
        bounds, placed = self._bounds(pose)
        best: Asked | None = None
        for bound, position, row, column in nearest_first(bounds=bounds):
            if best is not None and bound >= best.margin - FEW:
                break
            found = self._ask(position, row, column, placed)
            if best is None or found.margin < best.margin:
                best = found
        return None if best is None else self._told(best, placed)

    def margins(self, poses: Sequence[Pose]) -> Array:
        """Return the least margin at each of many poses; nan without pairs (m)."""
        found = (self.margin(pose) for pose in poses)
        return np.array([np.nan if one is None else one.margin for one in found])

    def clearances(self, pose: Pose, *, keep: int = 1, within: float = 0.0) -> list[Clearance]:
        """Return for each pair the contact with the least margin, and those near it.

        Parameters
        ----------
        pose : Pose
            Where the moving solids are put; its nominal values count. [m]
        keep : int
            Contacts for each pair at most, each between other pieces. [-]
        within : float
            How much more margin than the least a further contact may have. [m]

        Returns
        -------
        list
            Pairs in the scene's order, the least margin first within each. [m]

        """
        bounds, placed = self._bounds(pose)
        found: list[Asked] = []
        for rows, columns in self._pairs.values():
            part = bounds[:, rows][:, :, columns]
            found += self._least(part, rows.tolist(), columns.tolist(), placed, keep, within)
        return [self._told(one, placed) for one in found]

    def normals(self, place: Place, turn: Array) -> Array:
        """Return unit ways square to the faces of a contact's pieces, from fixed to moving.

        Parameters
        ----------
        place : Place
            The contact. [-]
        turn : array
            Rotation of the pose, shape (3, 3). [-]

        """
        own = turn @ self._moved[place.moved][place.moving][0]
        moving = self._row_at[place[:2]].normals @ own.T
        fixed = self._column_at[place[3:]]
        return np.concatenate((-moving, fixed.item.normals @ fixed.spot[0].T))

    def _least(
        self,
        bounds: Array,
        rows: list[int],
        columns: list[int],
        placed: _Placed,
        keep: int,
        within: float,
    ) -> list[Asked]:
        best: dict[tuple[str, int, int], Asked] = {}
        end = np.inf
        for bound, position, i, j in nearest_first(bounds=bounds):
            if bound >= end - FEW:
                break
            one = self._ask(position, rows[i], columns[j], placed)
            column, solid = self._columns[one.column]
            name = (self._rows[one.row][0].name, solid, column.piece)
            if name not in best or one.margin < best[name].margin:
                best[name] = one
                if one.margin < end:
                    known = sorted(each.margin for each in best.values())
                    last = known[keep - 1] if len(known) >= keep else np.inf
                    end = min(last, known[0] + within)
        ranked = sorted(best.values(), key=lambda one: one.margin)
        return [one for one in ranked if one.margin <= ranked[0].margin + within][:keep]

    def _bounds(self, pose: Pose) -> tuple[Array, _Placed]:
        """Return lower bounds of margins by position, row, column, and where the rows are put."""
        bounds = np.empty((self._positions, len(self._rows), len(self._columns)))
        placed = self._put(pose)
        for k, by_solid in enumerate(placed.spots):
            low, high = self._boxes_of_rows(by_solid)
            gaps = np.maximum(self._low[None] - high[:, None], low[:, None] - self._high[None])
            apart = np.sqrt((np.maximum(gaps, 0.0) ** 2).sum(axis=2))
            least = np.where(apart > 0.0, apart, gaps.max(axis=2))
            bounds[k] = np.where(self._shut[k], np.inf, least - self._wanted)
        return bounds, placed

    def _put(self, pose: Pose) -> _Placed:
        """Return where each moving solid is put at a pose."""
        own = pose.nominal.spot
        return _Placed([[_after(one, own) for one in moved] for moved in self._moved])

    def _ask(self, position: int, row: int, column: int, placed: _Placed) -> Asked:
        item, i, _ = self._rows[row]
        one, j = self._columns[column]
        put(item=item, place=placed.place(position, i))
        spot = placed.spots[position][i]
        answer = ask(first=item, second=one.item, place=spot, other=one.spot)
        margin = answer.gap - self._doubt[i][j] - self._need[i][j]
        return Asked(margin, position, row, column, answer)

    def _told(self, asked: Asked, placed: _Placed) -> Clearance:
        item, i, k = self._rows[asked.row]
        one, j = self._columns[asked.column]
        moving, fixed = self.scene.moving[i], self.scene.fixed[j]
        words = (
            _words(self._movement(moving), asked.position),
            _words(self._movement(fixed), one.position),
        )
        spot, answer = placed.spots[asked.position][i], asked.answer
        return Clearance(
            pair=pair_name(moving=moving, fixed=fixed),
            moving=moving.name,
            fixed=fixed.name,
            piece=item.name,
            against=one.item.name,
            gap=answer.gap - self._doubt[i][j],
            need=self._need[i][j],
            at_moving=answer.on_first,
            at_fixed=answer.on_second,
            normal=way_out(answer=answer, first=item, second=one.item, place=spot, other=one.spot),
            position=", ".join(word for word in words if word),
            place=Place(i, k, asked.position, j, one.piece, one.position),
        )

    def _movement(self, solid: Solid) -> Movement | None:
        return self.scene.movements[solid.movement] if solid.movement else None

    def _places(self) -> list[list[Spot]]:
        """Return where movements put the moving solids in their own axes, by position and solid."""
        known = {one.movement: self._movement(one) for one in self.scene.moving}
        spots = {
            name: [_nominal_place(nominal, k) for k in range(self._positions)]
            for name, one in known.items()
            for nominal in (one.nominal if one else None,)
        }
        return [
            [spots[one.movement][k] for one in self.scene.moving] for k in range(self._positions)
        ]

    def _boxes_of_rows(self, by_solid: list[Spot]) -> tuple[Array, Array]:
        at = np.concatenate(
            [points @ turn.T + shift
             for points, (turn, shift) in zip(self._points, by_solid, strict=True)]
        )  # fmt: skip
        return (
            np.minimum.reduceat(at, self._starts, axis=0),
            np.maximum.reduceat(at, self._starts, axis=0),
        )

    def _closed(self, position: int) -> Flags:
        """Return which rows and columns are not asked about in a position of the moving solids."""
        scene = self.scene
        movements = [self._movement(one) for one in scene.moving]
        ended = [position >= (len(one.positions) if one else 1) for one in movements]
        apart = [[(a.name, b.name) in scene.apart for b in scene.fixed] for a in scene.moving]
        others = [self._movement(one) for one in scene.fixed]
        rests = np.array([one is not None and not one.running for one in others], dtype=np.bool_)
        moved = np.array([one.position > 0 for one, _ in self._columns], dtype=np.bool_)
        idle = rests[self._of_column] & moved & (position > 0)
        shut = np.array(apart, dtype=np.bool_) | np.array(ended, dtype=np.bool_)[:, None]
        found: Flags = shut[self._of_row][:, self._of_column] | idle
        return found

    def _pair_groups(self) -> dict[str, tuple[Whole, Whole]]:
        found: dict[str, tuple[list[int], list[int]]] = {}
        for j, fixed in enumerate(self.scene.fixed):
            columns = np.flatnonzero(self._of_column == j).tolist()
            for group in dict.fromkeys(solid.group for solid in self.scene.moving):
                rows = [
                    r for r, (_, i, _) in enumerate(self._rows)
                    if self.scene.moving[i].group == group
                    and (self.scene.moving[i].name, fixed.name) not in self.scene.apart
                ]  # fmt: skip
                if rows and columns:
                    name = f"{group} to {fixed.name}" if group else fixed.name
                    one = found.setdefault(name, (rows, []))
                    one[1].extend(columns)
        return {name: (np.array(r), np.array(c)) for name, (r, c) in found.items()}


def pair_name(*, moving: Solid, fixed: Solid) -> str:
    """Return the name of the row that a pair stands in.

    Parameters
    ----------
    moving : Solid
        The moving one. [-]
    fixed : Solid
        The fixed one. [-]

    Returns
    -------
    str
        "left tower", or "headers to left tower" for a group.

    """
    return f"{moving.group} to {fixed.name}" if moving.group else fixed.name


def nearest_first(*, bounds: Array) -> Iterator[tuple[float, int, int, int]]:
    """Go through bounds by position, row and column, the least first; what is shut is left out.

    Parameters
    ----------
    bounds : array
        Shape (positions, rows, columns); infinite where shut. [m]

    Yields
    ------
    tuple
        The bound, and where it stands.

    """
    flat = bounds.ravel()
    order = np.argsort(flat, kind="stable")
    order = order[: np.count_nonzero(np.isfinite(flat))]
    for begin in range(0, len(order), AT_ONCE):  # most stop early
        some = order[begin : begin + AT_ONCE]
        places = (one.tolist() for one in np.unravel_index(some, bounds.shape))
        yield from zip(flat[some].tolist(), *places, strict=True)


def _words(movement: Movement | None, position: int) -> str:
    return movement.words[position] if movement and position else ""


def _nominal(value: Array | float) -> float:
    return float(np.ravel(np.asarray(value))[0])


def _after(first: Spot, second: Spot) -> Spot:
    """Return one place after another, nominal ones."""
    return second[0] @ first[0], second[0] @ first[1] + second[1]


def _nominal_place(movement: Movement | None, position: int) -> tuple[Array, Array]:
    if movement is not None and position >= len(movement.positions):
        return np.eye(3), np.zeros(3)
    return moved_by(movement=movement, position=position)
