"""Templates, 3-D file and measuring sheet against closed forms and the standards of their files."""

from __future__ import annotations

import json
import struct
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import trimesh
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from drybuild.book.template import EDGE, OVERLAP, write_tiles, write_whole
from drybuild.physics.solids.outlines import area_of
from drybuild.present.packaging_meshes import drawn_solids
from drybuild.present.packaging_model import model_bytes
from drybuild.present.template import BORDER, Template, template_of
from drybuild.present.template_dxf import write_dxf
from tests.building import Evaluated, evaluate
from tests.quantities.test_packaging import build

# One point is 1/72 in (ISO 32000-1, 8.3.2.3: the default unit of user space); 1 in = 25.4 mm.
MM = 25.4 / 72.0
PART = (
    "boxes: {tray: {rear: -400 mm, front: -80 mm, right: 300 mm, left: 520 mm, "
    "bottom: 200 mm, top: 350 mm}}"
)
TRAY = {"side": (320.0, 150.0), "front": (220.0, 150.0), "plan": (320.0, 220.0)}
"""Width and height of the tray from three sides: differences of its bounds. [mm]"""


@pytest.fixture(scope="module")
def car() -> Evaluated:
    return evaluate(build(boxes=PART), samples=50)


@pytest.fixture(scope="module")
def engine(car: Evaluated) -> Template:
    found = template_of(car.evaluation)
    assert found is not None
    return found


@pytest.fixture(scope="module")
def tray(car: Evaluated) -> Template:
    found = template_of(car.evaluation, "tray")
    assert found is not None
    return found


# Closed form: the plain engine is four boxes: upper 580 x 560 x 400 over the crankshaft, block
# 580 x 280 x 90 below it, bowl 210 x 280 from 0 to 210 below, bell 350 x 360 x 360 behind.
def test_silhouettes_of_an_engine_of_boxes(engine: Template) -> None:
    areas = {one.look.name: one.area for one in engine.sheets}
    assert areas["side"] == pytest.approx(0.58 * 0.49 + 0.21 * 0.12 + 0.35 * 0.36)
    assert areas["front"] == pytest.approx(0.56 * 0.40 + 0.36 * 0.18 + 0.28 * 0.03)
    assert areas["plan"] == pytest.approx(0.58 * 0.56 + 0.35 * 0.36)


def test_outlines_drawn_enclose_the_area_told(engine: Template) -> None:
    for sheet in engine.sheets:
        loops = [one.points for one in sheet.strokes if one.layer == "OUTLINE"]
        assert sum(area_of(loop=one) for one in loops) == pytest.approx(
            # a view that is mirrored on paper once runs the other way
            sheet.area * 1e6 * np.prod(sheet.look.turns)
        )


# DXF reference, HEADER: $INSUNITS 4 is millimetres, $MEASUREMENT 1 metric; AC1015 is release 2000.
def test_the_dxf_is_in_millimetres_and_sound(engine: Template, tmp_path: Path) -> None:
    write_dxf(engine, tmp_path / "engine.dxf")
    found = ezdxf.readfile(tmp_path / "engine.dxf")
    assert found.dxfversion == "AC1015"
    assert found.header["$INSUNITS"] == 4
    assert found.header["$MEASUREMENT"] == 1
    audit = found.audit()
    assert not audit.errors
    assert not audit.fixes
    layers = {one.dxf.name for one in found.layers}
    assert {"OUTLINE", "CRANKSHAFT LINE", "DATUM", "BELL HOUSING FACE", "CHECK RULER"} <= layers
    outlines = [one for one in found.modelspace() if one.dxf.layer == "OUTLINE"]
    spans = [np.ptp(np.array(one.get_points("xy")), axis=0) for one in outlines]
    # side: 580 + 350 mm long, 400 + 210 mm high; front: 560 wide; plan: 930 x 560
    assert [one.round(6).tolist() for one in spans] == [
        [930.0, 610.0], [560.0, 610.0], [930.0, 560.0],
    ]  # fmt: skip
    assert all(one.closed for one in outlines)


