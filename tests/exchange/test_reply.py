"""A reply is read within bounds, reviewed, and taken over in one step."""

import dataclasses
import re
import tempfile
from pathlib import Path

import pytest
import yaml

from drybuild.exchange.merge import effects, reply_to, take
from drybuild.exchange.reply import LARGEST_REPLY, MOST_SUGGESTIONS
from drybuild.exchange.share import LEFT_OUT, template, write_shared
from drybuild.project.load import load
from drybuild.session import Session, redo, undo
from tests.workbench.benches import SMALL

GOOD = """\
reply: 1
author: Ada Example
options:
  engine:
    smaller: {mass: 90 kg, power: 40 kW at 5000 rpm, price: 500 EUR, note: it fits mine}
values:
  - {at: car.body.wheelbase, value: 2482 ± 1 mm, from: measured, note: taken on my own}
  - {at: car.body.kind, value: unitary}
notes:
  - {about: the gearbox, says: "ask for the <b>later</b> one"}
"""


@pytest.fixture
def place(tmp_path):
    (tmp_path / "build.yaml").write_text(SMALL, encoding="utf-8")
    return tmp_path


def reply(place: Path, text: str | bytes, name: str = "reply.yaml"):
    data = text.encode() if isinstance(text, str) else text
    return reply_to(place, load(place), name, data)


def test_each_suggestion_says_what_it_would_do(place):
    found = reply(place, GOOD)
    assert found.problems == ()
    assert [one.kind for one in found.suggestions] == ["option", "value", "value", "note"]
    assert found.suggestions[1].stands == "2480 ± 3 mm"
    session = Session.open(place, 200)
    done = dict(effects(session, found.suggestions))
    engine = done[found.suggestions[0].id]
    assert "Mass" in engine.figures[0][0]
    assert engine.figures[0][1] != engine.figures[0][2]
    assert (place / "build.yaml").read_text("utf-8") == SMALL


def test_what_is_taken_names_its_author_and_is_one_step_to_undo(place):
    found = reply(place, GOOD)
    take(place, found, [one.id for one in found.suggestions])
    text = (place / "build.yaml").read_text("utf-8")
    build = load(place)
    assert build.problems == ()
    assert "keep this comment" in text
    assert build.options["engine"]["smaller"].given["note"] == (
        "Suggested by Ada Example. it fits mine"
    )
    wheelbase = build.car["body"].given["wheelbase"]
    assert (str(wheelbase.origin), wheelbase.note) == (
        "measured",
        "Reply of Ada Example. taken on my own",
    )
    assert [one.given["by"] for one in build.named["advice"].values()] == ["Ada Example"]
    assert build.picks == load(place).picks == {"engine": "original"}
    undo(place)
    assert (place / "build.yaml").read_text("utf-8") == SMALL
    redo(place)
    assert (place / "build.yaml").read_text("utf-8") == text


def test_several_files_are_one_step_too(place):
    head, tail = SMALL.split("options:\n", 1)
    (place / "build.yaml").write_text(head, encoding="utf-8")
    (place / "parts.yaml").write_text("options:\n" + tail, encoding="utf-8")
    found = reply(place, GOOD)
    take(place, found, [one.id for one in found.suggestions])
    assert "smaller" in (place / "parts.yaml").read_text("utf-8")
    assert "2482" in (place / "build.yaml").read_text("utf-8")
    undo(place)
    assert (place / "build.yaml").read_text("utf-8") == head
    assert (place / "parts.yaml").read_text("utf-8") == "options:\n" + tail
    redo(place)
    assert "2482" in (place / "build.yaml").read_text("utf-8")
    assert "smaller" in (place / "parts.yaml").read_text("utf-8")


def test_only_what_is_chosen_is_taken(place):
    found = reply(place, GOOD)
    take(place, found, [found.suggestions[1].id])
    assert (place / "build.yaml").read_text("utf-8").count("\n") == SMALL.count("\n")
    assert "smaller" not in (place / "build.yaml").read_text("utf-8")


def test_everything_wrong_is_told_at_once_with_its_line(place):
    found = reply(
        place,
        """\
reply: 1
author: Ada
options:
  engine:
    larger: {mass: 100 kg}
    light: {mass: 100, shape: ../../etc/passwd, colour: red}
  engin:
    one: {mass: 1 kg}
values:
  - {at: picks.engine, value: larger}
  - {at: car.body.wheelbase, value: 2500 kg}
  - {at: car.body.wheelbase}
  - just words
notes:
  - {about: brakes}
surprise: 1
""",
    )
    told = {(one.line, one.code) for one in found.problems}
    assert {
        (5, "reply-name-taken"),
        (6, "unit-missing"),
        (6, "unknown-key"),
        (6, "reply-forbidden"),
        (7, "reply-unknown"),
        (10, "reply-unknown"),
        (12, "reply-shape"),
        (13, "reply-shape"),
        (15, "reply-shape"),
        (16, "reply-unknown"),
    } <= told
    assert any(line == 11 for line, _ in told)
    assert {one.file.name for one in found.problems} == {"reply.yaml"}
    assert not any(one.sound for one in found.suggestions)


