"""The page "fit" and its door to the sums: what is drawn, another place tried, a place saved."""

from __future__ import annotations

import json
import math
import re

import numpy as np
import pytest
from tests.workbench.benches import SMALL, Bench, bench

from drybuild.project.history import read_history
from drybuild.project.load import load
from drybuild.workbench import bay
from drybuild.workbench.pages.matters import DRAWN
from drybuild.workbench.rendering import static_file

BAY = """\
  bay:   # taped on a Sunday
    bulkhead: -430 ± 5 mm
    radiator: 470 ± 5 mm
    bonnet_front: 490 mm
    bonnet_rear: 610 mm
    crossmember_front: 90 mm
    crossmember_rear: 10 mm
    crossmember_top: -20 mm
    boxes:
      battery:
        {rear: -400 mm, front: -160 mm, right: 345 mm, left: 520 mm, bottom: 250 mm, top: 440 mm}
    engines:
      larger:
        {length: 540 mm, width: 500 mm, height: 340 mm, depth: 105 mm, sump_depth: 205 mm,
        sump_front: 280 mm, sump_rear: 500 mm, nose: 245 ± 4 mm, crank_height: 130 ± 3 mm,
        nose_up: 3 deg, crank_offset: 0 mm, bell_width: 340 mm}
"""
PLACED = SMALL.replace("  engine: original\n", "  engine: larger\n").replace(
    "options:\n", f"{BAY}options:\n", 1
)


@pytest.fixture
def placed(tmp_path):
    with bench(tmp_path, PLACED) as found:
        yield found


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory):
    """Open a build that no test changes."""
    with bench(tmp_path_factory.mktemp("build"), PLACED, samples=60) as found:
        yield found


def tried(opened: Bench, **pose: object) -> dict:
    answer = opened.client.post(
        "/api/fit/tried", content=json.dumps(pose), headers={"origin": opened.origin}
    )
    assert answer.status_code == 200, answer.text
    return {one["name"]: one for one in answer.json()["rows"]}


def test_the_scene_has_the_engine_as_it_is_put(looked_at: Bench) -> None:
    scene = looked_at.client.get("/api/fit").json()
    assert scene["engine"] == "larger"
    assert scene["pose"]["x"] == pytest.approx(0.245)
    assert scene["pose"]["z"] == pytest.approx(0.130)
    solids = {one["name"]: one for one in scene["solids"]}
    assert solids["engine"]["moving"]
    assert not solids["battery"]["moving"]
    corners = np.array(solids["battery"]["vertices"]).reshape(-1, 3)
    assert corners.min(axis=0) == pytest.approx((-0.4, 0.345, 0.25))
    assert corners.max(axis=0) == pytest.approx((-0.16, 0.52, 0.44))
    for one in solids.values():
        assert max(one["faces"]) < len(one["vertices"]) / 3


def test_a_place_that_is_tried_changes_the_gaps_and_saves_nothing(looked_at: Bench) -> None:
    pose = looked_at.client.get("/api/fit").json()["pose"]
    before = tried(looked_at, **pose)
    higher = tried(looked_at, **{**pose, "z": pose["z"] + 0.02})
    assert higher["bonnet"]["margin"] < before["bonnet"]["margin"]
    # Between upright walls: what one side gains the other loses, to the millimetre.
    left = tried(looked_at, **{**pose, "y": pose["y"] + 0.02})
    for side, way in (("left tower", -0.02), ("right tower", 0.02)):
        moved = left[side]["margin"] - before[side]["margin"]
        assert moved == pytest.approx(way, abs=1e-4)
    assert looked_at.text == PLACED
    assert tried(looked_at) == before  # a handle that is not told stays where it is


def test_closest_points_lie_the_gap_apart(looked_at: Bench) -> None:
    rows = looked_at.client.get("/api/fit").json()["rows"]
    drawn = [one for one in rows if one["points"]]
    assert len(drawn) > 5
    for one in drawn:
        apart = np.linalg.norm(np.subtract(*one["points"])) * 1000.0
        told = float(one["gap"].split(" mm")[0].replace("−", "-"))
        assert apart == pytest.approx(abs(told), abs=0.5), one["name"]


@pytest.mark.parametrize(
    "body", ['{"x": "far"}', '{"x": NaN}', '{"x": 1e400}', '{"x": 11}', '{"pitch": 1}',
             '{"up": 1}', '{"x": true}', "[]", "{", '{"x": null}'],
)  # fmt: skip
def test_a_place_that_cannot_be_meant_is_refused(looked_at: Bench, body: str) -> None:
    answer = looked_at.client.post(
        "/api/fit/tried", content=body, headers={"origin": looked_at.origin}
    )
    assert answer.status_code == 400


