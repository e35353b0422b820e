"""The wheel sheet draws the tyre in its arch, or says what would have to be measured."""

from __future__ import annotations

from pathlib import Path

from drybuild.book.chapters.wheels_envelope import envelope_blocks
from drybuild.book.pages import Figure, Sheet, Words
from drybuild.session import Session

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def test_the_estates_tyres_are_drawn_with_every_gap() -> None:
    blocks = envelope_blocks(Session.open(EXAMPLES / "estate", samples=100))
    drawn = [one for one in blocks if isinstance(one, Figure)]
    assert len(drawn) == 2
    assert "strut" in drawn[0].words
    assert "leaf spring" in drawn[1].words
    search = next(one for one in blocks if isinstance(one, Sheet) and "widest" in one.title)
    assert any("lip rolled" in row[0] for row in search.rows)


def test_a_sparse_build_says_what_to_measure() -> None:
    blocks = envelope_blocks(Session.open(EXAMPLES / "sparse", samples=50))
    assert any(isinstance(one, Words) and "stations round each lip" in one.text for one in blocks)