HOSTILE = {
    "huge": b"reply: 1\nauthor: " + b"x" * LARGEST_REPLY,
    "an anchors bomb": (
        "reply: 1\na: &a [x, x, x, x, x, x, x, x, x]\n"
        + "".join(
            f"{name}: &{name} [{', '.join(['*' + before] * 9)}]\n"
            for before, name in zip("abcdefgh", "bcdefghi", strict=True)
        )
    ).encode(),
    "deep nesting": b"reply: 1\nnotes: " + b"[" * 5000 + b"]" * 5000,
    "a long text": b"reply: 1\nnotes: [{says: " + b"x" * 3000 + b"}]",
    "not text": bytes(range(256)),
    "another format": b"reply: 2\nnotes: [{says: hello}]",
    "nothing": b"\n",
    "a list": b"- 1\n- 2\n",
    "a tag": b"reply: 1\nnotes: !!python/object/apply:os.system [{says: hello}]\n",
    "types": b"reply: [1]\nauthor: {a: 1}\noptions: 7\nvalues: {a: 1}\nnotes: word\n",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_replies_are_refused_clearly(place, name):
    found = reply(place, HOSTILE[name])
    assert found.problems
    for one in found.problems:
        assert one.wrong
        assert one.mend
        assert len(str(one)) < 1000
    assert (place / "build.yaml").read_text("utf-8") == SMALL


def test_too_many_suggestions_are_cut(place):
    many = "".join(f"  - {{says: word {number}}}\n" for number in range(MOST_SUGGESTIONS + 5))
    found = reply(place, f"reply: 1\nnotes:\n{many}")
    assert len(found.suggestions) == MOST_SUGGESTIONS
    assert found.problems[0].code == "reply-too-large"


def test_markup_and_paths_stay_text(place):
    found = reply(
        place,
        "reply: 1\nauthor: '<script>'\noptions: {engine: {'../../x: <i>\"': {mass: 99 kg}}}\n",
        name="../../etc/reply<b>.yaml",
    )
    assert found.problems == ()
    take(place, found, [found.suggestions[0].id])
    assert '../../x: <i>"' in load(place).options["engine"]
    assert sorted(one.name for one in place.iterdir()) == ["build.yaml", "history.jsonl"]


def test_the_template_reads_as_it_is_and_when_filled_in(place):
    session = Session.open(place, 100)
    text = template(session)
    assert reply(place, text).problems == ()
    filled = re.sub(r"^#(  .*)$", r"\1", text, flags=re.MULTILINE)
    assert yaml.safe_load(filled)["values"][0]["from"] == "measured"
    found = reply(place, filled)
    assert [one.kind for one in found.suggestions] == ["option", "value", "note"]
    assert found.problems == ()


def test_the_shared_file_stands_by_itself_and_leaves_out_what_is_private(tmp_path):
    text = SMALL + "work: {places: {secret shed: 1}}\n"
    text += "jobs: {strip: {hours: 5 h, place: secret shed}}\n"
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    session = Session.open(tmp_path, 100)
    with tempfile.TemporaryDirectory() as room:
        for private in ((), ("money", "places")):
            write_shared(session, Path(room) / "s.html", private)
            page = (Path(room) / "s.html").read_text("utf-8")
            assert "<script" not in page
            assert not re.search(r'(?:src|href)="(?!#|data:)', page)
            assert not re.search(r"@import|url\((?!#|[\"']?(?:#|data:))", page)
            assert str(tmp_path) not in page
            assert "How to answer" in page
            assert "reply: 1" in page
            assert ("EUR" not in page.replace("900 EUR", "")) or not private
            assert ("secret shed" in page) <= (not private)
    assert LEFT_OUT in page


def test_a_suggestion_that_is_faulty_cannot_be_taken(place):
    found = reply(place, GOOD)
    broken = dataclasses.replace(found.suggestions[0], value={"mass": "heavy"})
    with pytest.raises(Exception, match="do not read"):
        take(place, dataclasses.replace(found, suggestions=(broken,)), [broken.id])
    assert (place / "build.yaml").read_text("utf-8") == SMALL
