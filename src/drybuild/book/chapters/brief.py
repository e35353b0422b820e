"""What the car is for, what stays, what must be reached; and the car as it stands."""

from __future__ import annotations

from drybuild.book.pages import Block, Chapter, Sheet, Words
from drybuild.checks.must import must_lines
from drybuild.present.verdict_texts import value_text
from drybuild.project.readings import Reading
from drybuild.session import Session


def brief_chapter(session: Session) -> Chapter:
    """Return the brief with where each must line stands today."""
    given = session.build.brief.given
    blocks: list[Block] = []
    use, keep, prefer = given.get("use"), given.get("keep"), given.get("prefer")
    if isinstance(use, dict):
        shares = ", ".join(f"{name} {share * 100:.0f} %" for name, share in use.items())
        blocks.append(Words(text=f"Use, by distance: {shares}."))
    if isinstance(keep, tuple):
        blocks.append(Words(text=f"Not to be altered: {', '.join(keep)}."))
    if isinstance(prefer, dict):
        weights = ", ".join(f"{name} ({weight:g})" for name, weight in prefer.items())
        blocks.append(Words(text=f"Preferred, with weights: {weights}."))
    if must_lines(session.build):
        blocks.append(_musts(session))
    readings = [(name, one) for name, one in given.items() if isinstance(one, Reading)]
    if readings:
        blocks.append(_readings("Given in the brief", readings))
    return Chapter(
        title="The brief",
        intro="What the car is for, and what decides whether it was worth it.",
        blocks=tuple(blocks) or (Words(text="Nothing is written in the brief yet."),),
    )


def car_chapter(session: Session) -> Chapter:
    """Return the car's own readings, section by section."""
    blocks: list[Block] = []
    for name, section in session.build.car.items():
        readings = [
            (entry, one) for entry, one in section.given.items() if isinstance(one, Reading)
        ]
        if readings:
            blocks.append(_readings(name.capitalize(), readings))
    return Chapter(
        title="The car as it stands",
        intro="What was measured, quoted or guessed. Everything else stands on published typical "
        "ranges, and says so.",
        blocks=tuple(blocks) or (Words(text="Nothing has been measured yet."),),
    )


def _musts(session: Session) -> Sheet:
    return Sheet(
        title="What must be reached",
        columns=("line", "verdict", "today"),
        rows=tuple(
            (one.check.asks.rstrip("?"), str(one.state), value_text(one, session.evaluation))
            for one in session.verdicts
            if one.check.id.startswith("must.")
        ),
        widths=(2.4, 1.0, 2.4),
    )


def _readings(title: str, readings: list[tuple[str, Reading]]) -> Sheet:
    return Sheet(
        title=title,
        columns=("reading", "as written", "origin", "note"),
        rows=tuple(
            (name.replace("_", " "), one.text, str(one.origin), one.note) for name, one in readings
        ),
        widths=(2.0, 2.0, 1.0, 2.4),
    )
