"""A scene: what is placed, what stands, how they move, and what room each pair needs.

Body axes as ISO 8855: x forward from the front wheel centres, y left, z up from the sill seam. An
engine's own axes: origin where the crankshaft's line meets the rear face of the block, x forward
along the crankshaft, y left, z up; a gearbox's pieces therefore have x below zero.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.solids.shapes import Array, Solid

Needed: TypeAlias = Callable[[Solid, Solid], float]
"""Room that a moving and a fixed solid need between them. [m]"""


@dataclass(frozen=True, kw_only=True, eq=False)
class Pose:
    """Where the moving solids' own axes are put in body axes; numbers or samples.

    The origin of an engine is where its crankshaft's line meets the rear face of the block.
    Angles turn by the right hand about x, y, z (ISO 8855), first roll, then pitch, then yaw, all
    about that origin: pitch lowers the nose when positive, so a nose-up tilt is a negative pitch.
    """

    x: Array | float = 0.0
    """Forward of the front wheel centres (m)."""
    y: Array | float = 0.0
    """To the left of the middle (m)."""
    z: Array | float = 0.0
    """Over the sill seam (m)."""
    roll: Array | float = 0.0
    """About x: the left side goes up. [rad]"""
    pitch: Array | float = 0.0
    """About y: the nose goes down. [rad]"""
    yaw: Array | float = 0.0
    """About z: the nose goes left. [rad]"""

    @property
    def turn(self) -> Array:
        """Rotation, shape (3, 3) or (3, 3, samples + 1)."""
        return np.asarray(
            _product(
                turned(axis=2, angle=self.yaw),
                turned(axis=1, angle=self.pitch),
                turned(axis=0, angle=self.roll),
            )
        )

    @property
    def shift(self) -> Array:
        """Place of the origin, shape (3,) or (3, samples + 1) (m)."""
        return np.array(
            np.broadcast_arrays(*(np.asarray(v, float) for v in (self.x, self.y, self.z)))
        )

    @property
    def spot(self) -> tuple[Array, Array]:
        """Rotation and shift."""
        return self.turn, self.shift

    @property
    def nominal(self) -> Pose:
        """The pose at the nominal readings."""
        values = (self.x, self.y, self.z, self.roll, self.pitch, self.yaw)
        x, y, z, roll, pitch, yaw = (float(np.ravel(np.asarray(v))[0]) for v in values)
        return Pose(x=x, y=y, z=z, roll=roll, pitch=pitch, yaw=yaw)


@dataclass(frozen=True, kw_only=True, eq=False)
class Movement:
    """How some solids move: positions along one turn or one shift, the first of them at rest.

    Moving solids move in their own axes, before the pose; fixed ones in body axes.
    """

    name: str
    positions: tuple[Array | float, ...]
    """Angle about the axis [rad] or way along it [m] of each position; the first is zero."""
    words: tuple[str, ...]
    """Words for each position: "at rest", "rocked left"."""
    at: tuple[Array | float, Array | float, Array | float] = (0.0, 0.0, 0.0)
    """A point on the axis of a turn (m)."""
    along: tuple[float, float, float] = (1.0, 0.0, 0.0)
    """Direction of the axis; its length does not matter."""
    slides: bool = False
    """Whether it shifts along the axis; else it turns about it."""
    running: bool = True
    """Whether it happens while other things move too. The bonnet is shut with the engine at rest:
    its further positions are tried with every running movement at rest."""

    @property
    def nominal(self) -> Movement:
        """The movement at the nominal readings."""
        x, y, z = (_at(value, 0) for value in self.at)
        return replace(self, positions=tuple(_at(one, 0) for one in self.positions), at=(x, y, z))


@dataclass(frozen=True, kw_only=True, eq=False)
class Scene:
    """Everything that clearances are found between."""

    moving: tuple[Solid, ...]
    """What a pose places, in axes of its own: the engine, and what hangs on it."""
    fixed: tuple[Solid, ...]
    """What stands round it, in body axes; these may move by movements of their own."""
    movements: Mapping[str, Movement] = field(default_factory=dict)
    needed: Needed = lambda _moving, _fixed: 0.0
    apart: frozenset[tuple[str, str]] = frozenset()
    """Pairs (moving, fixed) that are not asked about, by the solids' names: they join there."""


def turned(*, axis: int, angle: Array | float) -> Array:
    """Return the rotation about one of the axes.

    Parameters
    ----------
    axis : int
        0, 1, 2 for x, y, z. [-]
    angle : array
        Angle by the right hand. [rad]

    Returns
    -------
    array
        Shape (3, 3) or (3, 3, samples + 1). [-]

    """
    a = np.asarray(angle, float)
    cosine, sine = np.cos(a), np.sin(a)
    found = np.zeros((3, 3, *a.shape))
    i, j = (axis + 1) % 3, (axis + 2) % 3
    found[axis, axis] = 1.0
    found[i, i] = found[j, j] = cosine
    found[j, i], found[i, j] = sine, -sine
    return found


