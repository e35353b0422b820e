"""What forms change, and that no change is ever lost."""

import html
import re

import numpy as np
import pytest
from markupsafe import escape
from tests.workbench.benches import SMALL, bench

from drybuild.quantities.graph import Evaluation

WHEELBASE = {"address": "car.body.wheelbase", "was": "2480 ± 3 mm", "here": "/car"}


def test_an_entry_is_changed_in_place(open_bench):
    answer = open_bench.post("/set", value="97.6 in", **WHEELBASE)
    assert answer.url.path == "/car"
    assert open_bench.text == SMALL.replace("2480 ± 3 mm", "97.6 in")
    assert 'value="97.6 in"' in answer.text


def test_a_value_that_does_not_read_is_told_and_not_saved(open_bench):
    answer = open_bench.post("/set", value="97.6", **WHEELBASE)
    assert answer.status_code == 422
    assert "no unit" in answer.text
    assert open_bench.text == SMALL


def test_origin_and_note_take_the_long_form(open_bench):
    open_bench.post("/set", value="2490 mm", origin="handbook", note="the maker's", **WHEELBASE)
    given = open_bench.desk.build.car["body"].given["wheelbase"]
    assert (given.text, str(given.origin), given.note) == ("2490 mm", "handbook", "the maker's")


def test_an_empty_value_takes_the_entry_out(open_bench):
    open_bench.post("/set", value="", **WHEELBASE)
    assert "wheelbase" not in open_bench.text
    assert "keep this comment" in open_bench.text


def test_a_list_in_brackets_stays_a_list(open_bench):
    open_bench.post("/set", address="brief.keep", was="", here="/", value="[bonnet, tunnel]")
    assert open_bench.desk.build.brief.given["keep"] == ("bonnet", "tunnel")


def test_a_pick_is_taken_undone_and_done_again(open_bench):
    form = {"system": "engine", "here": "/choices"}
    open_bench.post("/pick", option="larger", was="original", **form)
    assert open_bench.text == SMALL.replace("engine: original\n", "engine: larger\n")
    open_bench.post("/undo", here="/choices")
    assert open_bench.text == SMALL
    open_bench.post("/redo", here="/choices")
    assert open_bench.desk.build.picks["engine"] == "larger"


def test_a_pick_that_is_not_there_is_refused(open_bench):
    answer = open_bench.post("/pick", system="engine", option="warp", was="original", here="/")
    assert answer.status_code == 422
    assert open_bench.text == SMALL


def test_a_system_without_picks_gets_one(open_bench):
    open_bench.post("/pick", system="gearbox", option="five-speed", was="?", here="/choices")
    assert open_bench.desk.build.picks["gearbox"] == "five-speed"
    assert open_bench.text.startswith(SMALL)


def test_an_outside_change_is_told_and_shown(open_bench):
    changed = SMALL.replace("2480", "2500")
    (open_bench.folder / "build.yaml").write_text(changed, "utf-8")
    page = open_bench.client.get("/car").text
    assert "Changed outside" in page
    assert "2500 ± 3 mm" in page
    assert "Changed outside" in open_bench.client.get("/car").text  # until the next change
    open_bench.post("/pick", system="engine", option="larger", was="original", here="/car")
    assert "Changed outside" not in open_bench.client.get("/car").text


def test_two_changes_of_one_entry_are_shown_to_choose_from(open_bench):
    changed = SMALL.replace("2480 ± 3 mm", "2500 ± 1 mm")
    (open_bench.folder / "build.yaml").write_text(changed, "utf-8")
    answer = open_bench.post("/set", value="2490 mm", **WHEELBASE)
    assert answer.status_code == 409
    assert open_bench.text == changed
    assert "2500 ± 1 mm" in answer.text
    assert "2490 mm" in answer.text
    shown = dict(
        re.findall(r'name="(\w+)" value="([^"]*)"', answer.text.partition('class="two"')[2])
    )
    open_bench.post("/set", **{name: html.unescape(one) for name, one in shown.items()})
    assert "wheelbase: 2490 mm" in open_bench.text


def test_two_windows_do_not_undo_each_others_picks(open_bench):
    form = {"system": "engine", "here": "/choices"}
    open_bench.post("/pick", option="larger", was="original", **form)
    answer = open_bench.post("/pick", option="?", was="original", **form)
    assert answer.status_code == 409
    assert open_bench.desk.build.picks["engine"] == "larger"


def test_another_entry_changed_outside_is_no_clash(open_bench):
    (open_bench.folder / "build.yaml").write_text(SMALL.replace("1400 kg", "1300 kg"), "utf-8")
    open_bench.post("/set", value="2490 mm", **WHEELBASE)
    assert "kerb_mass <= 1300 kg" in open_bench.text
    assert "wheelbase: 2490 mm" in open_bench.text


