"""Room for the engine: signed clearances to everything round it, at rest and rocking."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.packaging import (
    Box,
    box_gap,
    line_clearance,
    pitched_box,
    rock_angle,
    rolled_box,
)
from drybuild.project.engine import Engine
from drybuild.project.packaging import Bay, EngineBox
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.packaging import needed_clearance

SLICES = 6
"""Pieces that each part is cut into along its length before it is tilted."""
FAR = np.array([100.0])  # [m], stands for "to the end" of a plane drawn as a box


@dataclass(frozen=True, kw_only=True)
class Outline:
    """An engine placed in its bay, part by part: its slices at rest, and all that they sweep."""

    rest: dict[str, list[Box]]
    swept: dict[str, list[Box]]


@step("The engine's boxes in the bay", source="box-distance")
def engine_outline(engine: Engine, bay: Bay) -> Outline:
    """Upper engine, lower block, sump and bell housing, sliced, tilted as installed, rocked.

    Each part is cut across into slices before it is tilted, so that a box round a tilted slice is
    only a slice's length times the tilt larger than the part.
    """
    one = _engine_box(engine, bay)
    rest = {
        part: [
            pitched_box(box=box, axis_x=one.nose, axis_z=one.crank_height, nose_up=one.nose_up)
            for whole in boxes
            for box in _slices(whole)
        ]
        for part, boxes in _boxes(one).items()
    }
    angle = rock_angle(movement=one.rock, height=one.height)
    swept = {
        part: [
            rolled_box(box=box, axis_y=one.crank_offset, axis_z=one.crank_height, angle=angle)
            for box in boxes
        ]
        for part, boxes in rest.items()
    }
    return Outline(rest=rest, swept=swept)


@quantity("m", "Clearance round the engine, rocking", source="box-distance", per="pair", shown="mm")
def bay_clearance(engine_outline: Outline, bay: Bay) -> Labelled:
    """Least signed gap between the engine's boxes and each thing round it; minus where they clash.

    Boxes are larger than the parts inside them, so a clash wants a template before it is believed.
    """
    around = _obstacles(bay)
    roof = around["bulkhead"]  # what lies behind the bulkhead's face, above the tunnel's mouth
    found: Labelled = {}
    for name, obstacles in around.items():
        gaps = [
            box_gap(first=box, second=obstacle)
            for part, boxes in engine_outline.swept.items()
            for box in boxes
            for obstacle in obstacles
            if (name, part) != ("bulkhead", "bell")
        ]
        if name == "tunnel":
            bell = engine_outline.swept["bell"]
            gaps += [box_gap(first=box, second=one) for box in bell for one in roof]
        found[name] = _least(gaps)
    return found


@quantity(
    "m",
    "Clearance that each thing round the engine needs",
    source="trade-clearances",
    per="pair",
    shown="mm",
)
def bay_clearance_needed(bay: Bay) -> Labelled:
    """Return the trade clearance for each kind of thing; rock is in the gap already."""
    kinds = dict.fromkeys(_obstacles(bay), "fixed")
    kinds["radiator"] = "radiator"
    kinds.update({name: box.kind for name, box in bay.boxes.items()})
    return {name: np.array([needed_clearance(kind)]) for name, kind in kinds.items()}


@quantity("m", "Smallest clearance round the engine", source="box-distance", shown="mm")
def smallest_bay_clearance(bay_clearance: Labelled, bonnet_clearance: Values) -> Values:
    """Return the least gap of all, the bonnet among them."""
    return _least([*bay_clearance.values(), bonnet_clearance])


@quantity("m", "Least room to spare over what is needed", source="trade-clearances", shown="mm")
def bay_margin(
    bay_clearance: Labelled, bay_clearance_needed: Labelled, bonnet_clearance: Values
) -> Values:
    """Return the least gap over its own need; minus where something lacks room."""
    spare = [gap - bay_clearance_needed[name] for name, gap in bay_clearance.items()]
    spare.append(bonnet_clearance - needed_clearance("bonnet"))
    return _least(spare)


@quantity("-", "Chance that the engine has all the room it needs", source="definition", shown="%")
def bay_fit_chance(bay_margin: Values) -> Values:
    """Return the share of samples in which every need is met at once."""
    drawn = bay_margin[1:] if bay_margin.size > 1 else bay_margin
    return np.full(bay_margin.shape, np.mean(drawn >= 0.0))


@quantity("m", "Room between the rocking engine and the bonnet", source="box-distance", shown="mm")
def bonnet_clearance(engine_outline: Outline, bay: Bay) -> Values:
    """Return the least upright gap under the line of the bonnet, at full rock."""
    stations, heights = _bonnet(bay)
    clear = [
        line_clearance(box=box, stations=stations, heights=heights)
        for box in engine_outline.swept["upper"]
    ]
    return _least(clear)


@quantity("m", "Height of the sump over the road, standing", source="box-distance", shown="mm")
def sump_ground_clearance(engine_outline: Outline, ride_height: Labelled) -> Values:
    """Return the ride height at the front and the lowest slice of the sump."""
    return ride_height["front"] + _least([box.bottom for box in engine_outline.rest["sump"]])


@quantity(
    "m", "Room for the engine's length, bulkhead to radiator", source="definition", shown="mm"
)
def bay_length(bay: Bay) -> Values:
    """Return the distance between the two planes."""
    return bay.radiator - bay.bulkhead


@quantity("m", "Length of the engine as installed", source="definition", shown="mm")
def engine_length(engine_outline: Outline) -> Values:
    """Return the length of the upper engine as tilted."""
    upper = engine_outline.rest["upper"]
    return -_least([-box.front for box in upper]) - _least([box.rear for box in upper])


@quantity("m", "Width of the engine with its rock", source="definition", shown="mm")
def engine_width_rocking(engine_outline: Outline) -> Values:
    """Return the width that the upper engine sweeps."""
    upper = engine_outline.swept["upper"]
    return -_least([-box.left for box in upper]) - _least([box.right for box in upper])


@quantity("rad", "Rock of the engine to each side", source="trade-clearances", shown="deg")
def engine_rock(engine: Engine, bay: Bay) -> Values:
    """Return the roll that moves its top by the allowed way."""
    one = _engine_box(engine, bay)
    return rock_angle(movement=one.rock, height=one.height)


def _engine_box(engine: Engine, bay: Bay) -> EngineBox:
    """Return the engine's outline; a new one without measures gets the typical outline."""
    name = engine.path.removeprefix("options.engine.")
    path = f"{bay.path_of('engines')}.{name}"
    given = bay.engines.get(name)
    if given is None and engine.as_is:
        raise DoesNotApply(path, "the engine stays, and its outline is not measured")
    return given or EngineBox(path=path, key="car.bay.engines", bench=bay.bench)


