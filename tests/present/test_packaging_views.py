"""The drawings of the fit, the measuring sheet, the commands and files that give them."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from tests.building import BARE, evaluate
from tests.quantities.test_packaging import build

from drybuild.cli import main
from drybuild.present.packaging import fit_drawing, titles_of, words_of
from drybuild.present.packaging_pairs import judged_pairs
from drybuild.present.packaging_tape import tapes_of
from drybuild.present.packaging_tape_drawing import look_for, tape_drawings
from drybuild.present.packaging_views import (
    FRONT,
    LOOKS,
    PLAN,
    SIDE,
    bay_scene_of,
    empty_bay_of,
    view_of,
)
from drybuild.session import Session

SERVO = (
    "boxes: {servo: {rear: -450 mm, front: -200 mm, right: 285 mm, left: 500 mm, "
    "bottom: 300 mm, top: 550 mm}}"
)
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def session(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder = tmp_path_factory.mktemp("build")
    (folder / "build.yaml").write_text(build(boxes=SERVO, rock="12 mm"), encoding="utf-8")
    return Session.open(folder, 200)


def test_views_show_each_gap_where_it_lies_in_the_page(session: Session) -> None:
    scene = bay_scene_of(session.evaluation)
    assert scene is not None
    pairs = judged_pairs(session.evaluation, session.verdicts)
    shown = {look.name: {one.name for _, one in view_of(scene, look, pairs).gaps} for look in LOOKS}
    assert "servo" in shown["front"] & shown["plan"]
    assert "cross-member" in shown["side"]
    assert "left tower" not in shown["side"]


def test_walls_are_cut_where_their_tape_readings_say(session: Session) -> None:
    scene = bay_scene_of(session.evaluation)
    assert scene is not None
    walls = {one.name: one for one in view_of(scene, SIDE, ()).walls}
    assert walls["bulkhead"].face[..., 0].ravel() == pytest.approx(-0.520)
    assert walls["radiator"].face[..., 0].ravel() == pytest.approx(0.430)
    assert walls["cross-member"].face[..., 1].max() == pytest.approx(0.010)
    front = {one.name: one for one in view_of(scene, FRONT, ()).walls}
    assert front["left rail"].face[..., 0].min() == pytest.approx(0.350)
    assert front["right tower"].face[..., 0].max() == pytest.approx(-0.420)


def test_drawings_are_sound_tell_scale_datum_and_state(session: Session) -> None:
    scene = bay_scene_of(session.evaluation)
    assert scene is not None
    pairs = judged_pairs(session.evaluation, session.verdicts)
    titles = titles_of(session.build, lambda metres: f"{metres * 1e3:.0f} mm")
    for look in LOOKS:
        view = view_of(scene, look, pairs)
        words = " ".join(
            one.text or "" for one in ET.fromstring(fit_drawing(view, titles)).iter(f"{SVG}text")
        )
        assert "scale 1 : 1" in words
        assert "Datum 0" in words
        assert session.build.name in words
        assert all(f"{pair.name}:" in words for _, pair in view.gaps)
        assert view.look.title in words_of(view, titles)
    assert "servo: −" in words_of(view_of(scene, PLAN, pairs), titles)


def test_the_scale_told_is_the_scale_drawn(session: Session) -> None:
    scene = bay_scene_of(session.evaluation)
    assert scene is not None
    titles = titles_of(session.build, lambda metres: f"{metres * 1e3:.0f} mm")
    drawn = ET.fromstring(fit_drawing(view_of(scene, SIDE, ()), titles))
    words = [one.text or "" for one in drawn.iter(f"{SVG}text")]
    ratio = float(next(one for one in words if one.startswith("scale 1 :")).split(":")[1])
    # the level dimension line of the engine: 580 mm at that scale, a point being 1/72 in
    lines = [one.get("d", "").replace("M", "").split(" L") for one in drawn.iter(f"{SVG}path")]
    ends = [[tuple(map(float, at.split())) for at in one] for one in lines if len(one) == 2]
    spans = [abs(b[0] - a[0]) for a, b in ends if abs(a[1] - b[1]) < 0.01]
    wanted = 580.0 / ratio / 25.4 * 72.0
    assert any(span == pytest.approx(wanted, abs=0.15) for span in spans)


def test_the_tape_goes_first_where_it_would_settle_most() -> None:
    doubtful = build().replace("crossmember_top: 10 ± 5 mm", "crossmember_top: 10 ± 60 mm")
    found = evaluate(doubtful, samples=400)
    verdicts = [found.verdict("packaging.bay")]
    pairs = judged_pairs(found.evaluation, verdicts)
    tapes = tapes_of(found.evaluation, verdicts, pairs)
    # the gap of 70 mm needs 15 mm and hangs on that reading alone: almost all its doubt
    assert tapes[0].path == "car.bay.crossmember_top"
    assert tapes[0].settles.startswith("cross-member: 100 %")
    assert tapes[0].what == "sill seam to the cross-member's top"
    assert not tapes[0].again
    weights = [one.weight for one in tapes if one.weight > 0.02]
    assert weights == sorted(weights, reverse=True)


def test_lines_of_the_tape_are_as_long_as_the_readings(session: Session) -> None:
    pairs = judged_pairs(session.evaluation, session.verdicts)
    for one in tapes_of(session.evaluation, session.verdicts, pairs):
        reading = session.evaluation.readings[one.path]
        if one.ends is not None:
            length = float(np.linalg.norm(one.ends[1] - one.ends[0]))
            assert length == pytest.approx(abs(reading.value), abs=1e-9), one.path
            assert look_for(one) in LOOKS


def test_a_bare_build_is_told_where_to_begin() -> None:
    found = evaluate(BARE)
    found.evaluation.result("bay_gaps")
    scene = empty_bay_of(found.evaluation)
    assert scene is not None
    tapes = tapes_of(found.evaluation, (), ())
    assert {"car.bay.bulkhead", "car.bay.radiator"} <= {one.path for one in tapes}
    assert "handbook" in {one.origin for one in tapes}
    assert tape_drawings(scene, tapes)


def test_commands_write_their_files(session: Session, tmp_path: Path) -> None:
    folder = str(session.place)

    def run(*words: str) -> str:
        found = CliRunner().invoke(main, list(words))
        assert found.exit_code == 0, found.output
        return found.output

    out = str(tmp_path / "out")
    assert "a-test-car-engine-letter.pdf" in run(
        "template", folder, "--output", out, "--paper", "letter"
    )
    assert "a-test-car-tape.html" in run("tape", folder, "--output", out, "--samples", "100")
    run("fit", folder, "--model", str(tmp_path / "bay.glb"))
    assert (tmp_path / "bay.glb").read_bytes()[:4] == b"glTF"
    written = {one.name for one in (tmp_path / "out").iterdir()}
    assert {"a-test-car-engine.dxf", "a-test-car-engine-whole.pdf", "a-test-car-tape.pdf"} < written
    told = json.loads(run("template", folder, "--part", "servo", "--json"))
    assert {"engine", "servo"} <= set(told["parts"])
    assert [one["area"] for one in told["views"]] == pytest.approx(
        [0.25 * 0.25, 0.215 * 0.25, 0.25 * 0.215]
    )
    readings = json.loads(run("tape", folder, "--json", "--samples", "100"))["readings"]
    assert {"path", "what", "from", "to", "settles"} <= set(readings[0])


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("template", "--part", "wing"), 'no part "wing" in the bay. Parts: engine, servo'),
        (("fit", "--model", "bay.stl"), "end it in .glb"),
    ],
)
def test_commands_say_what_is_wrong(session: Session, words: tuple[str, ...], told: str) -> None:
    found = CliRunner().invoke(main, [words[0], str(session.place), *words[1:]])
    assert found.exit_code == 1
    assert told in found.output


def test_without_an_engine_commands_say_what_is_missing(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(BARE, encoding="utf-8")
    for words in (["template", str(tmp_path)], ["fit", str(tmp_path), "--model", "x.glb"]):
        found = CliRunner().invoke(main, words)
        assert found.exit_code == 1
        assert "its outline is not measured" in found.output