@pytest.mark.parametrize("address", ["format", "include", "picks.engine", "", "..", "a[", "car"])
def test_only_entries_of_pages_can_be_set(open_bench, address):
    answer = open_bench.post("/set", address=address, value="1", was="", here="/")
    assert answer.status_code in (409, 422)
    assert open_bench.text == SMALL


@pytest.mark.parametrize("here", ["//evil.example", "http://evil.example", "/\\evil", "/nowhere"])
def test_nobody_is_sent_elsewhere(open_bench, here):
    answer = open_bench.client.post(
        "/undo", data={"here": here}, headers={"origin": open_bench.origin}, follow_redirects=False
    )
    assert answer.headers["location"] == "/"


def test_a_job_is_added(open_bench):
    hours = {"with.hours": "8 / 12 / 20 h", "with.cost": ""}
    open_bench.post("/add", inside="jobs", name="weld: the sill", here="/work", **hours)
    assert "weld: the sill" in open_bench.desk.build.named["jobs"]
    again = open_bench.post("/add", inside="jobs", name="weld: the sill", here="/work", **hours)
    assert again.status_code == 422


def test_an_option_is_added_and_a_slip_in_it_is_told(open_bench):
    more = {"inside": "options.axle", "name": "taller", "here": "/choices"}
    slip = open_bench.post("/add", **more, **{"with.price": "320"})
    assert slip.status_code == 422
    assert "currency" in slip.text
    open_bench.post("/add", **more, **{"with.price": "320 EUR"})
    assert open_bench.desk.build.options["axle"]["taller"].given["price"].value == 320.0


def test_nothing_is_added_outside_its_places(open_bench):
    for inside in ("picks", "build", "limits", "..", ""):
        answer = open_bench.post("/add", inside=inside, name="x", here="/")
        assert answer.status_code == 422, inside
    assert open_bench.text == SMALL


def test_an_option_is_renamed_with_its_pick(open_bench):
    open_bench.post("/rename", address="options.engine.original", name="as it is", here="/choices")
    assert "    as it is: {as_is: true" in open_bench.text
    assert "engine: as it is" in open_bench.text
    assert "needs: {engine: [larger]}" in open_bench.text
    assert open_bench.post("/rename", address="car.body", name="hull", here="/").status_code == 422


def test_an_entry_is_taken_out_unless_it_is_still_picked(open_bench):
    def gone(address: str, was: str) -> int:
        more = {"was": was, "here": "/choices", "take": "out"}
        return open_bench.post("/set", address=address, **more).status_code

    was = "{as_is: true, mass: 130 kg, power: 50 kW at 5000 rpm}"
    assert gone("options.engine.original", was) == 422
    assert gone("options.gearbox.original", "{as_is: true}") == 200
    assert "original" not in open_bench.desk.build.options["gearbox"]
    assert gone("brief.must[0]", "kerb_mass <= 1400 kg") == 200
    assert "kerb_mass" not in open_bench.text


def test_origin_and_note_make_the_long_form_and_comments_stay(open_bench):
    long = {"address": "car.body.wheelbase", "here": "/car"}
    open_bench.post(
        "/set", **long, was="2480 ± 3 mm", value="2480 ± 3 mm", origin="quoted", note="by letter"
    )
    written = "wheelbase: {value: 2480 ± 3 mm, from: quoted, note: by letter}"
    assert written in open_bench.text
    assert "keep this comment" in open_bench.text
    taken = open_bench.desk.build.car["body"].given["wheelbase"]
    assert (taken.origin, taken.note) == ("quoted", "by letter")
    form = open_bench.client.get("/car").text
    assert 'value="2480 ± 3 mm"' in form
    assert "“by letter”" in form
    was = "{value: 2480 ± 3 mm, from: quoted, note: by letter}"
    open_bench.post("/set", **long, was=was, value="2481 ± 1 mm", origin="", note="")
    assert "wheelbase: 2481 ± 1 mm}" in open_bench.text


def test_comments_within_an_entry_of_several_lines_stay(tmp_path):
    long = """
    wheelbase:
      # the long tape
      value: 2480 mm  # twice
      plus_minus: 3 mm
      from: measured
"""
    text = SMALL.replace("  body: {kind: unitary, wheelbase: 2480 ± 3 mm}\n",
                         f"  body:\n    kind: unitary{long}")  # fmt: skip
    with bench(tmp_path, text) as found:
        was = "{value: 2480 mm, plus_minus: 3 mm, from: measured}"
        form = {"address": "car.body.wheelbase", "here": "/car", "origin": "quoted", "note": "seen"}
        found.post("/set", **form, was=was, value="2481 mm ± 2 mm")
        new = long.replace("2480", "2481").replace("3 mm", "2 mm").replace("measured", "quoted")
        assert found.text == text.replace(long, f"{new}      note: seen\n")
        assert found.client.get("/car").text.count('value="2481 mm ± 2 mm"') == 1
        was = "{value: 2481 mm, plus_minus: 2 mm, from: quoted, note: seen}"
        form |= {"origin": "", "note": ""}
        found.post("/set", **form, was=was, value="2500 mm")
        assert "      # the long tape\n      value: 2500 mm  # twice\noptions" in found.text


