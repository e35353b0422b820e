"""``drybuild check``."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from drybuild.checks.verdicts import State
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
from drybuild.present.as_json import verdicts_json
from drybuild.present.tables import verdict_lines, verdict_summary, verdicts_table


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option("--why", "wanted", metavar="ID", help="Explain one check: numbers, readings, doubt.")
@click.option("--all", "everything", is_flag=True, help="Also list the checks that are good.")
@click.option("--strict", is_flag=True, help="Leave with code 1 when a check fails.")
def command(
    folder: Path,
    *,
    as_json: bool,
    samples: int,
    anyway: bool,
    wanted: str | None,
    everything: bool,
    strict: bool,
) -> None:
    """Say what works together, what fails, and how sure that is."""
    session = open_session(folder, samples)
    if as_json:
        found = verdicts_json(
            session.verdicts, session.evaluation, session.problems, session.build.units
        )
        print_json(found, session.problems)
        return
    stop_on_problems(session, anyway=anyway)
    out = console()
    if wanted:
        chosen = [one for one in session.verdicts if one.check.id == wanted]
        if not chosen:
            known = ", ".join(sorted(one.check.id for one in session.verdicts))
            raise click.ClickException(f'there is no check "{wanted}". Checks: {known}')
        out.print(verdict_lines(chosen[0], session.evaluation))
        return
    out.print(verdicts_table(session.verdicts, session.evaluation, everything=everything))
    out.print(verdict_summary(session.verdicts))
    if strict and any(one.rules_out for one in session.verdicts):
        sys.exit(1)
    if session.count(State.FAILS):
        out.print("Explain one: drybuild check FOLDER --why ID", style="dim")
