"""Steps that say what else the engine's place has to keep: where each is known, it counts."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drybuild.errors import DoesNotApply, MissingInput
from drybuild.physics.joints import joint_angle_for_excitation
from drybuild.physics.placement.access import swept
from drybuild.physics.placement.shaft_line import direction
from drybuild.physics.solids.scene import Scene
from drybuild.physics.solids.shapes import Array, Piece, Solid
from drybuild.project.body import Body
from drybuild.project.brief import Brief
from drybuild.project.driveline import Axle, Gearbox, Propshaft
from drybuild.project.engine import Engine
from drybuild.project.mass import Mass
from drybuild.project.packaging import Bay
from drybuild.project.samples import Values
from drybuild.project.suspension import RearSuspension
from drybuild.project.work import Work
from drybuild.quantities.axles import FRONT, REAR
from drybuild.quantities.packaging_place_limits import Held, ShaftLine, line_from_angles, load_limit
from drybuild.quantities.packaging_scene import PlacedEngine, engine_box
from drybuild.quantities.packaging_shapes import numbers_of, part_solids
from drybuild.quantities.quantity import Labelled, step
from drybuild.tables.driveline import largest_joint_angle
from drybuild.tables.packaging_place import access_rows

MOST_EXCITATION = 1000.0
"""Angular acceleration that one joint may make, where the makers' table ends. [rad/s²]"""
ACCESS = "access"
"""Kind of a solid that stands for the room to take a part out."""


@dataclass(frozen=True, kw_only=True)
class Own:
    """What one's own knows better about an alteration."""

    never: bool
    most: float | None
    price: float | None
    hours: tuple[float, float, float] | None


@dataclass(frozen=True, kw_only=True, eq=False)
class Equipment:
    """A package that can be had for the engine."""

    parts: tuple[Solid, ...]
    instead_of: frozenset[str]
    price: float
    hours: float
    alters: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class AlterationTerms:
    """What alterations cost here, and what may not be altered."""

    own_hour: float
    """[money/s]"""
    keep: tuple[str, ...]
    own: dict[str, Own]
    packages: dict[str, Equipment]


@step("Length of the engine, nose to rear face", source="definition")
def engine_size(engine: Engine, bay: Bay) -> Values:
    """Return the length that its place in the file counts from."""
    return engine_box(engine, bay).length


@step("Reach of the gearbox's support", source="common-practice")
def support_reach(bay: Bay) -> Values:
    """Return how far the support may be moved."""
    return bay.placing.support_reach


@step("Room that parts need to come out", source="common-practice")
def drawn_rooms(bay: Bay, placed_engine: PlacedEngine) -> tuple[Solid, ...]:
    """Return what each part sweeps that the file wants to come out with the engine in place."""
    known = {piece.name: piece for one in placed_engine.solids for piece in one.pieces}
    found = []
    for name, one in bay.placing.drawn.items():
        if one.of not in known:
            where = one.path_of("of")
            raise MissingInput(where, f'"{one.of}" is no piece of this engine')
        along = numbers_of(one, "along")[:, 0]
        way = along / np.linalg.norm(along) * float(one.way[0])
        found.append(room_solid(name, known[one.of], way))
    return tuple(found)


def usual_rooms(solids: tuple[Solid, ...]) -> tuple[tuple[str, Solid], ...]:
    """Return what parts of usual engines sweep on their way out, with words for it."""
    ways = {"front": (1, 0, 0), "back": (-1, 0, 0), "up": (0, 0, 1), "down": (0, 0, -1)}
    found = []
    for row in access_rows():
        for piece in (piece for one in solids for piece in one.pieces if piece.name == row.piece):
            side = np.array([0.0, np.sign(piece.nominal[:, 1].mean()), 0.0])
            way = side if row.way == "own" else np.array(ways[row.way], float)
            found.append((row.words, room_solid(row.piece, piece, way * row.most)))
    return tuple(found)


def room_solid(name: str, piece: Piece, way: Array) -> Solid:
    """Return the room to draw a part out: it moves with the engine, and does not rock."""
    words = f"room for the {name}"
    one = replace(swept(piece=piece, way=way), name=words)
    return Solid(name=words, group=words, pieces=(one,), kind=ACCESS)


