"""At a glance: how the verdicts fall, the figures that people ask for first, what to do next."""

from __future__ import annotations

from drybuild.book.chapters.questions import subject
from drybuild.book.pages import Block, Chapter, Section, Sheet, Tile, Tiles, Words
from drybuild.book.sheets import DEFERRAL, question, told_value
from drybuild.checks.verdicts import State
from drybuild.present.next_tables import effort_text, worth_text
from drybuild.present.numbers import value_and_band
from drybuild.present.path_words import PathWords
from drybuild.present.verdict_texts import limit_text
from drybuild.quantities.graph import summary
from drybuild.session import Session

HEADLINE = {
    "kerb_mass": "kerb mass",
    "peak_power": "peak power",
    "zero_to_100_kmh": "rest to 100 km/h",
    "top_speed": "top speed",
    "stopping_distance_100_kmh": "stop from 100 km/h",
    "pedal_force_at_0_9g": "pedal force, 0.9 g stop",
    "cornering_limit": "cornering limit",
    "fuel_use_at_cruise": "fuel use, cruising",
    "labour_hours": "your own hours",
    "total_cost": "cost of the build",
    "finish_date": "day it is done",
}
US_HEADLINE = {"zero_to_100_kmh": ("zero_to_60_mph", "rest to 60 mph")}
"""What a reader of US units asks for instead."""
WORDS = {
    State.GOOD: "hold with a margin",
    State.TIGHT: "hold, but barely",
    State.OPEN: "cannot be told yet",
    State.FAILS: "do not hold",
}
FIRST_STEPS = 3


def glance_chapter(session: Session) -> Chapter:
    """Return the page to read first."""
    blocks: list[Block] = [Section(title="How the questions stand"), _counts(session)]
    if session.count(State.FAILS):
        blocks.append(_failing(session))
    tiles = headline(session, HEADLINE)
    if tiles:
        blocks += [Section(title="The car in figures"), Tiles(tiles=tiles)]
    blocks += [Section(title="Three things to do next"), first_steps(session)]
    return Chapter(
        title="At a glance",
        intro=f"Each figure with the band that holds it in 90 of 100 cases. {DEFERRAL}",
        blocks=tuple(blocks),
    )


def headline(session: Session, names: dict[str, str]) -> tuple[Tile, ...]:
    """Return the figures that are known as tiles."""
    build, found = session.build, []
    for metric, metric_words in names.items():
        name, words = metric, metric_words
        if build.units == "us":
            name, words = US_HEADLINE.get(metric, (metric, metric_words))
        result = session.quantities.get(name)
        if result is None or result.open:
            continue
        one, values = result.quantity, next(iter(result.labelled().values()))
        value, band = value_and_band(
            summary(values), one.unit, one.shown, build.units, build.currency
        )
        found.append(Tile(value=value, words=words, band=band))
    return tuple(found)


def first_steps(session: Session) -> Words:
    """Return the steps that are worth most an hour."""
    names, told = PathWords(session.build), []
    for one in session.next_steps[:FIRST_STEPS]:
        what = subject(one, names)
        worth = worth_text(one, session.build.currency).replace("\n", ", ")
        effort = effort_text(one)
        how = f" {one.how.method}" if one.how else ""
        reasons = ", ".join(
            part for part in (f"worth {worth}" if worth else "", f"takes {effort}") if part
        )
        told.append(f"{str(one.act).capitalize()} {what} ({reasons}).{how}")
    if not told:
        return Words(text="Nothing stands out: every question is settled as far as it can be.")
    return Words(points=tuple(told), numbered=True)


def _counts(session: Session) -> Tiles:
    return Tiles(
        tiles=tuple(
            Tile(
                value=f"{session.count(state)} {state}",
                words=WORDS[state],
                state=str(state),
            )
            for state in State
        )
    )


def _failing(session: Session) -> Sheet:
    found = [one for one in session.verdicts if one.state is State.FAILS and not one.check.advice]
    return Sheet(
        title="What does not hold",
        columns=("question", "value (5 to 95 %)", "limit", "what helps"),
        rows=tuple(
            (
                question(session, one),
                told_value(session, one),
                limit_text(one, session.evaluation),
                one.check.mend,
            )
            for one in found
        ),
        widths=(2.2, 2.0, 1.1, 2.6),
    )
