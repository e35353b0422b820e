"""Set a book as one self-contained HTML file: no script, no network, prints well, fits a phone."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from drybuild.book.pages import Book

SIGNS = {"good": "✓", "tight": "≈", "open": "?", "fails": "✗"}


def write_html(book: Book, target: Path) -> None:
    """Write the book as one HTML file; every text of the person's is escaped.

    Parameters
    ----------
    book : Book
        What to set.
    target : Path
        The file to write; its folder must exist.

    """
    import jinja2  # noqa: PLC0415  only the book needs it

    room = files("drybuild").joinpath("book")
    template = jinja2.Environment(
        autoescape=True, trim_blocks=True, lstrip_blocks=True, undefined=jinja2.StrictUndefined
    ).from_string(room.joinpath("book.html.j2").read_text(encoding="utf-8"))
    colours = files("drybuild").joinpath("present").joinpath("colours.css")
    style = colours.read_text(encoding="utf-8") + room.joinpath("book.css").read_text("utf-8")
    target.write_text(template.render(book=book, style=style, signs=SIGNS), encoding="utf-8")
