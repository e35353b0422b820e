"""The order of the book: one line a chapter."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from drybuild import __version__
from drybuild.book.chapters.brakes import brakes_chapter
from drybuild.book.chapters.brief import brief_chapter
from drybuild.book.chapters.car import car_chapter
from drybuild.book.chapters.condition import condition_chapter
from drybuild.book.chapters.cooling import cooling_chapter
from drybuild.book.chapters.datum import datum_chapter
from drybuild.book.chapters.electrics import electrics_chapter
from drybuild.book.chapters.glance import glance_chapter, headline
from drybuild.book.chapters.handling import handling_chapter
from drybuild.book.chapters.mass import mass_chapter
from drybuild.book.chapters.money import money_chapter
from drybuild.book.chapters.packaging import packaging_chapter
from drybuild.book.chapters.packaging_place import placement_chapter
from drybuild.book.chapters.paint import paint_chapter
from drybuild.book.chapters.parts import parts_chapter
from drybuild.book.chapters.performance import performance_chapter
from drybuild.book.chapters.picks import picks_chapter
from drybuild.book.chapters.quantities import quantities_chapter
from drybuild.book.chapters.questions import questions_chapter
from drybuild.book.chapters.repair import repair_chapter
from drybuild.book.chapters.shell import shell_chapter
from drybuild.book.chapters.sources import sources_chapter
from drybuild.book.chapters.suspension import suspension_chapter
from drybuild.book.chapters.verdicts import verdicts_chapter
from drybuild.book.chapters.wheels import wheels_chapter
from drybuild.book.chapters.work import work_chapter
from drybuild.book.hands import Bench
from drybuild.book.pages import Book, Chapter
from drybuild.session import Session

CHAPTERS: tuple[Callable[[Session], Chapter], ...] = (
    glance_chapter,
    brief_chapter,
    car_chapter,
    picks_chapter,
    verdicts_chapter,
    parts_chapter,
    mass_chapter,
    wheels_chapter,
    brakes_chapter,
    suspension_chapter,
    handling_chapter,
    performance_chapter,
    packaging_chapter,
    placement_chapter,
    cooling_chapter,
    electrics_chapter,
    shell_chapter,
    condition_chapter,
    repair_chapter,
    datum_chapter,
    paint_chapter,
    work_chapter,
    money_chapter,
    questions_chapter,
    quantities_chapter,
    sources_chapter,
)
REST_ON_ALL = (
    glance_chapter,
    wheels_chapter,
    quantities_chapter,
    shell_chapter,
    verdicts_chapter,
    brakes_chapter,
    repair_chapter,
    questions_chapter,
    sources_chapter,
)
"""Chapters that between them ask for nearly every quantity on all draws; one process has them."""
REST_ON_FEW = (
    packaging_chapter,
    handling_chapter,
    suspension_chapter,
    placement_chapter,
    picks_chapter,
)
"""Chapters that take long with sums that are their own."""
_OTHERS = tuple(make for make in CHAPTERS if make not in {*REST_ON_ALL, *REST_ON_FEW})
FIRST_HAND = (*REST_ON_ALL, *_OTHERS, *REST_ON_FEW)
SECOND_HAND = tuple(reversed((*_OTHERS, *REST_ON_FEW)))
HEADLINE = {
    "kerb_mass": "Kerb mass",
    "zero_to_100_kmh": "Rest to 100 km/h",
    "stopping_distance_100_kmh": "Stop from 100 km/h",
    "pedal_force_at_0_9g": "Pedal force for a 0.9 g stop",
    "cornering_limit": "Cornering limit",
    "top_speed": "Top speed",
    "total_cost": "Cost of the whole build",
    "finish_date": "Day on which it is done",
}
"""Quantities on the title page."""
COLOPHON = (
    f"Made by drybuild {__version__}. Figures advise; they certify nothing.",
    "Brakes, structure, welding, fuel, lifting, belts, high voltage, paint and dust can hurt: "
    "local codes and licensed practice decide.",
)


def make_book(
    session: Session,
    told: Callable[[int, int], object] = lambda done, total: None,
    bench: Bench | None = None,
) -> Book:
    """Return the book of a build.

    Parameters
    ----------
    session : Session
        The build.
    told : callable
        Told how many chapters are made, and how many there are.
    bench : Bench
        Where a second process takes chapters too; None makes them all here.

    """
    made: dict[Callable[[Session], Chapter], Chapter] = {}
    for make in FIRST_HAND:
        if bench is None or bench.take(make.__name__):
            told(len(made), len(CHAPTERS))
            made[make] = make(session)
    for make in FIRST_HAND:
        if make not in made:
            told(len(made), len(CHAPTERS))
            made[make] = (bench and bench.wait(make.__name__)) or make(session)
    return Book(
        title=session.build.name,
        subtitle="The trial assembly on paper: every number with its unit, source and spread.",
        date=datetime.datetime.now(tz=datetime.UTC).date().isoformat(),
        headline=tuple(
            (one.words, f"{one.value} ({one.band})" if one.band else one.value)
            for one in headline(session, HEADLINE)
        ),
        chapters=tuple(made[make] for make in CHAPTERS),
        colophon=COLOPHON,
        paper="us-letter" if session.build.units == "us" else "a4",
    )
