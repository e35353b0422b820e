"""Engines of a usual kind as some twenty pieces, scaled to a few dimensions of the real one.

What stands where on an engine of a kind comes from a table of proportions; the dimensions make it
this engine. The overall length, width, height and depth are kept exactly.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from drybuild.physics.solids.shapes import Array, Piece, box_piece, prism_piece

Number: TypeAlias = Array | float
OTHER = {"left": "right", "right": "left"}
ROUND = 8
"""Corners of a round piece's prism."""


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A few dimensions of an engine, in its own axes; numbers or samples."""

    length: Number
    """Rear face of the block to the foremost point. [m]"""
    width: Number
    """Greatest width with manifolds. [m]"""
    offset: Number
    """Middle of that width left of the crankshaft. [m]"""
    height: Number
    """Highest point above the crankshaft. [m]"""
    depth: Number
    """Underside of the block, with the shallow part of its sump, below the crankshaft. [m]"""
    sump_depth: Number
    """Sump's underside below the crankshaft. [m]"""
    sump_width: Number
    """Width of the sump and the crankcase. [m]"""
    sump_front: Number
    """Front of the sump's bowl behind the foremost point. [m]"""
    sump_rear: Number
    """Rear of the sump's bowl behind the foremost point. [m]"""


@dataclass(frozen=True, kw_only=True)
class Across:
    """A place across the engine, as a share."""

    share: float
    """Of half the width, or of half the sump's width; to the left is plus. [-]"""
    of_sump: bool
    """Counted from the crankshaft; else from the middle of the width."""


@dataclass(frozen=True, kw_only=True)
class Proportion:
    """One piece of a kind of engine, as shares of its dimensions."""

    piece: str
    kind: str
    round: bool
    """A cylinder along the crankshaft within these bounds; else a wedge."""
    x: tuple[float, float]
    """From the rear face (0) to the foremost point (1). [-]"""
    foot: tuple[Across, Across]
    top: tuple[Across, Across]
    """Right and left bounds at the piece's underside and at its top."""
    z: tuple[float, float]
    """1: highest point; 0: crankshaft; -1: underside of the block; -2: of the sump. [-]"""


def engine_pieces(
    *, proportions: Iterable[Proportion], outline: Outline, mirrored: bool
) -> dict[str, tuple[Piece, ...]]:
    """Return the pieces of an engine by what they are to their neighbours.

    Parameters
    ----------
    proportions : iterable of Proportion
        The kind of engine. [-]
    outline : Outline
        Dimensions of this one. [m]
    mirrored : bool
        Swap left and right: the exhaust is on the other side. [-]

    Returns
    -------
    dict
        Pieces by kind: `engine`, `hot`, `rotating`, and `sump`. [m]

    Notes
    -----
    Each bound is a share of a dimension; the sump's bowl stands where the dimensions say.

    References
    ----------
    .. [1] Common practice: proportions of the usual kinds of engine; no source.

    """
    found: dict[str, list[Piece]] = {}
    for one in proportions:
        found.setdefault(one.kind, []).append(_piece(one, outline, mirrored))
    half = np.asarray(outline.sump_width) / 2.0
    nose = outline.length
    bowl = box_piece(
        name="sump bowl",
        low=(nose - outline.sump_rear, -half, -np.asarray(outline.sump_depth)),
        high=(nose - outline.sump_front, half, -np.asarray(outline.depth)),
    )
    return {**{kind: tuple(pieces) for kind, pieces in found.items()}, "sump": (bowl,)}


def bell_pieces(*, length: Number, width: Number, top: Number) -> tuple[Piece, ...]:
    """Return a bell housing behind the rear face: round in front, narrowing to the gearbox.

    Parameters
    ----------
    length : array_like
        Length of bell housing and the gearbox's front. [m]
    width : array_like
        Greatest width. [m]
    top : array_like
        Highest point above the crankshaft. [m]

    Returns
    -------
    tuple of Piece
        The bell, and the neck behind it. [m]

    Notes
    -----
    The bell takes the first half of the length and narrows to 0.62 of its width.

    References
    ----------
    .. [1] Common practice; no source.

    """
    middle = -0.5 * np.asarray(length)
    rings = [
        _ring(x, np.asarray(width) * share / 2.0, np.asarray(top) * share)
        for x, share in ((-np.asarray(length), 0.5), (middle, 0.62), (0.0, 1.0))
    ]
    return (
        prism_piece(name="bell housing", first=rings[1], last=rings[2]),
        prism_piece(name="neck of the gearbox", first=rings[0], last=rings[1]),
    )


