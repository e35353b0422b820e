"""What is seen of the engine in its bay from three sides, ready to draw: outlines and sections."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from drybuild.physics.solids.outlines import (
    Polygon,
    Segments,
    clipped,
    convex_outline,
    cut_piece,
    cut_sheet,
    seen_along,
    union_edges,
)
from drybuild.physics.solids.shapes import Array, Piece, Solid, moved_points
from drybuild.present.nominal import number
from drybuild.present.packaging_meshes import standing_names
from drybuild.present.packaging_pairs import Pair
from drybuild.present.wheel_solids import front_wheels
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_bay import BONNET
from drybuild.quantities.packaging_scene import BELL, GEARBOX
from drybuild.quantities.packaging_shapes import is_separate


@dataclass(frozen=True, kw_only=True)
class Look:
    """A direction to look in, and how the axes lie on the page."""

    name: str
    title: str
    axes: tuple[int, int]
    """Which of x, y, z go along and up the page."""
    turns: tuple[float, float]
    """-1 where an axis grows to the left, or down the page."""

    @property
    def across(self) -> int:
        """The axis that is looked along; what has more of it is nearer to the eye."""
        return 3 - sum(self.axes)


CROSS = "cross-member"
SIDE = Look(name="side", title="From the left", axes=(0, 2), turns=(-1.0, 1.0))
FRONT = Look(name="front", title="From the front", axes=(1, 2), turns=(1.0, 1.0))
PLAN = Look(name="plan", title="From above", axes=(0, 1), turns=(-1.0, -1.0))
EMPTY = (np.array((-0.3, 0.0, 0.15)), np.array((0.2, 0.0, 0.15)))
"""About where a crankshaft would lie, to cut an empty bay at. [m]"""
LOOKS = (SIDE, FRONT, PLAN)
DEEP = 0.10
"""How much of a cross-member is drawn: how deep it is was not asked. [m]"""
SKINS: dict[str, tuple[tuple[int, float], ...]] = {
    "radiator": ((0, -1.0),),
    "bulkhead": ((0, 1.0),),
    "left tower": ((1, -1.0),),
    "right tower": ((1, 1.0),),
    "left rail": ((1, -1.0), (2, 1.0)),
    "right rail": ((1, 1.0), (2, 1.0)),
    CROSS: ((0, 1.0), (0, -1.0), (2, 1.0)),
}
"""Which sides of the plain walls were measured: axis, and the way that side looks."""
BESIDE = 0.10
"""What stands farther before or behind the engine is left out of a view. [m]"""
SHOWN = 0.9
"""Share of a gap's way that has to lie in the page for it to be drawn there. [-]"""
MOST = 6
"""Gaps drawn in one view."""


@dataclass(frozen=True, kw_only=True)
class Seen:
    """A solid as it is seen."""

    name: str
    kind: str
    polygons: tuple[Polygon, ...]
    depth: tuple[float, ...]
    """How near each polygon comes to the eye (m)."""
    separate: bool = False
    """A part of the engine with rows of its own, as an exhaust run: no part of its size."""

    @property
    def nearest(self) -> float:
        """How near it comes to the eye (m)."""
        return max(self.depth, default=0.0)


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A wall as a plane cuts it."""

    name: str
    polygons: tuple[Polygon, ...]
    face: Segments
    """Its skin towards the engine (m)."""


@dataclass(frozen=True, kw_only=True)
class BayScene:
    """The engine in its bay at the nominal readings, for any direction."""

    moving: tuple[tuple[Solid, tuple[Piece, ...]], ...]
    """The engine's solids, and the gearbox's, with their pieces in body axes."""
    standing: tuple[Solid, ...]
    """What the person put into the bay."""
    walls: tuple[Solid, ...]
    wheels: Mapping[str, Array]
    """Points of each front wheel (m)."""
    ground: tuple[float, float] | None
    """Height of the road under the front axle, and how much it rises for each metre back (m, -)."""
    shaft: tuple[Array, Array] | None
    """The propshaft's line from the gearbox's end to the axle (m)."""
    crank: tuple[Array, Array]
    """The crankshaft's line: rear face of the block, nose (m)."""
    typical: tuple[str, ...] = field(default=())
    """Solids that a usual shape stands in for."""


@dataclass(frozen=True, kw_only=True)
class View:
    """One direction: what is seen and cut, and which gaps show."""

    look: Look
    at: float
    """Where the walls are cut, on the axis that is looked along (m)."""
    moving: tuple[Seen, ...]
    standing: tuple[Seen, ...]
    walls: tuple[Cut, ...]
    wheels: tuple[Polygon, ...]
    lines: Mapping[str, tuple[tuple[float, float], tuple[float, float]]]
    """Crankshaft, propshaft, road: two places each (m)."""
    gaps: tuple[tuple[int, Pair], ...]
    """Numbered in the order of all pairs."""
    level: float
    """Height of the crankshaft at the rear face of the block (m)."""


