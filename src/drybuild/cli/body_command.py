"""``drybuild body``."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click
from rich.table import Table

from drybuild.book.chapters.datum import SINGLE, datum_chapter
from drybuild.book.chapters.paint import paint_chapter
from drybuild.book.chapters.repair import repair_chapter
from drybuild.book.pages import Caution, Chapter, Sheet, Words
from drybuild.cli.opening import (
    anyway_option,
    console,
    folder_argument,
    json_option,
    open_session,
    print_json,
    samples_option,
    stop_on_problems,
)
from drybuild.quantities.condition_repair import RepairList
from drybuild.quantities.datum import JUDGED, odds_of
from drybuild.quantities.graph import summary
from drybuild.session import Session
from drybuild.tables.datum import allowed

SHEETS: dict[str, Callable[[Session], Chapter]] = {
    "repair": repair_chapter,
    "datum": datum_chapter,
    "paint": paint_chapter,
}
CAUTION = (
    "A shell that is cut or crooked carries people: these sheets advise and approve nothing. "
    "Structural welding, straightening and spraying belong to licensed practice and local codes."
)

UNITS = {
    "chance": "-",
    "hours": "s",
    "area": "m²",
    "thickness": "m",
    "mass": "kg",
    "weld": "m",
    "cost": "money",
    "torsion": "-",
    "bending": "-",
}
"""Units of the repairs' figures in the JSON."""


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option(
    "--sheet",
    "sheets",
    multiple=True,
    type=click.Choice(tuple(SHEETS)),
    help="Print this sheet; may be given more than once. The repair order when not given.",
)
def command(
    folder: Path, *, as_json: bool, samples: int, anyway: bool, sheets: tuple[str, ...]
) -> None:
    """Say what the body wants: repairs in order, straight or not, what paint to buy.

    Example: drybuild body my-car --sheet datum --sheet paint
    """
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    if as_json:
        print_json(_json(session), session.problems)
        return
    for name in sheets or ("repair",):
        _print(SHEETS[name](session))
    console().print(CAUTION)


def _print(chapter: Chapter) -> None:
    """Print a chapter's words and tables; its drawings are in the book and the workbench."""
    out = console()
    out.print(f"\n[bold]{chapter.title}[/bold]")
    for block in chapter.blocks:
        if isinstance(block, Sheet):
            table = Table(title=block.title, title_justify="left", caption=block.note or None)
            kept = len(block.columns) - block.to_write
            for place, column in enumerate(block.columns[:kept]):
                if place in block.numeric:
                    table.add_column(column, justify="right", overflow="fold")
                else:
                    table.add_column(column, overflow="fold")
            for row in block.rows:
                table.add_row(*row[:kept])
            out.print(table)
        elif isinstance(block, Words):
            _words(block)
        elif isinstance(block, Caution):
            for point in block.points:
                out.print(f"! {point}", markup=False)


def _words(block: Words) -> None:
    out = console()
    if block.text:
        out.print(block.text, markup=False)
    for number, point in enumerate(block.points, start=1):
        out.print(f"{number}. {point}" if block.numbered else f"- {point}", markup=False)


def _json(session: Session) -> dict[str, Any]:  # JSON
    evaluation = session.evaluation
    listed = evaluation.result("repair_list").value
    opened = evaluation.result("open_stiffness").value or ()
    return {
        "build": session.build.name,
        "currency": session.build.currency,
        "caution": CAUTION,
        "units": UNITS,
        "rounds": _rounds(listed) if isinstance(listed, RepairList) else [],
        "braces": {brace: list(zones) for brace, zones in listed.braces.items()}
        if isinstance(listed, RepairList)
        else {},
        "never_together": [vars(one) for one in listed.clashes]
        if isinstance(listed, RepairList)
        else [],
        "while_open": [vars(one) for one in opened],
        "datum": _datum(session),
        "paint_to_buy": _labelled(session, "paint_to_buy", "m³"),
    }


def _rounds(listed: RepairList) -> list[dict[str, Any]]:  # JSON
    return [
        {
            "number": one.number,
            "side": one.side,
            "repairs": [vars(listed.repairs[name]) for name in one.names],
        }
        for one in listed.rounds
    ]


def _datum(session: Session) -> dict[str, Any]:  # JSON
    found: dict[str, Any] = {}
    for name, what in (*JUDGED.items(), *SINGLE.items()):
        result = session.evaluation.result(name)
        if result.open:
            continue
        found[name] = {
            label: {
                "value": summary(values)[0],
                "low": summary(values)[1],
                "high": summary(values)[2],
                "unit": "m",
                "tolerance": allowed(what),
                "odds_outside": odds_of(values, what),
            }
            for label, values in result.labelled().items()
        }
    misfit = _labelled(session, "datum_misfit", "-")
    return {**found, **({"datum_misfit": misfit} if misfit else {})}


def _labelled(session: Session, name: str, unit: str) -> dict[str, Any]:  # JSON
    result = session.evaluation.result(name)
    if result.open:
        return {}
    return {
        label: {"value": float(values[0]), "unit": unit}
        for label, values in result.labelled().items()
    }
