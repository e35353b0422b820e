"""Whether the engine can be put into this bay at all, wherever it sits: the check's quantity.

Asked with what stands in the bay alone: mounts and support as far as they reach, no propshaft, no
road. Those can only make it harder, so an engine that finds no place here finds none at all. The
whole search, with every limit, is in `packaging_place_search`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Array, Limit, Question
from drybuild.physics.placement.search import Found, best_place, place_at
from drybuild.physics.solids.sampled import SampledGap, sampled_gaps
from drybuild.physics.solids.scene import Pose, Scene
from drybuild.project.engine import Engine
from drybuild.project.packaging import Bay
from drybuild.project.packaging_place import Placing
from drybuild.project.samples import Values
from drybuild.quantities.packaging_place_kept import kept_place
from drybuild.quantities.packaging_place_limits import MOUNTS, mount_points, reach_limits
from drybuild.quantities.packaging_scene import PlacedEngine
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.packaging_place import alteration_rows

SURE = 0.95
"""Where the engine's place in the file is so sure to do, no other is looked for."""


@dataclass(frozen=True, kw_only=True, eq=False)
class EnginePlace:
    """The best place in the bay alone, with its clearances."""

    found: Found
    gaps: dict[str, SampledGap]
    """Over the samples, at that place."""
    moved: bool
    """Whether it is another place than the file's."""


@step("Where the engine may be put in its bay", source="common-practice")
def engine_question(
    engine: Engine, bay: Bay, bay_scene: Scene, placed_engine: PlacedEngine
) -> Question:
    """Return how far the engine may go, and what its mounts reach.

    What the option says that it alters is taken as made to suit.
    """
    name = engine.path.removeprefix("options.engine.")
    if bay.engines.get(name) is None:
        raise DoesNotApply(f"{bay.path_of('engines')}.{name}", "its shape is not measured")
    return bay_question(bay_scene, placed_engine, bay.placing, tuple(engine.alters))


@step("The engine's best place in the bay", source="slp-fletcher")
def best_engine_place(
    engine_question: Question,
    bay_scene: Scene,
    placed_engine: PlacedEngine,
    bay_gaps: dict[str, SampledGap],
) -> EnginePlace:
    """Return its place in the file where that will do, else the best that the search finds."""
    question, near = engine_question, Near(engine_question.scene)
    if question.scene is bay_scene and chance(bay_gaps) >= SURE:
        found = place_at(question=question, at=question.start, near=near)
        return EnginePlace(found=found, gaps=bay_gaps, moved=False)
    found = kept_place(question, near, lambda: best_place(question=question, near=near))
    pose = pose_with_spread(placed_engine.pose, found.spot.at)
    gaps = sampled_gaps(scene=question.scene, pose=pose, near=near)
    return EnginePlace(found=found, gaps=gaps, moved=True)


@quantity(
    "m",
    "Room to spare where the engine sits best",
    source="slp-fletcher",
    per="pair",
    shown="mm",
)
def place_margin(best_engine_place: EnginePlace) -> Labelled:
    """Return the least gap over its need at the best place, by the pair that holds it."""
    gaps = best_engine_place.gaps
    return {holding_words(best_engine_place.found): least_margin(gaps)}


def bay_question(
    scene: Scene, placed: PlacedEngine, placing: Placing, altered: tuple[str, ...] = ()
) -> Question:
    """Return where the engine may be put among what stands round it.

    Parameters
    ----------
    scene : Scene
        The engine, perhaps with its gearbox, and the bay.
    placed : PlacedEngine
        Where it is put now.
    placing : Placing
        How far it may go.
    altered : tuple of str
        Areas that the option itself alters: what stands there is left out.

    """
    pose = placed.pose.nominal
    start = np.array([pose.x, pose.y, pose.z, pose.pitch, pose.yaw])
    low, high = _bounds(start, placing)
    limits: tuple[Limit, ...] = ()
    changed, mounts = _as_altered(scene, altered)
    if not mounts:
        limits = tuple(
            reach_limits(
                name="reach of the mounts",
                alters=MOUNTS,
                points=mount_points(placed.solids),
                reach=float(placing.mount_reach[0]),
                start=start,
                roll=float(pose.roll),
            )
        )
    return Question(
        scene=changed, low=low, high=high, start=start, roll=float(pose.roll), limits=limits
    )


def pose_with_spread(pose: Pose, at: Array) -> Pose:
    """Return a place with the spread that the place in the file has."""

    def put(value: Values | float, nominal: float) -> Values:
        drawn = np.asarray(value, float)
        return np.asarray(nominal + drawn - np.ravel(drawn)[0])

    return Pose(
        x=put(pose.x, at[0]),
        y=put(pose.y, at[1]),
        z=put(pose.z, at[2]),
        roll=pose.roll,
        pitch=put(pose.pitch, at[3]),
        yaw=put(pose.yaw, at[4]),
    )


def least_margin(gaps: dict[str, SampledGap]) -> Values:
    """Return the least margin of all pairs in each sample."""
    least = None
    for one in gaps.values():
        least = one.margin if least is None else np.minimum(least, one.margin)
    return np.full(1, np.inf) if least is None else np.asarray(least)


def chance(gaps: dict[str, SampledGap]) -> float:
    """Return the share of samples in which every pair has its room."""
    margin = least_margin(gaps)
    return float(np.mean((margin[1:] if margin.size > 1 else margin) >= 0.0))


def holding_words(found: Found) -> str:
    """Return the pair that holds a place, as a person names it."""
    if not found.pairs:
        return "nothing"
    one = found.pairs[0]
    return f"{one.piece} to {one.fixed}"


def _bounds(start: Array, placing: Placing) -> tuple[Array, Array]:
    half = np.array(
        [float(one[0]) for one in (placing.along, placing.across, placing.up)] + [0.0, 0.0]
    )
    low, high = start - half, start + half
    nose_up = float(placing.nose_up_least[0]), float(placing.nose_up_most[0])
    low[3], high[3] = min(-nose_up[1], start[3]), max(-nose_up[0], start[3])
    yaw = float(placing.yaw_most[0])
    low[4], high[4] = start[4] - yaw, start[4] + yaw
    return low, high


def _as_altered(scene: Scene, altered: tuple[str, ...]) -> tuple[Scene, bool]:
    """Leave out what stands in the areas that the option alters; tell if mounts are among them."""
    words = {word.casefold() for word in altered}
    gone: set[str] = set()
    mounts = False
    for row in alteration_rows():
        if words & {word.casefold() for word in row.keep}:
            mounts = mounts or row.on == (MOUNTS,)
            gone |= set(row.on)
    kept = tuple(one for one in scene.fixed if one.name not in gone)
    if len(kept) == len(scene.fixed):
        return scene, mounts
    return replace(scene, fixed=kept), mounts


def file_place(at: Array, length: float) -> dict[str, float]:
    """Return a place as the build file's entries have it, by entry. [m, rad].

    Parameters
    ----------
    at : array
        Place of the rear face's middle, shape (5,).
    length : float
        Nose to rear face.

    """
    tilt = -float(at[3])
    return {
        "nose": float(at[0]) + length * float(np.cos(tilt)),
        "crank_offset": float(at[1]),
        "crank_height": float(at[2]) + length * float(np.sin(tilt)),
        "nose_up": tilt,
        "yaw": float(at[4]),
    }
