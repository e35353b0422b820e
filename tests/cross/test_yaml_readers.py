"""Our reading and editing of YAML against an independent reader (ruamel.yaml, YAML 1.2 rules)."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML
from tests.project.yaml_texts import texts

from drybuild.project.document import Listing, Mapping, Scalar
from drybuild.project.edit import change, node_at
from drybuild.project.parse import parse
from drybuild.project.writing import kind_of

FILE = Path("build.yaml")
RANDOM = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def theirs(text):
    return YAML(typ="safe", pure=True).load(text)


def strict(text):
    """The text without our one liberty: a lone question mark that is not in quotes."""
    return text.replace("?", "q")


def agree(node, value):
    if isinstance(node, Mapping):
        assert isinstance(value, dict)
        assert len(node.entries) == len(value)
        for entry, (_, one) in zip(node.entries.values(), value.items(), strict=True):
            agree(entry.node, one)
    elif isinstance(node, Listing):
        assert len(node.items) == len(value)
        for item, one in zip(node.items, value, strict=True):
            agree(item, one)
    elif node.value is None or (node.plain and kind_of(node.value) == "nothing"):
        assert value is None
    elif node.plain and kind_of(node.value) == "yes or no":
        assert value is (node.value.lower() == "true")
    elif node.plain and kind_of(node.value) == "number":
        assert isinstance(value, (int, float))
        assert not isinstance(value, bool)
    else:
        assert str(value) == node.value


@RANDOM
@given(texts())
def test_both_read_the_same(text):
    text = strict(text)
    agree(parse(FILE, text).root, theirs(text))


@pytest.mark.parametrize(
    "word", ["no", "yes", "on", "off", "12:30", "010", "0o10", "0x1F", "1e3", "1.", ".5", "~",
             "Null", "True", "TRUE", "+1", "-.inf", "1 2", "~650 mm", "n",
             "350 N·m"]
)  # fmt: skip
def test_the_core_schema_is_the_same(word):
    agree(parse(FILE, f"a: {word}\n").root, theirs(f"a: {word}\n"))


@RANDOM
@given(
    texts(),
    st.data(),
    st.one_of(
        st.sampled_from(["no", "true", "a: b", "x # y", "", "?", "l\nl", " lead", "[x", "-", "4"]),
        st.text(st.characters(exclude_categories=["Cs"], max_codepoint=0x2FFF), max_size=8),
    ),
)
def test_both_read_an_edited_file_the_same(text, data, value):
    text = strict(text)
    root = parse(FILE, text).root
    address = data.draw(st.sampled_from([(key,) for key in root.entries] + [("new", "entry")]))
    new = change(FILE, text, address, value)
    agree(parse(FILE, new).root, theirs(new))
    node = node_at(parse(FILE, new).root, address)
    assert isinstance(node, Scalar)
    assert node.value == value
