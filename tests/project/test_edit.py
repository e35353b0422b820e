from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.project.yaml_texts import texts

from drybuild.errors import SaveError
from drybuild.project.document import Listing, Mapping, Scalar
from drybuild.project.edit import AsTyped, change, node_at, remove, value_of
from drybuild.project.parse import parse

FILE = Path("build.yaml")

BUILD = """\
# Tarn 1700, an invented car
build: 'Tarn 1700'   # the name

car:
  body: {kind: unitary, wheelbase: 2540 ± 3 mm, "frontal area": ~1.95 m²}  # tape
  mass:
      front_axle: 545 kg
      # to be weighed again
      rear_axle: "505 kg"
options:
  engine:
    2.0 twin:
      note: |  # as told
        first line

        second line
      curve: [[1500 rpm, 210 N·m],
              [3000 rpm, 260 N·m]]
      long: this goes on
        and on
jobs:
- what: strip
  hours: 40
- what: blast
nothing:
empty: {}
"""


def edited(address, value):
    return change(FILE, BUILD, address, value)


@pytest.mark.parametrize(
    ("address", "value", "old", "new"),
    [
        ("car.body.wheelbase", "2545 mm", "2540 ± 3 mm", "2545 mm"),
        ("build", "Tarn's", "'Tarn 1700'", "'Tarn''s'"),
        ("build", "a\tb", "'Tarn 1700'", '"a\\tb"'),
        ("car.mass.rear_axle", "510 kg", '"505 kg"', '"510 kg"'),
        ("car.mass.front_axle", "a: b", "545 kg", '"a: b"'),
        ("car.mass.front_axle", "a #b", "545 kg", '"a #b"'),
        ("car.mass.front_axle", "no", "545 kg", "no"),
        ("car.mass.front_axle", "true", "545 kg", '"true"'),
        ("car.mass.front_axle", AsTyped("true"), "545 kg", "true"),
        ("car.mass.front_axle", True, "545 kg", "true"),
        ("car.mass.front_axle", AsTyped("?"), "545 kg", '"?"'),
        ("car.mass.front_axle", "- x", "545 kg", '"- x"'),
        ("car.mass.front_axle", "a, b", "545 kg", "a, b"),
        ("car.body.kind", "a, b", "unitary", '"a, b"'),
        ("car.body.kind", None, "unitary", "null"),
        ("car.body.kind", ["a", "b: c"], "unitary", '[a, "b: c"]'),
        ("jobs[0].hours", "44", "hours: 40", "hours: 44"),
        ("jobs[0].hours", 44, "hours: 40", "hours: 44"),
        ("jobs[1].what", "blast and prime", "blast", "blast and prime"),
        ('options.engine."2.0 twin".long', "short", "this goes on\n        and on", "short"),
        ('options.engine."2.0 twin".curve[1][0]', "3100 rpm", "3000 rpm", "3100 rpm"),
        ('options.engine."2.0 twin".curve[1]', ["1", "2"], "[3000 rpm, 260 N·m]", '["1", "2"]'),
        (
            'options.engine."2.0 twin".note',
            "one\ntwo",
            "|  # as told\n        first line\n\n        second line",
            "|-  # as told\n        one\n        two",
        ),
        ('options.engine."2.0 twin".note', "one\n", "first line\n\n        second line", "one"),
        ("car.body.doors", "2", "~1.95 m²}", '~1.95 m², doors: "2"}'),
        ("car.mass.total", "1050 kg", '"505 kg"\n', '"505 kg"\n      total: 1050 kg\n'),
        ("car.tyres.front.size", "165 R 13", '"505 kg"\n',
         '"505 kg"\n  tyres:\n    front: {size: 165 R 13}\n'),
        ("nothing.more", "x", "nothing:\n", "nothing:\n  more: x\n"),
        ("nothing", "x", "nothing:\n", "nothing: x\n"),
        ("empty.a.b", "x", "empty: {}", "empty: {a: {b: x}}"),
        ("jobs[2]", {"what": "prime", "hours": 8}, "- what: blast\n",
         "- what: blast\n- what: prime\n  hours: 8\n"),
        ("jobs[1].hours", "12 h", "- what: blast\n", "- what: blast\n  hours: 12 h\n"),
    ],
)  # fmt: skip
def test_an_edit_touches_its_own_place_only(address, value, old, new):
    assert BUILD.count(old) >= 1
    assert edited(address, value) == BUILD.replace(old, new, 1)


