"""Places that were found, kept on disk by what they were searched in.

A place is kept as numbers alone; its clearances are worked out anew. What is not found costs the
search again and nothing else.
"""

from __future__ import annotations

import hashlib
import json
import tempfile
from collections.abc import Callable
from pathlib import Path

import numpy as np

from drybuild.keeping import program_name, usual_folder
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Array, Question
from drybuild.physics.placement.search import Found, place_at

FOLDER = "places"
AT, MARGINS = "at", "margins"
MOST_KEPT = 200
PROBES = (0.0, 0.3, 0.5, 0.8, 1.0)
"""Shares of the bounds at which limits are looked at to tell questions apart."""


def kept_place(question: Question, near: Near, search: Callable[[], Found]) -> Found:
    """Return the best place of a question: as kept, else as searched, and keep it.

    Parameters
    ----------
    question : Question
        The question; nominal readings count. [m]
    near : Near
        Its scene, made ready. [m]
    search : callable
        The search. [-]

    """
    path = usual_folder() / FOLDER / f"{question_key(question)}.json"
    known = _read(path, AT)
    if known is not None and known.shape == (5,):
        return place_at(question=question, at=known, near=near)
    found = search()
    _write(path, AT, found.spot.at)
    return found


def kept_margins(question: Question, places: Array, work: Callable[[], Array]) -> Array:
    """Return the margins at places of a question: as kept, else as worked out, and keep them.

    Parameters
    ----------
    question : Question
        The question; nominal readings count. [m]
    places : array
        Places, one a column. [m]
    work : callable
        Works them out. [m]

    """
    mark = hashlib.blake2b(places.tobytes(), digest_size=8).hexdigest()
    path = usual_folder() / FOLDER / f"{question_key(question)}-{mark}.json"
    known = _read(path, MARGINS)
    if known is not None and known.shape == places.shape[1:]:
        return known
    found = work()
    _write(path, MARGINS, found)
    return found


def question_key(question: Question) -> str:
    """Return a name for everything that the answer rests on."""
    scene = question.scene
    needs = [scene.needed(a, b) for a in scene.moving for b in scene.fixed]
    rests_on: list[object] = [program_name(), question.roll, needs, sorted(scene.apart)]
    for one in (*scene.moving, *scene.fixed):
        doubt = float(np.ravel(one.doubt)[0])
        rests_on.append((one.name, one.group, one.movement, doubt))
        rests_on += [(piece.name, piece.nominal.tobytes()) for piece in one.pieces]
        if one.sheet is not None:
            rests_on += [one.sheet.points.tobytes(), one.sheet.triangles.tobytes()]
    for name, movement in scene.movements.items():
        rests_on.append((name, repr(movement.nominal)))
    rests_on += [one.tobytes() for one in (question.low, question.high, question.start)]
    share = np.array(PROBES)[None, :]
    places = question.low[:, None] * (1.0 - share) + question.high[:, None] * share
    rests_on += [[one.name for one in question.limits], question.spares(places).tobytes()]
    return hashlib.blake2b(repr(rests_on).encode(), digest_size=16).hexdigest()


def _read(path: Path, name: str) -> Array | None:
    try:
        numbers = json.loads(path.read_text(encoding="utf-8"))[name]
        found = np.array(numbers, dtype=np.float64)
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if bool(np.isfinite(found).all()) else None


def _write(path: Path, name: str, numbers: Array) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(
            "w", dir=path.parent, suffix=".part", delete=False, encoding="utf-8"
        ) as file:
            json.dump({name: [float(one) for one in numbers]}, file)
        Path(file.name).replace(path)
        oldest_first = sorted(path.parent.glob("*.json"), key=lambda one: one.stat().st_mtime)
        for old in oldest_first[:-MOST_KEPT]:
            old.unlink(missing_ok=True)
    except OSError:
        return