def test_the_dxf_has_rulers_of_100_mm_both_ways(engine: Template, tmp_path: Path) -> None:
    write_dxf(engine, tmp_path / "engine.dxf")
    lines = [
        one.dxf.end - one.dxf.start
        for one in ezdxf.readfile(tmp_path / "engine.dxf").modelspace().query("LINE")
        if one.dxf.layer == "CHECK RULER"
    ]
    long = [one for one in lines if one.magnitude > 50.0]
    assert (
        sorted((round(one.x, 6), round(one.y, 6)) for one in long)
        == [(0.0, 100.0)] * 3 + [(100.0, 0.0)] * 3
    )


# The bell housing's face is the rear face of the block (x = 0), where the datum stands.
def test_crank_line_datum_and_bell_face_meet(engine: Template) -> None:
    for sheet in engine.sheets:
        if sheet.look.name == "front":
            continue
        by_layer = {one.layer: np.array(one.points) for one in sheet.strokes if not one.closed}
        face, crank = by_layer["BELL HOUSING FACE"], by_layer["CRANKSHAFT LINE"]
        assert np.ptp(face[:, 0]) == pytest.approx(0.0)
        assert np.ptp(crank[:, 1]) == pytest.approx(0.0)
        ring = next(np.array(o.points) for o in sheet.strokes if o.layer == "DATUM" and o.closed)
        assert ring.mean(axis=0) == pytest.approx((face[0, 0], crank[0, 1]))


def stroked(page: PageObject) -> list[tuple[float, np.ndarray]]:
    """Return the stroked paths of a page: line width and points, in mm from its lower left.

    After ISO 32000-1, 8.3 (matrices: x' = x M) and 8.5 (paths).
    """
    matrix, width, stack = np.eye(3), 1.0, list[Any]()
    points: list[np.ndarray] = []
    found = []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"q":
            stack.append((matrix, width))
        elif operator == b"Q":
            matrix, width = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = (float(one) for one in operands)
            matrix = np.array([[a, b, 0.0], [c, d, 0.0], [e, f, 1.0]]) @ matrix
        elif operator == b"w":
            width = float(operands[0])
        elif operator in (b"m", b"l"):
            x, y = (float(one) for one in operands)
            points.append((np.array([x, y, 1.0]) @ matrix)[:2] * MM)
        elif operator in (b"S", b"s", b"B", b"b"):
            found.append((width, np.array(points)))
            points = []
        elif operator in (b"n", b"f", b"f*"):
            points = []
    return found


def test_the_whole_sheets_are_true_to_a_thousandth(tray: Template, tmp_path: Path) -> None:
    write_whole(tray, "a car", tmp_path / "tray.pdf")
    pages = PdfReader(tmp_path / "tray.pdf").pages
    assert len(pages) == 3
    for page, sheet in zip(pages, tray.sheets, strict=True):
        wide, high = TRAY[sheet.look.name]
        box = page.mediabox
        assert float(box.width) * MM == pytest.approx(wide + 2 * BORDER, rel=1e-3)
        assert float(box.height) * MM == pytest.approx(high + 2 * BORDER, rel=1e-3)
        outlines = [points for width, points in stroked(page) if width == pytest.approx(2.2)]
        assert len(outlines) == 1
        assert np.ptp(outlines[0], axis=0) == pytest.approx((wide, high), rel=1e-3)


def test_the_rulers_on_paper_are_100_mm_both_ways(tray: Template, tmp_path: Path) -> None:
    write_whole(tray, "a car", tmp_path / "whole.pdf")
    write_tiles(tray, "a car", "a4", tmp_path / "tiles.pdf")
    whole = PdfReader(tmp_path / "whole.pdf").pages
    for page in [*whole, *list(PdfReader(tmp_path / "tiles.pdf").pages)[1:]]:
        spans = [np.ptp(points, axis=0) for _, points in stroked(page) if len(points) == 2]
        for axis in (0, 1):
            assert any(
                span[axis] == pytest.approx(100.0, rel=1e-3) and span[1 - axis] < 0.01
                for span in spans
            )


# ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: letter is 8.5 x 11 in.
@pytest.mark.parametrize(("paper", "sides"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_sheets_have_the_printers_size(
    tray: Template, tmp_path: Path, paper: str, sides: tuple[float, float]
) -> None:
    write_tiles(tray, "a car", paper, tmp_path / "tiles.pdf")
    for page in PdfReader(tmp_path / "tiles.pdf").pages:
        found = sorted((float(page.mediabox.width) * MM, float(page.mediabox.height) * MM))
        assert found == pytest.approx(sorted(sides), abs=0.1)


# A corner that two neighbouring sheets show lies a step apart on them: paper less both margins
# less the overlap, so that the sheets join without a gap.
def test_neighbouring_sheets_join(tray: Template, tmp_path: Path) -> None:
    write_tiles(tray, "a car", "a4", tmp_path / "tiles.pdf")
    pages = list(PdfReader(tmp_path / "tiles.pdf").pages)[1:]
    plan = [page for page in pages if "from above" in page.extract_text()]
    outlines = [
        next(points for width, points in stroked(page) if width == pytest.approx(2.2))
        for page in plan
    ]
    size = np.array([float(plan[0].mediabox.width), float(plan[0].mediabox.height)]) * MM
    step = size - 2 * EDGE - OVERLAP
    shifts = [one[0] - outlines[0][0] for one in outlines]
    for shift in shifts:
        counted = shift / step
        assert counted == pytest.approx(np.round(counted), abs=1e-3)
    assert len({tuple(np.round(one / step).astype(int)) for one in shifts}) == len(plan)


# Khronos Group, glTF 2.0 specification: 4.4 (binary container), 3.6 (buffers, alignment),
# 3.7.2.1 (POSITION needs min and max), 3.4 (right-handed, y up, z forward, metres).
def test_the_model_keeps_the_standards_rules(car: Evaluated) -> None:
    data = model_bytes(drawn_solids(car.evaluation, far=True), "a car")
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, sort = struct.unpack_from("<I4s", data, 12)
    assert sort == b"JSON"
    assert size % 4 == 0
    told = json.loads(data[20 : 20 + size])
    binary_size, binary_sort = struct.unpack_from("<I4s", data, 20 + size)
    assert binary_sort == b"BIN\0"
    assert 20 + size + 8 + binary_size == len(data)
    assert told["asset"]["version"] == "2.0"
    assert told["buffers"][0]["byteLength"] <= binary_size
    binary = data[28 + size :]
    for mesh in told["meshes"]:
        (primitive,) = mesh["primitives"]
        at = told["accessors"][primitive["attributes"]["POSITION"]]
        corners = told["accessors"][primitive["indices"]]
        view, index_view = (told["bufferViews"][one["bufferView"]] for one in (at, corners))
        assert view["byteOffset"] % 4 == 0
        points = np.frombuffer(binary, "<f4", at["count"] * 3, view["byteOffset"]).reshape(-1, 3)
        assert points.min(axis=0).tolist() == at["min"]
        assert points.max(axis=0).tolist() == at["max"]
        indices = np.frombuffer(binary, "<u4", corners["count"], index_view["byteOffset"])
        assert corners["count"] % 3 == 0
        assert indices.max() < at["count"]
    used = [node["mesh"] for node in told["nodes"] if "mesh" in node]
    assert sorted(used) == list(range(len(told["meshes"])))


# Read back by an independent reader: metres, y up, z forward, names.
def test_the_model_read_by_trimesh_stands_as_in_the_car(car: Evaluated, tmp_path: Path) -> None:
    (tmp_path / "bay.glb").write_bytes(model_bytes(drawn_solids(car.evaluation, far=True), "car"))
    scene = trimesh.load(tmp_path / "bay.glb")
    assert isinstance(scene, trimesh.Scene)
    assert {"engine and gearbox", "bay", "sump", "tray", "bulkhead"} <= set(scene.graph.nodes)
    low, high = scene.geometry["tray"].bounds
    # x left, y up, z forward: the tray's bounds as typed
    assert low == pytest.approx((0.300, 0.200, -0.400), abs=1e-6)
    assert high == pytest.approx((0.520, 0.350, -0.080), abs=1e-6)
    assert scene.geometry["tray"].volume == pytest.approx(0.220 * 0.150 * 0.320)