def box_engine(
    *, outline: Outline, front_height: Number | None, high_behind: Number | None
) -> dict[str, tuple[Piece, ...]]:
    """Return an engine as plain boxes: larger than the parts in them.

    Parameters
    ----------
    outline : Outline
        Dimensions. [m]
    front_height : array_like or None
        Highest point of its front part above the crankshaft, if lower. [m]
    high_behind : array_like or None
        Where the higher rear part begins, behind the foremost point. [m]

    Returns
    -------
    dict
        Upper engine and lower block under `engine`, and the `sump`. [m]

    """
    nose, half = outline.length, np.asarray(outline.width) / 2.0
    right, left = outline.offset - half, outline.offset + half
    lower = np.asarray(outline.sump_width) / 2.0
    upper = [
        box_piece(name="upper engine", low=(0.0, right, 0.0), high=(nose, left, outline.height))
    ]
    if front_height is not None and high_behind is not None:
        step = nose - high_behind
        upper = [
            box_piece(
                name="rear of the engine", low=(0.0, right, 0.0), high=(step, left, outline.height)
            ),
            box_piece(
                name="front of the engine", low=(step, right, 0.0), high=(nose, left, front_height)
            ),
        ]
    block = box_piece(
        name="lower block", low=(0.0, -lower, -np.asarray(outline.depth)), high=(nose, lower, 0.0)
    )
    bowl = box_piece(
        name="sump",
        low=(nose - outline.sump_rear, -lower, -np.asarray(outline.sump_depth)),
        high=(nose - outline.sump_front, lower, 0.0),
    )
    return {"engine": (*upper, block), "sump": (bowl,)}


def _piece(one: Proportion, outline: Outline, mirrored: bool) -> Piece:
    x0, x1 = (share * np.asarray(outline.length) for share in one.x)
    low, high = (_height(share, outline) for share in one.z)
    foot, top = ([_across(at, outline, mirrored) for at in ends] for ends in (one.foot, one.top))
    name = one.piece
    if mirrored:
        foot, top = foot[::-1], top[::-1]
        name = " ".join(OTHER.get(word, word) for word in name.split(" "))
    if one.round:
        middle = ((foot[0] + foot[1]) / 2.0, (low + high) / 2.0)
        radii = ((foot[1] - foot[0]) / 2.0, (high - low) / 2.0)
        rings = [
            [
                (
                    x,
                    middle[0] + radii[0] * np.cos(angle) / np.cos(np.pi / ROUND),
                    middle[1] + radii[1] * np.sin(angle) / np.cos(np.pi / ROUND),
                )
                for angle in (np.arange(ROUND) + 0.5) * 2.0 * np.pi / ROUND
            ]
            for x in (x0, x1)
        ]
        return prism_piece(name=name, first=rings[0], last=rings[1])
    rear, front = (
        [(x, foot[0], low), (x, foot[1], low), (x, top[1], high), (x, top[0], high)]
        for x in (x0, x1)
    )
    return prism_piece(name=name, first=rear, last=front)


def _across(at: Across, outline: Outline, mirrored: bool) -> Array:
    share = -at.share if mirrored else at.share
    if at.of_sump:
        return np.asarray(share * np.asarray(outline.sump_width) / 2.0)
    return np.asarray(outline.offset + share * np.asarray(outline.width) / 2.0)


def _height(share: float, outline: Outline) -> Array:
    depth, sump = np.asarray(outline.depth), np.asarray(outline.sump_depth)
    if share >= 0.0:
        return np.asarray(share * np.asarray(outline.height))
    if share >= -1.0:
        return np.asarray(share * depth)
    return np.asarray(-depth + (share + 1.0) * (sump - depth))


def _ring(x: Number, half: Array, top: Array) -> list[tuple[Number, Array, Array]]:
    """Return eight corners of a bell's cross-section; its underside is half the width down."""
    flat = np.tan(np.pi / 8.0)
    return [
        (x, half, -half * flat), (x, half, top * flat), (x, half * flat, top),
        (x, -half * flat, top), (x, -half, top * flat), (x, -half, -half * flat),
        (x, -half * flat, -half), (x, half * flat, -half),
    ]  # fmt: skip
