"""What the pages on matters share: one question after the other, each with its whole answer.

A topic is a question, the verdicts on it, the figures that tell most, the book's drawings and
tables, and behind a fold every other figure of its matters.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from drybuild.quantities.graph import Result
from drybuild.session import Session
from drybuild.workbench.apart import apart, ready
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked
from drybuild.workbench.places import page_id
from drybuild.workbench.rendering import figure, told

if TYPE_CHECKING:
    from drybuild.book.pages import Block, Chapter, Figure

DRAWN = "drawn"
"""Asks for the drawings of a topic, in an address."""
Key = tuple[int, bool, str]
_DRAWN: WeakKeyDictionary[Desk, dict[Key, Chapter]] = WeakKeyDictionary()
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


def of_topics(desk: Desk, topics: tuple[Topic, ...]) -> dict[str, Any]:  # for a template
    """Return what the page on some topics shows.

    Drawings take longer than all else, so those of a topic come when they are asked for; a page
    with a script asks for them one topic after the other once the verdicts have settled.
    """
    found = [_topic(desk, one) for one in topics]
    return {"topics": [one for one in found if one], "drawn": DRAWN, "drawable": ready(desk)}


def draw_topics(desk: Desk, topics: tuple[Topic, ...], asked: Asked) -> None:
    """Draw the chapters of the topics that are asked for, and work out what pages list."""
    wanted = asked.get(DRAWN, "")
    if wanted:
        desk.wait()
    if ready(desk):
        with apart(desk) as session:
            for name in (name for topic in topics for name in topic.leads):
                if name in session.graph.quantities:
                    session.evaluation.result(name)
    for topic in topics:
        if topic.chapters and wanted not in (page_id(topic.title), "all"):
            continue
        draw(desk, topic.chapters, topic.matters)


def draw(desk: Desk, names: tuple[str, ...], matters: tuple[str, ...] = ()) -> None:
    """Draw chapters of the book on a copy of the session, and work out figures of matters."""
    if not ready(desk):
        return
    version, settled = desk.version, desk.settled
    with apart(desk, queued=bool(names)) as session:
        for chapter in _wanted(names):
            key = _key(chapter, version, settled=settled)
            drawn = _DRAWN.setdefault(desk, {})
            if key not in drawn:
                drawn[key] = _without_verdicts(chapter(session))
        for one in _listed(session, matters):
            session.evaluation.result(one)


def _topic(desk: Desk, topic: Topic) -> dict[str, Any] | None:  # a template takes anything
    session, standing = desk.session, ready(desk)
    asked = [one for one in desk.verdicts() if one.check.matter in topic.matters]
    chapters = _chapters(desk, topic.chapters)
    found = _figures(session, topic) if chapters is not None and standing else []
    if topic.matters and not asked and not found and chapters is not None and standing:
        return None  # a topic of chapters alone stands in any case
    leads = [known_result(desk, name) for name in topic.leads if name in session.graph.quantities]
    return {
        "topic": topic,
        "verdicts": [told(one, session) for one in asked],
        "leads": [figure(one, session) for one in leads if one and not one.open],
        "chapters": chapters,
        "figures": [figure(one, session) for one in found],
    }


def known_result(desk: Desk, name: str) -> Result | None:
    """Return a result; while verdicts settle, only one that is there already."""
    evaluation = desk.session.evaluation
    if ready(desk):
        return evaluation.result(name)
    return evaluation.memory.get(evaluation.key_of(name, desk.build.assumed_picks()))


def _listed(session: Session, matters: tuple[str, ...]) -> list[str]:
    known = session.graph.quantities.items()
    return [name for name, one in known if one.matter in matters and not one.step]


def _figures(session: Session, topic: Topic) -> list[Result]:
    """Return every quantity of a topic's matters that has a sense for this car."""
    results = (session.evaluation.result(name) for name in _listed(session, topic.matters))
    return [one for one in results if not _senseless(one)]


def _senseless(result: Result) -> bool:
    return any(lack.senseless for lack in result.missing)


def _chapters(desk: Desk, names: tuple[str, ...]) -> list[Chapter] | None:
    """Return the chapters of a topic; nothing when they would have to be drawn first."""
    known = _DRAWN.setdefault(desk, {})
    for stale in [key for key in list(known) if key[0] != desk.version]:
        known.pop(stale, None)
    keys = [_key(one, desk.version, settled=desk.settled) for one in _wanted(names)]
    found = [known.get(key) for key in keys]
    drawn = [one for one in found if one is not None]
    return drawn if len(drawn) == len(found) else None


def figures_of(desk: Desk, names: tuple[str, ...]) -> list[Figure] | None:
    """Return the drawings of some chapters of the book; nothing when they are not drawn yet."""
    from drybuild.book.pages import Figure  # noqa: PLC0415  the first page waits for no book

    chapters = _chapters(desk, names)
    if chapters is None:
        return None
    return [one for chapter in chapters for one in chapter.blocks if isinstance(one, Figure)]


def _wanted(names: tuple[str, ...]) -> list[Callable[[Session], Chapter]]:
    from drybuild.book.contents import CHAPTERS  # noqa: PLC0415  the first page waits for no book

    return [one for one in CHAPTERS if one.__module__.rpartition(".")[2] in names]


def _key(chapter: Callable[[Session], Chapter], version: int, *, settled: bool) -> Key:
    return version, settled, f"{chapter.__module__}.{chapter.__name__}"


def _without_verdicts(chapter: Chapter) -> Chapter:
    """Leave out the book's lists of verdicts, which the page has already, and empty headings."""
    from drybuild.book.pages import Chapter, Section, Sheet  # noqa: PLC0415  as above

    kept = [one for one in chapter.blocks if not (isinstance(one, Sheet) and one.states)]
    following: list[Block | None] = [*kept[1:], None][: len(kept)]
    blocks = tuple(
        one
        for one, after in zip(kept, following, strict=True)
        if not (isinstance(one, Section) and (after is None or isinstance(after, Section)))
    )
    return Chapter(title=chapter.title, intro=chapter.intro, blocks=blocks)
