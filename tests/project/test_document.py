from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from tests.project.yaml_texts import texts

from drybuild.project import composer
from drybuild.project import parse as parsing
from drybuild.project.composer import DEEPEST
from drybuild.project.document import Listing, Mapping, Scalar
from drybuild.project.edit import value_of
from drybuild.project.parse import parse

FILE = Path("build.yaml")


@pytest.fixture(params=["CSafeLoader", "SafeLoader"], autouse=True)
def either_parser(request, monkeypatch):
    if not hasattr(yaml, request.param):
        pytest.skip("PyYAML was built without libyaml")
    monkeypatch.setattr(parsing, "LOADER", getattr(yaml, request.param))


def read(text):
    return parse(FILE, text)


def faults(text):
    return [(one.code, one.line, one.field) for one in read(text).problems]


def values(text):
    return value_of(read(text).root)


@pytest.mark.parametrize(
    "text", ["no", "off", "12:30", "010", "0x1F", "1e3", "1_000", "2027-03-01", "true", "~", "=",
             "350 N·m", "~650 mm", "1520 ± 3 mm", "35 %", ".5", "-1"]
)  # fmt: skip
def test_plain_scalars_stay_the_text_they_are(text):
    node = read(f"a: {text}\n").root.get("a")
    assert (node.value, node.plain) == (text, True)


def test_quoted_and_missing_values_are_told_from_plain_ones():
    root = read("a: 'true'\nb: \"4\"\nc:\nd: ''\n").root
    found = {key: (entry.node.value, entry.node.plain) for key, entry in root.entries.items()}
    assert found == {"a": ("true", False), "b": ("4", False), "c": (None, True), "d": ("", False)}


@pytest.mark.parametrize(
    "text", ["a: ?\n", "a: ? # not yet\n", "a: {b: ?, c: 1}\n", "a: [?, ?]\n", "a:\n- ?\n", "a: ?"]
)
def test_a_lone_question_mark_is_a_value(text):
    assert not read(text).problems
    assert "?" in str(values(text))


def test_a_question_mark_in_quotes_or_text_stays():
    text = "a: 'what is: ?'\nb: |\n  is it: ?\nc: x # why: ?\n"
    assert values(text) == {"a": "what is: ?", "b": "is it: ?\n", "c": "x"}


def test_every_place_can_be_cut_out_of_the_text():
    text = (
        "car: # donor\r\n  body: {wheelbase: 2540 ± 3 mm, 'two doors': \"yes\"}\r\n"
        "note: |\r\n  µ line\r\n\r\nlist:\r\n- &x ü\r\n- *x\r\n"
    )
    root = read(text).root
    body = root.get("car").get("body")
    assert text[body.where.start : body.where.end].startswith("{wheelbase")
    assert text[body.where.end - 1] == "}"
    wheelbase = body.entries["wheelbase"]
    assert text[wheelbase.node.where.start : wheelbase.node.where.end] == "2540 ± 3 mm"
    assert (wheelbase.node.where.line, wheelbase.node.where.column) == (2, 21)
    doors = body.entries["two doors"]
    assert text[doors.key_where.start : doors.key_where.end] == "'two doors'"
    assert text[doors.node.where.start : doors.node.where.end] == '"yes"'
    note = root.get("note").where
    assert text[note.start : note.end] == "|\r\n  µ line"
    first, again = root.get("list").items
    assert text[first.where.start : first.where.end] == "ü"
    assert (again.value, again.where.style, again.where.line) == ("ü", "alias", 8)


def test_a_byte_order_mark_is_accepted_and_counted():
    document = read("\ufeffa: 1\n")
    assert not document.problems
    assert document.root.entries["a"].key_where.start == 1
    assert document.root.entries["a"].key_where.column == 1


def test_a_lone_return_ends_a_line():
    assert faults("a: 1\rb: @\rc: 3\r") == [("syntax", 2, "b")]
    assert values("a: 1\rb: 2\r") == {"a": "1", "b": "2"}


