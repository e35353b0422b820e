"""``drybuild undo``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import change_text, explained, folder_argument
from drybuild.session import undo


@click.command()
@folder_argument
@explained
def command(folder: Path) -> None:
    """Take the last change back."""
    change = undo(folder)
    if change is None:
        click.echo("There is nothing to undo.")
    else:
        click.echo(change_text(change.what, change.before, change.after))