def bay_scene_of(evaluation: Evaluation) -> BayScene | None:
    """Return the engine in its bay, or None while engine or bay is open."""
    scene = evaluation.result("bay_scene").value
    placed = evaluation.result("placed_engine").value
    if scene is None or placed is None:
        return None
    pose = placed.pose.nominal
    radiator = evaluation.result("radiator_shape").value
    gearbox = evaluation.result("gearbox_shape").value or ()
    moving = tuple((one, _placed(one, pose.turn, pose.shift)) for one in (*scene.moving, *gearbox))
    standing = standing_names(evaluation.build) - {BONNET}
    nose = max(
        float(piece.nominal[:, 0].max())
        for one in scene.moving
        for piece in one.pieces
        if one.name != BELL
    )
    rear = _rear_end(gearbox)
    return BayScene(
        moving=moving,
        standing=(
            *(one for one in scene.fixed if one.name in standing),
            *((radiator,) if radiator else ()),
        ),
        walls=tuple(one for one in scene.fixed if one.name not in standing),
        wheels={name: points for name, (points, _) in front_wheels(evaluation).items()},
        ground=_ground(evaluation),
        shaft=_shaft(evaluation, pose.turn @ np.array((rear, 0.0, 0.0)) + pose.shift)
        if rear is not None
        else None,
        crank=(pose.shift, pose.turn @ np.array((nose, 0.0, 0.0)) + pose.shift),
        typical=tuple(one.name for one, _ in moving if one.typical),
    )


def empty_bay_of(evaluation: Evaluation) -> BayScene | None:
    """Return the bay without an engine: what there is to measure before one is chosen."""
    bay = evaluation.result("placed_bay").value
    if bay is None:
        return None
    standing = standing_names(evaluation.build) - {BONNET}
    return BayScene(
        moving=(),
        standing=tuple(one for one in bay.solids if one.name in standing),
        walls=tuple(one for one in bay.solids if one.name not in standing),
        wheels={name: points for name, (points, _) in front_wheels(evaluation).items()},
        ground=_ground(evaluation),
        shaft=None,
        crank=EMPTY,
    )


def view_of(scene: BayScene, look: Look, pairs: Sequence[Pair]) -> View:
    """Return what is seen in a direction; walls are cut where the tightest gap there is."""
    gaps = tuple((number, one) for number, one in enumerate(pairs, start=1) if _shows(one, look))[
        :MOST
    ]
    at = _cut_at(scene, look, [one for _, one in gaps])
    return View(
        look=look,
        at=at,
        moving=tuple(
            _seen(solid.name, solid.kind, pieces, look, separate=is_separate(solid))
            for solid, pieces in scene.moving
        ),
        standing=tuple(
            _seen(one.name, one.kind, one.pieces, look)
            for one in _beside(scene, look, {pair.gap.nominal.fixed for _, pair in gaps})
        ),
        walls=tuple(cut for one in scene.walls if (cut := _cut(one, look, at)) is not None),
        wheels=tuple(
            convex_outline(points=points[:, list(look.axes)]) for points in scene.wheels.values()
        ),
        lines=_lines(scene, look),
        gaps=gaps,
        level=float(scene.crank[0][2]),
    )


def _beside(scene: BayScene, look: Look, named: set[str]) -> list[Solid]:
    """Return what stands beside the engine as it is looked at, and what a gap names."""
    engine = [
        piece.nominal[:, look.across]
        for solid, pieces in scene.moving
        if solid.kind != GEARBOX and solid.name != BELL and not is_separate(solid)
        for piece in pieces
    ]
    if not engine:
        return list(scene.standing)
    low = min(float(one.min()) for one in engine) - BESIDE
    high = max(float(one.max()) for one in engine) + BESIDE
    found = []
    for one in scene.standing:
        places = np.concatenate(
            [piece.nominal[:, look.across] for piece in one.pieces] or [np.zeros(0)]
        )
        near = len(places) and places.min() < high and places.max() > low
        if near or one.name in named:
            found.append(one)
    return found


def _placed(solid: Solid, turn: Array, shift: Array) -> tuple[Piece, ...]:
    return tuple(
        Piece(name=one.name, points=moved_points(points=one.nominal, turn=turn, shift=shift))
        for one in solid.pieces
    )


def _seen(
    name: str, kind: str, pieces: Iterable[Piece], look: Look, *, separate: bool = False
) -> Seen:
    found = [
        (polygons[0], float(one.nominal[:, look.across].max()))
        for one in pieces
        if (polygons := seen_along(points=[one.nominal], axes=look.axes))
    ]
    return Seen(
        name=name,
        kind=kind,
        polygons=tuple(polygon for polygon, _ in found),
        depth=tuple(depth for _, depth in found),
        separate=separate,
    )


