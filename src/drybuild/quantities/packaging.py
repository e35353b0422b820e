"""Room for the engine: signed clearances to everything round it, at rest and in every movement."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.packaging import rock_angle
from drybuild.physics.solids.sampled import SampledGap
from drybuild.physics.solids.scene import Pose, moved_by
from drybuild.physics.solids.shapes import Piece, moved_piece
from drybuild.project.engine import Engine
from drybuild.project.packaging import Bay
from drybuild.project.samples import Values
from drybuild.quantities.packaging_bay import BONNET
from drybuild.quantities.packaging_meshes import strays_of
from drybuild.quantities.packaging_scene import BELL, PlacedEngine, engine_box
from drybuild.quantities.packaging_shapes import NEAR, extent, is_separate, lowest
from drybuild.quantities.quantity import Labelled, quantity


@quantity(
    "m", "Clearance round the engine, rocking", source="convex-distance", per="pair", shown="mm"
)
def bay_clearance(bay_gaps: dict[str, SampledGap]) -> Labelled:
    """Least signed gap between the engine and each thing round it; minus where they clash.

    Over the engine's rock, steering lock, suspension travel, and whatever else moves. Usual shapes
    are drawn round the parts, so a clash wants a template before it is believed.
    """
    return {name: one.gap for name, one in bay_gaps.items() if name != BONNET}


@quantity(
    "m",
    "Clearance that each thing round the engine needs",
    source="trade-clearances",
    per="pair",
    shown="mm",
)
def bay_clearance_needed(bay_gaps: dict[str, SampledGap]) -> Labelled:
    """Return the trade's clearance for each pair, or the person's own; the gap has the rock."""
    return {name: np.array([one.nominal.need]) for name, one in bay_gaps.items() if name != BONNET}


@quantity("m", "Smallest clearance round the engine", source="convex-distance", shown="mm")
def smallest_bay_clearance(bay_gaps: dict[str, SampledGap]) -> Values:
    """Return the least gap of all, the bonnet among them."""
    return _least([one.gap for one in bay_gaps.values()])


@quantity("m", "Least room to spare over what is needed", source="trade-clearances", shown="mm")
def bay_margin(bay_gaps: dict[str, SampledGap]) -> Values:
    """Return the least gap over its own need, the bonnet among them; minus where room lacks."""
    return _least([one.margin for one in bay_gaps.values()])


@quantity("-", "Chance that the engine has all the room it needs", source="definition", shown="%")
def bay_fit_chance(bay_margin: Values) -> Values:
    """Return the share of samples in which every need is met at once."""
    drawn = bay_margin[1:] if bay_margin.size > 1 else bay_margin
    return np.full(bay_margin.shape, np.mean(drawn >= 0.0))


@quantity("m", "Room between the engine and the bonnet", source="convex-distance", shown="mm")
def bonnet_clearance(bay_gaps: dict[str, SampledGap]) -> Values:
    """Return the least gap to the bonnet: shut over the rocking engine, and while it closes."""
    return bay_gaps[BONNET].gap


@quantity("m", "Room that the bonnet needs over the engine", source="common-practice", shown="mm")
def bonnet_clearance_needed(bay_gaps: dict[str, SampledGap]) -> Values:
    """Return the usual room, or the person's own."""
    return np.array([bay_gaps[BONNET].nominal.need])


@quantity(
    "m", "Clearance round the gearbox, rocking", source="convex-distance", per="pair", shown="mm"
)
def gearbox_clearance(gearbox_gaps: dict[str, SampledGap]) -> Labelled:
    """Least signed gap between the gearbox and each thing round it; minus where they clash."""
    return {name: one.gap for name, one in gearbox_gaps.items()}


@quantity(
    "m",
    "Clearance that each thing round the gearbox needs",
    source="trade-clearances",
    per="pair",
    shown="mm",
)
def gearbox_clearance_needed(gearbox_gaps: dict[str, SampledGap]) -> Labelled:
    """Return the trade's clearance for each pair, or the person's own."""
    return {name: np.array([one.nominal.need]) for name, one in gearbox_gaps.items()}


