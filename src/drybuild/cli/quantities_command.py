"""``drybuild quantities``."""

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
from drybuild.present.as_json import quantities_json
from drybuild.present.tables import quantities_table


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option("--matter", help="Only this matter, such as brakes.")
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool, matter: str | None) -> None:
    """List every quantity with its unit, 5-95 % band, weakest origin and source."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    results = {
        name: result
        for name, result in session.quantities.items()
        if matter in (None, result.quantity.matter)
    }
    if as_json:
        found = quantities_json(results, session.evaluation, session.problems, session.build.units)
        print_json(found, session.problems)
    else:
        console().print(quantities_table(results, session.evaluation))
