"""Read mesh files within bounds of size and time, and say plainly what is wrong with a bad one."""

from __future__ import annotations

import contextlib
import hashlib
import io
import re
import struct
import tempfile
import zipfile
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from drybuild.errors import DrybuildError
from drybuild.keeping import usual_folder

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]

FACTORS = {"mm": 1e-3, "cm": 1e-2, "m": 1.0, "in": 0.0254, "ft": 0.3048}
SUFFIXES = (".stl", ".obj", ".ply", ".gltf", ".glb")
LARGEST = 120_000_000
"""Bytes of a binary file at most: some two million triangles."""
LARGEST_TEXT = 40_000_000
"""Bytes of a file of text at most; more takes a laptop longer than anybody waits."""
MOST = 2_000_000
"""Triangles at most."""
BUDGET = 40_000
"""Triangles that a mesh is thinned to; clearances need no more."""
LEAST_SIZE, MOST_SIZE = 0.02, 12.0
"""Longest side that something in a car can have. [m]"""


class MeshFault(DrybuildError):  # noqa: N818  a fault in a person's file, told and not thrown
    """A mesh file that cannot be used: what is wrong, and how to mend it."""

    def __init__(self, *, code: str, wrong: str, mend: str) -> None:
        super().__init__(wrong)
        self.code, self.wrong, self.mend = code, wrong, mend


@dataclass(frozen=True, kw_only=True, eq=False)
class Mesh:
    """A mesh as read, in metres, thinned to what is needed."""

    points: Array
    triangles: Whole
    factor: float
    """Metres in one of the file's own units."""
    coarseness: float
    """How far thinning may have moved its skin. [m]"""
    open_edges: int
    """Edges that belong to one triangle only: the rims of holes."""
    given: int
    """Triangles in the file."""

    @property
    def notes(self) -> tuple[str, ...]:
        """What is worth knowing, though it is no fault."""
        found = []
        if self.open_edges:
            found.append(
                f"it has holes ({self.open_edges} open edges); it is taken as a skin, so what has "
                "gone through it whole is not seen"
            )
        if self.coarseness:
            found.append(
                f"{self.given} triangles were thinned to {len(self.triangles)}; "
                f"its skin moved by up to {self.coarseness * 1e3:.1f} mm"
            )
        return tuple(found)


def load_mesh(file: Path, unit: str) -> Mesh:
    """Read a mesh file.

    Parameters
    ----------
    file : Path
        An STL, OBJ, PLY or glTF file.
    unit : str
        Unit of its numbers; empty for glTF, which is always in metres.

    Raises
    ------
    MeshFault
        The file cannot be used; code, words and mend are its attributes.

    """
    try:
        size, time = file.stat().st_size, file.stat().st_mtime_ns
    except OSError:
        raise MeshFault(
            code="file-missing",
            wrong=f'there is no file "{file.name}" there',
            mend="Give a file inside the build folder.",
        ) from None
    return _loaded(file, unit, size, time)


@lru_cache(maxsize=16)
def _loaded(file: Path, unit: str, size: int, _time: int) -> Mesh:
    suffix = file.suffix.lower()
    if suffix not in SUFFIXES:
        raise MeshFault(
            code="mesh-format",
            wrong=f'"{file.name}" is no mesh that can be read',
            mend="Export it as STL, OBJ, PLY or glTF.",
        )
    if suffix in (".gltf", ".glb"):
        unit = unit or "m"
    if unit not in FACTORS:
        raise MeshFault(
            code="mesh-unit",
            wrong=f'"{file.name}" does not say the unit of its numbers',
            mend='Add "unit: mm", or cm, m, in, ft: the one set when it was exported.',
        )
    _check_size(file, size)
    content = file.read_bytes()
    _check_start(file, content)
    key = hashlib.blake2b(content, digest_size=16).hexdigest()
    kept = _fetch(key)
    points, triangles, coarse, given = kept if kept else _read(file, content, key)
    return _scaled(file, points, triangles, unit, coarse, given)


