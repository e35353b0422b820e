"""``drybuild next``."""

from __future__ import annotations

from pathlib import Path

import click

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
from drybuild.present.next_tables import steps_json, steps_table


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option("--most", type=click.IntRange(1, 500), default=15, show_default=True)
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool, most: int) -> None:
    """Rank what to measure, ask, inspect, decide and order by what it is worth."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    steps = session.next_steps
    if as_json:
        print_json(steps_json(steps, session.build.currency), session.problems)
        return
    out = console()
    out.print(steps_table(steps, session.build.currency, most))
    if len(steps) > most:
        out.print(f"{len(steps) - most} more steps are worth something: add --most {len(steps)}")