def test_a_new_top_level_key_goes_to_the_end():
    new = edited("picks.engine", "2.0 twin")
    assert new == BUILD + "picks:\n  engine: 2.0 twin\n"


def test_a_large_new_part_is_laid_out_in_lines():
    part = {
        "mass": "138 kg",
        "note": "bought\nsecond hand\n",
        "alters": ["engine mounts", "tunnel"],
        "gearing": [{"name": "first", "ratio": "3.6"}, {"name": "second", "ratio": "2.1: 1"}],
        "fits": {},
    }
    lines = """\
    turbo four:
      mass: 138 kg
      note: |
        bought
        second hand
      alters: [engine mounts, tunnel]
      gearing:
        - name: first
          ratio: "3.6"
        - name: second
          ratio: "2.1: 1"
      fits: {}
"""
    where = "        and on\n"
    assert edited("options.engine.turbo four", part) == BUILD.replace(where, where + lines)


@pytest.mark.parametrize(
    ("address", "old", "new"),
    [
        ("build", "build: 'Tarn 1700'   # the name\n", ""),
        ("car.body.kind", "kind: unitary, ", ""),
        ("car.body.frontal area", ', "frontal area": ~1.95 m²', ""),
        ("car.mass.front_axle", "      front_axle: 545 kg\n", ""),
        ("car.mass.rear_axle", '      rear_axle: "505 kg"\n', ""),
        ("jobs[0].what", "- what: strip\n  hours", "- hours"),
        ("jobs[0]", "- what: strip\n  hours: 40\n", ""),
        ("jobs[1].what", "- what: blast\n", "- {}\n"),
        (
            'options.engine."2.0 twin"',
            BUILD[BUILD.index("    2.0 twin") : BUILD.index("jobs:")],
            "",
        ),
        ('options.engine."2.0 twin".curve[0]', "[1500 rpm, 210 N·m],\n              ", ""),
        ("empty", "empty: {}\n", ""),
    ],
)
def test_an_entry_is_taken_out_with_its_line(address, old, new):
    if address.startswith("options.engine") and address.endswith('"'):
        old, new = "  engine:\n" + old, "  engine: {}\n"
    assert BUILD.count(old) == 1
    assert remove(FILE, BUILD, address) == BUILD.replace(old, new)


def test_a_flow_mapping_over_several_lines_grows_by_a_line():
    text = "a: {\n  b: 1,  # one\n  c: 2   # two\n}\n"
    assert change(FILE, text, "a.d", "x") == "a: {\n  b: 1,  # one\n  c: 2,   # two\n  d: x\n}\n"
    text = "a: [\n  b,\n  c,\n]\n"
    assert change(FILE, text, "a[2]", "x") == "a: [\n  b,\n  c,\n  x,\n]\n"


def test_a_block_becomes_a_single_value_and_back():
    text = "a:  # why\n  # inner\n  b: 1\n  c: 2\nd: 3\n"
    assert change(FILE, text, "a", "x") == "a: x  # why\n  # inner\nd: 3\n"
    assert change(FILE, text, "a", {"e": "5"}) == 'a:  # why\n  # inner\n  e: "5"\nd: 3\n'
    assert change(FILE, "a: x  # why\n", "a", {"b": "c"}) == "a: {b: c}  # why\n"


def test_line_endings_and_byte_order_mark_stay():
    text = "\ufeffa:\r\n  b: 1\r\nc: x"
    assert change(FILE, text, "a.d", "y") == "\ufeffa:\r\n  b: 1\r\n  d: y\r\nc: x"
    assert change(FILE, text, "e", "y") == text + "\r\ne: y"
    assert remove(FILE, text, "c") == "\ufeffa:\r\n  b: 1\r\n"


