"""Pages as HTML: the templates, and what every page has around it."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Any

import jinja2
from markupsafe import Markup, escape
from starlette.responses import HTMLResponse

from drybuild.checks.verdicts import State, Verdict
from drybuild.present.as_json import weakest_origin
from drybuild.present.quantity_texts import result_text
from drybuild.present.verdict_texts import limit_text, sure_text, value_text
from drybuild.project.history import read_history
from drybuild.quantities.graph import Result
from drybuild.session import Session
from drybuild.sources import source
from drybuild.workbench import places
from drybuild.workbench.compiled import compiled_templates
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import changed_figures
from drybuild.workbench.places import option_page, page_id, shown_at

SIGNS = {"good": "✓", "tight": "≈", "open": "?", "fails": "✗"}
"""A verdict is told by sign and word; colour only helps."""
WHOLE = re.compile(r"\d{4}-\d\d-\d\d|\([^()]{1,20}\)")
WORST_FIRST = (State.FAILS, State.OPEN, State.TIGHT, State.GOOD)


@cache
def templates() -> jinja2.Environment:
    """Return the templates; every text is escaped."""
    room = files("drybuild").joinpath("workbench").joinpath("templates")
    names = [one.name for one in room.iterdir() if one.name.endswith(".j2")]
    found = jinja2.Environment(
        loader=jinja2.DictLoader({one: room.joinpath(one).read_text("utf-8") for one in names}),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
        bytecode_cache=compiled_templates(__file__, places.__file__),
    )
    found.globals.update(signs=SIGNS, static=static_address, island_files=island_files)
    found.globals.update(place=shown_at, option_page=option_page)
    found.filters["id"] = page_id
    found.filters["dated"] = dated
    found.filters["spoken"] = lambda text: str(text).replace("_", " ")
    return found


def dated(text: object) -> Markup:
    """Return a text whose dates and bands in brackets stay on one line each."""
    return Markup(WHOLE.sub(r'<span class="whole">\g<0></span>', str(escape(text))))


@cache
def static_file(name: str) -> bytes | None:
    """Return a file that goes with the pages."""
    if name not in STATIC:
        return None
    room = SHARED.get(name, "workbench/static")
    found = files("drybuild").joinpath(*room.split("/"), *name.split("/"))
    return found.read_bytes() if found.is_file() else None


SHARED = {"colours.css": "present"}
"""What the book has too, by the room that it is in."""
STATIC = {
    "colours.css": "text/css; charset=utf-8",
    "workbench.css": "text/css; charset=utf-8",
    "workbench.mjs": "text/javascript; charset=utf-8",
    "progress.mjs": "text/javascript; charset=utf-8",
    "mark.svg": "image/svg+xml",
    "islands/bay.css": "text/css; charset=utf-8",
    "islands/bay.mjs": "text/javascript; charset=utf-8",
    "islands/frame.mjs": "text/javascript; charset=utf-8",
    "islands/plots.mjs": "text/javascript; charset=utf-8",
    "islands/plots.css": "text/css; charset=utf-8",
}
"""The islands are bundled at set-up; the pages do without them where they are not."""


def island_files(names: tuple[str, ...]) -> list[tuple[str, str]]:
    """Return kind and address of what the islands of a page load, as far as it was bundled."""
    kinds = {"css": "style", "mjs": "script"}
    wanted = [f"islands/{name}.{ending}" for name in names for ending in kinds]
    found = [one for one in wanted if static_file(one) is not None]
    return [(kinds[one.rpartition(".")[2]], static_address(one)) for one in found]


@cache
def static_address(name: str) -> str:
    """Return the address of a file that goes with the pages; it changes with its content."""
    return f"/static/{name}?{hashlib.blake2b(static_file(name) or b'', digest_size=6).hexdigest()}"


def page(
    desk: Desk, template: str, content: dict[str, Any], *, status: int = 200
) -> HTMLResponse:  # a template takes anything
    """Return a page with the frame around it."""
    text = templates().get_template(template).render(frame=frame(desk), **content)
    return HTMLResponse(text, status)


def frame(desk: Desk) -> dict[str, Any]:
    """Return what stands around every page: verdicts in sight, undo, units, problems."""
    session, verdicts = desk.session, desk.verdicts()
    folder = desk.place if desk.place.is_dir() else desk.place.parent
    history = read_history(folder)
    return {
        "name": desk.build.name,
        "build": desk.build,
        "units": desk.build.units,
        "typed_units": typed_at(desk.build, ("units",)),
        "version": desk.version,
        "settled": desk.settled,
        "stopped": desk.tasks.stopped("verdicts"),
        "failed": desk.tasks.failed("verdicts"),
        "choices_stopped": desk.tasks.rests("choices"),
        "tasks": desk.tasks.shown(),
        "counts": counts(verdicts),
        "waiting": len(desk.waiting()),
        "musts": [told(one, session) for one in verdicts if one.check.id.startswith("must.")],
        "moved": desk.moved(verdicts),
        "moved_figures": changed_figures(desk),
        "undo": history.undoable,
        "redo": history.redoable,
        "problems": session.problems,
        "notice": desk.notice,
    }


def counts(verdicts: Iterable[Verdict]) -> list[tuple[str, int]]:
    """Return how many verdicts are in each state, worst first, advice apart."""
    asked = [one.state for one in verdicts if not one.check.advice]
    return [(str(state), asked.count(state)) for state in WORST_FIRST]


def told(verdict: Verdict, session: Session) -> dict[str, Any]:
    """Return a verdict in the person's words and units."""
    return {
        "id": verdict.check.id,
        "asks": _asked(verdict, session),
        "state": str(verdict.state),
        "advice": verdict.check.advice,
        "value": _lacking(verdict) or value_text(verdict, session.evaluation),
        "limit": limit_text(verdict, session.evaluation),
        "sure": sure_text(verdict),
        "matter": verdict.check.matter,
    }


def _lacking(verdict: Verdict) -> str:
    """Return what is missing in words, without the paths that its own page leads to."""
    found = [one.why for one in verdict.missing if not verdict.worst]
    return f"missing: {'; '.join(dict.fromkeys(found[:2]))}" if found else ""


def _asked(verdict: Verdict, session: Session) -> str:
    """Return the question; a must line in the words of its quantity."""
    check = verdict.check
    if not check.id.startswith("must."):
        return check.asks
    label = session.graph.quantities[check.quantity].label
    wanted = limit_text(verdict, session.evaluation) or check.asks
    sure = f", {check.probability * 100:.0f} % sure" if check.probability else ""
    return f"{label} {wanted}{sure}?"


def figure(result: Result, session: Session) -> dict[str, Any]:
    """Return a quantity in the person's words and units."""
    return {
        "name": result.quantity.name,
        "label": result.quantity.label,
        "lines": result_text(result, session.evaluation).split("\n"),
        "open": result.open,
        "rests": "" if result.open else weakest_origin(result, session.evaluation),
        "source": str(source(result.quantity.source)),
    }
