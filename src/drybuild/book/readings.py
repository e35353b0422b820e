"""Readings as the person wrote them, in sheets."""

from __future__ import annotations

import datetime

from drybuild.book.pages import Block, Sheet
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
        if isinstance(one, Reading):
            rows.append((words, one.text, str(one.origin), one.note))
        elif isinstance(one, (str, datetime.date)):
            rows.append((words, str(one), "", ""))
        elif isinstance(one, Section):
            inner += readings_sheet(f"{title}: {name.replace('_', ' ')}", one)
        elif isinstance(one, dict):
            named = {part: part_ for part, part_ in one.items() if isinstance(part_, Section)}
            inner += _side_by_side(f"{title}: {name.replace('_', ' ')}", named)
    noted = any(row[3] for row in rows)
    columns = ("reading", "as written", "origin", "note")
    sheet = Sheet(
        title=title,
        columns=columns if noted else columns[:3],
        rows=tuple(rows) if noted else tuple(row[:3] for row in rows),
        widths=(2.6, 1.6, 0.9, 2.0) if noted else (3.4, 1.8, 1.0),
    )
    return [*([sheet] if rows else []), *inner]


def _side_by_side(title: str, named: dict[str, Section]) -> list[Block]:
    blocks: list[Block] = []
    for start in range(0, len(named), COLUMNS):
        shown = dict(list(named.items())[start : start + COLUMNS])
        entries = dict.fromkeys(entry for one in shown.values() for entry in one.given)
        rows = tuple(
            (entry.replace("_", " "), *(_cell(one.given.get(entry)) for one in shown.values()))
            for entry in entries
        )
        if rows:
            going = ", going on" if start else ""
            widths = (1.2, *(1.0 for _ in shown))
            columns = ("", *shown)
            blocks.append(Sheet(title=f"{title}{going}", columns=columns, rows=rows, widths=widths))
    return blocks


def _cell(value: object) -> str:
    if isinstance(value, Reading):
        return value.text
    return "" if value is None else str(value)
