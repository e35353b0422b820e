"""The suspension's candidates side by side: one table an end, and one set of plots."""

from __future__ import annotations

from drybuild.book.numbers import shown_array, shown_unit
from drybuild.book.pages import Block, Figure, Section, Sheet, Words
from drybuild.present.candidates import Candidate, Comparison, compared, figure_text
from drybuild.present.candidates_table import label_of, price_text, solved
from drybuild.present.plots import Line, lines_plot
from drybuild.quantities.graph import Evaluation
from drybuild.session import Session

PLOTS = {
    "camber": ("Camber, top outward", "rad", "deg"),
    "toe_in": ("Toe-in of a wheel", "rad", "deg"),
    "roll_centre_height": ("Roll centre over the road", "m", "mm"),
    "motion_ratio": ("Spring travel over wheel travel", "-", "-"),
}
MOST = 6
"""Candidates that one plot and one table hold: as many as there are dashes."""
SAMPLES = 200
"""Draws behind the bands here: ten candidates with all of the build's would hold the book up."""
SHOWN = ("front_suspension", "rear_suspension")


def candidates(session: Session) -> list[Block]:
    """Return tables and plots of both ends, where there is something to choose."""
    blocks: list[Block] = []
    few = Evaluation(session.graph, session.build, min(session.evaluation.samples, SAMPLES))
    for system in SHOWN:
        if len(session.build.options.get(system, {})) > 1:
            blocks += _end(session, compared(few, session.checks, system, judged=False))
    return blocks


def _end(session: Session, found: Comparison) -> list[Block]:
    blocks: list[Block] = [Section(title=f"Candidates for the {found.axle} suspension")]
    told = tuple(f"{one.name}: {one.conflict}" for one in found.candidates if one.conflict)
    if told:
        blocks.append(Words(text="What cannot be had together:", points=told))
    shown = found.candidates[:MOST]
    blocks.append(_table(session, found, shown))
    for name, (label, unit, unit_shown) in PLOTS.items():
        blocks += _plot(session, found, shown, name, (label, unit, unit_shown))
    return blocks


def _table(session: Session, found: Comparison, shown: tuple[Candidate, ...]) -> Sheet:
    rows = [
        ("guided by", *(one.layout or "–" for one in shown)),
        ("geometry from", *("hardpoints" if solved(one.curves) else "its sheet" for one in shown)),
    ]
    for name in found.names:
        cells = [figure_text(one, name, found.axle, session.evaluation) for one in shown]
        if any(cell != "–" for cell in cells):
            rows.append((label_of(found, name), *(cell.replace("\n", "; ") for cell in cells)))
    rows.append(("price", *(price_text(one.price, session.evaluation) for one in shown)))
    return Sheet(
        title="",
        columns=("figure", *(f"{one.name}{' (picked)' if one.picked else ''}" for one in shown)),
        rows=tuple(rows),
        widths=(1.3, *(1.0 for _ in shown)),
        note="Each candidate stands in the build as it is picked otherwise; in brackets what lies "
        "between 5 % and 95 %. A dash: its sheet does not say, and only hardpoints would. "
        f"Bands of {SAMPLES} draws.",
    )


def _plot(
    session: Session,
    found: Comparison,
    shown: tuple[Candidate, ...],
    name: str,
    said: tuple[str, str, str],
) -> list[Block]:
    label, unit, unit_shown = said
    lines = []
    for one in shown:
        curve = one.curves.get(name)
        if curve is not None:
            sheet = "" if curve.from_points else ", by its sheet"
            lines.append(
                Line(
                    label=f"{one.name}{sheet}",
                    x=shown_array(session, curve.travel, "m", "mm"),
                    y=shown_array(session, curve.nominal, unit, unit_shown),
                )
            )
    if not lines or all(abs(value) < 1e-9 for line in lines for value in line.y):
        return []
    unit_words = "" if unit_shown == "-" else f" [{shown_unit(session, unit_shown)}]"
    svg = lines_plot(
        lines,
        x_label=f"Wheel travel, bump positive [{shown_unit(session, 'mm')}]",
        y_label=f"{label}{unit_words}",
        from_zero=False,
        height=180.0,
    )
    return [
        Figure(
            svg=svg,
            caption=f"{label}: the {found.axle} candidates over the wheel's travel. Those with "
            "hardpoints are moved; of the others the sheet's figure is drawn as a straight line.",
            words=f"{len(lines)} candidates: {', '.join(line.label for line in lines)}.",
        )
    ]
