"""Set a book as PDF. The person's texts reach the setter as data, never as markup."""

from __future__ import annotations

import json
import re
import tempfile
from dataclasses import is_dataclass
from importlib.resources import files
from pathlib import Path

from drybuild.book.packing import packed
from drybuild.book.pages import Book, Figure

LONG = re.compile(r"\S{28,}")
"""Words that may be wider than a column; they get places to break at."""
JOINTS = re.compile(r"([._/\\-]|[^\s\u200b]{24})(?=\S)")

BY_FILE = ("svg",)
"""Entries of blocks that the setter reads from files, numbered in the order of the book."""


def write_pdf(book: Book, target: Path) -> None:
    """Write the book as a PDF file.

    Parameters
    ----------
    book : Book
        What to set.
    target : Path
        The file to write; its folder must exist.

    """
    import typst  # noqa: PLC0415  only the book needs the setter

    template = files("drybuild").joinpath("book").joinpath("book.typ").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        room = Path(folder)
        blocks = (one for chapter in book.chapters for one in chapter.blocks)
        for number, figure in enumerate(one for one in blocks if isinstance(one, Figure)):
            (room / f"figure-{number}.svg").write_text(figure.svg, encoding="utf-8")
        (room / "book.json").write_text(json.dumps(_plain(book)), encoding="utf-8")
        (room / "book.typ").write_text(template, encoding="utf-8")
        made = typst.compile(str(room / "book.typ"), ignore_system_fonts=True)
    target.write_bytes(packed(made))


def _plain(value: object) -> object:
    """Return the book as plain data; very long words get places where a line may break."""
    if isinstance(value, str):
        return LONG.sub(lambda word: JOINTS.sub("\\1\u200b", word[0]), value)
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if is_dataclass(value):
        return {name: _plain(one) for name, one in vars(value).items() if name not in BY_FILE}
    return value
