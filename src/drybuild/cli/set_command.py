"""``drybuild set``."""

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
from drybuild.project.writing import AsTyped
from drybuild.session import edit


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("entry")
@click.argument("value")
@click.option("--why", default="", help="A word for the history.")
@moved_option
@explained
def command(folder: Path, entry: str, value: str, why: str, *, moved: bool) -> None:
    """Change one entry in place; comments and everything else in the file stay.

    Example: drybuild set my-car car.body.wheelbase "2540 ± 3 mm"
    """
    before = session_before(folder, moved=moved)
    show_edit(edit(folder, entry, AsTyped(value), why))
    show_moved(before)
