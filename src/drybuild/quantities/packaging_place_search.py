"""The whole search for the engine's best place: gearbox, propshaft, road, axle load, access.

It takes a second or more, so it is no quantity: whoever wants it asks for it, with an evaluation
of the build. Each limit counts where the build says enough of it; `unasked` tells of the others.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from drybuild.physics.placement.alterations import Ways, ways_to_fit
from drybuild.physics.placement.climb import climb
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import DIRECTIONS, Array, Limit, Question
from drybuild.physics.placement.screen import Screen
from drybuild.physics.placement.search import Found, best_place, place_at
from drybuild.physics.solids.nearest import pair_name
from drybuild.physics.solids.sampled import SampledGap, sampled_gaps
from drybuild.physics.solids.scene import Scene
from drybuild.physics.solids.shapes import Solid
from drybuild.project.readings import parse_reading
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, paths_of
from drybuild.quantities.packaging_place import SURE, least_margin, pose_with_spread
from drybuild.quantities.packaging_place_alterations import Offers, offers
from drybuild.quantities.packaging_place_kept import kept_margins, kept_place
from drybuild.quantities.packaging_place_limits import (
    SUPPORT,
    Held,
    reach_limits,
    road_limit,
    shaft_limits,
)
from drybuild.quantities.packaging_place_terms import ACCESS, usual_rooms
from drybuild.quantities.packaging_scene import GEARBOX, PlacedEngine

SUMP_NEED = 0.130
"""Room between sump and road, as the check on it has it. [m]"""
GUARD = 1.645
"""A surer place keeps off each wall and limit by so many of its own spreads: 95 % each."""
SLACK = 1e-6
"""Rounding that undoes no limit. [m, rad, -]"""
MAP_NODES = (21, 17)
"""Nodes of a map along and up."""
DOUBTFUL = (-0.02, 0.02)
"""Nodes whose quick margin lies in here are looked at exactly. [m]"""
TELLS = {
    "gearbox_scene": "the gearbox and its support",
    "shaft_line": "the propshaft's joints",
    "ride_height": "the road under the sump",
    "front_load_terms": "the load of the front axle",
    "drawn_rooms": "room to take parts out",
}


@dataclass(frozen=True, kw_only=True, eq=False)
class LimitLeft:
    """A limit at a place."""

    name: str
    unit: str
    now: float
    """What is left of it where the engine stands in the file. [m, rad, -]"""
    left: float
    """What is left at the best place."""
    odds: float
    """That it is kept there."""


@dataclass(frozen=True, kw_only=True, eq=False)
class PlaceMap:
    """The margin over two directions, the others as at the best place."""

    across: str
    up: str
    """Names of the directions: x, z, pitch."""
    xs: Array
    ys: Array
    margins: Array
    """Shape (ys, xs); told up to `ROOMY`, which it ends at. [m]"""
    kept: Array
    """Where every limit is kept; 1 or 0."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Room:
    """Whether a part comes out with the engine in place."""

    words: str
    against: str
    gap: float
    """What is left beside what it sweeps; minus where something is in its way. [m]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Placement:
    """The best place of an engine, and what is to be said of it."""

    engine: str
    found: Found
    now: Found
    gaps: dict[str, SampledGap]
    """Over the samples, at the best place."""
    margin: Values
    """Least gap over its need at the best place, over samples. [m]"""
    chance: float
    """That all gaps and limits hold there at once."""
    chance_now: float
    """The same at the place in the file."""
    limits: tuple[LimitLeft, ...]
    rooms: tuple[Room, ...]
    """Of usual parts, which are told and rule nothing out."""
    unasked: tuple[str, ...]
    """What did not count, as the build does not say enough of it."""
    made_to_suit: tuple[str, ...]
    """Areas that the option itself alters: taken as made to suit."""
    offers: Offers | None
    ways: Ways | None
    """Where no place will do: what to alter, sparing what the brief keeps."""
    ways_against: Ways | None
    """Where that will not do either: what would do, against the brief."""
    inputs: frozenset[str]
    """Paths of the readings that the scene rests on."""
    maps: tuple[PlaceMap, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class _Asked:
    question: Question
    held: tuple[Held, ...]
    unasked: tuple[str, ...]
    inputs: frozenset[str]


Between = Callable[[str], None]
"""Told what is being done, in words; may raise to stop."""


def placement_of(
    evaluation: Evaluation,
    picks: Mapping[str, str] | None = None,
    *,
    alter: bool = True,
    maps: bool = True,
    told: Between | None = None,
) -> Placement | str:
    """Return where the engine is best put; words where that cannot be asked.

    Parameters
    ----------
    evaluation : Evaluation
        Of a session: ``session.evaluation``.
    picks : mapping
        Option by system; the build's own when not given.
    alter : bool
        Whether to look for the least to alter where no place will do.
    maps : bool
        Whether to work out the maps.
    told : callable
        Told what is being done; may raise to stop.

    """
    picks = evaluation.build.assumed_picks() if picks is None else picks
    asked = _asked(evaluation, picks)
    if isinstance(asked, str):
        return asked
    say = told or _silent
    question, near = asked.question, Near(asked.question.scene)
    say("looking for the best place")
    found = kept_place(
        question,
        near,
        lambda: best_place(question=question, near=near, between=lambda: say("climbing")),
    )
    placed: PlacedEngine = evaluation.result("placed_engine", picks).value
    best = _left_at(asked, near, placed, found)
    there = place_at(question=question, at=question.start, near=near)
    now = _left_at(asked, near, placed, there)
    if 0.0 < best.chance < SURE:
        say("looking for a surer place")
        surer = _left_at(asked, near, placed, _surer(asked, near, best))
        best = max(best, surer, now, key=lambda one: (round(one.chance, 2), one.found.spot.worth))
    offered, ways, against = _alterations(evaluation, picks, best.found, say, alter=alter)
    option = evaluation.build.options["engine"][picks["engine"]]
    altered = option.given.get("alters")
    at = best.found.spot.at
    return Placement(
        engine=picks["engine"],
        found=best.found,
        now=now.found,
        gaps=best.gaps,
        margin=best.margin,
        chance=best.chance,
        chance_now=now.chance,
        limits=_limits_left(question, best, now),
        rooms=tuple(_rooms(question, placed, at)),
        unasked=asked.unasked,
        made_to_suit=altered if isinstance(altered, tuple) else (),
        offers=offered,
        ways=ways,
        ways_against=against,
        inputs=asked.inputs,
        maps=tuple(_maps(question, near, at)) if maps else (),
    )


@dataclass(frozen=True, kw_only=True, eq=False)
class _Left:
    """A place, with what it leaves over the samples."""

    found: Found
    gaps: dict[str, SampledGap]
    margin: Values
    over: dict[str, Values]
    """What is left of each limit that has a spread."""

    @property
    def chance(self) -> float:
        """Share of samples in which every gap and limit is kept."""
        kept = (self.margin >= 0.0) & self.found.spot.keeps
        for one in self.over.values():
            kept = kept & (one >= -SLACK)
        return _share(kept)


def _left_at(asked: _Asked, near: Near, placed: PlacedEngine, found: Found) -> _Left:
    pose = pose_with_spread(placed.pose, found.spot.at)
    gaps = sampled_gaps(scene=asked.question.scene, pose=pose, near=near)
    over = {one.limit.name: np.atleast_1d(one.over(found.spot.at, pose)) for one in asked.held}
    return _Left(found=found, gaps=gaps, margin=least_margin(gaps), over=over)


def _surer(asked: _Asked, near: Near, best: _Left) -> Found:
    """Return a place near the best that keeps off what is least known, by its spread."""
    spread = {name: GUARD * float(np.std(one.margin)) for name, one in best.gaps.items()}
    least = min(spread.values(), default=0.0)
    guard = {name: GUARD * float(np.std(one)) for name, one in best.over.items()}
    scene = asked.question.scene
    known = scene.needed

    def needed(moving: Solid, fixed: Solid) -> float:
        name = pair_name(moving=moving, fixed=fixed)
        return known(moving, fixed) + spread.get(name, least) - least

    def guarded(one: Limit) -> Limit:
        return replace(one, spare=lambda at: one.spare(at) - guard.get(one.name, 0.0))

    careful = replace(
        asked.question,
        scene=replace(scene, needed=needed),
        limits=tuple(map(guarded, asked.question.limits)),
    )
    off = Near(careful.scene)

    def searched() -> Found:
        spot = climb(near=off, question=careful, start=best.found.spot.at)
        return place_at(question=careful, at=spot.at, near=off)

    there = kept_place(careful, off, searched)
    found = place_at(question=asked.question, at=there.spot.at, near=near)
    return replace(found, tops=(found.spot.at, *best.found.tops))


def _alterations(
    evaluation: Evaluation,
    picks: Mapping[str, str],
    found: Found,
    say: Between,
    *,
    alter: bool,
) -> tuple[Offers | None, Ways | None, Ways | None]:
    """Return what may be altered, the ways that spare what the brief keeps, else all ways."""
    terms = evaluation.result("alteration_terms", picks).value
    if not alter or found.fits or terms is None:
        return None, None, None
    offered = offers(found.question, terms)

    def tried() -> None:
        say("trying alterations")

    ways = ways_to_fit(found=found, alterations=offered.allowed, between=tried)
    if ways.ways or not offered.against:
        return offered, ways, None
    all_ = [one.alteration for one in offered.offered.values()]
    first = [one.alteration for one in offered.against]
    return offered, ways, ways_to_fit(found=found, alterations=all_, first=first, between=tried)


def question_of(evaluation: Evaluation, picks: Mapping[str, str] | None = None) -> Question | str:
    """Return the whole question; words where it cannot be asked."""
    asked = _asked(evaluation, evaluation.build.assumed_picks() if picks is None else picks)
    return asked if isinstance(asked, str) else asked.question


def _asked(evaluation: Evaluation, picks: Mapping[str, str]) -> _Asked | str:
    """Put the question together from whatever the build says enough of."""
    first = evaluation.result("engine_question", picks)
    if first.value is None:
        lack = first.missing[0]
        return f"{lack.path}: {lack.why}"
    question: Question = first.value
    placed: PlacedEngine = evaluation.result("placed_engine", picks).value
    known = {name: evaluation.result(name, picks) for name in TELLS}
    held: list[Held] = []
    limits: list[Limit] = list(question.limits)
    scene = question.scene
    gearbox: Scene | None = known["gearbox_scene"].value
    if gearbox is not None:
        scene = _with_gearbox(scene, gearbox)
        reach = evaluation.result("support_reach", picks).value
        limits += _support(gearbox, float(reach[0]), question)
    if known["drawn_rooms"].value:
        scene = with_rooms(scene, known["drawn_rooms"].value)
    sump = [p for one in placed.solids if "sump" in one.name for p in one.pieces]
    if known["ride_height"].value is not None and sump:
        need = _sump_need(evaluation)
        height = known["ride_height"].value["front"]
        held.append(road_limit(sump=sump, ride_height=height, need=need, roll=question.roll))
    if known["shaft_line"].value is not None:
        held += shaft_limits(line=known["shaft_line"].value, roll=question.roll)
    held += known["front_load_terms"].value or []
    trails = [one.trail for one in known.values() if one.value is not None]
    unasked = [
        f"{TELLS[name]} ({one.missing[0].why})" for name, one in known.items() if one.value is None
    ]
    return _Asked(
        question=replace(question, scene=scene, limits=(*limits, *(one.limit for one in held))),
        held=tuple(held),
        unasked=tuple(unasked),
        inputs=paths_of((first.trail, *trails)),
    )


def with_rooms(scene: Scene, rooms: tuple[Solid, ...]) -> Scene:
    """Return a scene in which room is kept for parts to come out, under the open bonnet."""
    known = scene.needed

    def needed(moving: Solid, fixed: Solid) -> float:
        return 0.0 if moving.kind == ACCESS else known(moving, fixed)

    lids = [one.name for one in scene.fixed if one.kind == "bonnet"]
    open_ = {(room.name, lid) for room in rooms for lid in lids}
    return replace(
        scene,
        moving=(*scene.moving, *rooms),
        needed=needed,
        apart=scene.apart | frozenset(open_),
    )


def _with_gearbox(scene: Scene, gearbox: Scene) -> Scene:
    moving = [replace(one, group=one.group or GEARBOX) for one in gearbox.moving]
    return replace(scene, moving=(*scene.moving, *moving), apart=scene.apart | gearbox.apart)


def _support(gearbox: Scene, reach: float, question: Question) -> list[Limit]:
    points = np.concatenate([piece.nominal for one in gearbox.moving for piece in one.pieces])
    rear = float(points[:, 0].min())
    return reach_limits(
        name="reach of the gearbox's support",
        alters=SUPPORT,
        points=np.array([[rear, 0.0, 0.0]]),
        reach=reach,
        start=question.start,
        roll=question.roll,
    )


def _sump_need(evaluation: Evaluation) -> float:
    own = evaluation.build.limits.get("packaging.sump")
    return SUMP_NEED if own is None else parse_reading(own, "m").value


def _limits_left(question: Question, best: _Left, now: _Left) -> tuple[LimitLeft, ...]:
    """Return what is left of each limit."""
    told = []
    for k, one in enumerate(question.limits):
        left = float(best.found.spot.spares[k])
        drawn = best.over.get(one.name, np.array([left]))
        told.append(
            LimitLeft(
                name=one.name,
                unit=one.unit,
                now=float(now.found.spot.spares[k]),
                left=left,
                odds=_share(drawn >= -SLACK),
            )
        )
    return tuple(told)


def _rooms(question: Question, placed: PlacedEngine, at: Array) -> list[Room]:
    """Return whether usual parts come out at a place."""
    rooms = usual_rooms(placed.solids)
    if not rooms:
        return []
    alone = replace(question.scene, moving=(), apart=frozenset())
    scene = with_rooms(alone, tuple(room for _, room in rooms))
    words = {room.name: one for one, room in rooms}
    least: dict[str, Room] = {}
    for one in Near(scene).clearances(question.pose(at)):
        told = Room(words=words[one.moving], against=one.fixed, gap=one.gap)
        if one.moving not in least or told.gap < least[one.moving].gap:
            least[one.moving] = told
    return list(least.values())


def _maps(question: Question, near: Near, at: Array) -> list[PlaceMap]:
    return [_map(question, near, at, across, up) for across, up in ((0, 2), (0, 3))]


def _map(question: Question, near: Near, at: Array, across: int, up: int) -> PlaceMap:
    xs = np.linspace(question.low[across], question.high[across], MAP_NODES[0])
    ys = np.linspace(question.low[up], question.high[up], MAP_NODES[1])
    places = np.repeat(at[:, None], len(xs) * len(ys), axis=1)
    places[across], places[up] = np.tile(xs, len(ys)), np.repeat(ys, len(xs))
    margins = kept_margins(question, places, lambda: _margins(question, near, places))
    kept = np.all(question.spares(places) >= 0.0, axis=0)
    shape = (len(ys), len(xs))
    return PlaceMap(
        across=DIRECTIONS[across],
        up=DIRECTIONS[up],
        xs=xs,
        ys=ys,
        margins=margins.reshape(shape),
        kept=kept.astype(np.float64).reshape(shape),
    )


def _margins(question: Question, near: Near, places: Array) -> Array:
    """Return the margin at every place, exactly where the quick one leaves doubt."""
    screen = Screen(near, question)
    margins = screen.margins(places)
    doubtful = np.flatnonzero((margins > DOUBTFUL[0]) & (margins < DOUBTFUL[1]))
    margins[doubtful] = screen.exact(places[:, doubtful])
    return margins


def _share(held: npt.NDArray[np.bool_]) -> float:
    drawn = held[1:] if held.size > 1 else held
    return float(np.mean(drawn))


def _silent(_: str) -> None:
    """Say nothing."""
