"""The addresses of the workbench: pages, changes, files, the interface for programs."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from drybuild.checks.verdicts import judge
from drybuild.present.derivations import derivation
from drybuild.workbench import adding, advising, beginning, changes, fit_files, stopping
from drybuild.workbench.api import API
from drybuild.workbench.desk import Desk
from drybuild.workbench.files import book_file
from drybuild.workbench.guard import Guard
from drybuild.workbench.pages import PAGES, choices, verdicts, work
from drybuild.workbench.pages.page import Page
from drybuild.workbench.rendering import STATIC, figure, page, static_file

LONGEST_WAIT = 20.0
Answer = Callable[[Request], Response]
FORMS = (*changes.ROUTES, *adding.ROUTES, *stopping.ROUTES, *advising.ROUTES)


def make_app(
    desk: Desk | None,
    *,
    token: str,
    port: int,
    place: Path | None = None,
    opens: beginning.Opens | None = None,
) -> Starlette:
    """Return the workbench of one build.

    Parameters
    ----------
    desk : Desk or None
        The open build; without one everything leads to a new build.
    token : str
        What lets a browser in; new in every run.
    port : int
        Where it listens.
    place : Path
        Where the first build is to be, when none is open.
    opens : callable
        Opens a workbench on another folder and returns its address.

    """
    app = Starlette(
        routes=[
            *(Route(one.path, _shows(one)) for one in PAGES),
            Route("/choices/{system}/{option:path}", _option),
            Route("/jobs/{name:path}", _job),
            Route("/check/{id}", _check),
            Route("/quantity/{name}", _quantity),
            Route("/state", _state),
            Route("/static/{name:path}", _static),
            *(Route(path, answer, methods=["POST"]) for path, answer in FORMS),
            Route("/book/{kind}", book_file),
            Route("/share", advising.shared_file),
            *fit_files.ROUTES,
            *beginning.ROUTES,
            *API,
        ],
        middleware=[
            Middleware(Guard, token=token, port=port),
            Middleware(beginning.Beginner),
        ],
        exception_handlers={404: _not_here, 500: _broken},
    )
    app.state.desk, app.state.opens = desk, opens
    app.state.place = desk.place if desk else place
    return app


def _shows(one: Page) -> Answer:
    def show(request: Request) -> Response:
        desk: Desk = request.app.state.desk
        desk.refresh()
        if one.before is not None:
            one.before(desk, request.query_params)
        with desk.lock:
            content = one.fill(desk, request.query_params)
            return page(desk, one.template, {"page": one, "pages": PAGES, **content})

    return show


def _option(request: Request) -> Response:
    desk: Desk = request.app.state.desk
    desk.refresh()
    system, name = request.path_params["system"], request.path_params["option"]
    with desk.lock:
        if name not in desk.build.options.get(system, {}):
            return _nothing(desk, f"There is no option {name} for {system} in this build.")
        content = choices.option(desk, system, name)
        content["opened"] = request.query_params.get("part", "")
        return page(desk, "option.html.j2", {"page": choices.PAGE, "pages": PAGES, **content})


def _job(request: Request) -> Response:
    desk: Desk = request.app.state.desk
    desk.refresh()
    name = request.path_params["name"]
    with desk.lock:
        if name not in desk.build.named["jobs"]:
            return _nothing(desk, f"There is no job {name} in this build.")
        content = work.one_job(desk, name)
        return page(desk, "job.html.j2", {"page": work.PAGE, "pages": PAGES, **content})


def _check(request: Request) -> Response:
    desk: Desk = request.app.state.desk
    desk.refresh()
    wanted = request.path_params["id"]
    with desk.lock:
        known = {one.id: one for one in desk.session.checks}
    if wanted in known and known[wanted] in desk.waiting():
        desk.wait()
    with desk.lock:
        known = {one.id: one for one in desk.session.checks}
        if wanted not in known:
            return _nothing(desk, "There is no such check in this build.")
        content = verdicts.explained(desk, judge(known[wanted], desk.session.evaluation))
        return page(desk, "check.html.j2", {"page": verdicts.PAGE, "pages": PAGES, **content})


def _quantity(request: Request) -> Response:
    desk: Desk = request.app.state.desk
    desk.refresh()
    name = request.path_params["name"]
    with desk.lock:
        one = desk.session.graph.quantities.get(name)
        if one is None or one.step:
            return _nothing(desk, "There is no such quantity.")
        result = desk.session.evaluation.result(name)
        lines = derivation(name, desk.session.evaluation)
        content = {
            "one": figure(result, desk.session),
            "words": one.words,
            "derivation": [(len(line) - len(line.lstrip()), line.strip()) for line in lines],
        }
        return page(desk, "quantity.html.j2", {"page": verdicts.PAGE, "pages": PAGES, **content})


def _nothing(desk: Desk, words: str) -> Response:
    content: dict[str, Any] = {"page": verdicts.PAGE, "pages": PAGES, "words": words}
    return page(desk, "nothing.html.j2", content, status=404)


def _state(request: Request) -> Response:
    """Say which version is shown; with ``settle``, wait until there is something newer to see."""
    desk: Desk = request.app.state.desk
    desk.refresh()
    version = request.query_params.get("version", "")
    if "settle" in request.query_params and version == str(desk.version):
        desk.wait(desk.version, LONGEST_WAIT)
    if "choices" in request.query_params and version == str(desk.version):
        desk.choosing.wait(desk.session, LONGEST_WAIT)
    ready = desk.choosing.choices(desk.session) is not None
    tasks = [
        {"name": one.name, "words": one.words, "standing": one.standing, "share": one.share}
        for one in desk.tasks.shown()
    ]
    told = {"version": desk.version, "settled": desk.settled, "choices": ready, "tasks": tasks}
    return JSONResponse(told)


def _static(request: Request) -> Response:
    name = request.path_params["name"]
    data = static_file(name)
    if data is None:
        return PlainTextResponse("There is no such file.", 404)
    kept = {"Cache-Control": "private, max-age=31536000, immutable"}
    return Response(data, media_type=STATIC[name], headers=kept)


def _not_here(request: Request, fault: Exception) -> Response:
    return _nothing(request.app.state.desk, "There is no such page.")


def _broken(request: Request, fault: Exception) -> Response:
    words = "The workbench made a mistake; your files are as they were. The terminal says more."
    return PlainTextResponse(words, 500)
