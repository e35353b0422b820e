"""The build as one HTML file for other people's advice: what is asked, picked, open; how to answer.

It is set like the book, needs no network and runs no script. What is private can be left out.
"""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Callable, Iterable
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal

from drybuild.book.chapters.brief import brief_chapter
from drybuild.book.chapters.car import car_chapter
from drybuild.book.chapters.glance import glance_chapter
from drybuild.book.chapters.packaging import packaging_chapter
from drybuild.book.chapters.picks import picks_chapter
from drybuild.book.chapters.questions import questions_chapter
from drybuild.book.chapters.shell import shell_chapter
from drybuild.book.chapters.suspension import suspension_chapter
from drybuild.book.chapters.verdicts import verdicts_chapter
from drybuild.book.chapters.wheels import wheels_chapter
from drybuild.book.contents import COLOPHON
from drybuild.book.html import write_html
from drybuild.book.option_texts import lead_time, mass_of, money_of
from drybuild.book.pages import Block, Book, Chapter, Listing, Sheet, Words
from drybuild.checks.verdicts import State
from drybuild.present.path_words import system_words
from drybuild.project.readings import Reading
from drybuild.session import Session

Private = Literal["money", "places"]
PRIVATE: tuple[Private, ...] = ("money", "places")
"""What can be left out."""
LEFT_OUT = "(left out)"
REPLY_NAME = "reply.yaml"


def options_chapter(session: Session) -> Chapter:
    """Return every option that is considered, with what is known of it."""
    build, blocks = session.build, list[Block]()
    for system, options in build.options.items():
        if len(options) == 1:
            continue
        taken = build.picks.get(system)
        rows = tuple(
            (
                name,
                "picked" if name == taken else "",
                mass_of(one, build.units),
                money_of(one, build.currency),
                lead_time(one),
                _facts(one.given),
            )
            for name, one in options.items()
        )
        blocks.append(
            Sheet(
                title=system_words(system).capitalize(),
                columns=("option", "", "mass", "price", "lead time", "what else is known"),
                rows=rows,
                numeric=(2, 3, 4),
                widths=(1.8, 0.7, 0.9, 1.0, 0.9, 3.4),
            )
        )
    return Chapter(
        title="Options considered",
        intro="What has been thought of so far for each system with a choice. What is missing here "
        "is what advice is asked for.",
        blocks=tuple(blocks) or (Words(text="No system has more than one option yet."),),
    )


def _facts(given: dict[str, object]) -> str:
    told = [
        f"{name.replace('_', ' ')} {one.text}"
        for name, one in given.items()
        if isinstance(one, Reading) and name not in ("mass", "price", "lead_time")
    ]
    return ", ".join(told[:6])


def answering_chapter(session: Session) -> Chapter:
    """Return how to answer, with a template to fill in."""
    steps = (
        "Copy the text below into a file, or keep it with the link beneath it.",
        "Fill in what you have something to say about: options, values, notes. Units are free.",
        f"Send the file ({REPLY_NAME}) back. The owner sees each suggestion with what it would do "
        "to the verdicts, and takes over what convinces.",
    )
    return Chapter(
        title="How to answer",
        intro="Advice is welcome on anything, most of all on the open questions. It is written "
        "into a small text file.",
        blocks=(
            Words(points=steps, numbered=True),
            Listing(text=template(session), name=REPLY_NAME, words="The reply to fill in"),
        ),
    )


def template(session: Session) -> str:
    """Return the reply to fill in, with names of this build in its examples."""
    build = session.build
    system = next((one for one, options in build.options.items() if len(options) > 1), "engine")
    readings = session.evaluation.readings
    steps = [one.about for one in session.next_steps if one.about in readings]
    entry = next((one for one in steps if one.startswith("car.")), "car.body.wheelbase")
    known = readings.get(entry)
    words = {
        "name": _quoted(build.name),
        "system": system,
        "currency": build.currency,
        "entry": entry,
        "value": _quoted(known.text if known else "2540 mm"),
    }
    text = files("drybuild").joinpath("exchange").joinpath("template.yaml").read_text("utf-8")
    for name, one in words.items():
        text = text.replace(f"{{{{ {name} }}}}", one)
    return text


def _quoted(text: str) -> str:
    from drybuild.project.writing import scalar  # noqa: PLC0415  a single word of it

    return scalar(" ".join(text.split()), flow=True)


CHAPTERS: tuple[Callable[[Session], Chapter], ...] = (
    glance_chapter,
    brief_chapter,
    questions_chapter,
    answering_chapter,
    picks_chapter,
    options_chapter,
    verdicts_chapter,
    car_chapter,
    packaging_chapter,
    wheels_chapter,
    suspension_chapter,
    shell_chapter,
)
"""In the order in which somebody asked for advice reads."""


def shared(session: Session, leave_out: Iterable[Private] = ()) -> Book:
    """Return the file for other people's advice, without what shall be left out."""
    counts = [f"{session.count(state)} {state}" for state in reversed(State)]
    book = Book(
        title=session.build.name,
        subtitle="Your advice is asked for. What is planned, what is known, what is still open; "
        "how to answer stands in its own chapter.",
        date=datetime.datetime.now(tz=datetime.UTC).date().isoformat(),
        headline=(("Questions", ", ".join(counts)),),
        chapters=tuple(make(session) for make in CHAPTERS),
        sort="For advice",
        colophon=COLOPHON,
    )
    clean = _cleaner(session, tuple(leave_out))
    found: Book = _cleaned(book, clean)
    return found


def write_shared(session: Session, target: Path, leave_out: Iterable[Private] = ()) -> None:
    """Write the file for other people's advice."""
    write_html(shared(session, leave_out), target)


def _cleaner(session: Session, leave_out: tuple[Private, ...]) -> Callable[[str], str]:
    """Return what takes private words out of a text: always the folder, the rest as wished."""
    build, patterns = session.build, list[str]()
    folder = str(build.folder.resolve())
    patterns += [re.escape(one) for one in (folder, str(Path.home())) if len(one) > 1]
    if "money" in leave_out:
        code = re.escape(build.currency)
        figure = r"[~≈−-]?\d[\d\s.,\u2009\u202f–-]*"
        patterns += [rf"{figure}(?:\s*(?:to|/)\s*{figure})*\s*{code}(?:/\w+)?(?:\s*\([^)]*\))?"]
        patterns += [rf"{code}\s*{figure}"]
    if "places" in leave_out:
        names = build.tops["work"].given.get("places")
        given = [*(names if isinstance(names, dict) else ())]
        given += [
            str(job.given["place"]) for job in build.named["jobs"].values() if "place" in job.given
        ]
        patterns += [rf"(?<!\w){re.escape(one)}(?!\w)" for one in dict.fromkeys(given)]
    found = re.compile("|".join(patterns)) if patterns else None
    return (lambda text: found.sub(LEFT_OUT, text)) if found else (lambda text: text)


def _cleaned(value: Any, clean: Callable[[str], str]) -> Any:  # any part of a book
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, tuple):
        return tuple(_cleaned(one, clean) for one in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        parts = {one.name: getattr(value, one.name) for one in dataclasses.fields(value)}
        kept = {name: one for name, one in parts.items() if name not in ("kind", "svg")}
        return dataclasses.replace(value, **{n: _cleaned(one, clean) for n, one in kept.items()})
    return value
