from __future__ import annotations

from xml.etree import ElementTree as ET

from tests.building import evaluate

from drybuild.present.shell_drawing import shell_drawing, strain_words

BUILD = (
    "build: a\ncar: {body: {shape: estate}}\n"
    "options: {shell: {plain: {as_is: true}, done: {work: connectors, mass: 14 kg}}}\n"
    "picks: {shell: done}\n"
)


def test_the_drawing_shows_both_views_and_what_is_added() -> None:
    parts = evaluate(BUILD, samples=0).result("shell_picture").value
    drawing = ET.fromstring(shell_drawing(parts))
    words = "".join(drawing.itertext())
    assert "From the side" in words
    assert "From above" in words
    paths = [one for one in drawing.iter() if one.tag.endswith("path")]
    added = [one for one in paths if "s-green" in one.get("class", "")]
    assert len(added) == 2 * 2 + 1  # a pair in two views, and the key
    assert abs(sum(part.share for part in parts) - 1.0) < 1e-9


def test_the_words_name_the_hardest_worked_parts() -> None:
    parts = evaluate(BUILD, samples=0).result("shell_picture").value
    words = strain_words(parts, 3)
    top = max(parts, key=lambda one: one.share)
    assert top.name in words
    assert words.count("%") == 3