def _scaled(
    file: Path, points: Array, triangles: Whole, unit: str, coarse: float, given: int
) -> Mesh:
    factor = FACTORS[unit]
    longest = float(np.ptp(points, axis=0).max()) * factor
    if not LEAST_SIZE <= longest <= MOST_SIZE:
        fits = [
            name for name, one in FACTORS.items() if 0.1 <= longest / factor * one <= MOST_SIZE / 2
        ]
        hint = f' Perhaps "unit: {fits[0]}".' if fits else ""
        raise MeshFault(
            code="mesh-unit",
            wrong=f'"{file.name}" would be {longest:.4g} m long with its numbers in {unit}',
            mend=f"Check the unit that it was exported in.{hint}",
        )
    edges = np.sort(
        np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1
    )
    _, counts = np.unique(edges[:, 0] * len(points) + edges[:, 1], return_counts=True)
    return Mesh(
        points=points * factor,
        triangles=triangles,
        factor=factor,
        coarseness=coarse * factor,
        open_edges=int((counts == 1).sum()),
        given=given,
    )


def _check_size(file: Path, size: int) -> None:
    if size == 0:
        raise MeshFault(code="mesh-empty", wrong=f'"{file.name}" is empty', mend="Export it again.")
    if size > LARGEST:
        raise MeshFault(
            code="mesh-large",
            wrong=f'"{file.name}" has {size / 1e6:.0f} MB, over the {LARGEST / 1e6:.0f} MB read',
            mend="Thin it in the scanning program; some 20 000 triangles are plenty.",
        )


def _check_start(file: Path, content: bytes) -> None:
    """Refuse what is broken off, far too much, or something else by another name."""
    suffix, head = file.suffix.lower(), content[:2000]
    count = None
    text = suffix in (".obj", ".gltf")
    if suffix == ".stl":
        text = head.lstrip()[:5].lower() == b"solid" and b"facet" in head
        if not text:
            count = struct.unpack("<I", content[80:84])[0] if len(content) >= 84 else 0
            _check_whole(file, len(content), 84 + 50 * count, count)
    elif suffix == ".ply":
        if not head.startswith(b"ply"):
            raise _unreadable(file, "PLY")
        text = b"format ascii" in head
        found = re.search(rb"element face (\d+)", head)
        count = int(found[1]) if found else 0
    elif suffix == ".glb" and not head.startswith(b"glTF"):
        raise _unreadable(file, "glTF")
    elif suffix == ".glb":
        _check_whole(file, len(content), struct.unpack("<I", content[8:12])[0], None)
    if suffix == ".obj":
        count = content.count(b"\nf ")
    if count is not None and count > MOST:
        raise MeshFault(
            code="mesh-large",
            wrong=f'"{file.name}" has {count} triangles, more than the {MOST} read',
            mend="Thin it in the scanning program; some 20 000 triangles are plenty.",
        )
    if text and len(content) > LARGEST_TEXT:
        raise MeshFault(
            code="mesh-large",
            wrong=f'"{file.name}" is text of {len(content) / 1e6:.0f} MB',
            mend="Thin it, or export it in a binary form.",
        )


def _check_whole(file: Path, size: int, wanted: int, count: int | None) -> None:
    if count == 0 and size <= 84:
        raise MeshFault(
            code="mesh-empty", wrong=f'"{file.name}" holds no triangles', mend="Export it again."
        )
    if size < wanted:
        told = f"{count} triangles" if count is not None else f"{wanted} bytes"
        raise MeshFault(
            code="mesh-broken-off",
            wrong=f'"{file.name}" is broken off: it says {told} and ends after {size} bytes',
            mend="Copy or export it again; or it is no file of this kind.",
        )


def _unreadable(file: Path, kind: str) -> MeshFault:
    return MeshFault(
        code="mesh-unreadable",
        wrong=f'"{file.name}" does not read as {kind}',
        mend="Export it again, and let its name end as what it is: stl, obj, ply, glb.",
    )


