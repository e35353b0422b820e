"""What a form may change: an entry, a pick, undo, redo. Never over somebody else's change.

Each form carries what its page showed. Where the file says something else by now (another window,
an editor), nothing is saved and both are shown to choose from.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import anyio.to_thread
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from drybuild.errors import Problem, SaveError
from drybuild.project.address import read_address, write_address
from drybuild.project.edit import value_of
from drybuild.project.editing import Edited
from drybuild.project.parse import parse
from drybuild.project.writing import AsTyped, Value
from drybuild.session import edit, redo, remove, undo
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.pages import PAGES
from drybuild.workbench.rendering import page

SHOWN_AFTER = 303
CLASH, REFUSED = 409, 422
TOPS = ("build", "units", "brief", "car", "options", "survey", "work", "jobs", "limits")
"""What forms may change; picks have a form of their own."""


def _answers(act: Callable[[Desk, FormData], Response]) -> Callable[[Request], object]:
    async def answer(request: Request) -> Response:
        form = await request.form(max_files=0, max_fields=40, max_part_size=100_000)
        return await anyio.to_thread.run_sync(act, request.app.state.desk, form)

    return answer


def set_entry(desk: Desk, form: FormData) -> Response:
    """Change one entry as typed; leave it empty to take it out."""
    address, typed, was = (_text(form, name) for name in ("address", "value", "was"))
    desk.refresh()
    with desk.lock:
        try:
            steps = read_address(address)
            if steps[0] not in TOPS:
                return _refused(desk, form, "This cannot be changed from here.")
            now = typed_at(desk.build, steps)
            if now not in (was, typed):
                return _clash(desk, form, now)
            problems = () if now == typed else _save(desk, address, form)
        except ValueError:
            return _refused(desk, form, "There is no such place in a build file.")
        except SaveError as fault:
            return _refused(desk, form, str(fault))
        return _refused(desk, form, "", problems) if problems else _back(form)


def _save(desk: Desk, address: str, form: FormData) -> tuple[Problem, ...]:
    value = _value(_text(form, "value"), _text(form, "origin"), _text(form, "note"))

    def act() -> Edited:
        if value is None:
            return remove(desk.place, address)
        return edit(desk.place, address, value, _text(form, "why"))

    return desk.change(act).problems


def take_pick(desk: Desk, form: FormData) -> Response:
    """Take an option for a system, or leave the system open with ``?``."""
    system, option, was = (_text(form, name) for name in ("system", "option", "was"))
    desk.refresh()
    with desk.lock:
        now = desk.build.picks.get(system, "?")
        if was not in (now, option) and now != option:
            return _clash(desk, form, now)
        if now != option:
            try:
                desk.pick(system, option)
            except SaveError as fault:
                desk.refresh()
                return _refused(desk, form, str(fault))
        return _back(form)


def add_job(desk: Desk, form: FormData) -> Response:
    """Write a new job with its hours."""
    name, hours = _text(form, "name"), _text(form, "value")
    desk.refresh()
    with desk.lock:
        if not name or name in desk.build.named["jobs"]:
            return _refused(desk, form, "A job wants a name that no other job has.")
        address = write_address(("jobs", name, "hours"))
        try:
            done = desk.change(lambda: edit(desk.place, address, AsTyped(hours)))
        except SaveError as fault:
            return _refused(desk, form, str(fault))
        return _refused(desk, form, "", done.problems) if done.problems else _back(form)


def take_back(desk: Desk, form: FormData) -> Response:
    """Undo the last change."""
    return _turn(desk, form, lambda: undo(desk.place))


def take_again(desk: Desk, form: FormData) -> Response:
    """Do again what was taken back."""
    return _turn(desk, form, lambda: redo(desk.place))


def _turn(desk: Desk, form: FormData, act: Callable[[], object]) -> Response:
    desk.refresh()
    try:
        desk.change(act)
    except SaveError as fault:
        return _refused(desk, form, str(fault))
    return _back(form)


def _value(typed: str, origin: str, note: str) -> Value:
    """Return what to write: nothing, a list or mapping in brackets, the long form, or the text."""
    if not typed:
        return None
    if origin or note:
        long = {"value": AsTyped(typed), "from": AsTyped(origin), "note": note}
        return {name: one for name, one in long.items() if one}
    if typed[0] not in "[{":
        return AsTyped(typed)
    document = parse(Path("this entry"), f"entry: {typed}\n")
    if document.problems or list(document.root.entries) != ["entry"]:
        raise SaveError(f"{typed!r} does not read as a list or a group in brackets")
    return value_of(document.root.entries["entry"].node)


def _text(form: FormData, name: str) -> str:
    found = form.get(name, "")
    return found.strip() if isinstance(found, str) else ""


def _back(form: FormData) -> Response:
    return RedirectResponse(_here(form), SHOWN_AFTER)


def _here(form: FormData) -> str:
    """Return the page to show next: one of ours, whatever the form says."""
    here = _text(form, "here")
    known = {one.path for one in PAGES}
    path = here.partition("#")[0].partition("?")[0]
    ours = path in known or path.startswith(("/choices/", "/check/", "/jobs/", "/quantity/"))
    return here if ours and "\\" not in here and "//" not in here else "/"


def _clash(desk: Desk, form: FormData, now: str) -> Response:
    return _told(desk, "clash.html.j2", form, CLASH, now=now)


def _refused(
    desk: Desk, form: FormData, words: str, problems: tuple[Problem, ...] = ()
) -> Response:
    return _told(desk, "refused.html.j2", form, REFUSED, words=words, problems=problems)


def _told(desk: Desk, template: str, form: FormData, status: int, **content: object) -> Response:
    kept = {name: _text(form, name) for name in form}
    here = _here(form)
    shown = next((one for one in PAGES if one.path == here.partition("?")[0]), PAGES[0])
    with desk.lock:
        return page(
            desk,
            template,
            {"page": shown, "pages": PAGES, "form": kept, "here": here, **content},
            status=status,
        )


ROUTES = (
    ("/set", _answers(set_entry)),
    ("/pick", _answers(take_pick)),
    ("/jobs", _answers(add_job)),
    ("/undo", _answers(take_back)),
    ("/redo", _answers(take_again)),
)
