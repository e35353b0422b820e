"""What is wrong with the entries on the engine's place: names that stand for nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from drybuild.errors import Problem
from drybuild.project.build import Build
from drybuild.project.packaging import FORMS, Bay, EngineBox
from drybuild.project.packaging_place import Drawn, Package, Placing
from drybuild.project.packaging_problems import WANTED
from drybuild.project.reader import nearest
from drybuild.project.sections import Section
from drybuild.tables.packaging import engine_rows
from drybuild.tables.packaging_place import alteration_rows

ALWAYS = ("sump bowl", "bell housing", "sump")
"""Pieces and solids that every engine has."""


def placing_problems(build: Build) -> tuple[Problem, ...]:
    """Return every name in the entries on the engine's place that stands for nothing."""
    bay = build.car.get("bay")
    if not isinstance(bay, Bay):
        return ()
    engines = _named(bay, "engines")
    found = [*_placing(build, bay, engines)]
    for name, box in engines.items():
        if isinstance(box, EngineBox):
            found += _packages(build, ("car", "bay", "engines", name), box)
    return tuple(found)


def _placing(build: Build, bay: Bay, engines: dict[str, Section]) -> Iterator[Problem]:
    placing = bay.given.get("placing")
    if not isinstance(placing, Placing):
        return
    at = ("car", "bay", "placing")
    known = [row.name for row in alteration_rows()]
    for name in _named(placing, "alterations"):
        if name not in known:
            wrong = f'"{name}" is no alteration of the table'
            yield _unknown(build, (*at, "alterations", name), wrong, nearest(name, known))
    pieces = {piece for box in engines.values() for piece in _pieces(box)}
    for name, one in _named(placing, "drawn").items():
        where = (*at, "drawn", name)
        lacking = [entry for entry in ("of", "along", "way") if one.given.get(entry) is None]
        if isinstance(one, Drawn) and lacking:
            wrong = f"it needs {' and '.join(lacking)}"
            mend = "Give {of: starter motor, along: [1, 0, 0], way: 70 mm}."
            yield _problem("solid-incomplete", build, where, wrong, mend)
        of = str(one.given.get("of") or "")
        if of and pieces and of not in pieces:
            wrong = f'"{of}" is no piece of any engine here'
            yield _unknown(build, (*where, "of"), wrong, nearest(of, sorted(pieces)))


def _packages(build: Build, at: tuple[str, ...], box: EngineBox) -> Iterator[Problem]:
    pieces = _pieces(box)
    taken: dict[str, str] = {}
    for name, one in _named(box, "packages").items():
        if not isinstance(one, Package):
            continue
        where = (*at, "packages", name)
        for part, shape in _named(one, "parts").items():
            form = str(shape.given.get("form") or "box")
            lacking = [word for word in WANTED.get(form, ()) if shape.given.get(word) is None]
            if lacking:
                wrong = f"a {form} needs {' and '.join(lacking)}"
                mend = f"Give {', '.join(WANTED[form])}; or another form."
                yield _problem("solid-incomplete", build, (*where, "parts", part), wrong, mend)
        gone = one.given.get("instead_of")
        for piece in gone if isinstance(gone, tuple) else ():
            if piece not in pieces:
                wrong = f'"{piece}" is no piece of this engine'
                mend = nearest(piece, sorted(pieces))
                yield _unknown(build, (*where, "instead_of"), wrong, mend)
            elif one.given.get("taken") and piece in taken:
                wrong = f'"{taken[piece]}" stands for the {piece} already'
                mend = "Take one of them: give the other taken: false."
                yield _problem("solid-incomplete", build, where, wrong, mend)
            elif one.given.get("taken"):
                taken[piece] = name


def _pieces(box: Section) -> set[str]:
    """Return the names of an engine's pieces; nothing of plain boxes but what is always there."""
    form = str(box.given.get("form") or FORMS[0])
    heads = str(box.given.get("heads") or "narrow")
    usual = {row["piece"] for row in engine_rows(form, heads)} if form != FORMS[0] else set()
    return {*usual, *ALWAYS, *_named(box, "parts")}


def _named(section: Section, name: str) -> dict[str, Section]:
    given = section.given.get(name)
    return given if isinstance(given, dict) else {}


def _problem(code: str, build: Build, steps: Iterable[str], wrong: str, mend: str) -> Problem:
    where = tuple(steps)
    file, line = build.place_of(*where)
    return Problem(code=code, file=file, line=line, field=".".join(where), wrong=wrong, mend=mend)


def _unknown(build: Build, steps: Iterable[str], wrong: str, mend: str) -> Problem:
    return _problem("reference-unknown", build, tuple(steps), wrong, mend)
