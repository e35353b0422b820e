"""What is entered as solids, made into solids: shared by the engine, its bay and its gearbox."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.solids.engines import Across, Proportion
from drybuild.physics.solids.parts import Share, part_pieces, pipe_run
from drybuild.physics.solids.scene import Movement, Pose
from drybuild.physics.solids.shapes import (
    Array,
    Piece,
    Solid,
    box_piece,
    cylinder_piece,
    hull_piece,
    moved_piece,
)
from drybuild.project.handbook import given_or_handbook, handbook
from drybuild.project.packaging import FORMS
from drybuild.project.packaging_solids import USUAL_PARTS, Loft, PartShape, Shape, Standing
from drybuild.project.samples import Values
from drybuild.quantities.packaging_meshes import hulls_of, placed_sheet
from drybuild.tables.packaging import engine_rows, part_rows, part_size
from drybuild.tables.ranges import Range

SKIN_DOUBT = Range(
    low=-0.008,
    value=0.0,
    high=0.008,
    unit="m",
    source_id="common-practice",
    locator="usual proportions against a real part",
)
LOCK = (0.0, 1.0, 0.5, -0.5, -1.0)
"""Positions of a turn, as shares of how far it goes to one side."""
STEERED = ("", "on full left lock", "on half left lock", "on half right lock", "on full right lock")
TURNED = ("", "turned fully", "half turned", "half turned back", "turned fully back")


def numbers_of(section: Any, name: str) -> Values:  # a section with that entry
    """Return an entry of three numbers as an array (3, samples + 1)."""
    found: Values = getattr(section, name)
    return found


def solid_of(
    shape: Shape, *, name: str, kind: str, group: str = "", movement: str = "", hulls: bool = False
) -> Solid:
    """Return a solid as entered; with `hulls`, a mesh becomes convex pieces that can be moved."""
    if shape.form == "mesh":
        sheet, doubt = placed_sheet(shape)
        if hulls:
            return Solid(
                name=name, pieces=hulls_of(name, sheet), kind=kind, group=group, doubt=doubt
            )
        return Solid(name=name, sheet=sheet, kind=kind, movement=movement, doubt=doubt)
    usual = shape.form in USUAL_PARTS
    if usual:
        doubt = given_or_handbook(shape, "doubt", SKIN_DOUBT, least=None)
    else:
        doubt = shape.doubt if shape.has("doubt") else np.zeros(1)
    return Solid(
        name=name,
        pieces=_pieces(shape, name),
        kind=kind,
        group=group,
        movement=movement,
        doubt=doubt,
        typical=usual,
    )


def part_solids(parts: dict[str, PartShape]) -> list[Solid]:
    """Return the parts of one's own that go with an engine or a gearbox."""
    return [
        solid_of(
            part,
            name=name,
            kind=part.kind,
            group=name if part.separate else GROUPS.get(part.kind, ""),
            hulls=True,
        )
        for name, part in parts.items()
    ]


GROUPS = {"hot": "exhaust"}
"""Rows of their own in the table of clearances, by what a part is."""


def is_separate(solid: Solid) -> bool:
    """Whether a part of the engine has rows of its own, as an exhaust run: no part of its size."""
    return bool(solid.group) and solid.group == solid.name and solid.group not in GROUPS.values()


def movement_of(name: str, one: Standing) -> Movement | None:
    """Return how something that stands in the bay moves; None where it stays."""
    if not (one.has("axis_at") and one.has("axis")):
        return None
    axis = numbers_of(one, "axis")[:, 0]
    along = (float(axis[0]), float(axis[1]), float(axis[2]))
    at = numbers_of(one, "axis_at")
    if one.has("slides_up") or one.has("slides_down"):
        up = one.slides_up if one.has("slides_up") else np.zeros(1)
        down = one.slides_down if one.has("slides_down") else np.zeros(1)
        return Movement(
            name=name,
            positions=(0.0, up / 2.0, up, -down),
            words=("", "at half bump", "at full bump", "at full droop"),
            along=along,
            slides=True,
        )
    turns = one.turns if one.has("turns") else one.throw if one.has("throw") else None
    if turns is None:
        return None
    return Movement(
        name=name,
        positions=tuple(share * turns for share in LOCK),
        words=STEERED if one.kind == "steering" else TURNED,
        at=(at[0], at[1], at[2]),
        along=along,
    )


def proportions_of(form: str, heads: str) -> list[Proportion]:
    """Return the usual shape of a kind of engine."""
    return [
        Proportion(
            piece=row["piece"],
            kind=row["kind"],
            round=row["form"] == "round",
            x=(float(row["x0"]), float(row["x1"])),
            foot=(_across(row["y0"]), _across(row["y1"])),
            top=(_across(row["t0"]), _across(row["t1"])),
            z=(float(row["z0"]), float(row["z1"])),
        )
        for row in engine_rows(form, heads)
    ]


