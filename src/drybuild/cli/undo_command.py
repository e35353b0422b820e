"""``drybuild undo``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import (
    change_text,
    explained,
    folder_argument,
    moved_option,
    session_before,
    show_moved,
)
from drybuild.session import undo


@click.command()
@folder_argument
@moved_option
@explained
def command(folder: Path, *, moved: bool) -> None:
    """Take the last change back."""
    before = session_before(folder, moved=moved)
    change = undo(folder)
    if change is None:
        click.echo("There is nothing to undo.")
    else:
        click.echo(change_text(change.what, change.before, change.after))
        show_moved(before)
