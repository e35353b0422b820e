"""The book: make it, and take it home as PDF or as one HTML file."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked, Page


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    from drybuild.book.contents import CHAPTERS  # noqa: PLC0415  the first page waits for no book

    made = desk.bookmaking.made(desk.build.hashes) is not None
    standing = "made" if made else desk.tasks.standing("book")
    return {"chapters": len(CHAPTERS), "standing": standing}


PAGE = Page(
    path="/book",
    title="The book",
    asks="How do I get all this on paper?",
    template="book.html.j2",
    fill=fill,
)