@quantity(
    "m",
    "Clearance to the picked radiator, rocking",
    source="convex-distance",
    per="pair",
    shown="mm",
)
def radiator_clearance(radiator_gaps: dict[str, SampledGap]) -> Labelled:
    """Least signed gap between engine, fan and headers and a radiator that brings its shape."""
    return {name: one.gap for name, one in radiator_gaps.items()}


@quantity(
    "m",
    "Clearance that the picked radiator needs",
    source="trade-clearances",
    per="pair",
    shown="mm",
)
def radiator_clearance_needed(radiator_gaps: dict[str, SampledGap]) -> Labelled:
    """Return the trade's clearance for each pair, or the person's own."""
    return {name: np.array([one.nominal.need]) for name, one in radiator_gaps.items()}


@quantity(
    "m",
    "Stray of each point that places a mesh",
    source="kabsch-1976",
    per="point",
    shown="mm",
)
def mesh_point_stray(bay: Bay) -> Labelled:
    """Return how far the mesh's named points lie from where they were measured on the car."""
    found = {
        f"{name}: {point}": np.array([stray])
        for name, one in bay.solids.items()
        if one.form == "mesh"
        for point, stray in strays_of(one).items()
    }
    if not found:
        raise DoesNotApply(bay.path_of("solids"), "no mesh is placed by points")
    return found


@quantity("m", "Height of the sump over the road, standing", source="convex-distance", shown="mm")
def sump_ground_clearance(placed_engine: PlacedEngine, ride_height: Labelled) -> Values:
    """Return the ride height at the front and the lowest point of the sump, at rest."""
    sump = [one for solid in placed_engine.solids if "sump" in solid.name for one in solid.pieces]
    return ride_height["front"] + lowest(sump, placed_engine.pose)


@quantity(
    "m", "Room for the engine's length, bulkhead to radiator", source="definition", shown="mm"
)
def bay_length(bay: Bay) -> Values:
    """Return the distance between the two planes."""
    return bay.radiator - bay.bulkhead


@quantity("m", "Length of the engine as installed", source="definition", shown="mm")
def engine_length(placed_engine: PlacedEngine) -> Values:
    """Return the length of the engine as tilted, without its bell housing."""
    low, high = extent(_upper(placed_engine), placed_engine.pose, axis=0)
    return high - low


@quantity("m", "Width of the engine with its rock", source="definition", shown="mm")
def engine_width_rocking(placed_engine: PlacedEngine) -> Values:
    """Return the width that the engine sweeps above its crankshaft."""
    ends = []
    for position in range(len(placed_engine.rock.positions)):
        turn, shift = moved_by(movement=placed_engine.rock, position=position)
        ends.append(_across(placed_engine, turn, shift))
    return -_least([-high for _, high in ends]) - _least([low for low, _ in ends])


@quantity("rad", "Rock of the engine to each side", source="trade-clearances", shown="deg")
def engine_rock(engine: Engine, bay: Bay) -> Values:
    """Return the roll that moves its top by the allowed way."""
    one = engine_box(engine, bay)
    return rock_angle(movement=one.rock, height=one.height)


def _across(placed: PlacedEngine, turn: Values, shift: Values) -> tuple[Values, Values]:
    """Return how far the engine reaches to the right and to the left in a position of its rock."""
    upper = _upper(placed)
    first = turn if turn.ndim == 2 else turn[:, :, 0]
    along = [(one.nominal @ first.T)[:, 1] for one in upper]
    right, left = min(float(at.min()) for at in along), max(float(at.max()) for at in along)
    near = [
        moved_piece(piece=one, turn=turn, shift=shift)
        for one, at in zip(upper, along, strict=True)
        if at.min() < right + NEAR or at.max() > left - NEAR
    ]
    return extent(near, Pose(), axis=1)


def _upper(placed: PlacedEngine) -> list[Piece]:
    """Return the engine's pieces above the sump, without bell housing and separate parts."""
    kept = [one for one in placed.solids if one.name not in (BELL, "sump") and not is_separate(one)]
    return [piece for one in kept for piece in one.pieces]


def _least(values: list[Values]) -> Values:
    """Return the least in each sample."""
    least = values[0]
    for value in values[1:]:
        least = np.minimum(least, value)
    return least
