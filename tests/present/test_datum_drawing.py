"""The datum points on drawings of the body."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from drybuild.present.body_shape import OUTLINES, body_shape
from drybuild.present.datum_drawing import plan_drawing, side_drawing
from drybuild.project.load import load
from drybuild.tables.datum import asked_lengths, length_ends, point_pairs


@pytest.mark.parametrize("shape", OUTLINES)
def test_every_point_is_numbered_on_the_paper(tmp_path: Path, shape: str) -> None:
    text = f"build: a\ncar: {{body: {{kind: unitary, shape: {shape}}}}}\n"
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    body, pairs = body_shape(load(tmp_path)), point_pairs("unitary")
    lengths = asked_lengths(pairs)
    for svg, twice in (
        (plan_drawing(body, pairs, lengths, lengths[:3], lengths[:1]), 2),
        (side_drawing(body, pairs, {"3 left": "152 mm"}), 1),
    ):
        root = ElementTree.fromstring(svg)
        wide, high = (float(one) for one in root.attrib["viewBox"].split()[2:])
        texts = list(root.iter("{http://www.w3.org/2000/svg}text"))
        for one in pairs:
            assert sum(text.text == one.number for text in texts) == twice
        for text in texts:
            assert 0.0 <= float(text.attrib["x"]) <= wide
            assert 0.0 <= float(text.attrib["y"]) <= high


def test_the_sheet_asks_for_more_lengths_than_needed() -> None:
    for kind in ("unitary", "ladder", "backbone"):
        pairs = point_pairs(kind)
        lengths = asked_lengths(pairs)
        assert all(length_ends(name) for name in lengths)
        assert len(lengths) > 2 * 2 * len(pairs) - 3
