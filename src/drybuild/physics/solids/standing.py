"""What stands, made ready to be asked about: once for all scenes that it stands in."""

from __future__ import annotations

from typing import NamedTuple, TypeAlias
from weakref import WeakKeyDictionary

from drybuild.physics.solids.collider import Item, piece_item, placing, put, sheet_items
from drybuild.physics.solids.scene import Movement, moved_by
from drybuild.physics.solids.shapes import Array, Solid

Spot: TypeAlias = tuple[Array, Array]
"""Rotation and shift."""


class Stand(NamedTuple):
    """A piece of a standing solid, or a cell of its sheet, in one position of its movement."""

    item: Item
    piece: int
    """Place among the solid's pieces; -1 for a cell of its sheet."""
    position: int
    spot: Spot
    low: Array
    high: Array
    """The box round it as put, each of shape (3,). [m]"""


def stands_of(*, solid: Solid, movement: Movement | None) -> tuple[Stand, ...]:
    """Return a standing solid's pieces and cells in each position, put in their places.

    Parameters
    ----------
    solid : Solid
        The solid; its nominal points count. [m]
    movement : Movement
        How it moves; none stays. [-]

    Returns
    -------
    tuple of Stand
        Nobody puts them anywhere else. [m]

    """
    known = _KNOWN.get(solid)
    if known is None or known[0] is not movement:
        known = _KNOWN[solid] = (movement, _stands(solid, movement))
    return known[1]


_KNOWN: WeakKeyDictionary[Solid, tuple[Movement | None, tuple[Stand, ...]]] = WeakKeyDictionary()


def _stands(solid: Solid, movement: Movement | None) -> tuple[Stand, ...]:
    nominal = movement.nominal if movement else None
    found = []
    for position in range(len(movement.positions) if movement else 1):
        turn, shift = moved_by(movement=nominal, position=position)
        items = [(piece_item(piece=piece), k) for k, piece in enumerate(solid.pieces)]
        if solid.sheet is not None:
            items += [(one, -1) for one in sheet_items(name=solid.name, sheet=solid.sheet)]
        place = placing(turn=turn, shift=shift)
        for item, k in items:
            put(item=item, place=place)
            at = item.points @ turn.T + shift
            low, high = at.min(axis=0), at.max(axis=0)
            found.append(Stand(item, k, position, (turn, shift), low, high))
    return tuple(found)
