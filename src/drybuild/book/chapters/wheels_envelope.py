"""Blocks of the wheel sheet on the arches: the tyre in its room, and the widest that clears."""

from __future__ import annotations

from drybuild.book.numbers import nominal_of
from drybuild.book.pages import Block, Figure, Section, Sheet, Words
from drybuild.present.envelope import EnvelopeSheet, envelope_drawing, envelope_words
from drybuild.present.widest import (
    COLUMNS,
    gap_words,
    length_teller,
    rows,
    widest_lines,
)
from drybuild.quantities.axles import AXLES
from drybuild.session import Session


def envelope_blocks(session: Session) -> list[Block]:
    """Return the tyre in its arch for each axle whose arch is measured, and the search."""
    drawn = [block for axle in AXLES for block in _axle(session, axle)]
    if not drawn:
        drawn = [
            Words(
                text="The arches themselves are not measured, only the gaps in them: a few "
                "stations round each lip would tell where and when the tyre comes nearest."
            )
        ]
    return [Section(title="The tyre in its arch"), *drawn, *_widest(session)]


def _axle(session: Session, axle: str) -> list[Block]:
    results = session.evaluation.result
    rooms, gaps = results(f"{axle}_wheel_room").value, results(f"{axle}_envelope").value
    fitted = results("fitted_tyres").value
    if not rooms or not gaps or not fitted or not gaps.get(axle):
        return []
    told = length_teller(session.build.units)
    sheet = EnvelopeSheet(
        title=f"{axle.capitalize()} tyre over the wheel's whole motion",
        room=rooms[axle].room,
        fitted=fitted[axle],
        gaps=gaps[axle],
        offset=nominal_of(session, "wheel_offset", axle) or 0.0,
    )
    air = session.quantities[f"{axle}_tyre_air"].labelled()
    lines = tuple(
        (one.name, gap_words(one, told), told(float(air[one.name][0])))
        for one in sorted(sheet.gaps, key=lambda one: float(one.values[0]))
    )
    return [
        Figure(
            svg=envelope_drawing(sheet, told),
            caption="Half plane of the wheel, to scale: dots are points of arch and parts at every "
            "travel, lock and roll; short bars the least gaps. Chains are not allowed for.",
            words=envelope_words(sheet, told),
        ),
        Sheet(
            title=f"Gaps round the {axle} tyre",
            columns=("what", "least gap (5 to 95 %), where and when", "air wanted"),
            rows=lines,
            numeric=(2,),
            widths=(1.0, 5.2, 0.9),
        ),
    ]


def _widest(session: Session) -> list[Block]:
    found = session.evaluation.result("widest_tyres").value
    if found is None:
        return []
    told = length_teller(session.build.units)
    return [
        Sheet(
            title="The widest tyre that clears, and what each change buys",
            columns=COLUMNS,
            rows=tuple(rows(found, told)),
            widths=(1.5, 0.6, 1.1, 1.0, 0.8, 0.8, 2.2),
        ),
        Words(points=tuple(widest_lines(found, told))),
    ]
