"""A book made by two processes."""

from __future__ import annotations

from pathlib import Path

import pytest

from drybuild.book.contents import CHAPTERS, FIRST_HAND, SECOND_HAND, make_book
from drybuild.book.hands import Bench, second_hand
from drybuild.book.pages import Chapter
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


def test_the_first_hand_knows_every_chapter_and_meets_the_second() -> None:
    assert sorted(map(id, FIRST_HAND)) == sorted(map(id, CHAPTERS))
    assert FIRST_HAND[-len(SECOND_HAND) :] == SECOND_HAND[::-1]


def test_a_chapter_is_taken_once_and_laid_for_the_other(tmp_path: Path) -> None:
    first, second = Bench(tmp_path), Bench(tmp_path)
    assert second.take("wheels")
    assert not first.take("wheels")
    assert first.wait("wheels") is None, "nobody is at it any more"
    chapter = Chapter(title="Wheels", intro="", blocks=())
    second.lay("wheels", chapter)
    assert first.wait("wheels") == chapter


def test_two_hands_make_the_book_of_one(place: Path) -> None:
    alone = make_book(Session.open(place, FEW))
    told: list[tuple[int, int]] = []
    with second_hand(place, FEW) as bench:
        together = make_book(
            Session.open(place, FEW), lambda done, total: told.append((done, total)), bench
        )
    assert [one.title for one in together.chapters] == [one.title for one in alone.chapters]
    assert told == [(done, len(CHAPTERS)) for done in range(len(CHAPTERS))]


def test_a_second_process_that_fails_leaves_its_chapters_to_the_first(place: Path) -> None:
    with second_hand(place / "nowhere", FEW) as bench:
        bench.take("picks_chapter")  # as if the other had begun and died
        book = make_book(Session.open(place, FEW), bench=bench)
    assert len(book.chapters) == len(CHAPTERS)
