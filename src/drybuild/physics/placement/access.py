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
    The sum of a convex body and a straight way is convex: the hull of both ends, exactly.

    References
    ----------
    .. [1] R. Schneider, "Convex Bodies", 1993, Minkowski addition (from memory).

    """
    points = piece.nominal
    return Piece(name=piece.name, points=np.concatenate((points, points + way)))
