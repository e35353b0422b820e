"""Room for the engine: signed clearances to everything round it, at rest and rocking."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.errors import MissingInput
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

FAR = np.array([100.0])  # [m], stands for "to the end" of a plane drawn as a box


@dataclass(frozen=True, kw_only=True)
class Outline:
    """An engine placed in its bay: each of its boxes at rest, and all that it sweeps."""

    rest: dict[str, Box]
    swept: dict[str, Box]


@step("The engine's boxes in the bay", source="box-distance")
def engine_outline(engine: Engine, bay: Bay) -> Outline:
    """Upper engine, lower block, sump and bell housing, tilted as installed, then rocked."""
    one = _engine_box(engine, bay)
    rest = {
        part: pitched_box(box=box, axis_x=one.nose, axis_z=one.crank_height, nose_up=one.nose_up)
        for part, box in _boxes(one).items()
    }
    angle = rock_angle(movement=one.rock, height=one.height)
    swept = {
        part: rolled_box(box=box, axis_y=one.crank_offset, axis_z=one.crank_height, angle=angle)
        for part, box in rest.items()
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
            for part, box in engine_outline.swept.items()
            for obstacle in obstacles
            if (name, part) != ("bulkhead", "bell")
        ]
        if name == "tunnel":
            gaps += [box_gap(first=engine_outline.swept["bell"], second=one) for one in roof]
        found[name] = np.minimum.reduce(np.broadcast_arrays(*gaps))
    return found


@quantity(
    "m",
    "Clearance that each thing round the engine needs",
    source="trade-clearances",
    per="pair",
    shown="mm",
)
def bay_clearance_needed(bay: Bay) -> Labelled:
    kinds = dict.fromkeys(_obstacles(bay), "fixed")
    kinds["radiator"] = "radiator"
    kinds.update({name: box.kind for name, box in bay.boxes.items()})
    return {name: np.array([needed_clearance(kind)]) for name, kind in kinds.items()}


@quantity("m", "Smallest clearance round the engine", source="box-distance", shown="mm")
def smallest_bay_clearance(bay_clearance: Labelled, bonnet_clearance: Values) -> Values:
    gaps = np.broadcast_arrays(*bay_clearance.values(), bonnet_clearance)
    return np.asarray(np.minimum.reduce(gaps))


@quantity("m", "Least room to spare over what is needed", source="trade-clearances", shown="mm")
def bay_margin(
    bay_clearance: Labelled, bay_clearance_needed: Labelled, bonnet_clearance: Values
) -> Values:
    spare = [gap - bay_clearance_needed[name] for name, gap in bay_clearance.items()]
    spare.append(bonnet_clearance - needed_clearance("bonnet"))
    return np.asarray(np.minimum.reduce(np.broadcast_arrays(*spare)))


@quantity("-", "Chance that the engine has all the room it needs", source="definition", shown="%")
def bay_fit_chance(bay_margin: Values) -> Values:
    drawn = bay_margin[1:] if bay_margin.size > 1 else bay_margin
    return np.full(bay_margin.shape, np.mean(drawn >= 0.0))


@quantity("m", "Engine under the bonnet, rocking", source="box-distance", shown="mm")
def bonnet_clearance(engine_outline: Outline, bay: Bay) -> Values:
    stations, heights = _bonnet(bay)
    return line_clearance(box=engine_outline.swept["upper"], stations=stations, heights=heights)


@quantity("m", "Sump over the road, standing", source="box-distance", shown="mm")
def sump_ground_clearance(engine_outline: Outline, ride_height: Labelled) -> Values:
    return ride_height["front"] + engine_outline.rest["sump"].bottom


@quantity(
    "m", "Room for the engine's length, bulkhead to radiator", source="definition", shown="mm"
)
def bay_length(bay: Bay) -> Values:
    return bay.radiator - bay.bulkhead


@quantity("m", "Length of the engine as installed", source="definition", shown="mm")
def engine_length(engine_outline: Outline) -> Values:
    upper = engine_outline.rest["upper"]
    return upper.front - upper.rear


@quantity("m", "Width of the engine with its rock", source="definition", shown="mm")
def engine_width_rocking(engine_outline: Outline) -> Values:
    upper = engine_outline.swept["upper"]
    return upper.left - upper.right


@quantity("rad", "Rock of the engine to each side", source="trade-clearances", shown="deg")
def engine_rock(engine: Engine, bay: Bay) -> Values:
    one = _engine_box(engine, bay)
    return rock_angle(movement=one.rock, height=one.height)


def _engine_box(engine: Engine, bay: Bay) -> EngineBox:
    """Return the engine's outline; a new one without measures gets the typical outline."""
    name = engine.path.removeprefix("options.engine.")
    path = f"{bay.path_of('engines')}.{name}"
    given = bay.engines.get(name)
    if given is None and engine.as_is:
        raise MissingInput(path, "the engine that is in the car is not measured")
    return given or EngineBox(path=path, key="car.bay.engines", bench=bay.bench)


def _boxes(one: EngineBox) -> dict[str, Box]:
    """Boxes square to the engine, with its nose and crankshaft in place."""
    rear = one.nose - one.length
    y, z = one.crank_offset, one.crank_height
    middle, half = y + one.offset, one.width / 2.0
    lower, bell = one.sump_width / 2.0, one.bell_width / 2.0
    return {
        "upper": _box(rear, one.nose, middle - half, middle + half, z, z + one.height),
        "block": _box(rear, one.nose, y - lower, y + lower, z - one.depth, z),
        "sump": _box(
            one.nose - one.sump_rear,
            one.nose - one.sump_front,
            y - lower,
            y + lower,
            z - one.sump_depth,
            z,
        ),
        "bell": _box(
            rear - one.bell_length, rear, y - bell, y + bell, z - bell, z + one.bell_height
        ),
    }


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