def turned_about(*, direction: npt.ArrayLike, angle: Array | float) -> Array:
    """Return the rotation about a direction.

    Parameters
    ----------
    direction : array_like
        The axis; its length does not matter. [-]
    angle : array
        Angle by the right hand. [rad]

    Returns
    -------
    array
        Shape (3, 3) or (3, 3, samples + 1). [-]

    Notes
    -----
    R = I cos φ + [u]× sin φ + u uᵀ (1 − cos φ).

    References
    ----------
    .. [1] O. Rodrigues, rotation formula, 1840; any text on mechanics (from memory).

    """
    u = np.asarray(direction, float)
    length = math.sqrt(u @ u)
    require(length > 0.0, "direction", direction, "-", "a direction with a length")
    x, y, z = u / length
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    along = u[:, None] * u / length**2
    a = np.asarray(angle, float)
    cosine, sine = np.cos(a), np.sin(a)
    parts = ((np.eye(3), cosine), (cross, sine), (along, 1.0 - cosine))
    first, second, third = (np.multiply.outer(part, share) for part, share in parts)
    return np.asarray(first + second + third)


def moved_by(*, movement: Movement | None, position: int) -> tuple[Array, Array]:
    """Return rotation and shift of one position of a movement.

    Parameters
    ----------
    movement : Movement
        The movement; none stays where it is. [-]
    position : int
        Which of its positions. [-]

    Returns
    -------
    tuple
        Rotation [-] and shift [m]; each with samples where the movement has them.

    """
    if movement is None:
        return np.eye(3), np.zeros(3)
    amount = np.asarray(movement.positions[position], float)
    along = np.asarray(movement.along, float)
    if movement.slides:
        return np.eye(3), np.multiply.outer(along / np.linalg.norm(along), amount)
    turn = turned_about(direction=along, angle=amount)
    at = np.array(np.broadcast_arrays(*(np.asarray(v, float) for v in movement.at)))
    return turn, _minus(at, _applied(turn, at))


def joined(*, first: tuple[Array, Array], second: tuple[Array, Array]) -> tuple[Array, Array]:
    """Return one movement after another as a single rotation and shift.

    Parameters
    ----------
    first : tuple
        Rotation [-] and shift [m] of what comes first.
    second : tuple
        Of what comes after it.

    Returns
    -------
    tuple
        Rotation [-] and shift [m] of both.

    """
    turn = _product(second[0], first[0])
    carried = _applied(second[0], first[1])
    return turn, _minus(carried, -second[1])


def at_sample(*, scene: Scene, pose: Pose, sample: int) -> tuple[Scene, Pose]:
    """Return a scene and a pose as they are in one sample; 0 is the nominal one.

    Parameters
    ----------
    scene : Scene
        The scene, with samples. [m]
    pose : Pose
        The pose, with samples. [m]
    sample : int
        Which sample. [-]

    Returns
    -------
    tuple
        Scene and pose without samples. [m]

    """

    def at(value: Array | float) -> float:
        return _at(value, sample)

    def solid(one: Solid) -> Solid:
        pieces = tuple(
            replace(p, points=p.points if p.points.ndim == 2 else p.points[:, :, sample])
            for p in one.pieces
        )
        return replace(one, pieces=pieces, doubt=at(one.doubt))

    movements = {
        name: replace(
            one,
            positions=tuple(at(p) for p in one.positions),
            at=(at(one.at[0]), at(one.at[1]), at(one.at[2])),
        )
        for name, one in scene.movements.items()
    }
    placed = Pose(
        x=at(pose.x), y=at(pose.y), z=at(pose.z),
        roll=at(pose.roll), pitch=at(pose.pitch), yaw=at(pose.yaw),
    )  # fmt: skip
    return (
        replace(
            scene,
            moving=tuple(map(solid, scene.moving)),
            fixed=tuple(map(solid, scene.fixed)),
            movements=movements,
        ),
        placed,
    )


def _at(value: Array | float, sample: int) -> float:
    flat = np.ravel(np.asarray(value, float))
    return float(flat[sample if flat.size > 1 else 0])


def _product(*turns: Array) -> Array:
    found = turns[0]
    for one in turns[1:]:
        if found.ndim == one.ndim == 2:
            found = found @ one
        else:
            a = found if found.ndim == 3 else found[:, :, None]
            b = one if one.ndim == 3 else one[:, :, None]
            found = np.asarray(sum(a[:, j, None] * b[None, j] for j in range(3)))
    return found


def _applied(turn: Array, at: Array) -> Array:
    if turn.ndim == 2 and at.ndim == 1:
        return turn @ at
    a = turn if turn.ndim == 3 else turn[:, :, None]
    b = at if at.ndim == 2 else at[:, None]
    return np.asarray(sum(a[:, k] * b[k] for k in range(3)))


def _minus(a: Array, b: Array) -> Array:
    if a.ndim == b.ndim:
        return a - b
    return (a if a.ndim == 2 else a[:, None]) - (b if b.ndim == 2 else b[:, None])
