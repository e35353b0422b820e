"""Room to take a part out: what it sweeps on its way."""

from __future__ import annotations

import numpy as np

from drybuild.physics.placement.question import Array
from drybuild.physics.solids.shapes import Piece


def swept(*, piece: Piece, way: Array) -> Piece:
    """Return all that a convex piece passes while it is drawn straight out.

    Parameters
    ----------
    piece : Piece
        The piece; its nominal points count. [m]
    way : array
        How far and whither, shape (3,), in the piece's axes. [m]

    Returns
    -------
    Piece
        Hull of the piece where it is and where it ends. [m]

    Notes
    -----
    The sum of a convex body and a straight way is convex: the hull of both ends, exactly. Faces
    that look along the way go to its end, the others stay, and between the two each edge sweeps a
    face of its own.

    References
    ----------
    .. [1] R. Schneider, "Convex Bodies", 1993, Minkowski addition (from memory).

    """
    points = piece.nominal
    count, middle = len(points), points.mean(axis=0)
    ahead = [face for face in piece.faces if _shown(points[list(face)], middle, way) > 0.0]
    behind = [face for face in piece.faces if face not in ahead]
    gone = [tuple(count + k for k in face) for face in ahead]
    round_ = {frozenset(edge) for face in behind for edge in _edges(face)}
    between = [edge for face in ahead for edge in _edges(face) if frozenset(edge) in round_]
    sides = [(a, b, count + b, count + a) for a, b in between]
    return Piece(
        name=piece.name,
        points=np.concatenate((points, points + way)),
        faces=(*behind, *gone, *sides),
    )


def _shown(face: Array, middle: Array, way: Array) -> float:
    """Return the area that a face of a body about a middle shows along a way, twice over."""
    at = face - middle
    area = np.cross(at, np.roll(at, -1, axis=0)).sum(axis=0)
    return float(area @ way * np.sign(area @ at[0]))


def _edges(face: tuple[int, ...]) -> list[tuple[int, int]]:
    return list(zip(face, (*face[1:], face[0]), strict=True))
