"""The car as it stands: what was measured, quoted or guessed."""

from __future__ import annotations

from drybuild.book.pages import Block, Chapter, Words
from drybuild.book.readings import readings_sheet
from drybuild.session import Session

TITLES = {
    "body": "Body",
    "mass": "On the scales",
    "arches": "Room in the arches",
    "running": "Rolling and launch",
    "bay": "Engine bay",
    "cabin": "Cabin and belts",
}


def car_chapter(session: Session) -> Chapter:
    """Return the car's own readings, section by section."""
    blocks: list[Block] = []
    for name, section in session.build.car.items():
        title = TITLES.get(name, name.replace("_", " ").capitalize())
        blocks += readings_sheet(title, section)
    return Chapter(
        title="The car as it stands",
        intro="What was measured, quoted or guessed. Everything else stands on published typical "
        "ranges, and says so.",
        blocks=tuple(blocks) or (Words(text="Nothing has been measured yet."),),
    )
