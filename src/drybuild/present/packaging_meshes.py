"""The solids of the engine in its bay as triangles to draw in space: page, file of the view."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.solids.shapes import Array, Whole
from drybuild.present.wheel_solids import front_wheels
from drybuild.project.build import Build
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_bay import BONNET
from drybuild.quantities.packaging_scene import RADIATOR, meshes_in_body_axes

BEYOND = 0.06
"""How far beyond the parts walls are drawn: to the sums they reach far. [m]"""
FAR = 0.6
"""What stands farther from the engine is not in its bay. [m]"""
WALL, WHEEL = "wall", "wheel"


@dataclass(frozen=True, kw_only=True, eq=False)
class DrawnSolid:
    """A solid as triangles in body axes."""

    name: str
    kind: str
    """What it is to its neighbours, or `wall`, `wheel`."""
    points: Array
    """Shape (points, 3) (m)."""
    faces: Whole
    """Corners of triangles that look outward, shape (triangles, 3)."""
    moving: bool = False
    """Whether it goes with the engine."""


def drawn_solids(evaluation: Evaluation, *, far: bool) -> tuple[DrawnSolid, ...]:
    """Return what is drawn: the engine and gearbox, what stands in the bay, walls, front wheels.

    Walls are drawn no farther than the parts near the engine reach; things far from it, as a tank
    at the rear, are drawn if `far`. Empty while the engine or the bay is open, but for the wheels.
    """
    placed = evaluation.result("placed_engine").value
    gearbox = evaluation.result("gearbox_shape").value or ()
    moving = {one.name for one in (*placed.solids, *gearbox)} if placed else set()
    meshes = {name: _used(*mesh) for name, mesh in meshes_in_body_axes(evaluation).items()}
    own = moving | standing_names(evaluation.build) | {BONNET, RADIATOR}
    near = _near(meshes, moving)
    if not far:
        meshes = {name: mesh for name, mesh in meshes.items() if name not in own - near}
    parts = [points for name, (points, *_) in meshes.items() if name in own & near]
    low, high = _shown(evaluation, parts)
    drawn = [
        DrawnSolid(name=name, kind=kind, points=points, faces=faces, moving=name in moving)
        if name in own
        else DrawnSolid(name=name, kind=WALL, points=np.clip(points, low, high), faces=faces)
        for name, (points, faces, kind) in meshes.items()
    ]
    wheels = front_wheels(evaluation).items()
    return (
        *drawn,
        *(
            DrawnSolid(name=name, kind=WHEEL, points=points, faces=faces)
            for name, (points, faces) in wheels
        ),
    )


def standing_names(build: Build) -> set[str]:
    """Return the names of the things that the person put into the bay; the rest are its walls."""
    given = build.car["bay"].given if "bay" in build.car else {}
    found = [given.get(name) for name in ("boxes", "solids")]
    return {name for one in found if isinstance(one, dict) for name in one}


def _near(meshes: dict[str, tuple[Array, Whole, str]], moving: set[str]) -> set[str]:
    """Return the names of what stands near the engine, and of the engine."""
    placed = [points for name, (points, *_) in meshes.items() if name in moving]
    if not placed:
        return set(meshes)
    every = np.concatenate(placed)
    low, high = every.min(axis=0) - FAR, every.max(axis=0) + FAR
    return {
        name
        for name, (points, *_) in meshes.items()
        if (points.min(axis=0) < high).all() and (points.max(axis=0) > low).all()
    }


def _used(points: Array, faces: Whole, kind: str) -> tuple[Array, Whole, str]:
    """Leave out points that no triangle has: a wall's far side is not drawn."""
    kept, corners = np.unique(faces, return_inverse=True)
    return points[kept], corners.reshape(-1, 3), kind


def _shown(evaluation: Evaluation, parts: list[Array]) -> tuple[Array, Array]:
    """Return how far walls are drawn: round the parts, and to where the parts come nearest."""
    gaps = evaluation.result("bay_gaps").value or {}
    touched = [one.nominal.at_fixed[None, :] for one in gaps.values()]
    points = np.concatenate([*parts, *touched]) if parts else np.zeros((1, 3))
    return points.min(axis=0) - BEYOND, points.max(axis=0) + BEYOND
