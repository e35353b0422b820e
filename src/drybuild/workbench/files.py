"""Files to take home: the book as PDF or as one HTML file."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from drybuild.workbench.desk import Desk

KINDS = {"pdf": "application/pdf", "html": "text/html; charset=utf-8"}
PATIENCE = 300.0
"""How long a book may take on a slow computer. [s]"""
NOT_MADE = 409


def book_file(request: Request) -> Response:
    """Make the book, if it is not made yet, and send it."""
    kind = request.path_params["kind"]
    if kind not in KINDS:
        return PlainTextResponse("The book comes as pdf or html.", 404)
    desk: Desk = request.app.state.desk
    desk.refresh()
    made = desk.bookmaking.get(lambda: desk.build.hashes, PATIENCE)
    if made is None:
        words = "The book was not made: it was stopped, or the files changed meanwhile. Ask again."
        return PlainTextResponse(words, NOT_MADE)
    return download(made[kind], f"build-book.{kind}", KINDS[kind])


def download(data: bytes | str, name: str, media: str) -> Response:
    """Return a file that the browser keeps under a name."""
    disposition = f'attachment; filename="{name}"'
    return Response(data, media_type=media, headers={"Content-Disposition": disposition})
