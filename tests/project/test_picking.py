"""A pick is written by reading only the part of the file that it stands in."""

from pathlib import Path

import pytest

from drybuild.errors import SaveError
from drybuild.project.edit import change, change_part
from drybuild.project.editing import take_pick
from drybuild.project.load import load
from drybuild.project.parse import parse
from drybuild.project.writing import AsTyped

FILE = Path("build.yaml")
PICKS = "picks:\n  engine: original   # for now\n  axle: 'long'\n"
TEXTS = {
    "last": "build: one\n" + PICKS,
    "first": PICKS + "build: one\nbrief:\n  must: [a <= 1 kg]\n",
    "between": f"build: one\n\n# what stands\n{PICKS}# what is offered\noptions: {{}}\n",
    "in brackets": "build: one\npicks: {engine: original, axle: long}\nunits: us\n",
    "a key within a text": f'build: "one\n\npicks: none\n"\n{PICKS}',
    "a value that repeats": "picks:\n  engine: &x original\n  axle: *x\nbuild: one\n",
    "other line ends": ("build: one\n" + PICKS + "units: us\n").replace("\n", "\r\n"),
    "no picks": "build: one\nunits: us\n",
}


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
@pytest.mark.parametrize("system", ["engine", "axle", "seats"])
@pytest.mark.parametrize("value", ["larger", "?", "the 2.0: 'big', #1"])
def test_the_text_is_as_when_the_whole_is_read(text, system, value):
    keys = list(parse(FILE, text).root.entries)
    words = (("picks", system), AsTyped(value))
    assert _told(change_part, FILE, text, keys, *words) == _told(change, FILE, text, *words)


def _told(act, *words):
    try:
        return act(*words)
    except SaveError as fault:
        return str(fault)


BUILD = """\
build: Ferrin 1500, invented
picks:
  engine: original
options:
  engine:
    original: {as_is: true, mass: 130 kg}
    larger: {mass: 150 kgg}
  gearbox:
    original: {as_is: true}
"""
LAST = (
    "build: Ferrin 1500, invented\n"
    + BUILD.partition("options")[2].join(("options", ""))
    + ("picks:\n  engine: original\n")
)


@pytest.mark.parametrize("text", [BUILD, LAST, BUILD.replace("original\n", "orignal\n", 1)])
@pytest.mark.parametrize(("system", "option"), [("engine", "larger"), ("gearbox", "original")])
def test_a_build_with_a_pick_is_as_when_read_anew(tmp_path, text, system, option):
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    picked = take_pick(load(tmp_path), system, option)
    again = load(tmp_path)
    assert dict(picked.picks) == dict(again.picks)
    assert picked.picks[system] == option
    assert (picked.hashes, picked.problems) == (again.hashes, again.problems)
    assert (
        picked.options["engine"]["larger"].where.line
        == again.options["engine"]["larger"].where.line
    )
