"""The engine placed among what stands round it, and the gaps that are left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.packaging import rock_angle
from drybuild.physics.solids.engines import Outline, bell_pieces, box_engine, engine_pieces
from drybuild.physics.solids.nearest import pair_name
from drybuild.physics.solids.sampled import SampledGap, sampled_gaps
from drybuild.physics.solids.scene import Movement, Needed, Pose, Scene
from drybuild.physics.solids.shapes import Array, Piece, Solid, Whole, box_piece, triangles_of
from drybuild.project.cooling import Radiator
from drybuild.project.driveline import Gearbox
from drybuild.project.engine import Engine
from drybuild.project.packaging import Bay, EngineBox, GearboxBox
from drybuild.project.packaging_place import Package
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_bay import bay_solids
from drybuild.quantities.packaging_shapes import (
    GROUPS,
    is_outline,
    part_solids,
    proportions_of,
    solid_of,
)
from drybuild.quantities.quantity import step
from drybuild.tables.packaging import clearance_row, needed_clearance

ROCK = "rock"
BELL = "bell housing"
GEARBOX = "gearbox"
RADIATOR = "picked radiator"


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedEngine:
    """An engine's solids in its own axes, where it is put, and how it rocks."""

    solids: tuple[Solid, ...]
    pose: Pose
    rock: Movement


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedBay:
    """What stands round the engine, in body axes."""

    solids: tuple[Solid, ...]
    movements: Mapping[str, Movement]
    own_needs: Mapping[str, float]
    """Room that the person wants, by kind or by name. [m]"""


@step("The engine's solids and its place", source="common-practice")
def placed_engine(engine: Engine, bay: Bay) -> PlacedEngine:
    """Return the engine in its own axes, with the pose that puts it into the car."""
    one = engine_box(engine, bay)
    tilt = one.nose_up
    pose = Pose(
        x=one.nose - one.length * np.cos(tilt),
        y=one.crank_offset,
        z=one.crank_height - one.length * np.sin(tilt),
        roll=-one.lean if one.has("lean") else 0.0,
        pitch=-tilt,
        yaw=one.yaw if one.has("yaw") else 0.0,
    )
    angle = rock_angle(movement=one.rock, height=one.height)
    rock = Movement(
        name=ROCK,
        positions=(0.0, angle, -angle),
        words=("", "rocked to the right", "rocked to the left"),
    )
    return PlacedEngine(solids=tuple(_engine_solids(one)), pose=pose, rock=rock)


@step("What stands round the engine", source="common-practice")
def placed_bay(bay: Bay) -> PlacedBay:
    """Return the bay's solids, their movements, and the room that the person wants to keep."""
    solids, movements = bay_solids(bay)
    needs = {name: float(one.room[0]) for name, one in bay.needs.items()}
    return PlacedBay(solids=solids, movements=movements, own_needs=needs)


@step("The engine among what stands round it", source="common-practice")
def bay_scene(placed_engine: PlacedEngine, placed_bay: PlacedBay) -> Scene:
    """Return the scene that clearances are found in; the pose stands in `placed_engine`."""
    return Scene(
        moving=placed_engine.solids,
        fixed=placed_bay.solids,
        movements={**placed_bay.movements, ROCK: placed_engine.rock},
        needed=needs_of(placed_bay),
        apart=frozenset({(BELL, "bulkhead")}),
    )


@step("Gaps round the engine", source="convex-distance")
def bay_gaps(bay_scene: Scene, placed_engine: PlacedEngine) -> dict[str, SampledGap]:
    """Return each pair's gap, over all positions of what moves, over the samples."""
    return sampled_gaps(scene=bay_scene, pose=placed_engine.pose)


@step("The gearbox's solids", source="common-practice")
def gearbox_shape(gearbox: Gearbox, bay: Bay) -> tuple[Solid, ...]:
    """Return the gearbox in the engine's axes."""
    name = gearbox.path.removeprefix("options.gearbox.")
    one = bay.gearboxes.get(name)
    if one is None:
        raise DoesNotApply(f"{bay.path_of('gearboxes')}.{name}", "its shape is not measured")
    return tuple(_gearbox_solids(one))


