"""The obstacles as the wheel sees them: every point at every position, in the wheel's half plane.

A tyre is round, so all that matters of a point is how far along the axle and how far from it the
point is. The nearest points in every direction from the section's middle are kept: a few hundred
stand for the whole swept room, and any tyre, rim and offset is then tried against those alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.keeping import Known, content_name
from drybuild.physics.envelope.obstacles import Obstacle
from drybuild.physics.envelope.path import WheelPath

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

BINS = 1440
"""Directions that are told apart: a quarter of a degree."""
REACH = 0.25
"""Points farther than this from the section's middle meet no tyre. [m]"""
WITHIN = 0.8
"""Of the section's middle: points nearer to the axle may meet the wheel's disc. [-]"""
RING = 0.002
"""Distances from the axle that are told apart there. [m]"""


@dataclass(frozen=True, kw_only=True)
class Seen:
    """What is kept of one obstacle."""

    obstacle: Obstacle
    s: Array
    """Along the axle, outward, (points,). [m]"""
    rho: Array
    """From the axle, (points,). [m]"""
    point: Places
    """Which point of the obstacle."""
    position: Places
    """Which position of the path."""


@dataclass(frozen=True, kw_only=True)
class Room:
    """All that a wheel's tyre must clear."""

    path: WheelPath
    seen: tuple[Seen, ...]

    middle: float
    """Distance of the tyre section's middle from the axle. [m]"""

    @cached_property
    def content(self) -> bytes:
        """A name of all that is nominal: options that differ in their spreads alone share it."""
        forms = [(one.obstacle.name, one.obstacle.form.content) for one in self.seen]
        return content_name(self.path, self.middle, forms)

    @cached_property
    def points(self) -> Array:
        """The nearest of all obstacles in each direction, (points, 2). [m]."""
        return self._nearest[0]

    @cached_property
    def roundness(self) -> Array:
        """Radius round each of them: of a rod. [m]."""
        return self._nearest[1]

    @cached_property
    def _nearest(self) -> tuple[Array, Array]:
        s = np.concatenate([one.s for one in self.seen])
        rho = np.concatenate([one.rho for one in self.seen])
        round_ = np.concatenate(
            [np.full(one.s.size, one.obstacle.form.roundness) for one in self.seen]
        )
        away = np.hypot(s, rho - self.middle) - round_
        kept = _by_direction(np.arctan2(rho - self.middle, s), away)
        return np.stack((s[kept], rho[kept]), axis=1), round_[kept]


def room(*, path: WheelPath, obstacles: Sequence[Obstacle], middle: float) -> Room:
    """Return obstacles as a wheel sees them over its path.

    Parameters
    ----------
    path : WheelPath
        Every position of the wheel. [m]
    obstacles : sequence of Obstacle
        What stands around. [m]
    middle : float
        Distance of the tyre section's middle from the axle. [m]

    Returns
    -------
    Room
        The nearest points by direction, of each obstacle apart.

    Notes
    -----
    s = (p - c).e and rho = |(p - c) - s e| with the wheel's middle c and axle e. In a direction
    of width w at distance r a point that is dropped is nearer to a convex section around the
    middle by r w at the most, 0.5 mm; the tests find less than 0.1 mm. Inside the barrel the
    point farthest outboard of each ring is kept as well: it is the nearest to the disc.

    References
    ----------
    .. [1] Geometry: a surface of revolution seen in its half plane.

    """
    require(middle > 0.0, "middle", middle, "m", "more than zero")
    named = content_name(path, middle)
    found = [_seen(path, named, one, middle) for one in obstacles]
    return Room(path=path, seen=tuple(one for one in found if one.s.size), middle=middle)


def every_point(*, path: WheelPath, obstacle: Obstacle) -> tuple[Array, Array]:
    """Return an obstacle's points in the wheel's half plane at every position.

    Parameters
    ----------
    path : WheelPath
        Positions. [m]
    obstacle : Obstacle
        What stands there. [m]

    Returns
    -------
    tuple of array
        s and rho, each (points, positions). [m]

    Notes
    -----
    Nothing is left out; `room` keeps the nearest.

    References
    ----------
    .. [1] Geometry.

    """
    centre = path.centre
    form = obstacle.form
    if form.base.ndim == 3:  # it moves by itself: a place for each position
        apart = form.base - centre[:, np.newaxis]
        s = (apart * path.spin[:, np.newaxis]).sum(axis=0)
        squared = (apart * apart).sum(axis=0)
    else:
        if form.follows:
            centre = centre - form.follows * carried(path=path)
        s = np.einsum("in,ip->np", form.base, path.spin) - (centre * path.spin).sum(axis=0)
        squared = (form.base**2).sum(axis=0)[:, np.newaxis] + (centre**2).sum(axis=0)
        squared -= 2.0 * np.einsum("in,ip->np", form.base, centre)
    return s, np.sqrt(np.maximum(squared - s * s, 0.0))


def carried(*, path: WheelPath) -> Array:
    """Return how far the upright stands from its standing place at each position.

    Parameters
    ----------
    path : WheelPath
        Positions. [m]

    Returns
    -------
    array
        (3, positions). [m]

    Notes
    -----
    Steering does not count: what the upright carries does not steer with the wheel.

    References
    ----------
    .. [1] Definition.

    """
    start = int(np.argmin(np.abs(path.travel)))
    return np.asarray(path.carrier - path.carrier[:, start : start + 1])


_Kept: TypeAlias = tuple[Array, Array, Places, Places]
_KNOWN: Known[_Kept] = Known(256)
"""Kept points by path and form; some tens of kilobytes each."""


def _seen(path: WheelPath, named: bytes, obstacle: Obstacle, middle: float) -> Seen:
    """Return what is kept, from memory where options differ in their spreads alone."""
    s, rho, point, position = _KNOWN.of(
        named + obstacle.form.content, lambda: _looked_at(path, obstacle, middle)
    )
    return Seen(obstacle=obstacle, s=s, rho=rho, point=point, position=position)


def _looked_at(path: WheelPath, obstacle: Obstacle, middle: float) -> _Kept:
    s, rho = every_point(path=path, obstacle=obstacle)
    flat_s, flat_rho = s.ravel(), rho.ravel()
    away = flat_s**2 + (flat_rho - middle) ** 2
    near = np.flatnonzero(away < (REACH + obstacle.form.roundness) ** 2)
    angle = np.arctan2(flat_rho[near] - middle, flat_s[near])
    kept = near[_by_direction(angle, away[near])]
    within = near[flat_rho[near] < WITHIN * middle]
    if within.size:
        kept = np.union1d(kept, within[_outmost(flat_s[within], flat_rho[within])])
    positions = s.shape[1]
    return flat_s[kept], flat_rho[kept], kept // positions, kept % positions


def _outmost(s: Array, rho: Array) -> Places:
    """Return the point farthest outboard at each distance from the axle: nearest to the disc."""
    ring = (rho / RING).astype(np.intp)
    order = np.argsort(s)
    farthest = np.full(int(ring.max()) + 1, -1, dtype=np.intp)
    farthest[ring[order]] = order
    return farthest[farthest >= 0]


def _by_direction(angle: Array, away: Array) -> Places:
    """Return the nearest point of each direction that has any."""
    direction = np.minimum(((angle + np.pi) * (BINS / (2.0 * np.pi))).astype(np.intp), BINS - 1)
    order = np.argsort(-away)
    nearest = np.full(BINS, -1, dtype=np.intp)
    nearest[direction[order]] = order
    return nearest[nearest >= 0]
