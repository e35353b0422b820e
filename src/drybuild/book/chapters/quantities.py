"""Every quantity with its band, what it rests on and where the method comes from."""

from __future__ import annotations

from itertools import groupby

from drybuild.book.pages import Block, Chapter, Sheet
from drybuild.present.as_json import weakest_origin
from drybuild.present.path_words import system_words
from drybuild.present.quantity_texts import result_text
from drybuild.quantities.graph import Result
from drybuild.session import Session

SIDE_BY_SIDE = 6
"""Longer lists of labels stand as one text, to save paper."""


def quantities_chapter(session: Session) -> Chapter:
    """Return one table a matter."""
    blocks: list[Block] = []
    results = sorted(session.quantities.values(), key=lambda one: one.quantity.matter)
    for matter, group in groupby(results, key=lambda one: one.quantity.matter):
        rows = tuple(_row(one, session) for one in group if not _senseless(one))
        if rows:
            blocks.append(
                Sheet(
                    title=system_words(matter).capitalize(),
                    columns=("quantity", "value (5 to 95 %)", "rests on", "method"),
                    rows=rows,
                    widths=(2.3, 2.6, 0.9, 1.5),
                )
            )
    return Chapter(
        title="All quantities",
        intro="The weakest origin among the readings that a figure rests on stands beside it: "
        "measured, quoted, handbook or guess. Methods are named by their short names; the next "
        "chapter says what document each is.",
        blocks=tuple(blocks),
    )


def _row(one: Result, session: Session) -> tuple[str, str, str, str]:
    text = result_text(one, session.evaluation)
    lines = text.split("\n")
    if len(lines) > SIDE_BY_SIDE:
        text = "; ".join(lines)
    rests = "" if one.open else weakest_origin(one, session.evaluation)
    return one.quantity.label, text, rests, one.quantity.source


def _senseless(one: Result) -> bool:
    return any(lack.senseless for lack in one.missing)