def test_a_finding_is_written_changed_and_taken_out(open_bench):
    def find(was: str, **finding: str) -> int:
        more = {"zone": "tunnel", "was": was, "here": "/shell?zone=tunnel"}
        return open_bench.post("/finding", **more, **finding).status_code

    assert find("", found="patch", judged="tapped", note="") == 200
    assert "tunnel" in open_bench.text
    assert find("", found="sound", judged="probed", note="") == 409
    first = "{found: patch, judged: tapped}"
    assert find(first, found="replace", judged="probed", note="soft: all of it") == 200
    zone = open_bench.desk.build.tops["survey"].given["zones"]["tunnel"]
    assert zone.given == {"found": "replace", "judged": "probed", "note": "soft: all of it"}
    now = '{found: replace, judged: probed, note: "soft: all of it"}'
    gauged = {"found": "replace", "judged": "measured", "thickness": "0.5 mm", "note": ""}
    assert find(now, **gauged) == 200
    zone = open_bench.desk.build.tops["survey"].given["zones"]["tunnel"]
    assert zone.given["thickness"].value == pytest.approx(0.5e-3)
    now = "{found: replace, judged: measured, thickness: 0.5 mm}"
    again = {"found": "replace", "judged": "probed", "note": "soft: all of it"}
    assert find(now, **again) == 200
    wrong = open_bench.post("/finding", zone="nose", was="", found="patch", here="/shell")
    assert wrong.status_code == 422
    now = '{found: replace, judged: probed, note: "soft: all of it"}'
    assert find(now, found="", judged="looked", note="") == 200
    assert "tunnel" not in open_bench.text


def test_parts_with_names_of_ones_own_are_added_and_taken_out(open_bench):
    box = {"inside": "car.bay.boxes", "here": "/car", "name": "the heater"}
    assert "Add to boxes" in open_bench.client.get("/car").text
    answer = open_bench.post("/add", **box, **{"with.rear": "-300 mm", "with.top": "8 kg"})
    assert answer.status_code == 422
    assert "kg" in answer.text
    assert open_bench.text == SMALL
    answer = open_bench.post("/add", **box, **{"with.rear": "-300 mm", "with.top": "610 mm"})
    assert answer.status_code == 200
    given = open_bench.desk.build.car["bay"].given["boxes"]["the heater"].given
    assert [*given] == ["rear", "top"]
    assert "Take the heater out" not in answer.text  # one of many parts is shown at a time
    shown = open_bench.client.get("/car?part=car.bay.boxes.the heater").text
    assert "Take the heater out" in shown
    assert 'id="e-car-bay-boxes-the-heater-rear"' in shown
    place = {"address": "car.bay.boxes.the heater", "here": "/car", "take": "out"}
    assert open_bench.post("/set", **place, was="{rear: -300 mm}").status_code == 409
    was = "{rear: -300 mm, top: 610 mm}"
    assert "Take the heater out" not in open_bench.post("/set", **place, was=was).text
    solid = {"inside": "car.bay.solids", "here": "/car", "name": "battery"}
    corner, size = "[0.1 m, 0.3 m, 0.5 m]", "[240 mm, 175 mm, 190 mm]"
    answer = open_bench.post("/add", **solid, **{"with.centre": corner, "with.size": size})
    assert answer.status_code == 200
    for line in (f"centre: {corner}", f"size: {size}"):
        assert line in open_bench.text


