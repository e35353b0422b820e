"""What the car is for, what stays, what must be reached."""

from __future__ import annotations

from drybuild.book.pages import Block, Chapter, Sheet, Words
from drybuild.book.readings import readings_sheet
from drybuild.book.sheets import told_value
from drybuild.checks.must import must_lines
from drybuild.session import Session

SIGNS = {"<=": "≤", ">=": "≥"}


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
        weights = ", ".join(
            f"{_label(session, name)} ({weight:g})" for name, weight in prefer.items()
        )
        blocks.append(Words(text=f"Preferred, with weights: {weights}."))
    if must_lines(session.build):
        blocks.append(_musts(session))
    blocks += readings_sheet("Given in the brief", session.build.brief)
    return Chapter(
        title="The brief",
        intro="What the car is for, and what decides whether it was worth it.",
        blocks=tuple(blocks) or (Words(text="Nothing is written in the brief yet."),),
    )


def _label(session: Session, name: str) -> str:
    found = session.graph.quantities.get(name)
    return found.label.lower() if found else name.replace("_", " ")


def _musts(session: Session) -> Sheet:
    rows = []
    for one in session.verdicts:
        if one.check.id.startswith("must."):
            line = one.check.asks.rstrip("?")
            for typed, sign in SIGNS.items():
                line = line.replace(typed, sign)
            label = session.graph.quantities[one.check.quantity].label
            rows.append((label, line, str(one.state), told_value(session, one)))
    return Sheet(
        title="What must be reached",
        columns=("what", "line of the brief", "verdict", "today (5 to 95 %)"),
        rows=tuple(rows),
        states=(2,),
        widths=(2.2, 2.2, 0.9, 2.2),
    )
