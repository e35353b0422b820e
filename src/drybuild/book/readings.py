"""Readings as the person wrote them, in sheets."""

from __future__ import annotations

import datetime

from drybuild.book.pages import Block, Sheet
from drybuild.present.numbers import with_minus
from drybuild.project.readings import Reading
from drybuild.project.sections import Section

COLUMNS = 6
"""Named things beside each other at most."""


def readings_sheet(title: str, section: Section) -> list[Block]:
    """Return the readings, choices and words of a section as typed; nothing where none is.

    Named things of a kind (boxes, engines, circuits) stand in a sheet of their own, an entry a row.
    """
    rows, inner = [], []
    for name, one in section.given.items():
        words = type(section).FIELDS[name].words
        if isinstance(one, (Section, dict)):
            inner += _within(f"{title}: {_plain(name)}", one)
        elif told := _text(one):
            rows.append((words, told, *_origin_and_note(one)))
    noted = any(row[3] for row in rows)
    columns = ("reading", "as written", "origin", "note")
    sheet = Sheet(
        title=title,
        columns=columns if noted else columns[:3],
        rows=tuple(rows) if noted else tuple(row[:3] for row in rows),
        widths=(2.6, 1.6, 0.9, 2.0) if noted else (3.4, 1.8, 1.0),
    )
    return [*([sheet] if rows else []), *inner]


def _within(title: str, one: Section | dict[str, object]) -> list[Block]:
    """Return what stands inside: a section, or sections by name; other words by name stay out."""
    if isinstance(one, Section):
        return readings_sheet(title, one)
    return _side_by_side(title, {name: at for name, at in one.items() if isinstance(at, Section)})


def _side_by_side(title: str, named: dict[str, Section]) -> list[Block]:
    blocks: list[Block] = []
    for start in range(0, len(named), COLUMNS):
        shown = dict(list(named.items())[start : start + COLUMNS])
        entries = dict.fromkeys(entry for one in shown.values() for entry in one.given)
        told = {entry: [_text(one.given.get(entry)) for one in shown.values()] for entry in entries}
        rows = tuple((_plain(entry), *cells) for entry, cells in told.items() if any(cells))
        if rows:
            going = ", going on" if start else ""
            widths = (1.2, *(1.0 for _ in shown))
            columns = ("", *shown)
            blocks.append(Sheet(title=f"{title}{going}", columns=columns, rows=rows, widths=widths))
    for name, section in named.items():
        for entry, one in section.given.items():
            if isinstance(one, (Section, dict)):
                blocks += _within(f"{title}, {name}: {_plain(entry)}", one)
    return blocks


def _origin_and_note(value: object) -> tuple[str, str]:
    first = value[0] if isinstance(value, tuple) and value else value
    return (str(first.origin), first.note) if isinstance(first, Reading) else ("", "")


def _text(value: object) -> str:
    """Return a value as typed, several one after the other; nothing for what has no short text."""
    if isinstance(value, Reading):
        return with_minus(value.text)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(_text(one) for one in value if isinstance(one, Reading))
    return str(value) if isinstance(value, (str, datetime.date)) else ""


def _plain(name: str) -> str:
    return name.replace("_", " ")
