"""What an alteration does to a question: solids moved, opened or taken away, rock, wider limits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

import numpy as np

from drybuild.physics.placement.question import Array, Limit, Question
from drybuild.physics.solids.scene import Movement
from drybuild.physics.solids.shapes import Piece, Solid

Chosen: TypeAlias = Callable[[str], bool]
"""Whether a solid or a piece of this name is meant."""
MIDDLE = 0.04
"""A wall whose middle is nearer to the car's than this is a roof. [m]"""


def moved_standing(*, question: Question, chosen: Chosen, way: Array) -> Question:
    """Return a question in which some standing solids are moved.

    Parameters
    ----------
    question : Question
        As things are. [m]
    chosen : callable
        Whether the solid of a name is meant. [-]
    way : array
        How far and whither, shape (3,). [m]

    Returns
    -------
    Question
        The altered one. [m]

    """
    return _standing(question, chosen, lambda piece: moved(piece=piece, way=way), way)


def opened_standing(*, question: Question, chosen: Chosen, amount: float) -> Question:
    """Return a question in which a tunnel is opened: walls outward, roof up.

    Parameters
    ----------
    question : Question
        As things are. [m]
    chosen : callable
        Whether the solid of a name is meant. [-]
    amount : float
        How far. [m]

    Returns
    -------
    Question
        The altered one. [m]

    """

    def opened(piece: Piece) -> Piece:
        middle = float(piece.nominal[:, 1].mean())
        aside = abs(middle) > MIDDLE
        way = np.array([0.0, np.sign(middle) * amount, 0.0] if aside else [0.0, 0.0, amount])
        return moved(piece=piece, way=way)

    return _standing(question, chosen, opened, np.array([0.0, 0.0, amount]))


def without_standing(*, question: Question, chosen: Chosen) -> Question:
    """Return a question without some standing solids.

    Parameters
    ----------
    question : Question
        As things are. [m]
    chosen : callable
        Whether the solid of a name is meant. [-]

    Returns
    -------
    Question
        The altered one. [m]

    """
    scene = question.scene
    kept = tuple(one for one in scene.fixed if not chosen(one.name))
    return replace(question, scene=replace(scene, fixed=kept))


def moved_parts(*, question: Question, chosen: Chosen, way: Callable[[Piece], Array]) -> Question:
    """Return a question in which some pieces of the moving solids are moved in their own axes.

    Parameters
    ----------
    question : Question
        As things are. [m]
    chosen : callable
        Whether the piece of a name is meant. [-]
    way : callable
        How far and whither a piece goes, shape (3,). [m]

    Returns
    -------
    Question
        The altered one. [m]

    """

    def changed(solid: Solid) -> Solid:
        pieces = [
            moved(piece=one, way=way(one)) if chosen(one.name) else one for one in solid.pieces
        ]
        return replace(solid, pieces=tuple(pieces))

    scene = question.scene
    return replace(question, scene=replace(scene, moving=tuple(map(changed, scene.moving))))


def without_parts(*, question: Question, chosen: Chosen) -> Question:
    """Return a question in which some pieces of the moving solids are taken off.

    Parameters
    ----------
    question : Question
        As things are. [m]
    chosen : callable
        Whether the piece of a name is meant. [-]

    Returns
    -------
    Question
        The altered one. [m]

    """
    scene = question.scene
    left = [
        replace(one, pieces=tuple(piece for piece in one.pieces if not chosen(piece.name)))
        for one in scene.moving
    ]
    kept = tuple(one for one in left if one.pieces)
    return replace(question, scene=replace(scene, moving=kept))


def less_movement(*, question: Question, name: str, share: float) -> Question:
    """Return a question in which a movement goes less far: stiffer mounts.

    Parameters
    ----------
    question : Question
        As things are. [m]
    name : str
        The movement. [-]
    share : float
        How much of it is taken away. [-]

    Returns
    -------
    Question
        The altered one. [m]

    """

    def less(one: Movement) -> Movement:
        return replace(
            one, positions=tuple(np.asarray(p, float) * (1.0 - share) for p in one.positions)
        )

    scene = question.scene
    movements = {key: less(one) if key == name else one for key, one in scene.movements.items()}
    return replace(question, scene=replace(scene, movements=movements))


def wider_limit(*, question: Question, alters: str, amount: float) -> Question:
    """Return a question in which some limits are wider.

    Parameters
    ----------
    question : Question
        As things are. [m]
    alters : str
        Limits of what has to be made anew for it. [-]
    amount : float
        How much wider. [m]

    Returns
    -------
    Question
        The altered one. [m]

    """

    def wider(one: Limit) -> Limit:
        if one.alters != alters:
            return one

        def spare(at: Array) -> Array:
            return one.spare(at) + amount

        return replace(one, spare=spare)

    return replace(question, limits=tuple(map(wider, question.limits)))


def moved(*, piece: Piece, way: Array) -> Piece:
    """Return a piece shifted, with its samples.

    Parameters
    ----------
    piece : Piece
        The piece. [m]
    way : array
        How far and whither, shape (3,). [m]

    Returns
    -------
    Piece
        The shifted one. [m]

    """
    shift = way if piece.points.ndim == 2 else way[:, None]
    return replace(piece, points=piece.points + shift)


def _standing(
    question: Question, chosen: Chosen, change: Callable[[Piece], Piece], way: Array
) -> Question:
    def changed(solid: Solid) -> Solid:
        if not chosen(solid.name):
            return solid
        sheet = solid.sheet
        return replace(
            solid,
            pieces=tuple(map(change, solid.pieces)),
            sheet=None if sheet is None else replace(sheet, points=sheet.points + way),
        )

    scene = question.scene
    return replace(question, scene=replace(scene, fixed=tuple(map(changed, scene.fixed))))
