"""Every quantity with its band, what it rests on and where the method comes from."""

from __future__ import annotations

from itertools import groupby

from drybuild.book.pages import Block, Chapter, Sheet
from drybuild.book.sheets import path_words, short_of, text_of
from drybuild.present.as_json import weakest_origin
from drybuild.present.path_words import PathWords, system_words
from drybuild.quantities.graph import Result
from drybuild.session import Session

IN_A_CELL = 4
"""Quantities with more labels stand in tables of their own, a row a label."""
COLUMNS = 5
INTRO = (
    "The weakest origin among the readings that a figure rests on stands beside it: measured, "
    "quoted, handbook or guess. Methods are named by their short names; the next chapter says "
    "what document each is."
)


def quantities_chapter(session: Session) -> Chapter:
    """Return the tables of each matter."""
    blocks: list[Block] = []
    names = path_words(session)
    results = [one for one in session.quantities.values() if not _senseless(one)]
    results.sort(key=lambda one: one.quantity.matter)
    for matter, group in groupby(results, key=lambda one: one.quantity.matter):
        found = list(group)
        title = system_words(matter).capitalize()
        few = [one for one in found if len(one.labelled()) <= IN_A_CELL]
        many = [one for one in found if len(one.labelled()) > IN_A_CELL]
        if few:
            blocks.append(_sheet(title, few, session, names))
        many.sort(key=lambda one: (one.quantity.per, len(one.labelled())))
        for per, alike in groupby(many, key=lambda one: one.quantity.per):
            blocks += _long(title, per, list(alike), session)
    return Chapter(title="All quantities", intro=INTRO, blocks=tuple(blocks))


def _sheet(title: str, found: list[Result], session: Session, names: PathWords) -> Sheet:
    return Sheet(
        title=title,
        columns=("quantity", "value (5 to 95 %)", "rests on", "method"),
        rows=tuple(_row(one, session, names) for one in found),
        widths=(2.5, 2.6, 0.9, 1.4),
    )


def _row(one: Result, session: Session, names: PathWords) -> tuple[str, str, str, str]:
    if one.open:
        text, rests = f"open, missing: {names.of(one.missing[0].path)}", ""
    else:
        text = "\n".join(
            f"{label}: {text_of(session, one, values)}" if label else text_of(session, one, values)
            for label, values in one.labelled().items()
        )
        rests = weakest_origin(one, session.evaluation)
    return one.quantity.label, text, rests, one.quantity.source


def _long(title: str, per: str, alike: list[Result], session: Session) -> list[Block]:
    """Return quantities with the same long list of labels side by side."""
    blocks: list[Block] = []
    for start in range(0, len(alike), COLUMNS):
        shown = alike[start : start + COLUMNS]
        labels = dict.fromkeys(label for one in shown for label in one.labelled())
        tell = text_of if len(shown) < 3 else short_of
        rests = "; ".join(
            f"{one.quantity.label} rests on {weakest_origin(one, session.evaluation)}, method "
            f"{one.quantity.source}"
            for one in shown
        )
        blocks.append(
            Sheet(
                title=f"{title}, by {per}" + (", going on" if start else ""),
                columns=(per, *(one.quantity.label for one in shown)),
                rows=tuple(
                    (
                        label,
                        *(
                            tell(session, one, one.labelled()[label])
                            if label in one.labelled()
                            else ""
                            for one in shown
                        ),
                    )
                    for label in labels
                ),
                widths=(1.6, *(1.0 for _ in shown)),
                note=f"{rests}.",
            )
        )
    return blocks


def _senseless(one: Result) -> bool:
    return any(lack.senseless for lack in one.missing)
