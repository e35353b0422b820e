"""Read a scan of an arch: a mesh file's points, put into the axes of the arch."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError, MissingInput
from drybuild.project.arches import ArchScan
from drybuild.project.samples import Values

Faces = npt.NDArray[np.intp]
SUFFIXES = (".stl", ".obj", ".ply")
UNITS = {"mm": 0.001, "m": 1.0, "in": 0.0254}
SPACING = 0.010
"""Longest edge of a triangle after cutting; half of it is missed at the most. [m]"""
NEAR = 0.70
"""What is farther from the wheel's centre is left out. [m]"""
MOST_BYTES, MOST_POINTS = 200_000_000, 400_000


def scan_points(scan: ArchScan, folder: Path, half_track: float) -> Values:
    """Return the points of a scan near the wheel: ahead, from the car's middle plane, above.

    Parameters
    ----------
    scan : ArchScan
        What the build file says of it, bound.
    folder : Path
        The build folder.
    half_track : float
        From the car's middle plane to the wheel's middle plane. [m]

    Raises
    ------
    MissingInput
        The file is not there, is no mesh, or lies outside the build folder.

    """
    place = (folder / scan.file).resolve()
    path = scan.path_of("file")
    if not place.is_relative_to(folder.resolve()):
        raise MissingInput(path, f"{scan.file} lies outside the build folder")
    if place.suffix.lower() not in SUFFIXES or not place.is_file():
        raise MissingInput(
            path, f"there is no STL, OBJ or PLY file {scan.file} in the build folder"
        )
    ahead, up = _direction(scan.ahead), _direction(scan.up)
    left = np.cross(up, ahead)
    if not left.any():
        raise MissingInput(scan.path_of("up"), "ahead and up are the same way of the scan")
    scale = UNITS[scan.unit]
    centre = np.asarray(scan.centre)[:, 0]
    try:
        vertices, faces = _mesh(place, place.stat().st_mtime_ns)
    except InputError as fault:
        raise MissingInput(path, str(fault)) from fault
    turned = (vertices * scale - centre) @ np.stack((ahead, left, up)).T
    points = _cut(turned, faces) + np.array([0.0, half_track, 0.0])
    return np.asarray(points.T)


def _direction(text: str) -> Values:
    found = np.zeros(3)
    found["xyz".index(text[1])] = 1.0 if text[0] == "+" else -1.0
    return found


@lru_cache(maxsize=4)
def _mesh(place: Path, changed: int) -> tuple[Values, Faces]:
    """Return vertices and triangles; a changed file is read anew."""
    del changed
    import trimesh  # noqa: PLC0415  slow to import, and few builds have a scan

    if place.stat().st_size > MOST_BYTES:
        raise InputError(f"{place.name} is larger than {MOST_BYTES // 1_000_000} MB: thin it out")
    try:
        found = trimesh.load(place, force="mesh", process=False)
        if not isinstance(found, trimesh.Trimesh):
            raise InputError(f"{place.name} holds no mesh")
        vertices = np.asarray(found.vertices, dtype=np.float64)
        faces = np.asarray(found.faces, dtype=np.intp)
    except InputError:
        raise
    except Exception as fault:  # a mesh reader fails in as many ways as files do
        raise InputError(f"{place.name} is not a mesh that can be read: {fault}") from fault
    if faces.size == 0 or not np.isfinite(vertices).all():
        raise InputError(f"{place.name} has no triangles")
    return vertices, faces


def _cut(vertices: Values, faces: Faces) -> Values:
    """Return corners of the triangles near the wheel, cut until their edges are short."""
    triangles = vertices[faces]
    near = np.linalg.norm(triangles, axis=2).min(axis=1) < NEAR
    triangles = triangles[near]
    while triangles.shape[0] < MOST_POINTS:
        edges = np.linalg.norm(triangles - np.roll(triangles, -1, axis=1), axis=2)
        long_ = edges.max(axis=1) > SPACING
        if not long_.any():
            break
        triangles = np.concatenate((triangles[~long_], _halved(triangles[long_], edges[long_])))
    return np.unique(np.round(triangles.reshape(-1, 3), 5), axis=0)


def _halved(triangles: Values, edges: Values) -> Values:
    """Cut each triangle at the middle of its longest edge."""
    first = edges.argmax(axis=1)
    line = np.arange(first.size)
    a, b, c = (triangles[line, (first + k) % 3] for k in range(3))
    middle = (a + b) / 2.0
    return np.concatenate((np.stack((a, middle, c), axis=1), np.stack((middle, b, c), axis=1)))
