"""Solids, lofts, meshes, movements and usual shapes as a build file gives them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.building import evaluate
from tests.quantities.test_packaging import build

from drybuild.checks.verdicts import State
from drybuild.project.load import load
from drybuild.quantities.packaging_scene import meshes_in_body_axes
from drybuild.session import Session


def with_bay(more: str, **how: str) -> str:
    return build(boxes=f"boxes: {{}}\n    {more}", **how)


def test_a_solid_named_like_a_plain_wall_takes_its_place() -> None:
    text = with_bay(
        "solids: {radiator: {kind: radiator, centre: [350 mm, 0 mm, 300 mm], "
        "size: [60 mm, 400 mm, 400 mm]}}"
    )
    # nose at 120 mm, core's rear face at 320 mm
    assert evaluate(text).value("bay_clearance", "radiator") == pytest.approx(0.200)


def test_a_turned_box_comes_nearer_by_its_corner() -> None:
    text = with_bay(
        "solids: {servo: {centre: [0 mm, 450 mm, 400 mm], size: [100 mm, 100 mm, 100 mm], "
        "yaw: 45 deg}}"
    )
    found = evaluate(text).value("bay_clearance", "servo")
    assert found == pytest.approx(0.450 - 0.05 * np.sqrt(2.0) - 0.280, abs=1e-6)


def test_a_link_that_slides_is_met_where_it_comes_nearest() -> None:
    text = with_bay(
        "solids: {track rod: {kind: suspension, centre: [0 mm, 0 mm, -50 mm], "
        "size: [40 mm, 600 mm, 40 mm], axis_at: [0 mm, 0 mm, 0 mm], axis: [0, 0, 1], "
        "slides_up: 80 mm, slides_down: 60 mm}}"
    )
    found = evaluate(text)
    # underside of the block at 80 mm; the rod's top at -30 mm rises to 50 mm
    assert found.value("bay_clearance", "track rod") == pytest.approx(0.080 - 0.050)
    gaps = found.result("bay_gaps").value
    assert gaps["track rod"].nominal.position == "at full bump"


def test_a_lever_that_turns_is_met_on_its_way() -> None:
    text = with_bay(
        "solids: {drop arm: {form: box, kind: steering, centre: [0 mm, 420 mm, 300 mm], "
        "size: [200 mm, 20 mm, 20 mm], axis_at: [0 mm, 420 mm, 300 mm], axis: [0, 0, 1], "
        "turns: 90 deg}}"
    )
    found = evaluate(text).value("bay_clearance", "drop arm")
    # turned across, its end is 100 mm from the axis: 420 − 100 − 280 mm
    assert found == pytest.approx(0.040, abs=1e-6)


LOFT = (
    "lofts: {tower: {stations: {rear: {x: -520 mm, heights: [140 mm, 700 mm], "
    "half: [400 mm, 400 mm]}, front: {x: 430 mm, heights: [140 mm, 700 mm], half: %s}}}}"
)


def test_a_loft_of_the_tower_stands_in_for_both_walls() -> None:
    found = evaluate(with_bay(LOFT % "[350 mm, 350 mm]"))
    # At the nose (x = 120 mm) the wall stands at 400 − 50 · 640/950 mm.
    upright = 0.400 - 0.050 * 640 / 950 - 0.280
    square = upright * np.cos(np.arctan(50 / 950))
    for side in ("left tower", "right tower"):
        assert found.value("bay_clearance", side) == pytest.approx(square, abs=1e-6)
        assert found.problems == ()


@pytest.mark.parametrize(
    ("more", "code", "field"),
    [
        ("solids: {servo: {centre: [0 mm, 0 mm, 0 mm]}}", "solid-incomplete", "solids.servo"),
        ("solids: {arm: {form: hull, corners: [1 mm, 2 mm]}}", "solid-incomplete", "corners"),
        ("lofts: {tower: {stations: {a: {x: 0 mm}}}}", "loft-stations", "lofts.tower"),
        (LOFT % "[350 mm]", "loft-stations", "stations.front.half"),
        ("gearboxes: {gone: {front: 300 mm}}", "reference-unknown", "gearboxes.gone"),
        ("solids: {servo: {form: ball}}", "choice-unknown", "servo.form"),
    ],
)
def test_what_is_wrong_with_a_solid_is_told_where_it_stands(
    more: str, code: str, field: str
) -> None:
    found = [one for one in evaluate(with_bay(more)).problems if one.code == code]
    assert found
    assert field in found[0].field
    assert found[0].line > 5
    assert found[0].mend


def test_a_bonnet_that_opens_is_tried_on_its_way() -> None:
    shut = evaluate(build())
    opens = evaluate(with_bay("hinge_x: -520 mm\n    hinge_z: 720 mm\n    opens: 60 deg"))
    assert opens.value("bonnet_clearance") == pytest.approx(shut.value("bonnet_clearance"))
    # Hinged below its rear edge, the panel's rear end dips before it clears.
    low = evaluate(with_bay("hinge_x: -150 mm\n    hinge_z: 700 mm\n    opens: 60 deg"))
    assert low.value("bonnet_clearance") < shut.value("bonnet_clearance") - 0.02
    assert "bonnet open" in low.result("bay_gaps").value["bonnet"].nominal.position


def test_room_of_ones_own_goes_before_the_trades() -> None:
    found = evaluate(with_bay("needs: {bonnet: {room: 30 mm}, left tower: {room: 40 mm}}"))
    assert found.value("bay_clearance_needed", "left tower") == pytest.approx(0.040)
    assert found.value("bay_clearance_needed", "right tower") == pytest.approx(0.015)
    assert found.value("bonnet_clearance_needed") == pytest.approx(0.030)


USUAL = "length: 580 mm, width: 560 mm"


@pytest.mark.parametrize("form", ["inline four", "V8", "flat four", "electric motor"])
def test_a_usual_shape_needs_no_more_room_than_its_boxes(form: str) -> None:
    plain = evaluate(build())
    shaped = evaluate(build().replace(USUAL, f"form: {form}, shape_doubt: 0 ± 1 mm, {USUAL}"))
    # A starter motor may reach past the rear face, beside the bell: by 2 % of the length.
    for wall, past in (("left tower", 0.002), ("right tower", 0.002), ("bulkhead", 0.0116)):
        assert shaped.value("bay_clearance", wall) >= plain.value("bay_clearance", wall) - past
    assert shaped.value("bonnet_clearance") >= plain.value("bonnet_clearance") - 0.002


def test_hot_parts_have_rows_and_needs_of_their_own() -> None:
    shaped = evaluate(build().replace(USUAL, f"form: inline four, {USUAL}"))
    assert shaped.value("bay_clearance_needed", "exhaust to left tower") == pytest.approx(0.020)


def test_a_part_of_ones_own_stands_in_the_engines_axes() -> None:
    part = (
        "parts: {turbo: {form: cylinder, kind: hot, start: [300 mm, 300 mm, 100 mm], "
        "end: [400 mm, 300 mm, 100 mm], diameter: 160 mm, separate: true}}, "
    )
    found = evaluate(build().replace("length: 580 mm", part + "length: 580 mm"))
    # 12 corners round the cylinder put a flat to the side: 420 − 300 − 80 mm
    assert found.value("bay_clearance", "turbo to left tower") == pytest.approx(0.040, abs=0.003)


GEARBOX = """    gearboxes: {four-speed: {front: 350 mm, rear: 800 mm, width: 200 mm, height: %s,
      depth: 120 mm}}
    engines:
