"""The order of the book: one line a chapter."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from drybuild import __version__
from drybuild.book.chapters.brief import brief_chapter, car_chapter
from drybuild.book.chapters.quantities import quantities_chapter
from drybuild.book.chapters.verdicts import verdicts_chapter
from drybuild.book.pages import Book, Chapter
from drybuild.present.numbers import with_band
from drybuild.quantities.graph import summary
from drybuild.session import Session

CHAPTERS: tuple[Callable[[Session], Chapter], ...] = (
    brief_chapter,
    car_chapter,
    verdicts_chapter,
    quantities_chapter,
)
HEADLINE = (
    "kerb_mass",
    "zero_to_100_kmh",
    "stopping_distance_100_kmh",
    "pedal_force_at_0_9g",
    "cornering_limit",
    "top_speed",
    "total_cost",
    "finish_date",
)
"""Quantities on the title page."""
COLOPHON = (
    f"Made by drybuild {__version__}. Figures advise; they certify nothing.",
    "Brakes, structure, welding, fuel, lifting, belts, high voltage, paint and dust can hurt: "
    "local codes and licensed practice decide.",
)


def make_book(session: Session) -> Book:
    """Return the book of a build."""
    return Book(
        title=session.build.name,
        subtitle="The trial assembly on paper: every number with its unit, source and spread.",
        date=datetime.datetime.now(tz=datetime.UTC).date().isoformat(),
        headline=_headline(session),
        chapters=tuple(chapter(session) for chapter in CHAPTERS),
        colophon=COLOPHON,
    )


def _headline(session: Session) -> tuple[tuple[str, str], ...]:
    build = session.build
    found = []
    for name in HEADLINE:
        result = session.quantities.get(name)
        if result is None or result.open:
            continue
        one = result.quantity
        values = next(iter(result.labelled().values()))
        text = with_band(summary(values), one.unit, one.shown, build.units, build.currency)
        found.append((one.label, text))
    return tuple(found)
