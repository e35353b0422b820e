"""Every chapter on a full and on a barely measured build: nothing empty, nothing left out."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from drybuild.book.contents import CHAPTERS
from drybuild.book.pages import Book, Caution, Chapter, Figure, Sheet, Tiles, Words
from tests.book.books import book_of, example

TITLES = (
    "At a glance",
    "The brief",
    "The car as it stands",
    "Picks and why",
    "Verdict sheet",
    "Parts list",
    "Weight sheet",
    "Wheel and tyre sheet",
    "Brake sheet",
    "Suspension, ride and alignment sheet",
    "Corners and ride",
    "Engine, gearing and performance sheet",
    "Fit: the engine in its bay",
    "Fit: where the engine sits best",
    "Cooling, fuel and exhaust sheet",
    "Wiring sheet",
    "Shell, cabin and belts sheet",
    "Body survey",
    "Repair order",
    "Datum and straightness sheet",
    "Panels and paint",
    "Work: jobs, orders, decisions",
    "Money and time",
    "Open questions",
    "All quantities",
    "Sources used",
)
"""In the order that a person needs them in the garage."""
CAN_HURT = TITLES[4:5] + TITLES[6:22]
DRAWN = TITLES[6:23]
SYSTEMS = ("metric", "us")


@pytest.fixture(params=["estate", "sparse"])
def book(request: pytest.FixtureRequest) -> Book:
    return example(request.param)


def chapter(book: Book, title: str) -> Chapter:
    return next(one for one in book.chapters if one.title == title)


def sheets(one: Chapter) -> list[Sheet]:
    return [block for block in one.blocks if isinstance(block, Sheet)]


def figures(one: Chapter) -> list[Figure]:
    return [block for block in one.blocks if isinstance(block, Figure)]


def test_the_chapters_stand_in_order(book: Book) -> None:
    assert tuple(one.title for one in book.chapters) == TITLES
    assert len(CHAPTERS) == len(TITLES)


def test_no_chapter_is_empty(book: Book) -> None:
    for one in book.chapters:
        assert one.intro, one.title
        assert one.blocks, one.title


def test_no_sheet_is_empty_or_crooked(book: Book) -> None:
    for one in book.chapters:
        for sheet in sheets(one):
            where = f"{one.title}: {sheet.title}"
            assert sheet.rows, where
            assert len(sheet.columns) > 1, where
            assert {len(row) for row in sheet.rows} == {len(sheet.columns)}, where
            assert sheet.widths in ((), sheet.widths[: len(sheet.columns)]), where
            assert all(isinstance(cell, str) for row in sheet.rows for cell in row), where
            assert not sheet.indents or len(sheet.indents) == len(sheet.rows), where


def test_every_cell_of_a_verdict_column_is_a_verdict(book: Book) -> None:
    for one in book.chapters:
        for sheet in sheets(one):
            for column in sheet.states:
                assert {row[column] for row in sheet.rows} <= {"good", "tight", "open", "fails"}


@pytest.mark.parametrize("title", CAN_HURT)
def test_what_can_hurt_has_its_caution(book: Book, title: str) -> None:
    cautions = [one for one in chapter(book, title).blocks if isinstance(one, Caution)]
    assert cautions
    assert all("licensed practice" in one.text for one in cautions)
    points = [point for one in cautions for point in one.points]
    assert len(points) == len(set(points)), "a caution stands twice"


@pytest.mark.parametrize("title", DRAWN)
def test_the_estate_is_drawn_where_people_would_rather_look(title: str) -> None:
    assert figures(chapter(example("estate"), title)) or title == "Shell, cabin and belts sheet"


def test_every_figure_is_sound_svg_and_has_words(book: Book) -> None:
    for one in book.chapters:
        for figure in figures(one):
            assert figure.words, one.title
            assert figure.caption, one.title
            root = ElementTree.fromstring(figure.svg)
            assert root.tag.endswith("svg"), one.title
            assert "nan" not in figure.svg, f"{one.title}: {figure.caption}"
            assert "http://" not in figure.svg.replace("http://www.w3.org/2000/svg", "")
            tall = float(root.attrib["viewBox"].split()[3])
            assert tall <= 680.0, f"{one.title}: {figure.caption} is taller than a page"


def test_nothing_lies_outside_its_figure(book: Book) -> None:
    for one in book.chapters:
        for figure in figures(one):
            root = ElementTree.fromstring(figure.svg)
            _, _, wide, tall = map(float, root.attrib["viewBox"].split())
            for text in root.iter("{http://www.w3.org/2000/svg}text"):
                x, y = float(text.attrib["x"]), float(text.attrib["y"])
                where = f"{one.title}: {text.text!r} of {figure.caption!r}"
                assert -1.0 <= x <= wide + 1.0, where
                assert -1.0 <= y <= tall + 1.0, where


def test_the_verdicts_are_counted_at_a_glance(book: Book) -> None:
    tiles = [one for one in chapter(book, "At a glance").blocks if isinstance(one, Tiles)]
    states = [tile.state for tile in tiles[0].tiles]
    assert states == ["good", "tight", "open", "fails"]
    assert sum(int(tile.value.split()[0]) for tile in tiles[0].tiles) > 40


def test_all_quantities_names_each_of_them() -> None:
    found = chapter(example("estate"), "All quantities")
    told = {text for sheet in sheets(found) for row in sheet.rows for text in row}
    told |= {column for sheet in sheets(found) for column in sheet.columns}
    for label in ("Wheelbase", "Pedal force for a 0.9 g stop", "Chance that a zone is sound"):
        assert label in told


def test_the_sheet_to_write_on_has_room() -> None:
    found = [one for one in sheets(chapter(example("estate"), "Open questions")) if one.to_write]
    assert len(found) == 1
    assert {row[-1] for row in found[0].rows} == {""}


def test_what_rules_a_rival_out_is_said() -> None:
    told = " ".join(
        cell
        for sheet in sheets(chapter(example("estate"), "Picks and why"))
        for row in sheet.rows
        for cell in row
    )
    assert "goes with the other picks" in told
    assert "which the brief keeps" in told


@pytest.mark.parametrize("kind", ["unitary", "ladder", "backbone"])
def test_next_to_nothing_still_makes_a_book(tmp_path: Path, kind: str) -> None:
    found = book_of(tmp_path, f"build: bare\ncar: {{body: {{kind: {kind}}}}}\n")
    assert tuple(one.title for one in found.chapters) == TITLES
    brief = chapter(found, "The brief").blocks
    assert brief == (Words(text="Nothing is written in the brief yet."),)


def test_the_person_reads_in_their_units(tmp_path: Path) -> None:
    text = "build: x\nunits: {}\ncar: {{body: {{kind: unitary, wheelbase: 100 in}}}}\n"
    metric, us = (book_of(tmp_path / one, text.format(one)) for one in SYSTEMS)
    assert metric.paper == "a4"
    assert us.paper == "us-letter"
    told = [dict(one.headline)["Kerb mass"] for one in (metric, us)]
    assert " kg " in told[0]
    assert " lb " in told[1]
    brakes = [figures(chapter(one, "Brake sheet")) for one in (metric, us)]
    assert "[°C]" in "".join(one.svg for one in brakes[0])
    assert "[°F]" in "".join(one.svg for one in brakes[1])