"""


@pytest.mark.parametrize(("height", "state"), [("100 mm", State.GOOD), ("230 mm", State.FAILS)])
def test_the_gearbox_keeps_clear_of_the_tunnel(height: str, state: State) -> None:
    text = build().replace("    engines:\n", GEARBOX % height)
    text = text.replace("picks:", "  gearbox: {four-speed: {as_is: true, kind: manual}}\npicks:")
    assert evaluate(text).verdict("packaging.gearbox").state is state


def test_a_tighter_reading_settles_an_open_verdict() -> None:
    # 26 mm under the bonnet where 20 mm are wanted: a spread of 30 mm says nothing, 2 mm says yes.
    def verdict(spread: str) -> State:
        text = build().replace("height: 400 mm", f"height: 436 ± {spread}")
        return evaluate(text).verdict("packaging.bonnet").state

    assert verdict("30 mm") is State.OPEN
    assert verdict("2 mm") is State.GOOD
    wide = build().replace("height: 400 mm", "height: 436 ± 30 mm")
    doubts = evaluate(wide).verdict("packaging.bonnet").doubts
    assert doubts[0].path == "car.bay.engines.four.height"


MESH = """
      scan of the wing:
        form: mesh
        file: wing.stl
        unit: mm
        doubt: 0 ± 5 mm
        points:
          a: {scan: [0, 0, 0], car: [-300 mm, 400 mm, 300 mm]}
          b: {scan: [500, 0, 0], car: [200 mm, 400 mm, 300 mm]}
          c: {scan: [0, 100, 0], car: [-300 mm, 500 mm, 300 mm]}
          d: {scan: [0, 0, 200], car: [-300 mm, 400 mm, 500 mm]}
