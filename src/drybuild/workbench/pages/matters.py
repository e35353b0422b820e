"""What the pages on matters share: verdicts, figures and the book's drawings of some matters."""

from __future__ import annotations

from typing import Any

from drybuild.book.contents import CHAPTERS
from drybuild.book.pages import Chapter
from drybuild.workbench.desk import Desk
from drybuild.workbench.rendering import figure, told

Key = tuple[int, str]
_DRAWN: dict[Key, Chapter] = {}
"""Chapters of the version that is shown; drawing takes longer than looking."""


def of_matters(
    desk: Desk, matters: tuple[str, ...], chapters: tuple[str, ...]
) -> dict[str, Any]:  # a template takes anything
    """Return verdicts and figures of some matters, and the blocks of some chapters of the book."""
    session = desk.session
    results = [
        (matter, [one for one in session.quantities.values() if one.quantity.matter == matter])
        for matter in matters
    ]
    return {
        "verdicts": [told(one, session) for one in desk.verdicts() if one.check.matter in matters],
        "matters": [
            (matter, [figure(one, session) for one in found if not _senseless(one)])
            for matter, found in results
            if found
        ],
        "chapters": _chapters(desk, chapters),
    }


def _senseless(result: Any) -> bool:  # a result
    return any(lack.senseless for lack in result.missing)


def _chapters(desk: Desk, names: tuple[str, ...]) -> list[Chapter]:
    found = []
    for stale in [key for key in _DRAWN if key[0] != desk.version]:
        _DRAWN.pop(stale, None)
    for chapter in CHAPTERS:
        name = chapter.__module__.rpartition(".")[2]
        if name not in names:
            continue
        key = (desk.version, f"{name}.{chapter.__name__}.{id(desk)}.{desk.settled}")
        if key not in _DRAWN:
            _DRAWN[key] = chapter(desk.session)
        found.append(_DRAWN[key])
    return found
