"""Set a book as PDF. The person's texts reach the setter as data, never as markup."""

from __future__ import annotations

import json
import tempfile
from importlib.resources import files
from pathlib import Path

from drybuild.book.pages import Book


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
        (room / "book.json").write_text(json.dumps(data), encoding="utf-8")
        (room / "book.typ").write_text(template, encoding="utf-8")
        made = typst.compile(str(room / "book.typ"), ignore_system_fonts=True)
    target.write_bytes(made)