"""


def test_a_scan_is_put_where_its_points_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DRYBUILD_CACHE", str(tmp_path / "kept"))
    wing = trimesh.creation.box(bounds=[[0, 0, 0], [500, 100, 200]]).subdivide()
    wing.export(tmp_path / "wing.stl")
    text = build(boxes="solids:" + MESH + "    boxes: {}")
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    assert load(tmp_path).problems == ()
    session = Session.open(tmp_path, samples=200)
    gap = session.quantities["bay_clearance"].labelled()["scan of the wing"]
    assert gap[0] == pytest.approx(0.400 - 0.280, abs=1e-6)
    assert np.std(gap[1:]) > 0.002
    strays = session.quantities["mesh_point_stray"].labelled()
    assert set(strays) == {f"scan of the wing: {point}" for point in "abcd"}
    assert max(float(one[0]) for one in strays.values()) < 1e-9
    drawn = meshes_in_body_axes(session.evaluation)
    points, corners, kind = drawn["scan of the wing"]
    assert points.min(axis=0) == pytest.approx([-0.3, 0.4, 0.3], abs=1e-6)
    assert corners.max() < len(points)
    assert kind == "fixed"
    assert {"engine", "sump", "bell housing", "bonnet", "tunnel"} <= set(drawn)


def test_a_part_given_as_a_mesh_is_cut_into_pieces(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DRYBUILD_CACHE", str(tmp_path / "kept"))
    trimesh.creation.icosphere(subdivisions=3, radius=0.08).export(tmp_path / "turbo.stl")
    part = "parts: {turbo: {form: mesh, file: turbo.stl, unit: m, separate: true}}, "
    text = build().replace("length: 580 mm", part + "length: 580 mm")
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    session = Session.open(tmp_path, samples=50)
    assert session.problems == ()
    gap = session.quantities["bay_clearance"].labelled()["turbo to left tower"]
    # A ball of 80 mm about the rear face's middle, 0.5 mm thicker for its pieces: 420 − 80.5 mm.
    assert gap[0] == pytest.approx(0.420 - 0.0805, abs=0.002)


def test_a_sparse_build_stays_quiet() -> None:
    text = "build: a\ncar: {body: {kind: unitary}}\n"
    found = evaluate(text)
    assert found.problems == ()
    assert found.verdict("packaging.bay").senseless
