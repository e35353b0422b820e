"""Readings stand in the book as they were typed, whatever a field holds."""

from __future__ import annotations

from pathlib import Path

import pytest

from drybuild.book.chapters.car import car_chapter
from drybuild.book.pages import Chapter, Sheet
from drybuild.session import Session
from tests.book.books import EXAMPLES

BUILD = """
build: readings
car:
  body: {kind: ladder, wheelbase: 2540 ± 3 mm}
  structure: {frame: {open_rails: true}}
  mass: {luggage_space: [-2.1 m, 0 m, 12 ± 4 in]}
  bay:
    solids:
      line: {kind: fuel line, form: pipe run, corners: [-2 m, 0 m, 60 mm, -1 m, 0 m, 40 mm],
        diameter: 10 mm}
    lofts:
      tower:
        stations:
          strut: {x: 0 mm, heights: [118 mm, 300 mm], half: [402 ± 5 mm, 396 ± 5 mm]}
          panel: {x: 470 mm, heights: [118 mm, 300 mm], half: [422 ± 5 mm, 431 ± 5 mm]}
"""


def cells(chapter: Chapter) -> list[str]:
    sheets = [block for block in chapter.blocks if isinstance(block, Sheet)]
    return [cell for sheet in sheets for row in sheet.rows for cell in row]


@pytest.fixture(scope="module")
def typed(tmp_path_factory: pytest.TempPathFactory) -> Chapter:
    folder = tmp_path_factory.mktemp("readings")
    (folder / "build.yaml").write_text(BUILD, encoding="utf-8")
    session = Session.open(folder, 20)
    assert not session.problems
    return car_chapter(session)


@pytest.mark.parametrize(
    "told",
    [
        "−2.1 m, 0 m, 12 ± 4 in",
        "−2 m, 0 m, 60 mm, −1 m, 0 m, 40 mm",
        "118 mm, 300 mm",
        "yes",
        "2540 ± 3 mm",
    ],
)
def test_a_reading_reads_as_typed(typed: Chapter, told: str) -> None:
    assert told in cells(typed)


def test_things_inside_named_things_say_whose_they_are(typed: Chapter) -> None:
    titles = [block.title for block in typed.blocks if isinstance(block, Sheet)]
    assert "Engine bay: lofts, tower: stations" in titles


@pytest.mark.parametrize("name", ["estate", "pickup", "roadster", "sparse"])
def test_nothing_reads_as_the_program_holds_it(name: str) -> None:
    found = cells(car_chapter(Session.open(EXAMPLES / name, 20)))
    assert found
    for cell in found:
        assert "Reading(" not in cell
        assert " object at " not in cell
        assert str(Path(__file__).parents[2]) not in cell
