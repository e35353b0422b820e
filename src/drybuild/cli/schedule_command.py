"""``drybuild schedule``."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from drybuild.cli.opening import (
    anyway_option,
    console,
    folder_argument,
    json_option,
    open_session,
    print_json,
    stop_on_problems,
)
from drybuild.present import schedule_tables as tables


@click.command()
@folder_argument
@json_option
@anyway_option
@click.option("--runs", type=click.IntRange(100, 100_000), default=10_000, show_default=True)
@click.option("--jobs", is_flag=True, help="Also list every job with its dates.")
@click.option(
    "--solve",
    type=click.FloatRange(0.0, 600.0),
    default=1.0,
    show_default=True,
    help="Seconds to look for a shorter order of work; 0 for none.",
)
def command(
    folder: Path, *, as_json: bool, anyway: bool, runs: int, jobs: bool, solve: float
) -> None:
    """Plan the work: cost and finish with their odds, latest dates, cash by month."""
    session = open_session(folder, runs)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    found = session.forecast
    if found is None:
        for lack in session.evaluation.result("work_runs").missing:
            click.echo(f"{lack.path}: {lack.why}", err=True)
        sys.exit(2)
    best = session.baseline(solve) if solve else None
    currency = session.build.currency
    if as_json:
        print_json(tables.forecast_json(found, currency, best), session.problems)
        return
    out = console()
    out.print(tables.odds_table(found, currency, best))
    out.print(tables.decisions_table(found))
    out.print(tables.orders_table(found))
    out.print(tables.cash_table(found, currency))
    out.print(tables.drivers_table(found, currency))
    if jobs:
        out.print(tables.jobs_table(found, currency))
    out.print("Hours are your own; every figure is a forecast, not a promise.", style="dim")
