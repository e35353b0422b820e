"""Mesh files of a build put into the car, or cut into convex pieces that can be moved."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.solids.collider import cells
from drybuild.physics.solids.registration import Registration, register, scale_ratio
from drybuild.physics.solids.shapes import Piece, Sheet, hull_piece
from drybuild.project.meshes import Mesh, MeshFault, load_mesh
from drybuild.project.packaging_solids import MeshFile, Shape
from drybuild.project.samples import Values

HULLS = 48
"""Pieces that a part given as a mesh is cut into: its hollows are filled to a piece's size."""
SKIN = 0.0005
"""Thickness given to a flat piece of a mesh, to each side. [m]"""


def placed_sheet(shape: Shape) -> tuple[Sheet, Values]:
    """Return a mesh in the axes of what it belongs to, and how far its real skin may stand off.

    That is the doubt entered, made wider by the rms of the points that place it, and by what
    thinning may have moved.
    """
    mesh = load_shape(shape)
    found = registration_of(shape, mesh.factor)
    doubt = shape.doubt
    if found is None:
        return Sheet(points=mesh.points, triangles=mesh.triangles), doubt + mesh.coarseness
    spread = float(doubt[1:].std()) if doubt.size > 1 else 0.0
    if spread > 0.0:
        doubt = doubt + (doubt - doubt[0]) / spread * found.rms
    points = mesh.points @ found.turn.T + found.shift
    return Sheet(points=points, triangles=mesh.triangles), doubt + mesh.coarseness


def strays_of(shape: Shape) -> dict[str, float]:
    """Return how far each point that places a mesh is from where it was measured. [m]."""
    found = registration_of(shape, load_shape(shape).factor)
    if found is None:
        return {}
    return {name: float(one) for name, one in zip(shape.points, found.residuals, strict=True)}


def load_shape(shape: Shape) -> Mesh:
    """Read the mesh of a shape, or say what is missing or wrong."""
    file = shape.file
    if not isinstance(file, MeshFile):
        raise MissingInput(shape.path_of("file"), "the mesh's file is not given")
    try:
        return load_mesh(Path(file.folder) / file, str(shape.given.get("unit") or ""))
    except MeshFault as fault:
        raise MissingInput(shape.path_of("file"), fault.wrong) from fault


def registration_of(shape: Shape, factor: float) -> Registration | None:
    """Return how a mesh is put in place; None where it stands in the right axes already."""
    points = shape.points
    if not points:
        return None
    if len(points) < 3:
        raise MissingInput(shape.path_of("points"), "three or more points are wanted")
    scan = np.array([one.scan[:, 0] for one in points.values()]) * factor
    car = np.array([one.car[:, 0] for one in points.values()])
    return register(scan=scan, car=car)


def scale_of(shape: Shape, factor: float) -> float | None:
    """Return taped over mesh distances; None where none was taped."""
    points = shape.points
    pairs = [
        (points[one.start], points[one.end], one.distance)
        for one in shape.taped.values()
        if one.start in points and one.end in points
    ]
    if not pairs:
        return None
    scan = [float(np.linalg.norm(a.scan[:, 0] - b.scan[:, 0])) * factor for a, b, _ in pairs]
    return scale_ratio(scan=scan, taped=[float(d[0]) for _, _, d in pairs])


def hulls_of(name: str, sheet: Sheet) -> tuple[Piece, ...]:
    """Cut a mesh into convex pieces: the hulls of groups of triangles that lie together."""
    middles = sheet.points[sheet.triangles].mean(axis=1)
    most = max(1, -(-len(middles) // HULLS))
    found = []
    for number, cell in enumerate(cells(middles=middles, most=most), start=1):
        corners = sheet.points[np.unique(sheet.triangles[cell])]
        # Eight points round each corner give a flat group a thickness.
        jog = np.array([[a, b, c] for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)]) * SKIN
        found.append(
            hull_piece(name=f"{name} {number}", points=(corners[:, None] + jog).reshape(-1, 3))
        )
    return tuple(found)
