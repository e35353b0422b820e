"""Readings as the person wrote them, in a sheet."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from drybuild.book.pages import Block, Sheet
from drybuild.project.readings import Reading
from drybuild.project.sections import Section


def readings_sheet(title: str, section: Section) -> list[Block]:
    """Return the readings, choices and words of a section as typed; nothing where none is."""
    rows = tuple(_rows(section, ""))
    noted = any(row[3] for row in rows)
    columns = ("reading", "as written", "origin", "note")
    if not rows:
        return []
    return [
        Sheet(
            title=title,
            columns=columns if noted else columns[:3],
            rows=rows if noted else tuple(row[:3] for row in rows),
            widths=(2.6, 1.6, 0.9, 2.0) if noted else (3.4, 1.8, 1.0),
        )
    ]


def _rows(section: Section, before: str) -> Iterator[tuple[str, str, str, str]]:
    for name, one in section.given.items():
        field = type(section).FIELDS[name]
        words = before + (field.words if not before else name.replace("_", " "))
        if isinstance(one, Reading):
            yield words, one.text, str(one.origin), one.note
        elif isinstance(one, (str, datetime.date)):
            yield words, str(one), "", ""
        elif isinstance(one, Section):
            yield from _rows(one, f"{before}{name.replace('_', ' ')}, ")
        elif isinstance(one, dict):
            for part, inner in one.items():
                if isinstance(inner, Section):
                    yield from _rows(inner, f"{before}{part}: ")
