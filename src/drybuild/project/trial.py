"""A build as it would be if some readings said something else; nothing is saved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drybuild.errors import Problem
from drybuild.project.address import Address
from drybuild.project.build import Build
from drybuild.project.document import Scalar, Where
from drybuild.project.fields import ReadingField
from drybuild.project.groups import NamedField, PartField
from drybuild.project.reader import Reader
from drybuild.project.readings import Reading
from drybuild.project.sections import Section
from drybuild.units import from_si


def moved_text(reading: Reading | None, value: float, si_unit: str, unit: str) -> str:
    """Return a reading moved to another value, as a person would type it.

    Parameters
    ----------
    reading : Reading
        What stands there; its unit and its stated spread are kept.
    value : float
        The new value in SI, rounded to a tenth of a millimetre or a hundredth of a degree.
    si_unit : str
        The field's unit.
    unit : str
        What to write where nothing stands.

    """
    unit = reading.unit if reading and reading.unit else unit
    number = f"{round(from_si(value, unit, si_unit), _places(unit)):.10g}"
    number = "0" if number == "-0" else number
    spread = _spread(reading.text) if reading else ""
    if spread and unit in spread:
        return f"{number} ± {spread}"
    return f"{number} {unit}" + (f" ± {spread}" if spread else "")


def said_otherwise(build: Build, texts: Mapping[Address, str]) -> tuple[Build, list[Problem]]:
    """Return a build in which some readings of the car say something else, and what is wrong.

    Parameters
    ----------
    build : Build
        The build as read; it stays as it is.
    texts : mapping
        What each reading would say, by its address below ``car``.

    """
    reader = Reader()
    car = dict(build.car)
    for address, text in texts.items():
        name, rest = str(address[1]), address[2:]
        car[name] = _changed(car[name], rest, text, reader, build)
    return replace(build, car=car), reader.problems


def _changed(section: Section, steps: Address, text: str, reader: Reader, build: Build) -> Section:
    name = str(steps[0])
    field, given = type(section).FIELDS[name], dict(section.given)
    if isinstance(field, ReadingField):
        where = Where(file=build.folder, line=0, column=0, start=0, end=0)
        node = Scalar(value=text, plain=True, where=where)
        given[name] = field.read(node, section.path_of(name), reader)
    elif isinstance(field, NamedField):
        known = given.get(name)
        inner = dict(known) if isinstance(known, dict) else {}
        own, path = str(steps[1]), section.path_of(name)
        part = inner.get(own) or field.section(path=f"{path}.{own}", key=f"{section.key}.{name}")
        inner[own] = _changed(part, steps[2:], text, reader, build)
        given[name] = inner
    elif isinstance(field, PartField):
        known = given.get(name)
        part = (
            known
            if isinstance(known, Section)
            else field.section(path=section.path_of(name), key=f"{section.key}.{name}")
        )
        given[name] = _changed(part, steps[1:], text, reader, build)
    return type(section)(path=section.path, key=section.key, given=given, where=section.where)


def _spread(text: str) -> str:
    for mark in ("±", "+-", "+/-"):
        if mark in text:
            return text.partition(mark)[2].strip()
    return ""


def _places(unit: str) -> int:
    return {"mm": 1, "cm": 2, "m": 4, "in": 3, "deg": 2, "°": 2}.get(unit, 4)
