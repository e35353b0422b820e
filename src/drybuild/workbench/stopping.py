"""Forms that stop long work, let it go on, and begin the book."""

from __future__ import annotations

from starlette.datastructures import FormData
from starlette.responses import Response

from drybuild.workbench.answers import answers, back, refused, text
from drybuild.workbench.desk import Desk
from drybuild.workbench.tasks import WORDS


def stop_work(desk: Desk, form: FormData) -> Response:
    """Stop one kind of work; what it has found so far is kept where it can be."""
    name = text(form, "task")
    if name not in WORDS:
        return refused(desk, form, "There is no such work.")
    desk.tasks.stop(name)
    return back(form)


def go_on(desk: Desk, form: FormData) -> Response:
    """Let work that was stopped begin again."""
    name = text(form, "task")
    if name not in WORDS:
        return refused(desk, form, "There is no such work.")
    if name == "book":
        return begin_book(desk, form)
    desk.tasks.go_on(name)
    return back(form)


def begin_book(desk: Desk, form: FormData) -> Response:
    """Begin to make the book; its page shows how far it is."""
    desk.refresh()
    desk.bookmaking.begin(desk.build.hashes)
    return back(form)


ROUTES = (
    ("/stop", answers(stop_work)),
    ("/go-on", answers(go_on)),
    ("/book/make", answers(begin_book)),
)
