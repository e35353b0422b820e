"""``drybuild redo``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import change_text, explained, folder_argument
from drybuild.session import redo


@click.command()
@folder_argument
@explained
def command(folder: Path) -> None:
    """Do again what was taken back last."""
    change = redo(folder)
    if change is None:
        click.echo("There is nothing to redo.")
    else:
        click.echo(change_text(change.what, change.before, change.after))
