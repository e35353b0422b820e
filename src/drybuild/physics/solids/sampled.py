"""Clearances over the samples: exact at the nominal readings, by separating planes beyond them.

The signed distance of two convex pieces is the most that any plane parts them by. So the plane
found at the nominal readings, held in its direction while the corners move with the readings,
never says too much, is exact to the first order, and follows a change of the touching corner.
A few more directions, the pieces' own faces, take over where the nearest feature changes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.solids.nearest import Clearance, Nearest
from drybuild.physics.solids.scene import Pose, Scene, joined, moved_by
from drybuild.physics.solids.shapes import Array, moved_points

ASKED = 12
"""Contacts of a pair that are looked at."""
KEPT = 5
"""Contacts of a pair that are followed over the samples, chosen to lie apart."""
LEVER = 0.04
"""Tilt that may bring a contact further off to the fore: this angle times its distance. [rad]"""
WITHIN = 0.03
"""How much more margin than the nearest contact another may have and still be followed. [m]"""
WAYS = 2
"""Directions besides the nominal one that are tried for each contact."""
FAR = 0.08
"""A direction that parts the pieces by so much less than the nominal one is not tried. [m]"""
ROOMY = ((0.15, 1), (0.06, 2))
"""With more margin than this (m) fewer contacts are followed: so many."""


@dataclass(frozen=True, kw_only=True, eq=False)
class SampledGap:
    """A pair's clearance over the samples."""

    nominal: Clearance
    """The contact with the least margin at the nominal readings."""
    margin: Array
    """Least gap over its need, over samples; index 0 is nominal. [m]"""
    contacts: tuple[Clearance, ...]
    """The contacts that were followed, the nearest first."""

    @property
    def gap(self) -> Array:
        """Signed gap over samples (m); index 0 is nominal."""
        return self.margin + self.nominal.need


def sampled_gaps(
    *,
    scene: Scene,
    pose: Pose,
    near: Nearest | None = None,
    keep: int = KEPT,
    within: float = WITHIN,
) -> dict[str, SampledGap]:
    """Return each pair's gap and margin over the samples.

    Parameters
    ----------
    scene : Scene
        What is placed and what stands; points, doubts and positions may have samples. [m]
    pose : Pose
        Where the moving solids are put; may have samples. [m]
    near : Nearest
        The scene made ready; made here where not given. [m]
    keep : int
        Contacts of a pair to follow at most. [-]
    within : float
        How much more margin than the nearest contact another may have to be followed. [m]

    Returns
    -------
    dict
        By the pair's name. [m]

    Notes
    -----
    d(A, B) = max over unit n of (min over A of n·a − max over B of n·b), for convex A and B, apart
    or overlapping; any n gives a lower bound. Against a sheet the plane's place is held at the
    contact, which is right to the first order.

    References
    ----------
    .. [1] S. Boyd, L. Vandenberghe, "Convex Optimization", 2004, sec. 8.2: distance of convex sets
       by separating hyperplanes (from memory).

    """
    near = Nearest(scene) if near is None else near
    follow = _Follower(near, pose)
    found: dict[str, list[Clearance]] = {}
    for one in near.clearances(pose, keep=ASKED, within=within):
        found.setdefault(one.pair, []).append(one)
    found = {
        pair: _spread(contacts, _number(contacts[0], keep)) for pair, contacts in found.items()
    }
    return {
        pair: SampledGap(
            nominal=contacts[0],
            margin=_least([follow.gap(one) - one.need for one in contacts]),
            contacts=tuple(contacts),
        )
        for pair, contacts in found.items()
    }


def _number(nearest: Clearance, keep: int) -> int:
    return next((few for margin, few in ROOMY if nearest.margin > margin), keep)


def _spread(contacts: list[Clearance], keep: int) -> list[Clearance]:
    """Return a few contacts, the nearest first, then those that a small tilt brings nearest."""
    at = np.array([one.at_moving for one in contacts])
    margins = np.array([one.margin for one in contacts])
    away, kept = np.full(len(contacts), np.inf), [0]
    while len(kept) < min(keep, len(contacts)):
        away = np.minimum(away, np.sqrt(((at - at[kept[-1]]) ** 2).sum(axis=1)))
        worth = LEVER * away - margins
        worth[kept] = -np.inf
        kept.append(int(worth.argmax()))
    return [contacts[k] for k in kept]


class _Follower:
    """Moves the pieces of contacts with the readings; each placed piece is made once."""

    def __init__(self, near: Nearest, pose: Pose) -> None:
        self.near = near
        self._pose, self._turn = pose.spot, pose.nominal.turn
        self._spots: dict[tuple[bool, str, int], tuple[Array, Array]] = {}
        self._placed: dict[tuple[bool, int, int, int], Array] = {}

    def gap(self, contact: Clearance) -> Array:
        place, scene = contact.place, self.near.scene
        moving, fixed = scene.moving[place.moving], scene.fixed[place.fixed]
        a = self._at(True, place.moving, place.piece, place.moved)
        doubt = np.asarray(moving.doubt, float) + np.asarray(fixed.doubt, float)
        if place.against < 0:
            support = _support(a, contact.normal[None])[0]
            exact = contact.gap + float(np.ravel(doubt)[0])
            return np.asarray(exact + support - support[:1] - doubt, dtype=np.float64)
        b = self._at(False, place.fixed, place.against, place.turned)
        ways = self._ways(contact, _first(a), _first(b))
        apart = (_support(a, ways) + _support(b, -ways)).max(axis=0)
        return np.asarray(apart - doubt, dtype=np.float64)

    def _at(self, moving: bool, solid: int, piece: int, position: int) -> Array:
        key = (moving, solid, piece, position)
        if key not in self._placed:
            scene = self.near.scene
            one = (scene.moving if moving else scene.fixed)[solid]
            points = one.pieces[piece].points
            if moving or one.movement:
                turn, shift = self._spot(moving, one.movement, position)
                points = moved_points(points=points, turn=turn, shift=shift)
            self._placed[key] = points
        return self._placed[key]

    def _spot(self, moving: bool, movement: str, position: int) -> tuple[Array, Array]:
        key = (moving, movement, position)
        if key not in self._spots:
            known = self.near.scene.movements[movement] if movement else None
            spot = moved_by(movement=known, position=position)
            if moving:
                spot = joined(first=spot, second=self._pose)
            self._spots[key] = spot
        return self._spots[key]

    def _ways(self, contact: Clearance, a: Array, b: Array) -> Array:
        """Return the contact's normal and the face normals that part the pieces next best."""
        ways = self.near.normals(contact.place, self._turn)
        apart = (a @ ways.T).min(axis=0) - (b @ ways.T).max(axis=0)
        best = np.argsort(-apart)[:WAYS]
        useful = best[apart[best] > contact.gap - FAR]
        return np.concatenate((contact.normal[None], ways[useful]))


def _support(points: Array, ways: Array) -> Array:
    """Return the least of n·p over the points, shape (ways,) or (ways, samples + 1)."""
    found: Array = (ways @ (points if points.ndim == 3 else points[:, :, None])).min(axis=0)
    return found


def _first(points: Array) -> Array:
    return points if points.ndim == 2 else points[:, :, 0]


def _least(margins: list[Array]) -> Array:
    found = margins[0]
    for one in margins[1:]:
        found = np.minimum(found, one)
    return found