@step("The gearbox among what stands round it", source="common-practice")
def gearbox_scene(
    placed_engine: PlacedEngine, placed_bay: PlacedBay, gearbox: Gearbox, bay: Bay
) -> Scene:
    """Return the scene of the gearbox, which goes with the engine; in the engine's own axes."""
    name = gearbox.path.removeprefix("options.gearbox.")
    one = bay.gearboxes.get(name)
    if one is None:
        raise DoesNotApply(f"{bay.path_of('gearboxes')}.{name}", "its shape is not measured")
    return Scene(
        moving=tuple(_gearbox_solids(one)),
        fixed=placed_bay.solids,
        movements={**placed_bay.movements, ROCK: placed_engine.rock},
        needed=needs_of(placed_bay),
        apart=frozenset({(GEARBOX, "bulkhead")}),
    )


@step("Gaps round the gearbox", source="convex-distance")
def gearbox_gaps(gearbox_scene: Scene, placed_engine: PlacedEngine) -> dict[str, SampledGap]:
    """Return the gaps between the gearbox, rocking with the engine, and what stands round it."""
    return sampled_gaps(scene=gearbox_scene, pose=placed_engine.pose)


@step("The radiator's own solid", source="common-practice")
def radiator_shape(radiator: Radiator) -> Solid:
    """Return the picked radiator in body axes, where it brings a shape of its own."""
    if not radiator.has("solid"):
        raise DoesNotApply(radiator.path_of("solid"), "it brings no solid of its own")
    return solid_of(radiator.solid, name=RADIATOR, kind="radiator")


@step("Gaps to the picked radiator", source="convex-distance")
def radiator_gaps(
    placed_engine: PlacedEngine, placed_bay: PlacedBay, radiator_shape: Solid
) -> dict[str, SampledGap]:
    """Return the gaps between the rocking engine and the radiator that is picked."""
    scene = Scene(
        moving=placed_engine.solids,
        fixed=(radiator_shape,),
        movements={ROCK: placed_engine.rock},
        needed=needs_of(placed_bay),
    )
    return sampled_gaps(scene=scene, pose=placed_engine.pose)


def needs_of(bay: PlacedBay) -> Needed:
    """Return the room that each pair needs: the person's figures before those of the trade."""

    def needed(moving: Solid, fixed: Solid) -> float:
        row = clearance_row(moving.kind, fixed.kind)
        for name in (pair_name(moving=moving, fixed=fixed), fixed.name, row):
            if name in bay.own_needs:
                return bay.own_needs[name]
        return needed_clearance(row)

    return needed


def engine_box(engine: Engine, bay: Bay) -> EngineBox:
    """Return the engine's shape; a new one without measures gets the typical outline."""
    name = engine.path.removeprefix("options.engine.")
    path = f"{bay.path_of('engines')}.{name}"
    given = bay.engines.get(name)
    if given is None and engine.as_is:
        raise DoesNotApply(path, "the engine stays, and its outline is not measured")
    return given or EngineBox(path=path, key="car.bay.engines", bench=bay.bench)


def meshes_in_body_axes(
    evaluation: Evaluation, picks: Mapping[str, str] | None = None
) -> dict[str, tuple[Array, Whole, str]]:
    """Return triangles of every solid as it stands in the car at the nominal readings.

    Parameters
    ----------
    evaluation : Evaluation
        Of a session: ``session.evaluation``.
    picks : mapping
        Option by system; the build's own when not given.

    Returns
    -------
    dict
        By the solid's name: points (points, 3) in m in body axes, corners of triangles (triangles,
        3) that look outward, and the solid's kind; the gearbox and the picked
        radiator where they have a shape. Empty while the engine or the bay is open.

    """
    scene = evaluation.result("bay_scene", picks).value
    placed = evaluation.result("placed_engine", picks).value
    if scene is None or placed is None:
        return {}
    pose = placed.pose.nominal
    gearbox = evaluation.result("gearbox_shape", picks).value or ()
    found = {
        one.name: (*triangles_of(solid=one, turn=pose.turn, shift=pose.shift), one.kind)
        for one in (*scene.moving, *gearbox)
    }
    radiator = evaluation.result("radiator_shape", picks).value
    for one in (*scene.fixed, *((radiator,) if radiator else ())):
        found[one.name] = (*triangles_of(solid=one), one.kind)
    return found


