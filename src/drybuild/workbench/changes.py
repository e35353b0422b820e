"""What a form may change: an entry, a pick, undo, redo. Never over somebody else's change.

Each form carries what its page showed. Where the file says something else by now (another window,
an editor), nothing is saved and both are shown to choose from.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from starlette.datastructures import FormData
from starlette.responses import Response

from drybuild.errors import Problem, SaveError
from drybuild.project.address import Address, read_address
from drybuild.project.document import Mapping
from drybuild.project.edit import node_at, value_of
from drybuild.project.editing import Edited
from drybuild.project.parse import parse
from drybuild.project.writing import AsTyped, Value, inline
from drybuild.session import edit, redo, remove, undo
from drybuild.workbench.answers import answers, back, clash, refused, text
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import remember
from drybuild.workbench.placing import set_place, take_best_place

TOPS = ("build", "units", "brief", "car", "options", "survey", "datum", "work", "jobs", "limits")
"""What forms may change; picks have a form of their own."""


def set_entry(desk: Desk, form: FormData) -> Response:
    """Change one entry as typed; leave it empty to take it out."""
    address, typed, was = (text(form, name) for name in ("address", "value", "was"))
    desk.refresh()
    with desk.lock:
        try:
            steps = read_address(address)
            if steps[0] not in TOPS:
                return refused(desk, form, "This cannot be changed from here.")
            now, value = typed_at(desk.build, steps), _asked(desk, form, steps)
            wanted = "" if value is None else typed if value == typed else inline(value)
            if now not in (was, wanted):
                return clash(desk, form, now)
            problems = () if now == wanted else _save(desk, address, value, text(form, "why"))
        except ValueError:
            return refused(desk, form, "There is no such place in a build file.")
        except SaveError as fault:
            return refused(desk, form, str(fault))
        return refused(desk, form, "", problems) if problems else back(form)


def _asked(desk: Desk, form: FormData, steps: Address) -> Value:
    if text(form, "take") == "out":
        return None
    typed, origin, note = (text(form, name) for name in ("value", "origin", "note"))
    standing = node_at(desk.build.tree, steps) if desk.build.tree else None
    if typed and isinstance(standing, Mapping) and "value" in standing.entries:
        return _long(standing, typed, origin, note)
    return _value(typed, origin, note)


def _long(standing: Mapping, typed: str, origin: str, note: str) -> Value:
    """Return a long form in the order of the one that stands there, so that comments stay."""
    value, spread = typed, ""
    if "plus_minus" in standing.entries:
        left, mark, right = typed.partition("±")
        if mark and left.strip() and right.strip():
            value, spread = left.strip(), right.strip()
    asked = {"value": value, "plus_minus": spread, "from": origin, "note": note}
    names = [*standing.entries, *(one for one in asked if one not in standing.entries)]
    kept = {one: AsTyped(asked[one]) for one in names if asked.get(one)}
    alone = list(kept) == ["value"] and standing.where.style == "flow"
    return kept["value"] if alone else kept


def _save(desk: Desk, address: str, value: Value, why: str) -> tuple[Problem, ...]:
    def act() -> Edited:
        if value is None:
            return remove(desk.place, address)
        return edit(desk.place, address, value, why)

    remember(desk)
    return desk.change(act).problems


def take_pick(desk: Desk, form: FormData) -> Response:
    """Take an option for a system, or leave the system open with ``?``."""
    system, option, was = (text(form, name) for name in ("system", "option", "was"))
    desk.refresh()
    with desk.lock:
        now = desk.build.picks.get(system, "?")
        if was not in (now, option) and now != option:
            return clash(desk, form, now)
        if now != option:
            remember(desk)
            try:
                desk.pick(system, option)
            except SaveError as fault:
                desk.refresh()
                return refused(desk, form, str(fault))
        return back(form)


def take_back(desk: Desk, form: FormData) -> Response:
    """Undo the last change."""
    return _turn(desk, form, lambda: undo(desk.place))


def take_again(desk: Desk, form: FormData) -> Response:
    """Do again what was taken back."""
    return _turn(desk, form, lambda: redo(desk.place))


def _turn(desk: Desk, form: FormData, act: Callable[[], object]) -> Response:
    desk.refresh()
    remember(desk)
    try:
        desk.change(act)
    except SaveError as fault:
        return refused(desk, form, str(fault))
    return back(form)


def _value(typed: str, origin: str, note: str) -> Value:
    """Return what to write: nothing, a list or mapping in brackets, the long form, or the text."""
    if not typed:
        return None
    if origin or note:
        long = {"value": AsTyped(typed), "from": AsTyped(origin), "note": note}
        return {name: one for name, one in long.items() if one}
    return as_value(typed)


def as_value(typed: str) -> Value:
    """Return what was typed: a list or mapping where it stands in brackets, else the text."""
    if typed[0] not in "[{":
        return AsTyped(typed)
    document = parse(Path("this entry"), f"entry: {typed}\n")
    if document.problems or list(document.root.entries) != ["entry"]:
        raise SaveError(f"{typed!r} does not read as a list or a group in brackets")
    return value_of(document.root.entries["entry"].node)


ROUTES = (
    ("/set", answers(set_entry)),
    ("/pick", answers(take_pick)),
    ("/fit", answers(set_place)),
    ("/fit/best", answers(take_best_place)),
    ("/undo", answers(take_back)),
    ("/redo", answers(take_again)),
)
