"""The interface for programs: JSON in SI, told by an OpenAPI document, on the pages' own desk."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

import anyio.to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from drybuild import __version__
from drybuild.errors import SaveError
from drybuild.present.as_json import problem_json, quantities_json, verdicts_json
from drybuild.present.options_tables import options_json
from drybuild.project.writing import AsTyped
from drybuild.session import edit, redo, undo
from drybuild.workbench import bay
from drybuild.workbench.desk import Desk
from drybuild.workbench.placing import FARTHEST, STEEPEST
from drybuild.workbench.promises import ANSWERS, REFUSED

Json = dict[str, Any]  # JSON is free-form
BAD, CLASH = 400, 409


def quantities(desk: Desk, asked: Json) -> Json:
    """Return every quantity with value, band, origin and source."""
    session = desk.session
    return quantities_json(
        session.quantities, session.evaluation, session.problems, desk.build.units
    )


def verdicts(desk: Desk, asked: Json) -> Json:
    """Return every verdict with margin, probability, readings and doubt; and what still waits."""
    session = desk.session
    found = verdicts_json(desk.verdicts(), session.evaluation, session.problems, desk.build.units)
    return {**found, **_version(desk), "waiting": [one.id for one in desk.waiting()]}


def options(desk: Desk, asked: Json) -> Json:
    """Return what the picks leave: possible options, reasons, counts."""
    found = desk.choosing.choices(desk.session)
    picks = dict(desk.build.picks)
    if found is None:
        return {"ready": False, "picks": picks}
    return {"ready": True, **options_json(found.chooser, found.state, picks)}


def state(desk: Desk, asked: Json) -> Json:
    """Return the version that is shown and whether its verdicts are settled."""
    return _version(desk)


def fit(desk: Desk, asked: Json) -> Json:
    """Return the engine in its bay: solids as triangles in body axes [m], place, clearances."""
    return {**bay.scene(desk), **_version(desk)}


def fit_tried(desk: Desk, asked: Json) -> Json:
    """Return the clearances with the engine in another place [m, rad]; nothing is saved."""
    return {**bay.tried(desk, asked), **_version(desk)}


def set_entry(desk: Desk, asked: Json) -> Json:
    """Change one entry as a person would type it."""
    done = desk.change(
        lambda: edit(desk.place, asked["address"], AsTyped(asked["value"]), asked.get("why", ""))
    )
    if done.problems:
        raise Refused([problem_json(one) for one in done.problems])
    return {"saved": True, **_version(desk)}


def pick(desk: Desk, asked: Json) -> Json:
    """Take an option for a system; "?" leaves it open."""
    desk.pick(asked["system"], asked["option"])
    return {"saved": True, **_version(desk)}


def take_back(desk: Desk, asked: Json) -> Json:
    """Undo the last change."""
    done = desk.change(lambda: undo(desk.place))
    return {"saved": done is not None, "what": done and done.what, **_version(desk)}


def take_again(desk: Desk, asked: Json) -> Json:
    """Do again what was taken back."""
    done = desk.change(lambda: redo(desk.place))
    return {"saved": done is not None, "what": done and done.what, **_version(desk)}


class Refused(Exception):  # noqa: N818  it is told, not raised at anybody
    """An edit that would not read; nothing was saved."""

    def __init__(self, problems: list[Json]) -> None:
        super().__init__("the new value does not read")
        self.problems = problems


READS: dict[str, Callable[[Desk, Json], Json]] = {
    "quantities": quantities,
    "verdicts": verdicts,
    "options": options,
    "state": state,
    "fit": fit,
}
TRIES: dict[str, tuple[Callable[[Desk, Json], Json], dict[str, float]]] = {
    "fit/tried": (
        fit_tried,
        {"x": FARTHEST, "y": FARTHEST, "z": FARTHEST, "pitch": STEEPEST},
    ),
}
"""What is asked about and not done: the act, and the numbers it wants with their bounds."""
WRITES: dict[str, tuple[Callable[[Desk, Json], Json], tuple[str, ...], tuple[str, ...]]] = {
    "set": (set_entry, ("address", "value"), ("why",)),
    "pick": (pick, ("system", "option"), ()),
    "undo": (take_back, (), ()),
    "redo": (take_again, (), ()),
}
"""What changes the build: the act, the texts that it must have, those that it may have."""


def _version(desk: Desk) -> Json:
    return {"version": desk.version, "settled": desk.settled}


def _reads(act: Callable[[Desk, Json], Json]) -> Callable[[Request], Response]:
    def answer(request: Request) -> Response:
        desk: Desk = request.app.state.desk
        desk.refresh()
        if "settled" in request.query_params:
            desk.wait()
        with desk.lock:
            return JSONResponse(act(desk, {}))

    return answer


def _tries(name: str) -> Callable[[Request], object]:
    act, bounds = TRIES[name]

    async def answer(request: Request) -> Response:
        asked = _numbers(await request.body(), bounds)
        if asked is None:
            wanted = ", ".join(f"{one} within {most:g}" for one, most in bounds.items())
            return JSONResponse({"saved": False, "wrong": f"numbers wanted: {wanted}"}, BAD)
        return await anyio.to_thread.run_sync(_done, act, request.app.state.desk, asked)

    return answer


def _writes(name: str) -> Callable[[Request], object]:
    act, must, may = WRITES[name]

    async def answer(request: Request) -> Response:
        asked = _asked(await request.body(), must, may)
        if asked is None:
            wanted = ", ".join(must) or "nothing"
            return JSONResponse({"saved": False, "wrong": f"texts wanted: {wanted}"}, BAD)
        return await anyio.to_thread.run_sync(_done, act, request.app.state.desk, asked)

    return answer


def _done(act: Callable[[Desk, Json], Json], desk: Desk, asked: Json) -> Response:
    desk.refresh()
    with desk.lock:
        try:
            return JSONResponse(act(desk, asked))
        except Refused as fault:
            return JSONResponse({"saved": False, "problems": fault.problems}, BAD)
        except SaveError as fault:
            return JSONResponse({"saved": False, "wrong": str(fault)}, CLASH)


def _asked(body: bytes, must: tuple[str, ...], may: tuple[str, ...]) -> Json | None:
    """Return the texts that a request holds, or nothing when it does not hold just those."""
    try:
        said = json.loads(body or b"{}")
    except (ValueError, RecursionError):
        return None
    if not isinstance(said, dict) or not set(must) <= set(said) <= {*must, *may}:
        return None
    sound = all(isinstance(one, str) and _readable(one) for one in said.values())
    return said if sound else None


def _numbers(body: bytes, bounds: dict[str, float]) -> Json | None:
    """Return the numbers that a request holds, or nothing when it does not hold just those."""
    try:
        said = json.loads(body or b"{}")
    except (ValueError, RecursionError):
        return None
    if not isinstance(said, dict) or not set(said) <= set(bounds):
        return None
    sound = all(
        isinstance(one, int | float) and not isinstance(one, bool) and abs(one) <= bounds[name]
        for name, one in said.items()
    )
    return said if sound else None


def _readable(text: str) -> bool:
    return not any("\ud800" <= letter <= "\udfff" or letter == "\x00" for letter in text)


def openapi() -> Json:
    """Return the OpenAPI document of this interface."""
    paths: Json = {}
    for name, act in READS.items():
        paths[f"/api/{name}"] = {
            "get": {"operationId": name, "summary": act.__doc__, "responses": _answers(name)}
        }
    for name, (tries, bounds) in TRIES.items():
        paths[f"/api/{name}"] = {
            "post": {
                "operationId": name.replace("/", "-"),
                "summary": tries.__doc__,
                "requestBody": {
                    "content": {"application/json": {"schema": _numbers_schema(bounds)}},
                },
                "responses": _answers(name, {"400": "It does not read."}),
            }
        }
    for name, (writes, must, may) in WRITES.items():
        schema = {
            "type": "object",
            "properties": {one: {"type": "string"} for one in (*must, *may)},
            "required": list(must),
            "additionalProperties": False,
        }
        paths[f"/api/{name}"] = {
            "post": {
                "operationId": name,
                "summary": writes.__doc__,
                "requestBody": {
                    "required": bool(must),
                    "content": {"application/json": {"schema": schema}},
                },
                "responses": _answers(
                    name,
                    {
                        "400": "It does not read; nothing is saved.",
                        "409": "It cannot be saved; nothing is changed.",
                    },
                ),
            }
        }
    return {
        "openapi": "3.1.0",
        "info": {"title": "drybuild", "version": __version__},
        "paths": paths,
        "components": {"securitySchemes": {"token": {"type": "http", "scheme": "bearer"}}},
        "security": [{"token": []}],
    }


def _numbers_schema(bounds: dict[str, float]) -> Json:
    return {
        "type": "object",
        "properties": {
            one: {"type": "number", "minimum": -most, "maximum": most}
            for one, most in bounds.items()
        },
        "additionalProperties": False,
    }


def _answers(name: str, refusals: Mapping[str, str] = MappingProxyType({})) -> Json:
    """Return what an address answers, by status."""
    told = {"200": ("Done.", ANSWERS[name])}
    told |= {status: (words, REFUSED) for status, words in refusals.items()}
    return {
        status: {"description": words, "content": {"application/json": {"schema": schema}}}
        for status, (words, schema) in told.items()
    }


def _document(request: Request) -> Response:
    return JSONResponse(openapi())


API = (
    *(Route(f"/api/{name}", _reads(act)) for name, act in READS.items()),
    *(Route(f"/api/{name}", _tries(name), methods=["POST"]) for name in TRIES),
    *(Route(f"/api/{name}", _writes(name), methods=["POST"]) for name in WRITES),
    Route("/api/openapi.json", _document),
)
