"""Bad meshes get a clear, located word each, and never hang."""

from __future__ import annotations

import struct
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import trimesh

from drybuild.project.load import load
from drybuild.project.meshes import BUDGET, MeshFault, load_mesh, thinned

BUILD = """
build: a test car
car:
  bay:
    solids:
      scan of the bay:
        form: mesh
        file: %s
        unit: %s
        points:
          a: {scan: [0, 0, 0], car: [0 mm, 0 mm, 0 mm]}
          b: {scan: [%s, 0, 0], car: [1000 mm, 0 mm, 0 mm]}
          c: {scan: [0, %s, 0], car: [0 mm, %s, 0 mm]}
"""


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DRYBUILD_CACHE", str(tmp_path / "kept"))


def box(unit: float = 1000.0) -> trimesh.Trimesh:
    found = trimesh.creation.box(extents=(1.0, 0.8, 0.6))
    found.apply_scale(unit)
    return found


def stl(mesh: trimesh.Trimesh) -> bytes:
    return bytes(mesh.export(file_type="stl"))


def broken_off() -> bytes:
    return stl(box())[:-120]


def not_numbers() -> bytes:
    one = box()
    one.vertices[3] = np.nan
    return stl(one)


def many() -> bytes:
    return b"\0" * 80 + struct.pack("<I", 10_000_000)


def no_surface() -> bytes:
    flat = np.zeros((12, 3, 3))
    return stl(trimesh.Trimesh(**trimesh.triangles.to_kwargs(flat), process=False))


BAD: list[tuple[str, Callable[[], bytes], str]] = [
    ("empty.stl", lambda: b"", "mesh-empty"),
    ("flat.stl", no_surface, "mesh-empty"),
    ("broken.stl", broken_off, "mesh-broken-off"),
    ("numbers.stl", not_numbers, "mesh-numbers"),
    ("words.stl", lambda: b"{ not a mesh at all, whatever its name says " * 9, "mesh-broken-off"),
    ("words.ply", lambda: b"solid lies", "mesh-unreadable"),
    ("words.glb", lambda: b"no gl file here", "mesh-unreadable"),
    ("words.gltf", lambda: b"{]", "mesh-unreadable"),
    ("words.obj", lambda: b"nothing of a mesh\n", "mesh-empty"),
    ("picture.png", lambda: b"\x89PNG", "mesh-format"),
]


@pytest.mark.parametrize(("name", "content", "code"), BAD, ids=[one[0] for one in BAD])
def test_a_bad_mesh_is_told_where_it_stands(
    name: str, content: Callable[[], bytes], code: str, tmp_path: Path
) -> None:
    (tmp_path / name).write_bytes(content())
    (tmp_path / "build.yaml").write_text(
        BUILD % (name, "mm", 1000, 800, "800 mm"), encoding="utf-8"
    )
    began = time.perf_counter()
    problems = load(tmp_path).problems
    assert time.perf_counter() - began < 10.0
    assert [one.code for one in problems] == [code]
    assert problems[0].line == 8
    assert problems[0].field == "car.bay.solids.scan of the bay.file"
    assert problems[0].mend


def test_ten_million_triangles_are_refused_before_they_are_read(tmp_path: Path) -> None:
    with (tmp_path / "huge.stl").open("wb") as file:  # a sparse file: it takes no room
        file.write(many())
        file.truncate(84 + 50 * 10_000_000)
    began = time.perf_counter()
    with pytest.raises(MeshFault) as fault:
        load_mesh(tmp_path / "huge.stl", "mm")
    assert fault.value.code == "mesh-large"
    assert "20 000" in fault.value.mend
    assert time.perf_counter() - began < 1.0


def test_millimetres_taken_as_metres_are_seen_by_the_size(tmp_path: Path) -> None:
    (tmp_path / "bay.stl").write_bytes(stl(box()))
    with pytest.raises(MeshFault, match="1000 m long") as fault:
        load_mesh(tmp_path / "bay.stl", "m")
    assert "unit: mm" in fault.value.mend


def test_inches_taken_as_centimetres_are_seen_by_the_points(tmp_path: Path) -> None:
    (tmp_path / "bay.stl").write_bytes(stl(box(1000.0 / 25.4)))
    text = BUILD % ("bay.stl", "cm", 1000 / 25.4, 800 / 25.4, "800 mm")
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    (problem,) = load(tmp_path).problems
    assert problem.code == "mesh-scale"
    assert "2.54 times" in problem.wrong


def test_swapped_points_are_named(tmp_path: Path) -> None:
    (tmp_path / "bay.stl").write_bytes(stl(box()))
    text = BUILD % ("bay.stl", "mm", 1000, 800, "800 mm")
    text += "          d: {scan: [0, 0, 600], car: [0 mm, 0 mm, -600 mm]}\n"
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    (problem,) = load(tmp_path).problems
    assert problem.code == "mesh-points"
    assert "stray" in problem.wrong


def test_holes_and_flipped_normals_are_taken_with_a_note(tmp_path: Path) -> None:
    holed = box()
    holed.update_faces(np.arange(len(holed.faces)) > 1)
    holed.faces[::2] = holed.faces[::2, ::-1]
    (tmp_path / "bay.stl").write_bytes(stl(holed))
    found = load_mesh(tmp_path / "bay.stl", "mm")
    assert len(found.triangles) == 10
    assert found.open_edges == 4
    assert "holes" in found.notes[0]


def test_a_fine_mesh_is_thinned_to_the_budget_and_says_by_how_much() -> None:
    ball = trimesh.creation.icosphere(subdivisions=6, radius=0.4)  # 81,920 triangles
    points, triangles, coarse = thinned(ball.vertices, ball.faces, BUDGET)
    assert len(triangles) <= BUDGET
    # Closed form: every point of the sphere's skin stays within the coarseness of the radius.
    assert np.abs(np.linalg.norm(points, axis=1) - 0.4).max() <= coarse < 0.015


@pytest.mark.parametrize("kind", ["stl", "obj", "ply", "glb"])
def test_each_format_gives_the_same_box(kind: str, tmp_path: Path) -> None:
    file = tmp_path / f"bay.{kind}"
    data = box(1.0).export(file_type=kind)
    file.write_bytes(data if isinstance(data, bytes) else data.encode())
    found = load_mesh(file, "m")
    assert len(found.triangles) == 12
    assert len(found.points) == 8
    assert np.ptp(found.points, axis=0) == pytest.approx([1.0, 0.8, 0.6])


def test_a_file_outside_the_folder_is_refused(tmp_path: Path) -> None:
    inside = tmp_path / "car"
    inside.mkdir()
    (tmp_path / "bay.stl").write_bytes(stl(box()))
    text = BUILD % ("../bay.stl", "mm", 1000, 800, "800 mm")
    (inside / "build.yaml").write_text(text, encoding="utf-8")
    assert [one.code for one in load(inside).problems] == ["file-missing"]
