"""Single parts of a usual kind as a few pieces, scaled to the box that they fill."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array, Piece, box_piece, cylinder_piece, prism_piece

CORNERS = 12
"""Corners of a round piece's prism."""


@dataclass(frozen=True, kw_only=True)
class Share:
    """One piece of a part, as shares of the box round it."""

    piece: str
    round_about: int | None
    """The axis (0, 1, 2) of a cylinder within its bounds; None: a box."""
    low: tuple[float, float, float]
    high: tuple[float, float, float]


def part_pieces(
    *, shares: Iterable[Share], size: tuple[Array | float, Array | float, Array | float]
) -> tuple[Piece, ...]:
    """Return a part about the middle of its box.

    Parameters
    ----------
    shares : iterable of Share
        The kind of part. [-]
    size : tuple
        Length, width, height of its box; numbers or samples. [m]

    Returns
    -------
    tuple of Piece
        Its pieces; round ones are prisms drawn round the part. [m]

    Notes
    -----
    Each bound is a share of the box, less a half. A prism of n corners stands out of its ellipse
    by 1 / cos(π/n) - 1.

    References
    ----------
    .. [1] Common practice: proportions of the usual parts; no source.

    """
    whole = [np.asarray(one, float) for one in size]
    return tuple(_piece(one, whole) for one in shares)


def pipe_run(*, name: str, points: Array, diameter: Array | float) -> tuple[Piece, ...]:
    """Return a pipe along points: a cylinder from each to the next.

    Parameters
    ----------
    name : str
        Its name; the pieces count from there. [-]
    points : array
        Its line, shape (points, 3) or (points, 3, samples + 1). [m]
    diameter : array_like
        Outside diameter. [m]

    Returns
    -------
    tuple of Piece
        One cylinder a stretch; its ends are half a diameter longer, so that bends are closed. [m]

    Notes
    -----
    A stretch from a to b with the unit vector u runs from a - u d/2 to b + u d/2.

    References
    ----------
    .. [1] Definition.

    """
    require(len(points) > 1, "points", len(points), "-", "two or more")
    found = []
    for k, (start, end) in enumerate(pairwise(points), start=1):
        length = np.sqrt(((end - start) ** 2).sum(axis=0))
        require(bool(np.all(length > 0.0)), "points", points, "m", "apart from each other")
        more = (end - start) / length * np.asarray(diameter) / 2.0
        found.append(
            cylinder_piece(
                name=f"{name} {k}",
                start=tuple(start - more),
                end=tuple(end + more),
                diameter=diameter,
            )
        )
    return tuple(found)


def _piece(one: Share, size: list[Array]) -> Piece:
    low = [(share - 0.5) * side for share, side in zip(one.low, size, strict=True)]
    high = [(share - 0.5) * side for share, side in zip(one.high, size, strict=True)]
    if one.round_about is None:
        return box_piece(name=one.piece, low=low, high=high)
    axis = one.round_about
    u, v = (axis + 1) % 3, (axis + 2) % 3
    turn = (np.arange(CORNERS) + 0.5) * 2.0 * np.pi / CORNERS
    rings = []
    for end in (low[axis], high[axis]):
        ring = []
        for angle in turn:
            corner: list[Array] = [end, end, end]
            for k, share in ((u, np.cos(angle)), (v, np.sin(angle))):
                middle, radius = (low[k] + high[k]) / 2.0, (high[k] - low[k]) / 2.0
                corner[k] = middle + radius * share / np.cos(np.pi / CORNERS)
            ring.append(corner)
        rings.append(ring)
    return prism_piece(name=one.piece, first=rings[0], last=rings[1])