def test_saving_a_place_is_one_change_that_keeps_comments_and_spreads(placed: Bench) -> None:
    placed.client.follow_redirects = False
    answer = placed.post("/fit", here="/fit", engine="larger", x="260", y="0", z="128.5", pitch="3")
    assert answer.status_code == 303
    assert "nose: 260 ± 4 mm, crank_height: 128.5 ± 3 mm,\n" in placed.text
    assert placed.text == PLACED.replace("245 ±", "260 ±").replace("130 ± 3 mm", "128.5 ± 3 mm")
    placed.post("/undo", here="/fit")
    assert placed.text == PLACED


def test_a_place_that_was_never_given_is_written_in_the_units_of_the_reader(tmp_path) -> None:
    text = "units: us\n" + PLACED.replace("nose_up: 3 deg, ", "").replace(" nose: 245 ± 4 mm,", "")
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    build = load(tmp_path)
    assert [one["unit"] for one in bay.handles(build)] == ["in", "in", "in", "deg"]
    said = bay.texts(build, "larger", {"x": 9.5 * 0.0254, "z": 0.131, "pitch": math.radians(2.5)})
    assert {at[-1]: words for at, words in said.items()} == {
        "nose": "9.5 in",
        "crank_height": "131 ± 3 mm",
        "nose_up": "2.5 deg",
    }


@pytest.mark.parametrize(
    ("stands", "moved"),
    [
        ("245 mm ± 2 %", "250 mm ± 2 %"),
        ("~245 mm", "250 mm"),
        ("9.65 in ± 0.1 in", "9.843 ± 0.1 in"),
        ("{value: 245 mm, plus_minus: 4 mm, from: measured}", "250 mm"),
    ],
)
def test_how_a_place_was_written_is_kept(tmp_path, stands: str, moved: str) -> None:
    text = PLACED.replace("nose: 245 ± 4 mm", f"nose: {stands}")
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    ((_, words),) = bay.texts(load(tmp_path), "larger", {"x": 0.25}).items()
    assert words == moved


def test_a_place_that_changed_elsewhere_is_not_written_over(placed: Bench) -> None:
    changed = PLACED.replace("245 ± 4 mm", "250 ± 4 mm")
    (placed.folder / "build.yaml").write_text(changed, encoding="utf-8")
    form = {"x": "260", "y": "0", "z": "130", "pitch": "3", "was-x": "245 ± 4 mm"}
    answer = placed.post("/fit", here="/fit", engine="larger", **form)
    assert answer.status_code == 422
    assert "250 ± 4 mm" in answer.text
    assert placed.text == changed


def test_numbers_on_the_drawing_of_the_bay_lead_to_their_entries(looked_at: Bench) -> None:
    looked_at.desk.wait()
    assert "data-draw" in looked_at.client.get("/car").text
    page = looked_at.client.get(f"/car?{DRAWN}=bay").text
    drawn = page[page.index('id="where-bay"') : page.index("Readings of the bay, those")]
    links = re.findall(r'<a href="([^"]+)" class="measure" aria-label="(\d+): ', drawn)
    assert len(links) >= 8
    listed = dict(re.findall(r'class="number">(\d+)</th><td><a href="([^"]+)">', page))
    for to, number in links:
        assert listed[number] == to
        path, _, entry = to.replace("&amp;", "&").partition("#")
        form = looked_at.client.get(path).text.partition(f'id="{entry}"')[2].partition("</form>")[0]
        assert re.search(rf"number </span>{number}<", form), to


@pytest.fixture
def unsettled(tmp_path, monkeypatch):
    """Open a build that is judged on few draws and no more."""
    monkeypatch.setattr("drybuild.workbench.desk.PAUSE", 60.0)
    with bench(tmp_path, PLACED) as found:
        monkeypatch.setattr(found.desk, "wait", lambda: found.desk.session)
        found.client.follow_redirects = False
        yield found


def test_the_best_place_is_taken_as_one_change_undone_or_refused(unsettled: Bench) -> None:
    was = {f"was-{one['name']}": one["was"] for one in bay.handles(unsettled.desk.build)}
    answer = unsettled.post("/fit/best", here="/fit", engine="larger", **was)
    assert answer.status_code == 303, answer.text
    assert "# taped on a Sunday" in unsettled.text
    assert unsettled.text != PLACED
    (change,) = read_history(unsettled.folder).changes
    assert change.why == "the best place found"
    again = unsettled.post("/fit/best", here="/fit", engine="larger", **was)
    assert again.status_code == 422
    assert "changed elsewhere" in again.text
    again = unsettled.post("/fit/best", here="/fit", engine="larger")
    assert "in the best place already" in again.text
    unsettled.post("/undo", here="/fit")
    assert unsettled.text == PLACED
    tight = PLACED.replace("radiator: 470 ± 5 mm", "radiator: 130 ± 5 mm")
    (unsettled.folder / "build.yaml").write_text(tight, encoding="utf-8")
    answer = unsettled.post("/fit/best", here="/fit", engine="larger")
    assert answer.status_code == 422
    assert "there is no place for it" in answer.text
    assert "Nothing is saved" in answer.text
    assert unsettled.text == tight


