"""Every quantity with its band, what it rests on and where the method comes from."""

from __future__ import annotations

from itertools import groupby

from drybuild.book.pages import Block, Chapter, Sheet
from drybuild.present.as_json import weakest_origin
from drybuild.present.quantity_texts import result_text
from drybuild.session import Session
from drybuild.sources import source


def quantities_chapter(session: Session) -> Chapter:
    """Return one table a matter."""
    blocks: list[Block] = []
    results = sorted(session.quantities.values(), key=lambda one: one.quantity.matter)
    for matter, found in groupby(results, key=lambda one: one.quantity.matter):
        blocks.append(
            Sheet(
                title=matter.capitalize(),
                columns=("quantity", "value (5 to 95 %)", "rests on", "method"),
                rows=tuple(
                    (
                        one.quantity.label,
                        result_text(one, session.evaluation),
                        "" if one.open else weakest_origin(one, session.evaluation),
                        str(source(one.quantity.source)),
                    )
                    for one in found
                ),
                widths=(2.4, 2.4, 0.9, 2.6),
            )
        )
    return Chapter(
        title="All quantities",
        intro="The weakest origin among the readings that a figure rests on stands beside it: "
        "measured, quoted, handbook or guess.",
        blocks=tuple(blocks),
    )