NEAR = 0.03
"""A piece that ends so much before the last one at the nominal readings is passed over. [m]"""


def lowest(pieces: Iterable[Piece], pose: Pose) -> Values:
    """Return the lowest height of some pieces as placed, over samples."""
    return extent(pieces, pose, axis=2)[0]


def extent(pieces: Iterable[Piece], pose: Pose, *, axis: int) -> tuple[Values, Values]:
    """Return least and greatest place along an axis of some pieces as placed, over samples."""
    all_ = list(pieces)
    put, turn, shift = pose.nominal, pose.turn, pose.shift
    along = [(one.nominal @ put.turn.T + put.shift)[:, axis] for one in all_]
    first, last = min(float(at.min()) for at in along), max(float(at.max()) for at in along)
    lows, highs = [], []
    for one, at in zip(all_, along, strict=True):
        if at.min() < first + NEAR or at.max() > last - NEAR:
            placed = moved_piece(piece=one, turn=turn, shift=shift).points[:, axis]
            lows.append(np.atleast_1d(placed.min(axis=0)))
            highs.append(np.atleast_1d(placed.max(axis=0)))
    return _extreme(lows, least=True), _extreme(highs, least=False)


def loft_sides(loft: Loft) -> list[tuple[str, float]]:
    """Return which sides a loft's stations give."""
    stations = loft.stations.values()
    return [
        (word, side)
        for word, side in (("left", 1.0), ("right", -1.0))
        if all(one.has(word) or one.has("half") for one in stations)
    ]


def is_outline(form: str) -> bool:
    """Whether a form is plain boxes, with no usual shape behind it."""
    return form == FORMS[0]


def _pieces(shape: Shape, name: str) -> tuple[Piece, ...]:
    if shape.form == "pipe run":
        return pipe_run(name=name, points=_points(shape, 2), diameter=shape.diameter)
    if shape.form in USUAL_PARTS:
        return tuple(_put(shape, one) for one in _usual_pieces(shape))
    return (_piece(shape, name),)


def _usual_pieces(shape: Shape) -> tuple[Piece, ...]:
    """Return a part of a usual kind about its middle: its own size, or a typical one."""
    if shape.has("size"):
        length, width, height = numbers_of(shape, "size")
    else:
        length, width, height = (
            handbook(shape, f"size[{k}]", part_size(shape.form, side))
            for k, side in enumerate(("length", "width", "height"))
        )
    shares = [
        Share(
            piece=row["piece"],
            round_about="xyz".index(row["form"][-1]) if row["form"] != "box" else None,
            low=(float(row["x0"]), float(row["y0"]), float(row["z0"])),
            high=(float(row["x1"]), float(row["y1"]), float(row["z1"])),
        )
        for row in part_rows(shape.form)
    ]
    return part_pieces(shares=shares, size=(length, width, height))


def _points(shape: Shape, least: int) -> Values:
    corners = numbers_of(shape, "corners")
    if len(corners) % 3 or len(corners) < 3 * least:
        raise MissingInput(shape.path_of("corners"), f"x, y, z of {least} points or more")
    return corners.reshape(-1, 3, corners.shape[-1])


def _put(shape: Shape, piece: Piece) -> Piece:
    """Turn a piece as the file says, and put its axes' origin at the middle that it gives."""
    centre = numbers_of(shape, "centre")
    angles: dict[str, Array | float] = {
        word: getattr(shape, word) if shape.has(word) else 0.0 for word in ("roll", "pitch", "yaw")
    }
    pose = Pose(x=centre[0], y=centre[1], z=centre[2], **angles)
    return moved_piece(piece=piece, turn=pose.turn, shift=pose.shift)


def _piece(shape: Shape, name: str) -> Piece:
    if shape.form == "cylinder":
        start, end = numbers_of(shape, "start"), numbers_of(shape, "end")
        return cylinder_piece(
            name=name, start=tuple(start), end=tuple(end), diameter=shape.diameter
        )
    if shape.form == "hull":
        at = _points(shape, 4)
        whole = hull_piece(name=name, points=at[:, :, 0])
        order = [_same(at[:, :, 0], point) for point in whole.nominal]
        return Piece(name=name, points=at[order], faces=whole.faces)
    size = numbers_of(shape, "size")
    return _put(shape, box_piece(name=name, low=tuple(-size / 2.0), high=tuple(size / 2.0)))


def _same(points: Values, point: Values) -> int:
    return int(np.argmin(np.abs(points - point).sum(axis=1)))


def _across(text: str) -> Across:
    return Across(share=float(text[:-1]), of_sump=text[-1] == "s")


def _extreme(values: list[Values], *, least: bool) -> Values:
    found = values[0]
    for one in values[1:]:
        found = np.minimum(found, one) if least else np.maximum(found, one)
    return found
