"""Books of example builds, made once a run."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from drybuild.book.contents import make_book
from drybuild.book.pages import Book
from drybuild.session import Session

EXAMPLES = Path(__file__).parents[2] / "examples"
FEW = 200
"""Draws; enough to fill every table."""


@cache
def example(name: str) -> Book:
    """Return the book of an example build."""
    return make_book(Session.open(EXAMPLES / name, FEW))


def book_of(folder: Path, text: str) -> Book:
    """Return the book of a build file written for a test."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "build.yaml").write_text(text, encoding="utf-8")
    return make_book(Session.open(folder, FEW))