def _boxes(one: EngineBox) -> dict[str, list[Box]]:
    """Boxes square to the engine, with its nose and crankshaft in place."""
    rear, nose = one.nose - one.length, one.nose
    y, z = one.crank_offset, one.crank_height
    right, left = y + one.offset - one.width / 2.0, y + one.offset + one.width / 2.0
    lower, bell = one.sump_width / 2.0, one.bell_width / 2.0
    upper = [_box(rear, nose, right, left, z, z + one.height)]
    if one.has("front_height") and one.has("high_behind"):
        step_at = nose - one.high_behind
        upper = [
            _box(rear, step_at, right, left, z, z + one.height),
            _box(step_at, nose, right, left, z, z + one.front_height),
        ]
    sump = (nose - one.sump_rear, nose - one.sump_front)
    return {
        "upper": upper,
        "block": [_box(rear, nose, y - lower, y + lower, z - one.depth, z)],
        "sump": [_box(*sump, y - lower, y + lower, z - one.sump_depth, z)],
        "bell": [
            _box(rear - one.bell_length, rear, y - bell, y + bell, z - bell, z + one.bell_height)
        ],
    }


def _slices(box: Box) -> list[Box]:
    """Cut a box across into slices of equal length."""
    cuts = [box.rear + (box.front - box.rear) * k / SLICES for k in range(SLICES + 1)]
    return [replace(box, rear=rear, front=front) for rear, front in pairwise(cuts)]


def _obstacles(bay: Bay) -> dict[str, list[Box]]:
    """Return what stands round the engine; planes are boxes that reach far."""
    tower, rail, tunnel = bay.tower_width / 2.0, bay.rail_width / 2.0, bay.tunnel_width / 2.0
    head, top = bay.bulkhead, bay.rail_top
    found = {
        "radiator": [_box(bay.radiator, FAR, -FAR, FAR, -FAR, FAR)],
        "bulkhead": [_box(-FAR, head, -FAR, FAR, bay.tunnel_top, FAR)],
        "left tower": [_box(head, FAR, tower, FAR, top, FAR)],
        "right tower": [_box(head, FAR, -FAR, -tower, top, FAR)],
        "left rail": [_box(head, FAR, rail, FAR, -FAR, top)],
        "right rail": [_box(head, FAR, -FAR, -rail, -FAR, top)],
        "cross-member": [
            _box(bay.crossmember_rear, bay.crossmember_front, -FAR, FAR, -FAR, bay.crossmember_top)
        ],
        "tunnel": [
            _box(-FAR, head, tunnel, FAR, -FAR, bay.tunnel_top),
            _box(-FAR, head, -FAR, -tunnel, -FAR, bay.tunnel_top),
        ],
    }
    for name, one in bay.boxes.items():
        found[name] = [_box(one.rear, one.front, one.right, one.left, one.bottom, one.top)]
    return found


def _bonnet(bay: Bay) -> tuple[Values, Values]:
    stations = list(bay.bonnet.values())
    if len(stations) < 2:
        return np.stack([bay.bulkhead, bay.radiator]), np.stack([bay.bonnet_rear, bay.bonnet_front])
    return np.stack([one.x for one in stations]), np.stack([one.height for one in stations])


def _box(
    rear: Values, front: Values, right: Values, left: Values, bottom: Values, top: Values
) -> Box:
    return Box(rear=rear, front=front, right=right, left=left, bottom=bottom, top=top)


def _least(values: list[Values]) -> Values:
    """Return the least in each sample; nan (beyond the bonnet's line) only where all are."""
    least = values[0]
    for value in values[1:]:
        least = np.fmin(least, value)
    return least
