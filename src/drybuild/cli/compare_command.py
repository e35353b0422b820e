"""``drybuild compare``."""

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
from drybuild.present.candidates import SYSTEMS, compared, comparison_json
from drybuild.present.candidates_table import candidates_table


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option(
    "--system",
    type=click.Choice(list(SYSTEMS)),
    default="front_suspension",
    show_default=True,
    help="Whose candidates.",
)
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool, system: str) -> None:
    """Lay the candidates for a suspension side by side, each figure with its spread.

    Every candidate stands in the build as it is picked otherwise. Those with hardpoints are moved
    over their travel; of the others the supplier's sheet, or the usual range, is shown.
    """
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    found = compared(session.evaluation, session.checks, system)
    if as_json:
        print_json(comparison_json(found, session.evaluation), session.problems)
        return
    out = console()
    if not found.candidates:
        out.print(f"No candidates yet: list them below options.{system}.")
        return
    out.print(candidates_table(found, session.evaluation))
    for one in found.candidates:
        if one.conflict:
            out.print(f"{one.name}: {one.conflict}")