def _cut(solid: Solid, look: Look, at: float) -> Cut | None:
    """Return a wall's section: the whole of it, and the line of its true skin."""
    polygons = [
        found
        for one in solid.pieces
        if len(found := cut_piece(points=one.nominal, axis=look.across, at=at))
    ]
    if solid.name == CROSS and look is not PLAN:
        polygons = [
            clipped(polygon=one, low=(-9.0, one[:, 1].max() - DEEP), high=(9.0, 9.0))
            for one in polygons
        ]
    faces = [one for one in solid.pieces if one.front]
    if faces:
        skins = [_skin(one.nominal[: one.front], look.across, at) for one in faces]
        face = np.concatenate([np.zeros((0, 2, 2)), *skins])
    else:
        face = _measured(union_edges(polygons=polygons), solid.name, look)
    if solid.sheet is not None:
        lines = cut_sheet(
            points=solid.sheet.points, triangles=solid.sheet.triangles, axis=look.across, at=at
        )
        face = np.concatenate([face, lines])
    if not (polygons or len(face)):
        return None
    return Cut(name=solid.name, polygons=tuple(polygons), face=face)


def _measured(lines: Segments, name: str, look: Look) -> Segments:
    """Return those sides of a plain wall's section that the tape knows."""
    sides = [(look.axes.index(axis), way) for axis, way in SKINS.get(name, ()) if axis in look.axes]
    if name not in SKINS or not len(lines):
        return lines
    along = lines[:, 1] - lines[:, 0]
    outward = np.stack([along[:, 1], -along[:, 0]], axis=1)
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    kept = [bool(any(one[axis] * way > 0.7 for axis, way in sides)) for one in outward]
    found: Segments = lines[np.array(kept, dtype=bool)]
    return found


def _skin(corners: Array, axis: int, at: float) -> Segments:
    """Return the line that a plane cuts out of a flat or warped polygon."""
    triangles = np.array([(0, k, k + 1) for k in range(1, len(corners) - 1)])
    return cut_sheet(points=corners, triangles=triangles, axis=axis, at=at)


def _shows(pair: Pair, look: Look) -> bool:
    """Whether a gap's way lies in the page."""
    one = pair.gap.nominal
    way = one.at_fixed - one.at_moving
    length = float(np.linalg.norm(way))
    way = way / length if length > 1e-6 else one.normal
    return float(np.hypot(way[look.axes[0]], way[look.axes[1]])) >= SHOWN


def _cut_at(scene: BayScene, look: Look, pairs: Sequence[Pair]) -> float:
    """Return where to cut: through the tightest gap to a wall, from the side along the crank."""
    if look is SIDE:
        return float(scene.crank[0][1])
    walls = {one.name for one in scene.walls}
    for pair in pairs:
        if pair.gap.nominal.fixed in walls:
            return float(pair.gap.nominal.at_fixed[look.across])
    middle = (scene.crank[0] + scene.crank[1]) / 2.0
    return float(middle[look.across] + (0.10 if look is PLAN else 0.0))


def _lines(
    scene: BayScene, look: Look
) -> dict[str, tuple[tuple[float, float], tuple[float, float]]]:
    i, j = look.axes
    found = {}
    if look is not FRONT:
        for name, line in (("crankshaft", scene.crank), ("propshaft", scene.shaft)):
            if line is not None:
                start, end = line
                found[name] = ((start[i], start[j]), (end[i], end[j]))
    if scene.ground is not None and look is not PLAN:
        low, rise = scene.ground
        ends = (3.0, -3.0)
        slope = rise if look is SIDE else 0.0
        found["road"] = ((ends[0], low - ends[0] * slope), (ends[1], low - ends[1] * slope))
    return found


def _ground(evaluation: Evaluation) -> tuple[float, float] | None:
    ride = evaluation.result("ride_height").labelled()
    if "front" not in ride:
        return None
    front = float(np.ravel(ride["front"])[0])
    base = _wheelbase(evaluation)
    if base is None or "rear" not in ride:
        return -front, 0.0
    return -front, (front - float(np.ravel(ride["rear"])[0])) / base


def _wheelbase(evaluation: Evaluation) -> float | None:
    body = evaluation.build.car.get("body")
    return number(body, "wheelbase", evaluation.build) if body is not None else None


def _rear_end(gearbox: Iterable[Solid]) -> float | None:
    ends = [
        float(p.nominal[:, 0].min()) for one in gearbox if one.name == GEARBOX for p in one.pieces
    ]
    return min(ends) if ends else None


def _shaft(evaluation: Evaluation, start: Array) -> tuple[Array, Array] | None:
    """Return the line to the middle of the rear axle, where wheels and ride height are known."""
    ride = evaluation.result("ride_height").labelled().get("rear")
    size = evaluation.result("tyre_outside_diameter").labelled().get("rear")
    base = _wheelbase(evaluation)
    if ride is None or size is None or base is None:
        return None
    height = float(np.ravel(size)[0]) / 2.0 - float(np.ravel(ride)[0])
    return start, np.array((-base, 0.0, height))
