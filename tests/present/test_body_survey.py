"""The survey on drawings of the body."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from drybuild.present.body_shape import OUTLINES, body_shape
from drybuild.present.body_survey import skin_drawing, structure_drawing, survey_of, survey_words
from drybuild.project.load import load
from drybuild.tables.body_place import places
from drybuild.tables.condition import ZONE_KINDS, zones


def built(tmp_path: Path, kind: str, shape: str = "", more: str = ""):
    named = f", shape: {shape}" if shape else ""
    text = f"build: An invented car\ncar: {{body: {{kind: {kind}{named}}}}}\n{more}"
    (tmp_path / "build.yaml").write_text(text, encoding="utf-8")
    return load(tmp_path)


@pytest.mark.parametrize("kind", ZONE_KINDS)
def test_every_zone_has_a_place_and_none_is_left_over(kind) -> None:
    assert {one.zone for one in places(kind)} == set(zones(kind))


@pytest.mark.parametrize("shape", OUTLINES)
def test_every_zone_is_a_link_on_the_paper_whatever_the_shape(tmp_path, shape) -> None:
    build = built(tmp_path, "unitary", shape)
    survey = survey_of(build, lambda zone: f"/shell?zone={zone}", "tunnel")
    linked = set()
    for svg in (skin_drawing(survey), structure_drawing(survey)):
        root = ElementTree.fromstring(svg)
        width, height = (float(one) for one in root.get("viewBox").split()[2:])
        for link in root.iter("{http://www.w3.org/2000/svg}a"):
            linked.add(link.get("href").partition("=")[2])
            for box in link.iter("{http://www.w3.org/2000/svg}rect"):
                left, top, wide, high = (float(box.get(k)) for k in ("x", "y", "width", "height"))
                assert wide > 6
                assert high > 6
                assert left >= 0
                assert left + wide <= width
                assert top >= 0
                assert top + high <= height
    assert linked == set(zones(build.zone_kind))


def test_left_lies_below_the_middle_where_the_front_points_left(tmp_path) -> None:
    # Seen from above with the front to the left, the car's left side is nearest the reader.
    survey = survey_of(built(tmp_path, "unitary"), lambda zone: zone)
    svg = structure_drawing(survey)

    def top(zone: str) -> float:
        found = re.search(rf'href="{zone}".*?<rect x="[\d.]+" y="([\d.]+)"', svg)
        return float(found[1])

    assert top("inner sill left") > top("inner sill right")


def test_a_finding_is_told_by_letter_pattern_and_words(tmp_path) -> None:
    more = "survey: {zones: {tunnel: {found: replace, judged: probed}}}\n"
    survey = survey_of(built(tmp_path, "unitary", more=more), lambda zone: zone)
    assert "tunnel to be replaced, probed" in survey_words(survey)
    tunnel = re.search(r'href="tunnel".*?</a>', structure_drawing(survey))[0]
    assert ">R</text>" in tunnel
    rising, falling = re.findall(r'<path d="([^"]+)"', tunnel)  # the hatching crosses
    assert rising.count("M") == falling.count("M") > 3
    assert 'aria-label="tunnel: to be replaced, probed"' in tunnel


def test_the_book_draws_it_without_links(tmp_path) -> None:
    assert "<a " not in skin_drawing(survey_of(built(tmp_path, "ladder")))


def test_sizes_come_from_the_car_and_else_from_its_kind(tmp_path) -> None:
    (tmp_path / "build.yaml").write_text(
        "build: An invented car\ncar: {body: {kind: ladder, wheelbase: 98 in, shape: van}}\n"
    )
    shape = body_shape(load(tmp_path))
    assert shape.wheelbase == pytest.approx(2.4892)
    assert shape.shape == "van"
    assert sum(shape.overhang) == pytest.approx(shape.length - shape.wheelbase)


def test_a_gauge_alone_shows_its_likeliest_grade(tmp_path) -> None:
    more = """survey:
  zones:
    inner sill left: {thickness: 0.5 mm}
    inner sill right: {thickness: 1.17 mm}
    front rail left: {thickness: 1.1 mm, new_thickness: 1.5 mm}
"""
    looks = survey_of(built(tmp_path, "unitary", more=more)).looks
    assert looks["inner sill left"].found == "replace"
    assert looks["inner sill left"].judged == "measured"
    assert looks["inner sill right"].found == "sound"
    assert looks["front rail left"].found == "patch"
