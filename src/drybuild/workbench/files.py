"""Files to take home: the book as PDF or as one HTML file."""

from __future__ import annotations

import tempfile
from pathlib import Path

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from drybuild.book.contents import make_book
from drybuild.book.html import write_html
from drybuild.book.pdf import write_pdf
from drybuild.workbench.desk import Desk

KINDS = {"pdf": (write_pdf, "application/pdf"), "html": (write_html, "text/html; charset=utf-8")}


def book_file(request: Request) -> Response:
    """Make the book and send it."""
    kind = request.path_params["kind"]
    if kind not in KINDS:
        return PlainTextResponse("The book comes as pdf or html.", 404)
    desk: Desk = request.app.state.desk
    desk.refresh()
    session = desk.wait()
    write, media = KINDS[kind]
    with desk.lock:
        book = make_book(session)
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / f"book.{kind}"
        write(book, target)
        data = target.read_bytes()
    name = f'attachment; filename="build-book.{kind}"'
    return Response(data, media_type=media, headers={"Content-Disposition": name})
