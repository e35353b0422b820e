"""What the page "fit" may change: where the engine is put, all of it at once."""

from __future__ import annotations

import math

from starlette.datastructures import FormData
from starlette.responses import Response

from drybuild.errors import SaveError
from drybuild.project.address import Address, write_address
from drybuild.project.writing import AsTyped
from drybuild.session import edit_together
from drybuild.workbench import bay
from drybuild.workbench.answers import back, refused, text
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import remember

FARTHEST, STEEPEST = 10.0, 0.45
"""Bounds of a place that can be meant. [m, rad]"""


def set_place(desk: Desk, form: FormData) -> Response:
    """Write the place that was tried into the build file: one save, one undo."""
    desk.refresh()
    with desk.lock:
        engine = bay.engine_of(desk.build)
        if engine is None or text(form, "engine") != engine:
            return refused(desk, form, "Another engine is picked by now; look at it first.")
        wanted = _wanted(desk, form)
        if wanted is None:
            return refused(desk, form, "The place wants a number in each field.")
        changed = _changed_elsewhere(desk, form, engine)
        if changed:
            words = f"The place was changed elsewhere, to {changed}. Save again to put yours there."
            return refused(desk, form, words)
        return _saved(desk, form, engine, bay.texts(desk.build, engine, wanted))


def _saved(desk: Desk, form: FormData, engine: str, texts: dict[Address, str]) -> Response:
    if not texts:
        return back(form)
    what = write_address(("car", "bay", "engines", engine))
    values = {write_address(at): AsTyped(one) for at, one in texts.items()}
    remember(desk)
    try:
        done = desk.change(lambda: edit_together(desk.place, values, what, "tried on the page fit"))
    except SaveError as fault:
        return refused(desk, form, str(fault))
    return refused(desk, form, "", done.problems) if done.problems else back(form)


def _wanted(desk: Desk, form: FormData) -> dict[str, float] | None:
    """Return the place in SI, or nothing where a field holds none that can be meant."""
    found = {}
    for one in bay.handles(desk.build):
        typed = text(form, one["name"])
        if typed == one["value"]:
            continue  # as it stands: rounding for the eye moves nothing
        try:
            value = float(typed) * one["factor"]
        except ValueError:
            return None
        most = STEEPEST if one["unit"] == "deg" else FARTHEST
        if not math.isfinite(value) or abs(value) > most:
            return None
        found[one["name"]] = value
    return found


def _changed_elsewhere(desk: Desk, form: FormData, engine: str) -> str:
    """Return what stands in the file where it is not what the page showed."""
    found = []
    for one in bay.HANDLES:
        now = typed_at(desk.build, bay.address(desk.build, engine, one))
        if f"was-{one.name}" in form and now != text(form, f"was-{one.name}"):
            found.append(f"{one.entry.replace('_', ' ')} {now or 'nothing'}")
    return ", ".join(found)