def _engine_solids(one: EngineBox) -> list[Solid]:
    outline = Outline(
        length=one.length,
        width=one.width,
        offset=one.offset,
        height=one.height,
        depth=one.depth,
        sump_depth=one.sump_depth,
        sump_width=one.sump_width,
        sump_front=one.sump_front,
        sump_rear=one.sump_rear,
    )
    plain = is_outline(one.form)
    if plain:
        stepped = one.has("front_height") and one.has("high_behind")
        pieces = box_engine(
            outline=outline,
            front_height=one.front_height if stepped else None,
            high_behind=one.high_behind if stepped else None,
        )
    else:
        pieces = engine_pieces(
            proportions=proportions_of(one.form, one.heads),
            outline=outline,
            mirrored=one.exhaust == "left",
        )
    doubt = 0.0 if plain else one.shape_doubt
    solids = [
        Solid(
            name=GROUPS.get(kind, kind),
            pieces=found,
            kind="engine" if kind == "sump" else kind,
            group=GROUPS.get(kind, ""),
            movement=ROCK,
            doubt=doubt,
            typical=not plain,
        )
        for kind, found in pieces.items()
    ]
    solids.append(
        Solid(name=BELL, pieces=_bell(one, plain), kind="engine", movement=ROCK, typical=not plain)
    )
    parts = [replace(part, movement=ROCK) for part in part_solids(one.parts)]
    found = with_parts(solids, parts, {part.name for part in parts})
    for package in one.packages.values():
        if package.taken:
            found = with_package(found, package)
    return found


def with_package(solids: list[Solid], package: Package) -> list[Solid]:
    """Return an engine's solids with another way to equip it: its parts go for some pieces."""
    parts = [replace(part, movement=ROCK) for part in part_solids(package.parts)]
    return with_parts(solids, parts, {part.name for part in parts} | set(package.instead_of))


def with_parts(solids: list[Solid], parts: list[Solid], named: set[str]) -> list[Solid]:
    """Return solids without what is named, pieces or whole solids, and with further parts."""
    left = [
        replace(one, pieces=tuple(piece for piece in one.pieces if piece.name not in named))
        for one in solids
        if one.name not in named
    ]
    return [*(one for one in left if one.pieces), *parts]


def _bell(one: EngineBox, plain: bool) -> tuple[Piece, ...]:
    if not plain:
        return bell_pieces(length=one.bell_length, width=one.bell_width, top=one.bell_height)
    half = one.bell_width / 2.0
    return (
        box_piece(
            name=BELL, low=(-one.bell_length, -half, -half), high=(0.0, half, one.bell_height)
        ),
    )


def _gearbox_solids(one: GearboxBox) -> list[Solid]:
    half = one.width / 2.0
    pieces = []
    tail = one.tail_length if one.has("tail_length") else 0.0
    case_rear = one.rear - tail
    pieces.append(
        box_piece(
            name="gearbox case",
            low=(-case_rear, -half, -one.depth),
            high=(-one.front, half, one.height),
        )
    )
    if one.has("tail_length") and one.has("tail_width"):
        side = one.tail_width / 2.0
        pieces.append(
            box_piece(
                name="gearbox tail", low=(-one.rear, -side, -side), high=(-case_rear, side, side)
            )
        )
    solid = Solid(name=GEARBOX, pieces=tuple(pieces), kind=GEARBOX, movement=ROCK)
    return [solid, *(replace(part, movement=ROCK) for part in part_solids(one.parts))]
