"""``drybuild widest``."""

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
    samples_option,
    stop_on_problems,
)
from drybuild.present import widest as present


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool) -> None:
    """Find the widest tyre that clears the arches, and what rim, lip, stop and lock would buy."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    result = session.evaluation.result("widest_tyres")
    if result.value is None:
        for lack in result.missing:
            click.echo(f"{lack.path}: {lack.why}", err=True)
        click.echo("Give these, and the search can be made.", err=True)
        sys.exit(1)
    if as_json:
        print_json(present.widest_json(result.value), session.problems)
        return
    out = console()
    told = present.length_teller(session.build.units)
    out.print(present.widest_table(result.value, told))
    for line in present.widest_lines(result.value, told):
        out.print(line)
    out.print(present.CAUTION)
