"""``drybuild set``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import explained, show_edit
from drybuild.project.writing import AsTyped
from drybuild.session import edit


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("entry")
@click.argument("value")
@click.option("--why", default="", help="A word for the history.")
@explained
def command(folder: Path, entry: str, value: str, why: str) -> None:
    """Change one entry in place; comments and everything else in the file stay.

    Example: drybuild set my-car car.body.wheelbase "2540 ± 3 mm"
    """
    show_edit(edit(folder, entry, AsTyped(value), why))
