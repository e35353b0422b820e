"""``drybuild pick``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import (
    explained,
    moved_option,
    session_before,
    show_edit,
    show_moved,
)
from drybuild.session import pick


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("system")
@click.argument("option")
@click.option("--why", default="", help="A word for the history.")
@moved_option
@explained
def command(folder: Path, system: str, option: str, why: str, *, moved: bool) -> None:
    """Take an option for a system; "?" leaves the system open again.

    Example: drybuild pick my-car engine "turbo four"
    """
    before = session_before(folder, moved=moved)
    show_edit(pick(folder, system, option, why))
    show_moved(before)