@step("The propshaft's line", source="driveline-manual-j3311")
def shaft_line(
    axle: Axle,
    propshaft: Propshaft,
    rear_suspension: RearSuspension,
    placed_engine: PlacedEngine,
    gearbox_scene: Scene,
    driven_radius: Values,
    ride_height: Labelled,
    propshaft_highest_speed: Values,
    bay: Bay,
) -> ShaftLine:
    """Return the shaft's ends: the pinion as given, else where the file's angles put it."""
    if axle.driven == "front":
        raise DoesNotApply(axle.path_of("driven"), "with front-wheel drive there is no propshaft")
    behind = -min(
        float(piece.nominal[:, 0].min()) for one in gearbox_scene.moving for piece in one.pieces
    )
    largest = largest_joint_angle(propshaft_highest_speed)
    by_rule = joint_angle_for_excitation(
        shaft_speed=propshaft_highest_speed, excitation=MOST_EXCITATION
    )
    largest = np.where(np.isfinite(largest), largest, by_rule)
    travel = float(rear_suspension.bump_travel[0])
    placing = bay.placing
    if placing.has("pinion") and placing.has("pinion_slope"):
        pinion = direction(slope=placing.pinion_slope, aside=0.0 * placing.pinion_slope)
        return ShaftLine(
            behind=behind,
            rear_joint=numbers_of(placing, "pinion"),
            pinion=pinion,
            largest=largest,
            travel=travel,
            taken=True,
        )
    return line_from_angles(
        pose=placed_engine.pose,
        behind=behind,
        length=propshaft.length,
        front=(propshaft.front_angle, propshaft.front_plan_angle),
        rear=(propshaft.rear_angle, propshaft.rear_plan_angle),
        axle_height=float(driven_radius[0] - ride_height[REAR][0]),
        largest=largest,
        travel=travel,
    )


@step("Load that the front axle may carry as the engine moves", source="gillespie-mass")
def front_load_terms(
    engine: Engine,
    gearbox: Gearbox,
    body: Body,
    mass: Mass,
    bay: Bay,
    placed_engine: PlacedEngine,
    laden_axle_load: Labelled,
    front_axle_share: Values,
    kerb_mass: Values,
) -> list[Held]:
    """Return the limits of load and share that the file gives, by the lever rule."""
    pose = placed_engine.pose.nominal
    start = np.array([pose.x, pose.y, pose.z, pose.pitch, pose.yaw])
    per_metre = np.asarray((engine.mass + gearbox.mass) / body.wheelbase)
    found = []
    if mass.has("front_axle_limit"):
        found.append(
            load_limit(
                name="load of the front axle",
                load=laden_axle_load[FRONT],
                most=mass.front_axle_limit,
                per_metre=per_metre,
                start=start,
            )
        )
    if bay.placing.has("most_front_share"):
        found.append(
            load_limit(
                name="share of the mass in front",
                load=front_axle_share,
                most=bay.placing.most_front_share,
                per_metre=np.asarray(per_metre / kerb_mass),
                start=start,
            )
        )
    return found


@step("What altering the car or the engine costs here", source="common-practice")
def alteration_terms(engine: Engine, bay: Bay, brief: Brief, work: Work) -> AlterationTerms:
    """Return own prices and bounds, areas to keep, and the packages that can be had."""
    own = {
        name: Own(
            never=one.never,
            most=float(one.most[0]) if one.has("most") else None,
            price=float(one.price[0]) if one.has("price") else None,
            hours=_hours(one.fitting) if one.has("fitting") else None,
        )
        for name, one in bay.placing.alterations.items()
    }
    packages = {}
    for name, one in engine_box(engine, bay).packages.items():
        if not one.taken:
            packages[name] = Equipment(
                parts=tuple(part_solids(one.parts)),
                instead_of=frozenset((*one.instead_of, *one.parts)),
                price=float(one.price[0]) if one.has("price") else 0.0,
                hours=_hours(one.fitting)[1] if one.has("fitting") else 0.0,
                alters=tuple(one.alters),
            )
    return AlterationTerms(
        own_hour=float(work.own_hour[0]), keep=tuple(brief.keep), own=own, packages=packages
    )


def _hours(fitting: object) -> tuple[float, float, float]:
    return tuple(float(getattr(fitting, end)) for end in ("least", "likely", "most"))  # type: ignore[return-value]  # three of them
