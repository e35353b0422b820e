"""``drybuild place``."""

from __future__ import annotations

import sys
from pathlib import Path

import click
from rich.table import Table

from drybuild.cli.opening import (
    anyway_option,
    console,
    explained,
    folder_argument,
    json_option,
    open_session,
    print_json,
    samples_option,
    show_edit,
    stop_on_problems,
)
from drybuild.next_steps.placing import to_measure, where_to_measure
from drybuild.present import packaging_place as present
from drybuild.present.path_words import PathWords
from drybuild.project.address import write_address
from drybuild.project.packaging_moved import moved_entries
from drybuild.quantities.packaging_place import file_place
from drybuild.quantities.packaging_place_search import Placement, placement_of
from drybuild.session import Session, edit_together


@click.command()
@folder_argument
@click.option("--engine", default="", help="Another engine than the picked one, by its name.")
@click.option("--save", is_flag=True, help="Write the best place into the build file.")
@click.option("--why", default="", help="A word for the history.")
@json_option
@samples_option
@anyway_option
@explained
def command(
    folder: Path, *, engine: str, save: bool, why: str, as_json: bool, samples: int, anyway: bool
) -> None:
    """Find where the engine sits best, what holds it there, and the least to alter if nowhere."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    picks = _picks(session, engine)
    placement = placement_of(session.evaluation, picks, maps=as_json)
    if isinstance(placement, str):
        click.echo(f"Nothing to place: {placement}.", err=True)
        sys.exit(1)
    length = float(session.evaluation.result("engine_size", picks).value[0])
    if as_json:
        found = present.placement_json(placement, session.evaluation, length)
        print_json({"placement": found}, session.problems)
    else:
        _show(session, placement, length)
    if save:
        _save(session, placement, length, why)


def _picks(session: Session, engine: str) -> dict[str, str]:
    picks = dict(session.build.assumed_picks())
    if engine:
        known = session.build.options["engine"]
        if engine not in known:
            click.echo(f'"{engine}" is no engine of this build: {", ".join(known)}.', err=True)
            sys.exit(1)
        picks["engine"] = engine
    return picks


def _show(session: Session, placement: Placement, length: float) -> None:
    units, currency = session.build.units, session.build.currency
    out = console()
    out.print(present.verdict_words(placement, units))
    _table("Its place", present.PLACE_COLUMNS, present.place_rows(placement, length, units))
    _table("What holds it", present.PAIR_COLUMNS, present.pair_rows(placement.found, units))
    _table("Limits", present.LIMIT_COLUMNS, present.limit_rows(placement.limits, units))
    if placement.ways is not None:
        lines = present.way_lines(placement, units, currency)
        out.print(present.ways_title(placement) + (":" if lines else "."))
        for number, line in enumerate(lines, 1):
            out.print(f"  {number}. {line}")
    words = PathWords(session.build)
    readings = present.measure_rows(to_measure(placement, session.evaluation), words)
    _table("What to measure next", present.MEASURE_COLUMNS, readings)
    _table("Where it is decided", present.SPOT_COLUMNS,
           present.spot_rows(where_to_measure(placement), units))  # fmt: skip
    for room in placement.rooms:
        if room.gap < 0.0:
            out.print(f"In the way of {room.words}: {room.against}.")
    if placement.made_to_suit:
        out.print(f"Taken as made to suit: {', '.join(placement.made_to_suit)}.")
    for one in placement.unasked:
        out.print(f"Not counted: {one}.")
    out.print(present.CAUTION)


def _table(title: str, columns: tuple[str, ...], rows: list[tuple[str, ...]]) -> None:
    if not rows:
        return
    table = Table(title=title, title_justify="left")
    for column in columns:
        table.add_column(column, overflow="fold")
    for row in rows:
        table.add_row(*row)
    console().print(table)


def _save(session: Session, placement: Placement, length: float, why: str) -> None:
    if not placement.found.fits:
        click.echo("Nothing saved: there is no place that will do.", err=True)
        sys.exit(1)
    wanted = file_place(placement.found.spot.at, length)
    values = moved_entries(session.build, placement.engine, wanted)
    if not values:
        click.echo("Nothing to save: it stands there.")
        return
    what = write_address(("car", "bay", "engines", placement.engine))
    show_edit(edit_together(session.place, values, what, why or "the best place found"))
