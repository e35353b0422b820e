"""The trade's alterations as they apply to this engine in this bay, with what they cost here."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drybuild.physics.placement.alterations import Alteration, Altered
from drybuild.physics.placement.altering import (
    less_movement,
    moved_parts,
    moved_standing,
    opened_standing,
    wider_limit,
    without_parts,
    without_standing,
)
from drybuild.physics.placement.question import Array, Question
from drybuild.physics.solids.shapes import Piece
from drybuild.quantities.packaging_place_terms import AlterationTerms, Equipment
from drybuild.quantities.packaging_scene import ROCK, with_parts
from drybuild.tables.packaging_place import AlterationRow, alteration_rows

WAYS = {
    "front": (1.0, 0.0, 0.0),
    "back": (-1.0, 0.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}


SUMP = "sump bowl"
"""One sump is made one way."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Offered:
    """An alteration with what a person wants to know of it."""

    alteration: Alteration
    words: str
    hours: tuple[float, float, float]
    """Least, likely, most. [s]"""
    cost: tuple[float, float, float]
    """Without one's own hours. [money]"""
    caution: str
    length: bool
    """Whether its amount is a length; else it is done or not, or a share."""
    against: tuple[str, ...] = ()
    """Areas that the brief keeps and that it alters."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Offers:
    """What may be altered, and what may not."""

    offered: dict[str, Offered]

    @property
    def allowed(self) -> list[Alteration]:
        """Those that alter nothing that the brief keeps."""
        return [one.alteration for one in self.offered.values() if not one.against]

    @property
    def against(self) -> list[Offered]:
        """Those that do."""
        return [one for one in self.offered.values() if one.against]


def offers(question: Question, terms: AlterationTerms) -> Offers:
    """Return the alterations that apply to a question."""
    keep = {word.casefold() for word in terms.keep}
    found: dict[str, Offered] = {}
    for row in alteration_rows():
        if not _applies(row, question):
            continue
        own = terms.own.get(row.name)
        if own and own.never:
            continue
        hours = own.hours if own and own.hours else row.hours
        cost = (own.price,) * 3 if own and own.price is not None else row.cost
        most = own.most if own and own.most is not None else row.most
        found[row.name] = Offered(
            alteration=Alteration(
                name=row.name,
                altered=_altered(row),
                most=most,
                step=min(row.step, most),
                cost=cost[1] + hours[1] * terms.own_hour,
                instead=row.on[0] if row.on[0] == SUMP else "",
            ),
            words=row.words,
            hours=hours,
            cost=cost,
            caution=row.caution,
            length=row.most > row.step and row.does != "rock",
            against=_against(row.keep, keep),
        )
    for name, one in terms.packages.items():
        found[name] = replace(_package(name, one, terms), against=_against(one.alters, keep))
    return Offers(offered=found)


def _against(alters: tuple[str, ...], keep: set[str]) -> tuple[str, ...]:
    return tuple(word for word in alters if word.casefold() in keep)


def _package(name: str, one: Equipment, terms: AlterationTerms) -> Offered:
    def altered(question: Question, amount: float) -> Question:
        if amount <= 0.0:
            return question
        parts = [replace(part, movement=ROCK) for part in one.parts]
        moving = with_parts(list(question.scene.moving), parts, set(one.instead_of))
        return replace(question, scene=replace(question.scene, moving=tuple(moving)))

    return Offered(
        alteration=Alteration(
            name=name,
            altered=altered,
            most=1.0,
            step=1.0,
            cost=one.price + one.hours * terms.own_hour,
        ),
        words=name,
        hours=(one.hours,) * 3,
        cost=(one.price,) * 3,
        caution="",
        length=False,
    )


def _applies(row: AlterationRow, question: Question) -> bool:
    scene = question.scene
    if row.does == "rock":
        return ROCK in scene.movements
    if row.does == "limit":
        return any(one.alters in row.on for one in question.limits)
    if row.does in ("part", "off"):
        return any(piece.name in row.on for one in scene.moving for piece in one.pieces)
    return any(one.name in row.on for one in scene.fixed)


def _altered(row: AlterationRow) -> Altered:
    names = frozenset(row.on)

    def chosen(name: str) -> bool:
        return name in names

    def wall(question: Question, amount: float) -> Question:
        fixed = next(one for one in question.scene.fixed if chosen(one.name))
        way = _way(row.way, fixed.pieces[0] if fixed.pieces else None)
        return moved_standing(question=question, chosen=chosen, way=way * amount)

    def part(question: Question, amount: float) -> Question:
        return moved_parts(
            question=question, chosen=chosen, way=lambda piece: _way(row.way, piece) * amount
        )

    kinds: dict[str, Altered] = {
        "rock": lambda one, amount: less_movement(question=one, name=ROCK, share=amount),
        "limit": lambda one, amount: wider_limit(question=one, alters=row.on[0], amount=amount),
        "off": lambda one, _: without_parts(question=one, chosen=chosen),
        "away": lambda one, _: without_standing(question=one, chosen=chosen),
        "open": lambda one, amount: opened_standing(question=one, chosen=chosen, amount=amount),
        "part": part,
        "wall": wall,
    }
    done = kinds[row.does]
    return lambda question, amount: done(question, amount) if amount > 0.0 else question


def _way(word: str, piece: Piece | None) -> Array:
    """Return a direction: out and inward go by the side that the piece is on."""
    if word in WAYS:
        return np.array(WAYS[word])
    side = 0.0 if piece is None else float(np.sign(piece.nominal[:, 1].mean()))
    return np.array([0.0, side if word == "out" else -side, 0.0])
