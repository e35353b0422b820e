"""``drybuild new``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import explained
from drybuild.project.body import KINDS
from drybuild.project.starter import write_starter


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--kind",
    type=click.Choice(KINDS),
    default=KINDS[0],
    show_default=True,
    help="What carries the car: its shell, a ladder frame, or a backbone or space frame.",
)
@explained
def command(folder: Path, kind: str) -> None:
    """Write a commented starter build for a kind of car.

    The starter computes as it stands; put your own car in, one line at a time.
    """
    file = write_starter(folder, kind)
    click.echo(f"Written: {file}")
    click.echo(f"Look at it with: drybuild check {folder}")
