"""``drybuild options``."""

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
from drybuild.present import options_tables as tables
from drybuild.session import Session


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option(
    "--pick",
    "trial",
    multiple=True,
    metavar="SYSTEM=OPTION",
    help="Try a pick without saving it; may be repeated.",
)
@click.option("--from-nothing", is_flag=True, help="Leave the picks of the file aside.")
@click.option("--shortlist", is_flag=True, help="Also search builds for what the brief prefers.")
def command(
    folder: Path,
    *,
    as_json: bool,
    samples: int,
    anyway: bool,
    trial: tuple[str, ...],
    from_nothing: bool,
    shortlist: bool,
) -> None:
    """Show what remains possible, what each choice rules out, and a shortlist."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    picks = {} if from_nothing else dict(session.build.picks)
    picks.update(trial_picks(trial, session))
    state = session.chooser.state(picks)
    if as_json:
        print_json(tables.options_json(session.chooser, state, picks), session.problems)
        return
    out = console()
    if not session.chooser.network.options:
        out.print("No system has more than one option yet: list candidates below options.")
        return
    out.print(tables.state_table(session.chooser, state, picks))
    out.print(f"{tables.count_text(state.total)} with these picks, every tabulated check passed.")
    for rule in session.chooser.tabulated.hopeless:
        out.print(f"No option at all reaches: {rule.id}", style="bold red")
    conflict = session.chooser.conflict(picks)
    for line in tables.conflict_lines(conflict) if conflict else ():
        out.print(line)
    if state.decide_first:
        out.print("Decide first what narrows the rest most:")
        for line in tables.decide_lines(state):
            out.print(f"  {line}")
    for by in ("price", "mass", "lead_time"):
        found = session.chooser.completion(picks, by)
        out.print(tables.completion_line(by, found, session.build.currency))
    if shortlist:
        found_list = session.shortlist(picks)
        out.print(tables.shortlist_table(found_list, session.evaluation, picks))
        out.print(f"Complete builds tried: {found_list.tried}; those listed pass every check.")
        for check, count in sorted(found_list.failing.items(), key=lambda pair: -pair[1])[:5]:
            out.print(f"  {check} ruled out {count} of them")


def trial_picks(trial: tuple[str, ...], session: Session) -> dict[str, str]:
    """Return the picks given on the command line; an unknown one ends the command."""
    found: dict[str, str] = {}
    for word in trial:
        system, _, option = word.partition("=")
        known = session.build.options.get(system, {})
        if option not in known:
            click.echo(
                f'"{word}" names no option. Options of {system}: {", ".join(known)}', err=True
            )
            sys.exit(2)
        found[system] = option
    return found
