"""``drybuild template``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from drybuild.cli.book_command import file_name
from drybuild.cli.opening import (
    anyway_option,
    folder_argument,
    json_option,
    open_session,
    print_json,
    stop_on_problems,
)
from drybuild.present.template import Template, parts_of, template_of
from drybuild.session import Session

ENOUGH = 50
"""Draws: a template shows the nominal readings alone."""


@click.command()
@folder_argument
@click.option("--part", default="engine", show_default=True, help="Which part; --json lists them.")
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    help="Sheets of your printer; by the build's units when not given.",
)
@click.option(
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(),
    help="Folder to write into; made when it is not there.",
)
@json_option
@anyway_option
def command(
    folder: Path, *, part: str, paper: str | None, output: Path, as_json: bool, anyway: bool
) -> None:
    """Write a part's outline at full size, to cut from cardboard and try in the bay.

    Three files: PDF in sheets for a home printer, PDF with one sheet a view for a print shop, and
    DXF in millimetres for a cutter.
    """
    session = open_session(folder, ENOUGH)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    template = template_of(session.evaluation, part)
    if template is None:
        raise click.ClickException(_why_not(session, part))
    if as_json:
        print_json(_as_json(session, template), session.problems)
        return
    try:
        for target in _written(session, template, paper, output):
            click.echo(str(target))
    except OSError as fault:
        raise click.ClickException(f"{output} cannot be written: {fault.strerror}") from fault
    click.echo("Print at 100 %, measure the 100 mm rulers, then cut. Hot, turning and rocking")
    click.echo("parts need room beyond the card; lift engines with rated gear, nobody below.")


def _written(session: Session, template: Template, paper: str | None, output: Path) -> list[Path]:
    from drybuild.book.template import write_tiles, write_whole  # noqa: PLC0415  loads the setter
    from drybuild.present.template_dxf import write_dxf  # noqa: PLC0415  likewise

    output.mkdir(parents=True, exist_ok=True)
    build = session.build
    size = paper or ("letter" if build.units == "us" else "a4")
    stem = f"{file_name(build.name)}-{file_name(template.part)}"
    sheets = output / f"{stem}-{size}.pdf"
    whole, flat = output / f"{stem}-whole.pdf", output / f"{stem}.dxf"
    write_tiles(template, build.name, size, sheets)
    write_whole(template, build.name, whole)
    write_dxf(template, flat)
    return [sheets, whole, flat]


def _why_not(session: Session, part: str) -> str:
    known = parts_of(session.evaluation)
    if known:
        return f'there is no part "{part}" in the bay. Parts: {", ".join(known)}'
    missing = session.evaluation.result("bay_scene").missing
    why = f"{missing[0].path}: {missing[0].why}" if missing else "nothing is placed in the bay"
    return f"there is nothing to draw: {why}"


def _as_json(session: Session, template: Template) -> dict[str, Any]:  # JSON is free-form
    return {
        "part": template.part,
        "parts": list(parts_of(session.evaluation)),
        "datum": template.words,
        "typical": template.typical,
        "views": [
            {
                "view": one.look.name,
                "width": one.width / 1000.0,
                "height": one.height / 1000.0,
                "area": one.area,
                "outline": [
                    [[x / 1000.0, y / 1000.0] for x, y in stroke.points]
                    for stroke in one.strokes
                    if stroke.layer == "OUTLINE"
                ],
            }
            for one in template.sheets
        ],
    }
