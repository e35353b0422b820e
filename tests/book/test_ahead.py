"""The options' tables judged beside the rest of the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from drybuild.book.ahead import chapters_ahead, tables_ahead
from drybuild.book.contents import DRAWN
from drybuild.session import Session

TEXT = """
build: two engines
car: {body: {kind: unitary}}
options:
  engine:
    original: {as_is: true, mass: 150 kg, power: 60 kW at 5000 rpm}
    other: {mass: 130 kg, power: 90 kW at 5800 rpm}
"""
FEW = 120


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("DRYBUILD_CACHE", str(tmp_path / "cache"))
    (tmp_path / "build.yaml").write_text(TEXT, encoding="utf-8")
    return tmp_path


def kept(folder: Path) -> dict[str, float]:
    return {one.name: one.stat().st_mtime for one in folder.glob("cache/*.npz")}


def test_the_second_process_leaves_the_tables_to_be_found(place: Path) -> None:
    with tables_ahead(place, FEW) as ready:
        assert ready() == 0
    first = kept(place)
    assert len(first) == 1
    with tables_ahead(place, FEW) as ready:
        ready()
    assert kept(place) == first, "tables that are kept are not judged again"


def test_without_a_choice_nothing_is_judged(place: Path) -> None:
    (place / "build.yaml").write_text(TEXT.partition("options:")[0], encoding="utf-8")
    with tables_ahead(place, FEW) as ready:
        assert ready() == 0
    assert not kept(place)


def test_a_build_that_is_not_there_does_no_harm(tmp_path: Path) -> None:
    with tables_ahead(tmp_path / "nowhere", FEW) as ready:
        ready()


def test_drawn_chapters_come_back_as_they_would_be_made(place: Path) -> None:
    with chapters_ahead(place, FEW) as drawn:
        found = drawn()
    session = Session.open(place, FEW)
    assert set(found) == {make.__name__ for make in DRAWN}
    for make in DRAWN:
        assert found[make.__name__].title == make(session).title


def test_a_process_that_fails_leaves_the_chapters_to_be_made(place: Path) -> None:
    with chapters_ahead(place, -1) as drawn:  # draws that cannot be: it fails at once
        assert drawn() == {}
