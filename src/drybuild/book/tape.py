"""The measuring sheet of the bay: where to put the tape, drawn, with boxes to write in."""

from __future__ import annotations

import datetime

from drybuild.book.pages import Block, Book, Caution, Chapter, Figure, Section, Sheet, Words
from drybuild.present.packaging_pairs import judged_pairs, near
from drybuild.present.packaging_tape import Tape, tapes_of
from drybuild.present.packaging_tape_drawing import tape_drawings
from drybuild.present.packaging_views import bay_scene_of, empty_bay_of
from drybuild.session import Session

UNKNOWN = {"guess": "a guess so far", "handbook": "a typical range so far"}
CAUTION = (
    "Measure a cold engine with the battery off, the car on level ground or on stands rated for "
    "it, and a bonnet that cannot fall. Keep hands out of belts and fans."
)
INTRO = (
    "Stretch a line over the front wheel centres and mark the sill seam: they are the datum. Take "
    "each reading twice, write it with its spread, then enter it in the build file."
)


def tapes(session: Session) -> tuple[Tape, ...]:
    """Return the readings of the bay, those first that would settle most."""
    pairs, _ = near(judged_pairs(session.evaluation, session.verdicts))
    return tapes_of(session.evaluation, session.verdicts, pairs)


def tape_blocks(session: Session) -> list[Block]:
    """Return the drawings and the table of readings; nothing where no bay is known."""
    scene = bay_scene_of(session.evaluation) or empty_bay_of(session.evaluation)
    found = tapes(session)
    if scene is None or not found:
        return []
    rows = tuple(
        (str(k), one.what, f"{one.value} ({one.band})" if one.band else one.value, tells(one), "")
        for k, one in enumerate(found, start=1)
    )
    drawings = [
        Figure(
            svg=svg,
            caption=f"{title}: each numbered line is a place for the tape.",
            words=f"{title}: lines {_numbers(found)} of the table below, drawn in the bay.",
        )
        for title, svg in tape_drawings(scene, found).items()
    ]
    return [
        Section(title="Where to put the tape"),
        Words(text=INTRO),
        *drawings,
        Sheet(
            title="Readings, those first that would settle most",
            columns=("no.", "from and to", "in the file", "it would settle", "measured"),
            rows=rows,
            widths=(0.35, 2.6, 1.5, 1.5, 1.1),
            to_write=True,
            note="Shares are of the doubt about that gap. Readings without one are typical or "
            "guessed, or were measured as well as a tape can.",
        ),
    ]


def tape_book(session: Session) -> Book:
    """Return the measuring sheet by itself."""
    blocks = tape_blocks(session) or [Words(text="Nothing of the bay is known to be measured.")]
    return Book(
        title=session.build.name,
        subtitle="Where to put the tape in the engine bay.",
        date=datetime.datetime.now(tz=datetime.UTC).date().isoformat(),
        headline=(),
        chapters=(
            Chapter(
                title="The engine bay",
                intro="",
                blocks=(Caution(text=CAUTION), *blocks),
            ),
        ),
        sort="Measuring sheet",
        colophon=("Figures advise; they certify nothing.",),
        paper="us-letter" if session.build.units == "us" else "a4",
    )


def tells(one: Tape) -> str:
    """Return what a reading would settle, or that it rests on no measurement."""
    if one.settles:
        return one.settles + (" (tape again)" if one.again else "")
    return UNKNOWN.get(one.origin, "")


def _numbers(found: tuple[Tape, ...]) -> str:
    return ", ".join(str(k) for k, one in enumerate(found, start=1) if one.ends is not None)
