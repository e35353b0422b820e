"""The repair sheet: what is let in, in which order, braced how, measured when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet, Words
from drybuild.book.sheets import cautions, figures
from drybuild.present.as_json import weakest_origin
from drybuild.present.body_survey import skin_drawing, structure_drawing, survey_of
from drybuild.quantities.condition import CAUTION
from drybuild.quantities.condition_repair import LIKELY, Repair, RepairList
from drybuild.session import Session

HOUR = 3600.0
STEPS = (
    "Brace before the first cut: every bar of the list below, bolted or tacked where it can come "
    "off again. Doors are hung and shut wherever the repair allows it.",
    "Set the shell level on its own points, measure the datum sheet, and write it down.",
    "Open one round of the list. Keep every old panel until the new one sits: it is the pattern.",
    "Fit, clamp and tack; measure the datum points again; only then weld, in short runs that jump "
    "from end to end, so that heat pulls nowhere.",
    "Close the round: seams, primer, wax where nobody will reach again. Measure, then go on.",
    "Braces come off after the last round, and the datum sheet is measured once more.",
)
SUMS = (
    "rust_repair_rounds",
    "rust_repair_hours",
    "rust_sheet_area",
    "rust_sheet_mass",
    "rust_weld_length",
    "rust_repair_cost",
)


def repair_chapter(session: Session) -> Chapter:
    """Return the repairs found and likely, in rounds that keep the shell true."""
    blocks: list[Block] = [
        *cautions(session, "condition", extra=(CAUTION,)),
        Section(title="How to go about it"),
    ]
    blocks.append(Words(points=STEPS, numbered=True))
    result = session.evaluation.result("repair_list")
    listed = result.value
    if isinstance(listed, RepairList) and listed.repairs:
        blocks += [
            *_drawn(session, listed),
            *_rounds(listed, weakest_origin(result, session.evaluation)),
            *_metal(session, listed),
            *_braces(listed),
            *_while_open(session),
        ]
    elif not result.open:
        blocks.append(Words(text="No zone is likely to want repair: nothing has to be cut."))
    blocks += [Section(title="What it adds up to"), *figures(session, "All zones by odds", SUMS)]
    blocks += _own_jobs(session)
    return Chapter(
        title="Repair order",
        intro="A shell that is cut open on both sides at once does not come back. So: brace, one "
        "side at a time, what carries first, and the datum points measured between.",
        blocks=tuple(blocks),
    )


def _drawn(session: Session, listed: RepairList) -> Iterator[Block]:
    survey = survey_of(session.build)
    looks = {
        zone: replace(look, found=listed.repairs[zone].grade if zone in listed.repairs else "")
        for zone, look in survey.looks.items()
    }
    marks = {zone: str(one.round) for zone, one in listed.repairs.items()}
    numbered = replace(survey, looks=looks, marks=marks)
    words = "; ".join(f"round {one.number}: {', '.join(one.names)}" for one in listed.rounds)
    for svg, where in (
        (structure_drawing(numbered), "floor and frame"),
        (skin_drawing(numbered), "the skin, unfolded"),
    ):
        yield Figure(
            svg=svg,
            caption=f"The rounds on {where}; front to the left, the likelier grade by pattern.",
            words=words,
            width=0.8,
        )


def _rounds(listed: RepairList, rests_on: str) -> Iterator[Block]:
    yield Section(title="Rounds")
    rows = []
    for one in listed.rounds:
        members = [listed.repairs[name] for name in one.names]
        for repair in members:
            first = repair is members[0]
            after = ", ".join(repair.after) or "–"
            rows.append(
                (
                    str(one.number) if first else "",
                    repair.zone + (" (carries)" if repair.carries else ""),
                    f"{repair.grade}, {100.0 * repair.chance:.0f} %",
                    _hours(repair),
                    after if repair.on_shell else "bench",
                    "",
                )
            )
    yield Sheet(
        title="In this order; each round closed and measured before the next is opened",
        columns=(
            "round",
            "zone",
            "likelier, odds of work",
            "hours",
            "closed before",
            "datum, date",
        ),
        rows=tuple(rows),
        widths=(0.6, 2.1, 1.4, 1.2, 2.6, 1.0),
        to_write=True,
        note=f"Zones likelier than {100 * LIKELY:.0f} % to want work; hours are low, likely "
        f"and high of the likelier grade at the owner's pace. Rests on: {rests_on}. The order is "
        "common practice, no source. A zone that is opened and found sound drops out.",
    )


def _metal(session: Session, listed: RepairList) -> Iterator[Block]:
    rows = [
        (
            one.zone,
            f"{one.area:.2f} m²",
            f"{one.thickness * 1e3:.1f} mm",
            f"{one.mass:.1f} kg",
            f"{one.weld:.1f} m",
            f"{one.cost:.0f} {session.build.currency}",
        )
        for one in listed.repairs.values()
    ]
    everything = list(listed.repairs.values())
    rows.append(
        (
            "all of the list",
            f"{sum(one.area for one in everything):.2f} m²",
            "",
            f"{sum(one.mass for one in everything):.1f} kg",
            f"{sum(one.weld for one in everything):.1f} m",
            f"{sum(one.cost for one in everything):.0f} {session.build.currency}",
        )
    )
    yield Sheet(
        title="Sheet, weld and money",
        columns=("zone", "sheet", "new, thick", "mass", "weld", "sheet and gas"),
        rows=tuple(rows),
        numeric=(1, 2, 3, 4, 5),
        widths=(2.2, 1.0, 1.0, 1.0, 1.0, 1.2),
        total=True,
        note="If the likelier grade is what is found. Buy 15 % more sheet than this; drill seams "
        "for plug welds every 25 to 40 mm where spot welds were (common practice).",
    )


def _braces(listed: RepairList) -> Iterator[Block]:
    if not listed.clashes:
        yield Words(text="Nothing on the list clashes: no bar beyond those of the door openings.")
        return
    yield Section(title="What holds it meanwhile")
    yield Sheet(
        title="Bars to make before the first cut",
        columns=("bar", "for"),
        rows=tuple((brace, ", ".join(names)) for brace, names in listed.braces.items()),
        widths=(1.6, 2.6),
    )
    rules = {one.rule: one for one in listed.clashes}
    yield Sheet(
        title="Never open together",
        columns=("what", "why"),
        rows=tuple((name, one.why) for name, one in rules.items()),
        widths=(1.4, 2.6),
    )


def _while_open(session: Session) -> Iterator[Block]:
    result = session.evaluation.result("open_stiffness")
    if result.open or not result.value:
        return
    rows = tuple(
        (
            one.what + ("" if one.allowed else ": forbidden"),
            ", ".join(one.zones[:3]) + (" …" if len(one.zones) > 3 else ""),
            f"{100.0 * one.torsion:.1f} %",
            f"{100.0 * one.bending:.1f} %",
        )
        for one in sorted(result.value, key=lambda each: each.bending * each.torsion)[:14]
    )
    yield Sheet(
        title="What is left of the shell while it is open, weakest first",
        columns=("open", "zones", "torsion", "bending"),
        rows=rows,
        numeric=(2, 3),
        widths=(1.7, 2.8, 0.8, 0.8),
        note="Nominal frame model without braces, over the closed shell. It tells stiffness only: "
        "what a shell forgets is its shape, through its own weight and the pull of welds, and that "
        "is what braces and the datum sheet are for.",
    )


def _own_jobs(session: Session) -> Iterator[Block]:
    result = session.quantities["rust_cut_together"]
    if result.open:
        words = (
            "Say in your jobs which zones each one cuts (opens: [inner sill left]); drybuild then "
            "tells where two of them leave open together what must not be."
        )
        yield Words(text=words)
        return
    wrong = [label for label, values in result.labelled().items() if values[0] > 0.0]
    if wrong:
        yield Words(text="Your own jobs leave open together what must not be:", points=tuple(wrong))
    else:
        yield Words(text="Your own jobs leave nothing open together that must not be.")


def _hours(one: Repair) -> str:
    low, likely, high = (value / HOUR for value in one.hours)
    return f"{low:.0f} / {likely:.0f} / {high:.0f} h"