def test_a_search_for_the_best_place_can_be_stopped(unsettled: Bench, monkeypatch) -> None:
    def stopped_meanwhile(evaluation, told, **_):
        assert "Looking for the best place" in unsettled.client.get("/fit").text
        unsettled.post("/stop", task="place", here="/fit")
        told("climbing")

    monkeypatch.setattr("drybuild.workbench.placing.placement_of", stopped_meanwhile)
    answer = unsettled.post("/fit/best", here="/fit", engine="larger")
    assert answer.status_code == 422
    assert "stopped; nothing is saved" in answer.text
    assert unsettled.text == PLACED
    assert not unsettled.desk.tasks.shown()


@pytest.mark.parametrize("x", ["far", "nan", "inf", "99999", ""])
def test_a_field_without_a_number_saves_nothing(placed: Bench, x: str) -> None:
    answer = placed.post("/fit", here="/fit", engine="larger", x=x, y="0", z="130", pitch="3")
    assert answer.status_code == 422
    assert placed.text == PLACED


@pytest.mark.parametrize("text", [SMALL, "car: {body: {kind: unitary}}\n"])
def test_without_an_engine_to_place_the_page_says_so(tmp_path, text: str) -> None:
    with bench(tmp_path, text, samples=20) as opened:
        assert opened.client.get("/api/fit").json()["solids"] == []
        assert "no engine to place" in opened.client.get("/fit").text
        answer = opened.client.post(
            "/api/fit/tried", content="{}", headers={"origin": opened.origin}
        )
        assert answer.json()["rows"] == []


def test_pages_load_only_the_islands_they_have(looked_at: Bench) -> None:
    assert "islands/bay.mjs" in looked_at.client.get("/fit").text
    assert "islands/plots.mjs" in looked_at.client.get("/work").text
    assert "islands/" not in looked_at.client.get("/").text


def test_without_the_bundle_pages_say_the_same(looked_at: Bench, monkeypatch) -> None:
    monkeypatch.setattr(
        "drybuild.workbench.rendering.static_file",
        lambda name: None if name.startswith("islands/") else static_file(name),
    )
    page = looked_at.client.get(f"/fit?{DRAWN}=all").text
    assert "islands/" not in page
    assert "Save this place" in page
    assert "cross-member" in page
    assert "<svg" in page


# 1 MB for the first page: what the page and all that it loads weigh together.
def test_no_page_is_heavier_than_a_megabyte(looked_at: Bench) -> None:
    for path in ("/", "/fit", "/work"):
        page = looked_at.client.get(path)
        parts = {one.split('"')[0] for one in page.text.split('="/static/')[1:]}
        weight = len(page.content) + sum(
            len(looked_at.client.get(f"/static/{one}").content) for one in parts
        )
        assert weight < 1_000_000, path


def test_no_style_is_allowed_in_the_page(looked_at: Bench) -> None:
    page = looked_at.client.get("/fit")
    policy = page.headers["content-security-policy"]
    assert "unsafe" not in policy
    assert 'style="' not in page.text


@pytest.mark.parametrize(
    ("path", "begins"),
    [
        ("/fit/bay.glb", b"glTF"),
        ("/fit/template.pdf?part=battery", b"%PDF"),
        ("/fit/template-whole.pdf", b"%PDF"),
        ("/fit/template.dxf?part=engine", b"  0\n"),
        ("/fit/tape.pdf", b"%PDF"),
    ],
)
def test_files_can_be_taken_home(looked_at, path, begins):
    answer = looked_at.client.get(path)
    assert answer.status_code == 200, answer.text
    assert answer.content.startswith(begins)
    assert "attachment" in answer.headers["content-disposition"]


def test_the_page_offers_what_can_be_taken_home(looked_at):
    page = looked_at.client.get("/fit").text
    assert "<option>engine</option><option>battery</option>" in page
    assert looked_at.client.get("/fit/template.pdf?part=wing").status_code == 404


def test_the_best_place_is_a_question_of_the_page(looked_at: Bench) -> None:
    page = looked_at.client.get(f"/fit?{DRAWN}=The-best-place").text
    assert "The best place" in page
    assert "at the best place" in page or "there is no place for it" in page
    assert "Map of fore and aft" in page
    assert "What holds it" in page
