"""A new build, step by step: what is known of the car, then its page full of typical values.

Where the folder holds no build yet, every address leads here. Where one is open already, the new
one gets a folder beside it and a workbench of its own; nothing that stands is ever written over.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import anyio.to_thread
from starlette.datastructures import FormData, State
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from drybuild.errors import SaveError
from drybuild.project.beginning import SIZES, Beginning, beginning_text, problems_of
from drybuild.project.body import KINDS, Body
from drybuild.project.fields import ChoiceField
from drybuild.project.folder import ENDING
from drybuild.project.starter import write_starter
from drybuild.workbench.answers import REFUSED, SHOWN_AFTER, text
from drybuild.workbench.desk import Desk
from drybuild.workbench.rendering import templates

PATH = "/new"
FOLDER = re.compile(r"[^\W_][\w .-]{0,60}")
"""A plain name: no way out of the folder that it is made in."""
KEEP = ("bonnet", "tunnel", "bulkhead", "inner wings", "dashboard", "boot floor", "rear seat")
ROADS = ("town", "motorway", "main road", "country road", "mountain road", "track day")
KIND_WORDS = {
    "unitary": "Its shell carries everything; there is no separate frame.",
    "ladder": "A frame of two rails carries it; the body sits on top.",
    "backbone": "A backbone or a space frame carries it; the body carries next to nothing.",
}
Opens = Callable[[Path], str]
"""Opens a workbench on a folder and returns its address."""


class Beginner:
    """Leads everything to the new build while there is none."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or hand it on."""
        if scope["type"] == "http":
            path, state = scope["path"], scope["app"].state
            if state.desk is None and path != PATH and not path.startswith("/static/"):
                await RedirectResponse(PATH, SHOWN_AFTER)(scope, receive, send)
                return
        await self.app(scope, receive, send)


def holds_build(place: Path) -> bool:
    """Say whether there is a build to open at a place."""
    return place.is_file() or any(place.glob(f"*{ENDING}"))


def show(request: Request) -> Response:
    """Show the form of a new build."""
    return _page(request, {}, {})


async def begin(request: Request) -> Response:
    """Write the build that the form tells of, and open it."""
    form = await request.form(max_files=0, max_fields=60, max_part_size=10_000)
    return await anyio.to_thread.run_sync(_begun, request, form)


def _begun(request: Request, form: FormData) -> Response:
    state = request.app.state
    one, wrong = _told(form)
    folder = state.place
    if state.desk is not None:
        name = text(form, "folder") or one.name
        if not FOLDER.fullmatch(name) or name.endswith("."):
            wrong["folder"] = "A folder's name here has letters, digits, blanks, - and . only."
        here = state.desk.place
        folder = (here if here.is_dir() else here.parent).resolve().parent / name
    if not wrong:
        written = beginning_text(one)
        wrong |= {_field(each.field): f"{each.wrong}. {each.mend}" for each in problems_of(written)}
    if not wrong and folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        wrong["folder"] = f"There is a folder {folder.name} with something in it already."
    if wrong:
        return _page(request, {key: text(form, key) for key in form}, wrong, form)
    try:
        write_starter(folder, one.kind, written)
    except SaveError as fault:
        return _page(request, {}, {"folder": str(fault)}, form)
    return _opened(state, folder)


def _opened(state: State, folder: Path) -> Response:
    if state.desk is None:
        state.desk = Desk(folder)
        return RedirectResponse("/car", SHOWN_AFTER)
    found = templates().get_template("begun.html.j2")
    address = state.opens(folder) if state.opens else "/"
    return HTMLResponse(found.render(folder=folder, address=address))


def _told(form: FormData) -> tuple[Beginning, dict[str, str]]:
    wrong: dict[str, str] = {}
    use: dict[str, float] = {}
    for road in ROADS:
        typed = text(form, f"use.{road}").rstrip("% ")
        try:
            share = float(typed or 0.0)
        except ValueError:
            share = -1.0
        if not 0.0 <= share <= 100.0:
            wrong["use"] = f"{typed!r} is no share from 0 to 100 %."
        elif share:
            use[road] = share
    kind, shape = text(form, "kind"), text(form, "shape")
    more = [one.strip() for one in text(form, "keep.more").split(",")]
    one = Beginning(
        name=text(form, "name"),
        kind=kind if kind in KINDS else KINDS[0],
        shape=shape if shape in shapes() else "",
        units="us" if text(form, "units") == "us" else "metric",
        sizes={name: text(form, name) for name in SIZES},
        use=use,
        keep=tuple(part for part in (*map(str, form.getlist("keep")), *more) if part),
        budget=text(form, "budget"),
        hours=text(form, "hours"),
        examples=text(form, "examples") == "yes",
    )
    return one, one.wrong() | wrong


def shapes() -> tuple[str, ...]:
    """Return the shapes that a body can have."""
    field = Body.FIELDS["shape"]
    assert isinstance(field, ChoiceField)
    return tuple(map(str, field.choices))


def _field(path: str) -> str:
    """Return the form's field that an entry of the file comes from."""
    last = path.rpartition(".")[2]
    return {"build": "name", "must": "budget", "hours_a_week": "hours"}.get(last, last)


def _page(
    request: Request, typed: dict[str, str], wrong: dict[str, str], form: FormData | None = None
) -> Response:
    desk = request.app.state.desk
    found = templates().get_template("new.html.j2")
    content = {
        "typed": typed,
        "kept": form.getlist("keep") if form else ("bonnet",),
        "wrong": wrong,
        "kinds": KIND_WORDS,
        "shapes": shapes(),
        "roads": ROADS,
        "keep": KEEP,
        "beside": desk is not None,
        "folder": request.app.state.place,
    }
    return HTMLResponse(found.render(**content), REFUSED if wrong else 200)


ROUTES = (Route(PATH, show), Route(PATH, begin, methods=["POST"]))