def _read(file: Path, content: bytes, key: str) -> tuple[Array, Whole, float, int]:
    kind = file.suffix.lower().lstrip(".")
    try:
        found = _triangles(content, kind)
    except Exception as fault:  # whatever the reader trips over is the file's fault, not ours
        raise _unreadable(file, kind.upper() if kind != "glb" else "glTF") from fault
    points, triangles = found
    if len(triangles) == 0:
        raise MeshFault(
            code="mesh-empty", wrong=f'"{file.name}" holds no triangles', mend="Export it again."
        )
    bad = int((~np.isfinite(points[np.unique(triangles)])).any(axis=1).sum())
    if bad:
        raise MeshFault(
            code="mesh-numbers",
            wrong=f'"{file.name}" has {bad} points that are no numbers',
            mend="Let the scanning program repair it, then export it again.",
        )
    given = len(triangles)
    points, triangles, coarse = thinned(points, triangles, BUDGET)
    if len(triangles) == 0:
        raise MeshFault(
            code="mesh-empty",
            wrong=f'"{file.name}" holds no triangles with a surface',
            mend="Export it again.",
        )
    _keep(key, points, triangles, coarse, given)
    return points, triangles, coarse, given


def _triangles(content: bytes, kind: str) -> tuple[Array, Whole]:
    import trimesh  # noqa: PLC0415  slow to import

    loaded: Any = trimesh.load_scene(  # ships no types for it
        io.BytesIO(content), file_type=kind, process=False
    )
    meshes = [one for one in loaded.dump() if isinstance(one, trimesh.Trimesh)]
    points, triangles, count = [], [], 0
    for one in meshes:
        points.append(np.asarray(one.vertices, dtype=np.float64))
        triangles.append(np.asarray(one.faces, dtype=np.int64) + count)
        count += len(one.vertices)
    if not meshes:
        return np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int64)
    return np.concatenate(points), np.concatenate(triangles)


def thinned(points: Array, triangles: Whole, budget: int) -> tuple[Array, Whole, float]:
    """Return a mesh with no more triangles than a budget, and how far its skin may have moved.

    Points of one cell of a grid become their middle; triangles that collapse are left out. The
    grid is made coarser until the budget is met; points that are the same are always joined.
    """
    used, triangles = np.unique(triangles, return_inverse=True)
    points, triangles = points[used], triangles.reshape(-1, 3)
    longest = float(np.ptp(points, axis=0).max()) or 1.0
    side, coarse = longest * 1e-7, 0.0
    while True:
        cell = np.floor((points - points.min(axis=0)) / side).astype(np.int64)
        _, place = np.unique(cell @ np.array([1 << 42, 1 << 21, 1]), return_inverse=True)
        place = place.reshape(-1)
        faces = place[triangles]
        whole = (
            (faces[:, 0] != faces[:, 1])
            & (faces[:, 1] != faces[:, 2])
            & (faces[:, 2] != faces[:, 0])
        )
        faces = np.unique(np.sort(faces[whole], axis=1), axis=0) if coarse else faces[whole]
        if len(faces) <= budget:
            break
        side = max(side * 1.5, longest * 2e-3)
        coarse = side * float(np.sqrt(3.0)) / 2.0
    counts = np.bincount(place)
    middles = np.stack(
        [np.bincount(place, weights=points[:, k]) / counts for k in range(3)], axis=1
    )
    return middles, faces, coarse


def _fetch(key: str) -> tuple[Array, Whole, float, int] | None:
    try:
        with np.load(usual_folder() / "meshes" / f"{key}.npz", allow_pickle=False) as kept:
            return (
                kept["points"],
                kept["triangles"],
                float(kept["coarse"]),
                int(kept["given"]),
            )
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
        return None


def _keep(key: str, points: Array, triangles: Whole, coarse: float, given: int) -> None:
    """Keep a mesh as read; a folder that cannot be written is let be, as nothing is lost."""
    folder = usual_folder() / "meshes"
    with contextlib.suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=folder, suffix=".part", delete=False) as file:
            np.savez(file, points=points, triangles=triangles, coarse=coarse, given=given)
        Path(file.name).replace(folder / f"{key}.npz")
