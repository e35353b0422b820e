"""Forms that add and rename: options, jobs, parts of lists, and findings of the survey."""

from __future__ import annotations

from starlette.datastructures import FormData
from starlette.responses import Response

from drybuild.errors import Problem, SaveError
from drybuild.project.address import Address, read_address, write_address
from drybuild.project.writing import Value, inline
from drybuild.session import edit, remove, rename
from drybuild.workbench.answers import answers, back, clash, refused, text
from drybuild.workbench.changes import as_value
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import remember

WITH = "with."
"""What the names of a new entry's own fields begin with."""
PART = "part."
"""What the names of fields of its parts begin with: `part.stations.1.x`; `name` names the part."""
ADDING = ("options", "jobs", "car", "work", "survey", "datum")
"""Where forms may add entries with names of the person's own."""
ZONE = ("found", "judged", "thickness", "new_thickness", "note")
"""What is said of a zone of the body."""
RENAMING = ("options", "jobs")


def add_entry(desk: Desk, form: FormData) -> Response:
    """Write a new option, job or part below its parent, with what was typed of it."""
    inside, name = text(form, "inside"), text(form, "name")
    desk.refresh()
    with desk.lock:
        try:
            steps = (*read_address(inside), name)
        except ValueError:
            return refused(desk, form, "There is no such place in a build file.")
        if steps[0] not in ADDING:
            return refused(desk, form, "Nothing can be added there from here.")
        if not name or typed_at(desk.build, steps):
            return refused(desk, form, "It wants a name that nothing else there has.")
        try:
            value = {**_said(form, WITH), **_parts(form)}
        except SaveError as fault:
            return refused(desk, form, str(fault))
        return _done(desk, form, steps, value)


def _said(form: FormData, head: str) -> dict[str, Value]:
    """Return what was typed in the fields whose names begin like this, by entry."""
    typed = {key.removeprefix(head): text(form, key) for key in form if key.startswith(head)}
    return {name: as_value(one) for name, one in typed.items() if one}


def _parts(form: FormData) -> dict[str, Value]:
    """Return the parts that were typed with a new entry, by list and name."""
    heads = dict.fromkeys(key.rpartition(".")[0] for key in form if key.startswith(PART))
    found: dict[str, dict[str, Value]] = {}
    for head in heads:
        said = _said(form, f"{head}.")
        name = text(form, f"{head}.name")
        said.pop("name", None)
        listed = found.setdefault(head.split(".")[1], {})
        if said and (not name or name in listed):
            raise SaveError(f"each of the {head.split('.')[1]} wants a name of its own")
        if said:
            listed[name] = said
    return {name: parts for name, parts in found.items() if parts}


def rename_entry(desk: Desk, form: FormData) -> Response:
    """Give an option or a job another name, everywhere it is named."""
    address, name = text(form, "address"), text(form, "name")
    desk.refresh()
    with desk.lock:
        try:
            steps = read_address(address)
            if len(steps) < 2 or steps[0] not in RENAMING or not name:
                return refused(desk, form, "It wants a name, and only options and jobs have one.")
            remember(desk)
            problems = desk.change(lambda: rename(desk.place, steps, name))
        except ValueError:
            return refused(desk, form, "There is no such place in a build file.")
        except SaveError as fault:
            return refused(desk, form, str(fault))
        return refused(desk, form, "", problems) if problems else back(form)


def set_finding(desk: Desk, form: FormData) -> Response:
    """Write what was found on a zone of the body, how it was judged or gauged, and a note."""
    zone, was = text(form, "zone"), text(form, "was")
    steps: Address = ("survey", "zones", zone)
    desk.refresh()
    with desk.lock:
        now = typed_at(desk.build, steps)
        kept = {name: text(form, name) for name in ZONE}
        if "new_thickness" not in form:
            kept["new_thickness"] = typed_at(desk.build, (*steps, "new_thickness"))
        value: dict[str, Value] = {name: one for name, one in kept.items() if one}
        said = any(value.get(name) for name in ("found", "thickness", "note"))
        wanted = inline(value) if said else ""
        if now not in (was, wanted):
            return clash(desk, form, now)
        if now == wanted:
            return back(form)
        return _done(desk, form, steps, value if wanted else None)


def _done(desk: Desk, form: FormData, steps: Address, value: Value) -> Response:
    remember(desk)

    def act() -> tuple[Problem, ...]:
        address = write_address(steps)
        if value is None:
            return remove(desk.place, address).problems
        return edit(desk.place, address, value).problems

    try:
        problems = desk.change(act)
    except SaveError as fault:
        return refused(desk, form, str(fault))
    return refused(desk, form, "", problems) if problems else back(form)


ROUTES = (
    ("/add", answers(add_entry)),
    ("/rename", answers(rename_entry)),
    ("/finding", answers(set_finding)),
)
