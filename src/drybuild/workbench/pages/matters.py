"""What the pages on matters share: one question after the other, each with its whole answer.

A topic is a question, the verdicts on it, the figures that tell most, the book's drawings and
tables, and behind a fold every other figure of its matters.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from drybuild.book.contents import CHAPTERS
from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet
from drybuild.quantities.graph import Result
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked
from drybuild.workbench.places import page_id
from drybuild.workbench.rendering import figure, told

DRAWN = "drawn"
"""Asks for the drawings of a topic, in an address."""
Key = tuple[int, str]
_DRAWN: dict[Key, Chapter] = {}
"""Chapters of the version that is shown; drawing takes longer than looking."""


@dataclass(frozen=True, kw_only=True)
class Topic:
    """A question that a page answers as a whole."""

    title: str
    asks: str
    matters: tuple[str, ...]
    chapters: tuple[str, ...] = ()
    leads: tuple[str, ...] = ()
    """The quantities that tell most of it."""


def of_topics(
    desk: Desk, topics: tuple[Topic, ...], asked: Asked
) -> dict[str, Any]:  # a template takes anything
    """Return what the page on some topics shows.

    Drawings take longer than all else, so those of a topic come when they are asked for; a page
    with a script asks for them one topic after the other.
    """
    wanted = asked.get(DRAWN, "")
    found = [_topic(desk, one, draw=wanted in (page_id(one.title), "all")) for one in topics]
    return {"topics": [one for one in found if one], "drawn": DRAWN}


def _topic(
    desk: Desk, topic: Topic, *, draw: bool
) -> dict[str, Any] | None:  # a template takes anything
    session = desk.session
    asked = [one for one in desk.verdicts() if one.check.matter in topic.matters]
    chapters = _chapters(desk, topic.chapters, draw=draw)
    found = [] if chapters is None else _figures(desk, topic)
    if not asked and not found and chapters is not None:
        return None
    known = [name for name in topic.leads if name in session.graph.quantities]
    leads = [session.evaluation.result(name) for name in known]
    return {
        "topic": topic,
        "verdicts": [told(one, session) for one in asked],
        "leads": [figure(one, session) for one in leads if not one.open],
        "chapters": chapters,
        "figures": [figure(one, session) for one in found],
    }


def _figures(desk: Desk, topic: Topic) -> list[Result]:
    """Return every quantity of a topic's matters that has a sense for this car."""
    evaluation = desk.session.evaluation
    names = [
        name
        for name, one in desk.session.graph.quantities.items()
        if one.matter in topic.matters and not one.step
    ]
    results = (evaluation.result(name) for name in names)
    return [one for one in results if not _senseless(one)]


def _senseless(result: Result) -> bool:
    return any(lack.senseless for lack in result.missing)


def _chapters(desk: Desk, names: tuple[str, ...], *, draw: bool) -> list[Chapter] | None:
    """Return the chapters of a topic; nothing when they would have to be drawn first."""
    found = []
    for stale in [key for key in _DRAWN if key[0] != desk.version]:
        _DRAWN.pop(stale, None)
    for chapter in CHAPTERS:
        name = chapter.__module__.rpartition(".")[2]
        if name not in names:
            continue
        key = (desk.version, f"{name}.{chapter.__name__}.{id(desk)}.{desk.settled}")
        if key not in _DRAWN:
            if not draw:
                return None
            _DRAWN[key] = _without_verdicts(chapter(desk.session))
        found.append(_DRAWN[key])
    return found


def figures_of(desk: Desk, names: tuple[str, ...]) -> list[Figure]:
    """Return the drawings of some chapters of the book by themselves."""
    chapters = _chapters(desk, names, draw=True) or ()
    return [one for chapter in chapters for one in chapter.blocks if isinstance(one, Figure)]


def _without_verdicts(chapter: Chapter) -> Chapter:
    """Leave out the book's lists of verdicts, which the page has already, and empty headings."""
    kept = [one for one in chapter.blocks if not (isinstance(one, Sheet) and one.states)]
    following: list[Block | None] = [*kept[1:], None]
    blocks = tuple(
        one
        for one, after in zip(kept, following, strict=True)
        if not (isinstance(one, Section) and (after is None or isinstance(after, Section)))
    )
    return Chapter(title=chapter.title, intro=chapter.intro, blocks=blocks)
