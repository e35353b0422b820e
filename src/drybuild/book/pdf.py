"""Set a book as PDF. The person's texts reach the setter as data, never as markup."""

from __future__ import annotations

import json
import re
import tempfile
from importlib.resources import files
from pathlib import Path
from typing import Any

from drybuild.book.packing import packed
from drybuild.book.pages import Book

LONG = re.compile(r"\S{28,}")
"""Words that may be wider than a column; they get places to break at."""
JOINTS = re.compile(r"([._/\\-]|[^\s\u200b]{24})(?=\S)")


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
        data = book.as_data()
        number = 0
        for chapter in data["chapters"]:
            for block in chapter["blocks"]:
                if block["kind"] == "figure":
                    name = f"figure-{number}.svg"
                    (room / name).write_text(block.pop("svg"), encoding="utf-8")
                    block["file"] = name
                    number += 1
        (room / "book.json").write_text(json.dumps(_breakable(data)), encoding="utf-8")
        (room / "book.typ").write_text(template, encoding="utf-8")
        made = typst.compile(str(room / "book.typ"), ignore_system_fonts=True)
    target.write_bytes(packed(made))


def _breakable(data: Any) -> Any:  # plain data of any shape
    """Give very long words places where a line may break."""
    if isinstance(data, str):
        return LONG.sub(lambda word: JOINTS.sub("\\1\u200b", word[0]), data)
    if isinstance(data, dict):
        return {name: _breakable(value) for name, value in data.items()}
    if isinstance(data, (list, tuple)):
        return [_breakable(value) for value in data]
    return data
