"""``drybuild tape``."""

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
    samples_option,
    stop_on_problems,
)
from drybuild.present.packaging_tape import Tape


@click.command()
@folder_argument
@click.option(
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(),
    help="Folder to write into; made when it is not there.",
)
@json_option
@samples_option
@anyway_option
def command(folder: Path, *, output: Path, as_json: bool, samples: int, anyway: bool) -> None:
    """Write the bay's measuring sheet: where to put the tape, the most telling reading first."""
    from drybuild.book.html import write_html  # noqa: PLC0415  loads the book
    from drybuild.book.pdf import write_pdf  # noqa: PLC0415  likewise
    from drybuild.book.tape import tape_book, tapes  # noqa: PLC0415  likewise

    session = open_session(folder, samples)
    if as_json:
        print_json({"readings": [_as_json(one) for one in tapes(session)]}, session.problems)
        return
    stop_on_problems(session, anyway=anyway)
    book = tape_book(session)
    name = f"{file_name(session.build.name)}-tape"
    try:
        output.mkdir(parents=True, exist_ok=True)
        for suffix, write in ((".pdf", write_pdf), (".html", write_html)):
            target = output / f"{name}{suffix}"
            write(book, target)
            click.echo(str(target))
    except OSError as fault:
        raise click.ClickException(f"{output} cannot be written: {fault.strerror}") from fault


def _as_json(one: Tape) -> dict[str, Any]:  # JSON is free-form
    return {
        "path": one.path,
        "what": one.what,
        "from": None if one.ends is None else [float(v) for v in one.ends[0]],
        "to": None if one.ends is None else [float(v) for v in one.ends[1]],
        "in the file": one.value,
        "spread": one.band,
        "origin": one.origin,
        "settles": one.settles,
        "weight": one.weight,
    }