def test_an_empty_file_takes_a_first_entry():
    assert change(FILE, "", "a.b", "c") == "a:\n  b: c\n"
    assert change(FILE, "# mine\n", "a", "c") == "# mine\na: c\n"


def test_a_text_block_at_the_very_end_stays_the_same_text():
    assert change(FILE, "a: |\n  text", "b", "c") == "a: |-\n  text\nb: c"


def test_a_text_block_at_the_end_of_a_part_takes_in_nothing_below_it():
    text = "a:\n  b: 1\n  c: 2  # mine\nd: 3\n"
    value = {"b": "1", "e": "line\n"}
    assert change(FILE, text, "a", value) == "a:\n  b: 1\n  e: |\n    line\nd: 3\n"
    new = "a:\n  e: |\n    line\n  # mine\nd: 3\n"
    assert change(FILE, text, "a", {"e": "line\n"}) == new
    new = "a:\n  e: |\n    line\n"
    assert change(FILE, "a:\n  b: 1", "a", {"e": "line\n"}) == new


LONG = """\
wheelbase:  # taken on the bench
  # with the long tape
  value: "2540 mm"  # twice
  plus_minus: 3 mm
  # after the crash
  from: measured  # by me
"""


@pytest.mark.parametrize(
    ("value", "old", "new"),
    [
        ({"value": AsTyped("2541 mm"), "plus_minus": AsTyped("3 mm"), "from": AsTyped("measured")},
         "2540", "2541"),
        ({"value": AsTyped("2540 mm"), "plus_minus": AsTyped("3 mm"), "from": AsTyped("quoted"),
          "note": "by letter"},
         "from: measured  # by me\n", "from: quoted  # by me\n  note: by letter\n"),
        ({"value": AsTyped("2540 mm"), "from": AsTyped("measured")}, "  plus_minus: 3 mm\n", ""),
    ],
)  # fmt: skip
def test_what_differs_within_a_part_is_changed_and_its_comments_stay(value, old, new):
    assert change(FILE, LONG, "wheelbase", value) == LONG.replace(old, new)


def test_shared_values_are_not_changed_behind_anybodys_back():
    text = "a: &x {b: 1}\nc: *x\nd: &y 5\ne: *y\n"
    for address in ("c.b", "a.b", "d"):
        with pytest.raises(SaveError):
            change(FILE, text, address, "2")
    assert change(FILE, text, "c", "2 m") == text.replace("*x", "2 m")


@pytest.mark.parametrize(
    ("text", "address", "value", "says"),
    [
        ("a: 1\n", "a.b", "x", "cannot hold b"),
        ("a: [1]\n", "a[3]", "x", "cannot hold"),
        ("a: [1]\n", "a.b", "x", "cannot hold b"),
        ("a: 1\n", "b[1]", "x", "begins at"),
        ("a: 1\n", "", "x", "address"),
        ("a: 1\n", "b", float("nan"), "not a number"),
        ("a: 1\n", "b", "\ud800", "half a character"),
        ("a: 1\n\tb: 2\n", "a", "x", "mended before"),
        ("a: 1\n---\nb: 2\n", "a", "x", "mended before"),
        ("a: 1\n? b\n: c\n", "b", {"c": {"d": "e"}}, None),
    ],
)
def test_what_cannot_be_done_in_place_is_refused(text, address, value, says):
    if says is None:  # an unusual form: right or refused, never wrong
        try:
            new = change(FILE, text, address, value)
        except SaveError:
            return
        assert value_of(node_at(parse(FILE, new).root, address)) == value
        return
    with pytest.raises(SaveError, match=says):
        change(FILE, text, address, value)


def test_what_is_not_there_cannot_be_removed():
    with pytest.raises(SaveError, match=r"there is no a\.b"):
        remove(FILE, "a: {c: 1}\n", "a.b")
    with pytest.raises(SaveError, match="delete the file"):
        remove(FILE, "a: 1\n", "a")


