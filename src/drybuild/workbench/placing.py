"""What the page "fit" may change: where the engine is put, as tried or as the search finds best."""

from __future__ import annotations

import math

from starlette.datastructures import FormData
from starlette.responses import Response

from drybuild.errors import SaveError
from drybuild.present.packaging_place import verdict_words
from drybuild.project.address import write_address
from drybuild.project.packaging_moved import moved_entries
from drybuild.project.writing import AsTyped, Value
from drybuild.quantities.packaging_place import file_place
from drybuild.quantities.packaging_place_search import Placement, placement_of
from drybuild.session import edit_together
from drybuild.workbench import bay
from drybuild.workbench.answers import back, refused, text
from drybuild.workbench.apart import apart
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import remember
from drybuild.workbench.tasks import Stopped

FARTHEST, STEEPEST = 10.0, 0.45
"""Bounds of a place that can be meant. [m, rad]"""


def set_place(desk: Desk, form: FormData) -> Response:
    """Write the place that was tried into the build file: one save, one undo."""
    desk.refresh()
    with desk.lock:
        outdated = _outdated(desk, form)
        if outdated:
            return refused(desk, form, outdated)
        wanted = _wanted(desk, form)
        if wanted is None:
            return refused(desk, form, "The place wants a number in each field.")
        engine = text(form, "engine")
        texts = bay.texts(desk.build, engine, wanted)
        values: dict[str, Value] = {write_address(at): AsTyped(one) for at, one in texts.items()}
        return _saved(desk, form, values, "tried on the page fit")


def take_best_place(desk: Desk, form: FormData) -> Response:
    """Look for the place with the most room to spare, and write it into the build file."""
    desk.refresh()
    with desk.lock:
        outdated = _outdated(desk, form)
    if outdated:
        return refused(desk, form, outdated)
    desk.wait()
    version = desk.version
    try:
        found = _searched(desk)
    except Stopped:
        return refused(desk, form, "The search was stopped; nothing is saved.")
    if isinstance(found, str):
        return refused(desk, form, f"{found} Nothing is saved.")
    with desk.lock:
        if desk.refresh() or desk.version != version:
            words = "The build changed while the search went on; nothing is saved. Take it again."
            return refused(desk, form, words)
        values = moved_entries(desk.build, text(form, "engine"), found)
        if not values:
            return refused(desk, form, "It stands in the best place already; nothing to save.")
        return _saved(desk, form, values, "the best place found")


def _searched(desk: Desk) -> dict[str, float] | str:
    """Return the best place as the file's entries have it; words where there is none."""

    def told(_: str) -> None:
        if desk.tasks.stopped("place"):
            raise Stopped
        desk.lock.make_way()

    with apart(desk, queued=True) as session:
        desk.tasks.begin("place")
        try:
            found = placement_of(session.evaluation, alter=False, maps=False, told=told)
        finally:
            desk.tasks.end("place")
            desk.tasks.go_on("place")  # whoever wants it again asks again
        if not isinstance(found, Placement):
            return f"Nothing can be placed: {found}."
        if not found.found.fits:
            return verdict_words(found, session.build.units)
        length = float(session.evaluation.result("engine_size").value[0])
    return file_place(found.found.spot.at, length)


def _outdated(desk: Desk, form: FormData) -> str:
    """Return what the page that sent a form does not know yet."""
    engine = bay.engine_of(desk.build)
    if engine is None or text(form, "engine") != engine:
        return "Another engine is picked by now; look at it first."
    changed = _changed_elsewhere(desk, form, engine)
    if changed:
        return f"The place was changed elsewhere, to {changed}. Do it again if yours shall stand."
    return ""


def _saved(desk: Desk, form: FormData, values: dict[str, Value], why: str) -> Response:
    if not values:
        return back(form)
    what = write_address(("car", "bay", "engines", text(form, "engine")))
    remember(desk)
    try:
        done = desk.change(lambda: edit_together(desk.place, values, what, why))
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
