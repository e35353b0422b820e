"""What goes out for advice and what comes back: the shared file, and the review of a reply."""

from __future__ import annotations

import tempfile
from pathlib import Path

import anyio.to_thread
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from drybuild.errors import SaveError
from drybuild.exchange.merge import reply_to, take
from drybuild.exchange.reply import LARGEST_REPLY, MOST_SUGGESTIONS
from drybuild.session import Session
from drybuild.workbench.answers import SHOWN_AFTER, answers, refused, text
from drybuild.workbench.desk import Desk
from drybuild.workbench.files import download

PLACE = "/advice"
CHOSEN = "take-"
"""What the names of the boxes of suggestions begin with."""


def shared_file(request: Request) -> Response:
    """Make the file for other people's advice, and send it."""
    from drybuild.exchange.share import PRIVATE, write_shared  # noqa: PLC0415  loads chapters

    desk: Desk = request.app.state.desk
    desk.refresh()
    left_out = [one for one in PRIVATE if one in request.query_params.getlist("leave-out")]
    build = desk.build
    session = Session(build, desk.place, desk.samples, desk.session.graph)  # holds up no page
    session.evaluation.between = desk.lock.make_way
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "shared.html"
        write_shared(session, target, left_out)
        return download(target.read_bytes(), "for-advice.html", "text/html; charset=utf-8")


async def read_reply(request: Request) -> Response:
    """Lay a reply on the desk: a file, or pasted text."""
    desk: Desk = request.app.state.desk
    size = LARGEST_REPLY + 1
    async with request.form(max_files=1, max_fields=4, max_part_size=size) as form:
        given = form.get("file")
        name, data = "the pasted reply", text(form, "pasted").replace("\r\n", "\n").encode()
        if isinstance(given, UploadFile) and given.filename:
            name, data = given.filename, await given.read(size)
        return await anyio.to_thread.run_sync(_lay_down, desk, form, name, data)


def _lay_down(desk: Desk, form: FormData, name: str, data: bytes) -> Response:
    if not data.strip():
        return refused(desk, form, "There is nothing in this reply.")
    desk.refresh()
    build, session = desk.build, desk.session
    desk.reviewing.take(reply_to(desk.place, build, name, data), session)
    return RedirectResponse(PLACE, SHOWN_AFTER)


def take_over(desk: Desk, form: FormData) -> Response:
    """Write the chosen suggestions into the build, as one step."""
    desk.refresh()
    reply = desk.reviewing.reply
    if reply is None:
        return refused(desk, form, "There is no reply under review any more.")
    every = text(form, "every") == "yes"
    ids = [
        one.id
        for one in reply.suggestions
        if one.sound and (every or form.get(f"{CHOSEN}{one.id}"))
    ]
    if not ids:
        return refused(desk, form, "Nothing was chosen.")
    with desk.lock:
        try:
            desk.change(lambda: take(desk.place, reply, ids))
        except SaveError as fault:
            return refused(desk, form, str(fault))
    desk.reviewing.put_away()
    return RedirectResponse(PLACE, SHOWN_AFTER)


def put_away(desk: Desk, form: FormData) -> Response:
    """Take the reply off the desk; nothing of it was saved."""
    desk.reviewing.put_away()
    return RedirectResponse(PLACE, SHOWN_AFTER)


ROUTES = (
    ("/advice/read", read_reply),
    ("/advice/take", answers(take_over, fields=MOST_SUGGESTIONS + 10)),
    ("/advice/away", answers(put_away)),
)
