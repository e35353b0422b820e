"""``drybuild springs``."""

from __future__ import annotations

from pathlib import Path

import click
from rich.table import Table

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
from drybuild.present import springs_to_order as orders
from drybuild.quantities.graph import Evaluation

CAUTION = "Compressed springs can kill: use proper compressors, or leave it to a workshop."


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool) -> None:
    """Say which springs, bars and dampers to order for the ride and roll that the brief wants.

    The brief's ride_frequency, roll_gradient, damping_ratio and cruise_speed steer it; where it
    says nothing, usual wishes stand in.
    """
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    evaluation = session.evaluation
    if as_json:
        print_json(orders.orders_json(evaluation), session.problems)
        return
    out = console()
    line = orders.order_line(evaluation)
    if not line:
        lacks = evaluation.result("wanted_wheel_rate").missing
        out.print(f"Not known yet; missing: {', '.join(one.path for one in lacks)}")
        return
    out.print(f"To order: {line}")
    out.print(_wanted(evaluation))
    out.print(_steel(evaluation))
    out.print(_dampers(evaluation))
    out.print(CAUTION, style="dim")


def _wanted(evaluation: Evaluation) -> Table:
    table = Table("figure", *orders.ENDS, title="Wanted, beside the parts as picked")
    for row in orders.order_rows(evaluation):
        table.add_row(*row)
    return table


def _steel(evaluation: Evaluation) -> Table:
    title = "What makes the rates"
    table = Table("end", "steel", "working coils or leaves", "shear at full bump", title=title)
    for row in orders.steel_rows(evaluation):
        table.add_row(row.axle, row.size, row.number, row.stress or orders.NONE)
    return table


def _dampers(evaluation: Evaluation) -> Table:
    bands = orders.damper_bands(evaluation)
    table = Table("speed, bump +", *bands, title="Force of each damper")
    for place, speed in enumerate(orders.SPEEDS):
        cells = [
            f"{band[place, 0]:.0f} N ({band[place, 1]:.0f} to {band[place, 2]:.0f})"
            for band in bands.values()
        ]
        table.add_row(f"{speed:+.2f} m/s", *cells)
    return table