def test_a_wall_is_lofted_from_stations_that_are_asked_for_at_once(open_bench):
    page = open_bench.client.get("/car").text
    for number in (1, 2):
        assert f'name="part.stations.{number}.heights"' in page
    wall = {"inside": "car.bay.lofts", "here": "/car", "name": "tower"}
    stations = [("rear", "-430 mm", 428), ("front", "450 mm", 421)]
    for number, (name, x, half) in enumerate(stations, start=1):
        head = f"part.stations.{number}"
        wall |= {f"{head}.name": name, f"{head}.x": x, f"{head}.heights": "[120 mm, 560 mm]"}
        wall[f"{head}.half"] = f"[{half} ± 5 mm, 440 mm]"
    for wrong, told in (
        ({"part.stations.2.x": "8 kg"}, "kg"),
        ({"part.stations.2.name": ""}, "name"),
    ):
        answer = open_bench.post("/add", **{**wall, **wrong})
        assert answer.status_code == 422
        assert told in answer.text
        assert open_bench.text == SMALL
    assert open_bench.post("/add", **wall).status_code == 200
    rear = "rear: x: -430 mm heights: [120 mm, 560 mm] half: [428 ± 5 mm, 440 mm]"
    assert rear in " ".join(open_bench.text.split())
    page = open_bench.client.get("/car?part=car.bay.lofts.tower").text
    inside = re.search(r'name="inside" value="(car\.bay\.lofts\.tower\.stations)"', page)[1]
    more = {"with.x": "10 mm", "with.heights": "[120 mm, 560 mm]", "with.half": "[402 mm, 410 mm]"}
    assert open_bench.post("/add", inside=inside, name="strut", here="/car", **more).is_success
    found = Evaluation(open_bench.desk.session.graph, open_bench.desk.build, 20)
    walls = {one.name: one for one in found.result("placed_bay").value.solids}
    corners = np.concatenate([one.nominal for one in walls["left tower"].pieces])
    assert corners[:, 0].min() == pytest.approx(-0.430)
    assert corners[:, 1].min() == pytest.approx(0.402)  # the nearest that the tape read


def test_the_shell_is_measured_on_its_points_on_the_page(open_bench):
    page = open_bench.client.get("/shell").text
    assert 'id="e-datum-lengths-1-left-to-2-right-v"' in page
    assert 'id="e-datum-openings-windscreen-rising-v"' in page
    form = {"address": "datum.lengths.1 left to 2 right", "was": "", "here": "/shell"}
    assert 'name="address" value="datum.lengths.1 left to 2 right"' in page
    told = open_bench.post("/set", **form, value="883 kg")
    assert told.status_code == 422
    assert "kg" in told.text
    page = open_bench.post("/set", **form, value="34 3/4 in").text
    assert "1 left to 2 right: 34 3/4 in" in open_bench.text
    assert 'value="34 3/4 in"' in page
    given = open_bench.desk.build.tops["datum"].given["lengths"]["1 left to 2 right"]
    assert given.value == pytest.approx(0.88265)
    assert given.origin == "measured"


HOSTILE = "<script>alert(1)</script>\"'&{{7*7}}"


def test_names_are_text_whatever_they_say(tmp_path):
    name = HOSTILE.replace('"', '\\"')
    text = SMALL.replace("Ferrin 1500 ", f'"{name}" ').replace("larger", f'"{name}"')
    with bench(tmp_path, text) as found:
        assert found.desk.build.name == HOSTILE
        for path in ("/", "/choices", "/work", "/verdicts", "/book"):
            page = found.client.get(path).text
            assert "<script>alert" not in page
            assert "49" not in page.partition("<title>")[2].partition("</title>")[0]
        assert str(escape(HOSTILE)) in found.client.get("/choices").text
        found.post("/pick", system="engine", option=HOSTILE, was="original", here="/choices")
        assert found.desk.build.picks["engine"] == HOSTILE


def test_a_broken_file_opens_with_its_problems(tmp_path):
    with bench(tmp_path, SMALL.replace("2480 ± 3 mm", "2480")) as found:
        page = found.client.get("/car").text
        assert "1 problem in the build file" in page
        assert "no unit" in page


def test_a_question_that_is_no_longer_asked_stands_among_what_moved(open_bench):
    open_bench.desk.wait()
    wanted = {"address": "brief.must[1]", "was": "wheel_diameter <= 16 in", "here": "/"}
    open_bench.post("/set", take="out", value="", **wanted)
    open_bench.desk.wait()
    page = open_bench.client.get("/").text
    assert "The last change moved 1 verdict<" in page
    assert '<span class="faint">not asked</span>' in page


def test_what_a_pick_leaves_alone_stands_as_it_was_settled(open_bench, monkeypatch):
    desk = open_bench.desk
    desk.wait()
    settled = {one.check: one for one in desk.verdicts()}
    monkeypatch.setattr("drybuild.workbench.desk.LOOK", -1.0)  # no time to judge anything anew
    with desk.lock:
        desk.pick("engine", "larger")
        looked, waiting = desk.verdicts(), desk.waiting()
    quantities = {one.check.quantity for one in looked}
    assert "wheel_diameter" in quantities
    assert all(one is settled[one.check] for one in looked)
    assert "kerb_mass" in {one.quantity for one in waiting}
    before = {one.check: one.state for one in looked}
    desk.wait()
    assert all(before.get(one.check, one.state) == one.state for one in desk.verdicts())
