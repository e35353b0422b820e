"""From a reading's path to its field: its key without the person's names, and its words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from drybuild.project.build import Build
from drybuild.project.groups import NamedField, PartField
from drybuild.project.sections import Field, Section

_PLACE = re.compile(r"\[\d+\]")


@dataclass(frozen=True, kw_only=True)
class FieldOf:
    """What stands behind a path."""

    key: str
    """``engine.mass``, ``car.body.wheelbase``."""
    words: str
    unit: str


class Fields:
    """Every section of a build by its path."""

    def __init__(self, build: Build) -> None:
        self._sections = {section.path: section for section in _sections(build)}

    def of(self, path: str) -> FieldOf | None:
        """Return the field of a path, or nothing when no section has it."""
        head = path
        while head:
            head = head.rpartition(".")[0]
            section = self._sections.get(head)
            if section is not None:
                return _field(section, path[len(head) + 1 :])
        return None


def _field(section: Section, rest: str) -> FieldOf | None:
    field = _innermost(section.FIELDS, rest)
    if field is None:
        return None
    unit = getattr(field, "unit", "") or getattr(getattr(field, "item", None), "unit", "")
    return FieldOf(key=f"{section.key}.{rest}", words=field.words, unit=unit)


def _innermost(fields: dict[str, Field[Any]], rest: str) -> Field[Any] | None:
    """Follow the rest of a path through sections within sections, named ones or not."""
    name, _, behind = rest.partition(".")
    field = fields.get(_PLACE.sub("", name))
    if isinstance(field, NamedField):
        behind = behind.rpartition(".")[2]
    if behind and isinstance(field, (NamedField, PartField)):
        return _innermost(field.section.FIELDS, behind) or field
    return field


def _sections(build: Build) -> Iterator[Section]:
    yield build.brief
    yield from build.car.values()
    yield from build.tops.values()
    for named in build.named.values():
        yield from named.values()
    for options in build.options.values():
        yield from options.values()
