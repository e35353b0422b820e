"""``drybuild fit``."""

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
from drybuild.present.packaging_pairs import STEPS, judged_pairs, near, pair_cells, pair_json
from drybuild.session import Session

ENOUGH = 50
"""Draws: the 3-D file shows the nominal readings alone."""
COLUMNS = ("against", "gap", "5 to 95 %", "needs", "verdict", "odds", "nearest there (x, y, z)")


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option("--all", "everything", is_flag=True, help="Also list the pairs that are well clear.")
@click.option(
    "--model",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write the engine in its bay as a 3-D file instead: binary glTF, so name it FILE.glb.",
)
def command(
    folder: Path,
    *,
    as_json: bool,
    samples: int,
    anyway: bool,
    everything: bool,
    model: Path | None,
) -> None:
    """Show what the engine touches in its bay: gaps, what they need, odds, and where."""
    if model is not None:
        _write_model(folder, model, anyway=anyway)
        return
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    pairs = judged_pairs(session.evaluation, session.verdicts)
    if as_json:
        print_json({"pairs": [pair_json(one) for one in pairs]}, session.problems)
        return
    if not pairs:
        console().print(_why_not(session))
        return
    table = Table(*COLUMNS, title=f"{session.build.name}: room round the engine")
    shown, far = (pairs, 0) if everything else near(pairs)
    for pair in shown:
        table.add_row(*pair_cells(pair, session.build.units, session.build.currency))
    console().print(table)
    if far:
        console().print(f"{far} more pairs are well clear; --all lists them.")
    console().print(*_last_words(session), sep="\n")


def _write_model(folder: Path, target: Path, *, anyway: bool) -> None:
    from drybuild.present.packaging_meshes import drawn_solids  # noqa: PLC0415  only when asked
    from drybuild.present.packaging_model import model_bytes  # noqa: PLC0415  likewise

    if target.suffix.lower() != ".glb":
        raise click.ClickException(f"{target} is no name of a binary glTF file: end it in .glb")
    session = open_session(folder, ENOUGH)
    stop_on_problems(session, anyway=anyway)
    solids = drawn_solids(session.evaluation, far=True)
    if not any(one.moving for one in solids):
        raise click.ClickException(_why_not(session))
    try:
        target.write_bytes(model_bytes(solids, session.build.name))
    except OSError as fault:
        raise click.ClickException(f"{target} cannot be written: {fault.strerror}") from fault
    click.echo(str(target))


def _why_not(session: Session) -> str:
    missing = session.evaluation.result("bay_gaps").missing
    return f"Nothing to fit: {missing[0].why}." if missing else "Nothing to fit."


def _last_words(session: Session) -> list[str]:
    """Return the chance of all at once, and the readings that would settle the worst pair."""
    chance = session.quantities["bay_fit_chance"].value
    found = [f"All of it fits at once with a chance of {float(chance[0]):.0%}."]
    for verdict in session.verdicts:
        if verdict.check.id in STEPS and verdict.doubts:
            readings = ", ".join(f"{one.path} ({one.share:.0%})" for one in verdict.doubts)
            found.append(f"{verdict.check.id}: its doubt comes from {readings}.")
    return found
