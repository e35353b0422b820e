"""What stands round the engine, as solids in body axes."""

from __future__ import annotations

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.solids.loft import (
    BACK,
    Section,
    lid_pieces,
    roof_pieces,
    wall_pieces,
)
from drybuild.physics.solids.scene import Movement
from drybuild.physics.solids.shapes import Piece, Solid, box_piece
from drybuild.project.packaging import Bay
from drybuild.project.packaging_solids import Loft
from drybuild.project.samples import Values
from drybuild.quantities.packaging_shapes import loft_sides, movement_of, solid_of

OVER = 0.3
"""How far the plain walls are drawn past the bonnet, and ahead of the radiator. [m]"""
DOWN = 0.4
"""How far rails and tunnel are drawn below their top. [m]"""
BONNET = "bonnet"
OPENING = (0.0, 0.05, 0.12, 0.25, 0.5, 1.0)
"""Positions of the bonnet as shares of its opening: closest where things are near."""


def bay_solids(bay: Bay) -> tuple[tuple[Solid, ...], dict[str, Movement]]:
    """Return what stands in the bay, and how those of it move that do."""
    movements: dict[str, Movement] = {}
    own: dict[str, Solid] = {}
    for name, one in bay.solids.items():
        movement = movement_of(name, one)
        if movement is not None:
            movements[name] = movement
        own[name] = solid_of(one, name=name, kind=one.kind, movement=name if movement else "")
    for name, box in bay.boxes.items():
        piece = box_piece(
            name=name, low=(box.rear, box.right, box.bottom), high=(box.front, box.left, box.top)
        )
        own[name] = Solid(name=name, pieces=(piece,), kind=box.kind)
    for name, loft in bay.lofts.items():
        own.update({one.name: one for one in _lofted(name, loft)})
    plain = {name: one for name, one in _plain(bay).items() if name not in own}
    lid = bonnet_movement(bay)
    if lid is not None:
        movements[BONNET] = lid
    bonnet = Solid(
        name=BONNET, pieces=_lid(bay), kind="bonnet", movement=BONNET if lid is not None else ""
    )
    return (*plain.values(), *own.values(), *(() if BONNET in own else (bonnet,))), movements


def bonnet_line(bay: Bay) -> tuple[Values, Values]:
    """Return places and heights of the bonnet's underside in the middle, rear to front."""
    stations = sorted(bay.bonnet.values(), key=lambda one: float(one.x[0]))
    if len(stations) < 2:
        return np.stack([bay.bulkhead, bay.radiator]), np.stack([bay.bonnet_rear, bay.bonnet_front])
    return np.stack([one.x for one in stations]), np.stack([one.height for one in stations])


def bonnet_movement(bay: Bay) -> Movement | None:
    """Return how the bonnet opens; None where its hinge is not given."""
    if not (bay.has("hinge_x") and bay.has("hinge_z")):
        return None
    places, _ = bonnet_line(bay)
    # About the y axis by the right hand a front goes down: behind the middle the hinge lifts it.
    behind = float(bay.hinge_x[0]) < float(places[:, 0].mean())
    return Movement(
        name=BONNET,
        positions=tuple(share * bay.opens for share in OPENING),
        words=("", *(f"bonnet open {share:.0%}" for share in OPENING[1:])),
        at=(bay.hinge_x, 0.0, bay.hinge_z),
        along=(0.0, -1.0 if behind else 1.0, 0.0),
        running=False,
    )


def _lid(bay: Bay) -> tuple[Piece, ...]:
    places, heights = bonnet_line(bay)
    stations = sorted(bay.bonnet.values(), key=lambda one: float(one.x[0]))
    drops = [one.drop if one.has("drop") else 0.0 for one in stations]
    return lid_pieces(
        name=BONNET,
        stations=list(zip(places, heights, strict=True)),
        half_width=bay.bonnet_width / 2.0,
        drops=drops if len(drops) >= 2 else [0.0, 0.0],
    )


def _plain(bay: Bay) -> dict[str, Solid]:
    """Return the bay as a few planes, each drawn as far as it reaches."""
    _, heights = bonnet_line(bay)
    tower, rail, tunnel = bay.tower_width / 2.0, bay.rail_width / 2.0, bay.tunnel_width / 2.0
    head, front, top = bay.bulkhead, bay.radiator + OVER, bay.rail_top
    high = heights.max(axis=0) + OVER
    floor = bay.tunnel_top - DOWN
    shapes: dict[str, list[tuple[list[Values], list[Values]]]] = {
        "radiator": [([bay.radiator, -tower, top - DOWN], [bay.radiator + BACK, tower, high])],
        "bulkhead": [([head - BACK, -tower, bay.tunnel_top], [head, tower, high])],
        "left tower": [([head, tower, top], [front, tower + BACK, high])],
        "right tower": [([head, -tower - BACK, top], [front, -tower, high])],
        "left rail": [([head, rail, top - DOWN], [front, rail + BACK, top])],
        "right rail": [([head, -rail - BACK, top - DOWN], [front, -rail, top])],
        "cross-member": [
            (
                [bay.crossmember_rear, -rail, bay.crossmember_top - BACK],
                [bay.crossmember_front, rail, bay.crossmember_top],
            )
        ],
        "tunnel": [
            ([head - 2.0 * BACK, tunnel, floor], [head, tunnel + BACK, bay.tunnel_top]),
            ([head - 2.0 * BACK, -tunnel - BACK, floor], [head, -tunnel, bay.tunnel_top]),
            ([head - 2.0 * BACK, -tunnel, bay.tunnel_top], [head, tunnel, bay.tunnel_top + BACK]),
        ],
    }
    return {
        name: Solid(
            name=name,
            kind="radiator" if name == "radiator" else "fixed",
            pieces=tuple(box_piece(name=name, low=low, high=high) for low, high in boxes),
        )
        for name, boxes in shapes.items()
    }


def _lofted(name: str, loft: Loft) -> list[Solid]:
    """Return a loft's walls: the tunnel is one solid, other lofts a left and a right one."""
    stations = sorted(loft.stations.values(), key=lambda one: float(one.x[0]))
    if len(stations) < 2:
        raise MissingInput(loft.path_of("stations"), "two or more stations are wanted")
    sides = {
        word: [
            Section(
                x=one.x,
                heights=list(one.heights),
                widths=list(getattr(one, word) if one.has(word) else one.half),
            )
            for one in stations
        ]
        for word, _ in loft_sides(loft)
    }
    if not sides:
        raise MissingInput(
            loft.path_of("stations"), "every station needs half, or left, or right, beside heights"
        )
    doubt = loft.doubt if loft.has("doubt") else 0.0
    walls = {
        word: wall_pieces(name=f"{word} {name}", sections=sections, side=side)
        for (word, side), sections in zip(loft_sides(loft), sides.values(), strict=True)
    }
    if not loft.roof:
        return [
            Solid(name=f"{word} {name}", pieces=pieces, kind=loft.kind, doubt=doubt)
            for word, pieces in walls.items()
        ]
    roof = (
        roof_pieces(name=f"{name} roof", left=sides["left"], right=sides["right"])
        if len(sides) == 2
        else ()
    )
    pieces = tuple(one for wall in walls.values() for one in wall) + roof
    return [Solid(name=name, pieces=pieces, kind=loft.kind, doubt=doubt)]