@settings(max_examples=150, deadline=None)
@given(texts())
def test_scalars_of_any_layout_are_found_where_they_are_said_to_be(text):
    document = read(text)
    assert not [one for one in document.problems if one.code != "file-empty"]

    def look(node):
        for child in node.entries.values() if isinstance(node, Mapping) else ():
            at = child.key_where
            key = text[at.start : at.end]
            assert key.strip("'\"") in node.entries, key
            look(child.node)
        for child in node.items if isinstance(node, Listing) else ():
            look(child)
        if isinstance(node, Scalar) and node.where.style == "plain":
            assert text[node.where.start : node.where.end] == (node.value or "")
        assert text.count("\n", 0, node.where.start) + 1 == node.where.line

    look(document.root)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", [("file-empty", 1, "the file")]),
        ("# only a comment\n", [("file-empty", 1, "the file")]),
        ("just words\n", [("mapping-wanted", 1, "the file")]),
        ("- a\n- b\n", [("mapping-wanted", 1, "the file")]),
        ("a: 1\na: 2\n", [("duplicate-key", 2, "a")]),
        ("a:\n  b: {c: 1, d: 2,\n   c: 3}\n", [("duplicate-key", 3, "a.b.c")]),
        ("a: 1\n---\nb: 2\n", [("several-documents", 2, "the file")]),
        ("a: !!str 1\n", [("tag", 1, "a")]),
        ("a: !mine {b: 1}\n", [("tag", 1, "a")]),
        ("a: 1\nb: &x [1, *x]\n", [("alias-circle", 2, "b[1]")]),
        ("a: *nowhere\n", [("alias-unknown", 1, "a")]),
        ("a: {<<: {b: 1}}\n", [("merge-key", 1, "a")]),
        ("a:\n  [b, c]: 1\n", [("key-not-text", 2, "a")]),
        ("a: {: 1}\n", [("syntax", 1, "a")]),
        ("a:\n  ? \n  : 1\n", [("key-not-text", 2, "a")]),
        ("a: 1 \x00\nb: 2\u2028\n", [("control-character", 1, "the file"),
         ("control-character", 2, "the file")]),
        ("a:\n\tb: 1\n", [("tab-indent", 2, "a")]),
        ("a:\n  - 1\n \t- 2\n", [("tab-indent", 3, "a[1]")]),
        ("a: {b: 1\nc: 2\n", [("unclosed", 1, "a")]),
        ("a: [1, 2\n", [("unclosed", 1, "a[2]")]),
        ("a: 'x\nb: 2\n", [("unclosed", 1, "a")]),
        ("a: 1\nwheelbase 2540\nb: 2\n", [("syntax", 2, "the file")]),
        ("wheelbase\nb: 2\n", [("syntax", 1, "the file")]),
        ("a: b: c\n", [("syntax", 1, "a")]),
        ("a: @b\n", [("syntax", 1, "a")]),
        ('a: "\\q"\n', [("syntax", 1, "a")]),
        ("a:\n  b: 1\n c: 2\n", [("syntax", 3, "a")]),
        ("a: " + "[" * (DEEPEST + 5) + "\n", [("too-deep", 1, "a[0][0]")]),
    ],
)  # fmt: skip
def test_each_fault_is_named_with_its_place(text, expected):
    found = faults(text)
    if expected[0][0] == "tab-indent":  # how far each parser had got differs by a step
        found = [(code, line, expected[0][2]) for code, line, _ in found]
    assert found == expected


def test_messages_are_in_our_words():
    for text in (
        "a:\n\tb: 1\n",
        "a: {b: 1\n",
        "a: b: c\n",
        "a: %x\n",
        "a: |x\n  y\n",
        "a: 1\n b\n: 2",
    ):
        for one in read(text).problems:
            assert not any(
                word in str(one) for word in ("scanning", "token", "expected", "block end")
            )


def test_reading_goes_on_after_each_fault():
    document = read("a: 1\nb: {c: 1\nd: @x\ne: 5\nf:\n\tg: 1\nh: 8\n")
    assert value_of(document.root) == {"a": "1", "e": "5", "h": "8"}
    assert document.broken == ("b", "d", "f")
    assert [(one.code, one.line) for one in document.problems] == [
        ("unclosed", 2),
        ("syntax", 3),
        ("tab-indent", 6),
    ]


def test_a_truncated_file_keeps_what_stands_above():
    document = read("build: x\ncar:\n  body: {wheelbase: 2540 mm, front_tr")
    assert value_of(document.root) == {"build": "x"}
    assert document.broken == ("car",)


def test_a_key_repeated_after_a_fault_is_still_noticed():
    assert ("duplicate-key", 3, "a") in faults("a: 1\nb: @\na: 2\n")


def test_aliases_that_explode_are_stopped_early():
    bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 30)
    )
    document = read(bomb)
    assert [one.code for one in document.problems] == ["too-many-values"]
    assert "a4" in document.root.entries
    assert "a20" in document.broken


def test_aliases_cannot_nest_deeper_than_text_can():
    deep = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 60))
    assert [one.code for one in read(deep).problems] == ["too-deep"]


def test_the_count_of_values_has_a_limit(monkeypatch):
    monkeypatch.setattr(composer, "MOST_NODES", 100)
    assert [one.code for one in read("a: [" + "1, " * 200 + "]\n").problems] == ["too-many-values"]


def test_aliases_are_read_as_what_they_repeat():
    assert values("a: &x {m: 1, n: [2]}\nb: *x\n")["b"] == {"m": "1", "n": ["2"]}


def test_faults_without_end_are_cut_short():
    assert len(read("a: @\n" * 500).problems) <= parsing.MOST_PIECES