def addresses(node, at=()):
    if at:
        yield at
    if isinstance(node, Mapping):
        for key, entry in node.entries.items():
            yield from addresses(entry.node, (*at, key))
    elif isinstance(node, Listing):
        for place, item in enumerate(node.items):
            yield from addresses(item, (*at, place))


WORDS = st.one_of(
    st.sampled_from(
        ["no", "true", "12 mm", "a: b", "x # y", "", "- x", "?", "a, b", "it's", 'say "x"', "l\nl",
         "line\n", " lead", "trail ", "tab\there", "é\u2028x", "[x", "*a", "&b", "!t", "%x", "@z",
         "`q", "---", "...", "-", "a:", "#c", "| x", "> y", "~", "null", "0x1", "1e3", "\ufeff"]
    ),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=8),
)  # fmt: skip
VALUES = st.recursive(
    st.one_of(WORDS, WORDS.map(AsTyped), st.sampled_from([None, True, False, 4, 2.5])),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(WORDS.filter(bool), inner, max_size=3)
    ),
    max_leaves=5,
)
RANDOM = settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def says(node, value):
    """Whether a node reads as the value that was asked for; told apart from the code's own way."""
    if isinstance(value, dict):
        return [*value] == [*node.entries] and all(says(node.get(key), value[key]) for key in value)
    if isinstance(value, list):
        return len(value) == len(node.items) and all(map(says, node.items, value))
    if value is None:
        return node.plain and node.value in (None, "null", "~")
    if isinstance(value, str):
        return node.value == value
    return node.plain and node.value == {True: "true", False: "false"}.get(value, str(value))


@RANDOM
@given(texts(), st.data(), VALUES)
def test_a_random_change_keeps_every_other_byte_and_reads_back(text, data, value):
    root = parse(FILE, text).root
    address = data.draw(st.sampled_from(list(addresses(root))))
    where = node_at(root, address).where
    new = change(FILE, text, address, value)
    assert says(node_at(parse(FILE, new).root, address), value)
    if where.style != "block" and (isinstance(value, str) or where.style == "flow"):
        assert new.startswith(text[: where.start])
        assert new.endswith(text[where.end :])
    elsewhere = [one for one in addresses(root) if not set_apart(one, address)]
    for one in elsewhere:
        before, after = node_at(root, one), node_at(parse(FILE, new).root, one)
        if isinstance(before, Scalar):
            assert (before.value, before.plain) == (after.value, after.plain)


def set_apart(one, address):
    """Whether one address is the other, lies below it or above it."""
    short = min(len(one), len(address))
    return one[:short] == address[:short]


@RANDOM
@given(texts(), st.data(), VALUES, WORDS.filter(bool))
def test_a_random_addition_keeps_every_line_and_reads_back(text, data, value, name):
    root = parse(FILE, text).root
    address = data.draw(st.sampled_from([(), *addresses(root)]))
    node = node_at(root, address) if address else root
    if isinstance(node, Scalar) or (isinstance(node, Mapping) and name in node.entries):
        return
    address = (*address, name if isinstance(node, Mapping) else len(node.items))
    new = change(FILE, text, address, value)
    assert says(node_at(parse(FILE, new).root, address), value)
    assert is_thinned(text, new)


@RANDOM
@given(texts(), st.data())
def test_a_random_removal_only_takes_away(text, data):
    root = parse(FILE, text).root
    address = data.draw(st.sampled_from(list(addresses(root))))
    if len(root.entries) == 1 and len(address) == 1:
        return
    new = remove(FILE, text, address)
    parent = node_at(root, address[:-1]) if address[1:] else root
    size = len(parent.entries if isinstance(parent, Mapping) else parent.items)
    if size > 1:
        assert is_thinned(new, text)
    left = node_at(parse(FILE, new).root, address[:-1]) if address[1:] else parse(FILE, new).root
    assert len(left.entries if isinstance(left, Mapping) else left.items) == size - 1


def is_thinned(short, long):
    """Whether `short` is `long` with characters left out."""
    rest = iter(long)
    return all(letter in rest for letter in short)
