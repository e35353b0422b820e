"""``drybuild book``."""

from __future__ import annotations

import re
import unicodedata
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import click

from drybuild.cli.opening import (
    anyway_option,
    folder_argument,
    open_session,
    samples_option,
    stop_on_problems,
)


@click.command()
@folder_argument
@click.option(
    "--output",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(),
    help="Folder to write into; made when it is not there.",
)
@samples_option
@anyway_option
def command(folder: Path, *, output: Path, samples: int, anyway: bool) -> None:
    """Write the build book as PDF and as one self-contained HTML file."""
    from drybuild.book.hands import second_hand  # noqa: PLC0415  only here
    from drybuild.workbench.memory import hold_memory  # noqa: PLC0415  and this

    hold_memory()
    with second_hand(folder, samples) as bench:
        from drybuild.book.contents import make_book  # noqa: PLC0415  and these
        from drybuild.book.html import write_html  # noqa: PLC0415
        from drybuild.book.pdf import write_pdf  # noqa: PLC0415

        session = open_session(folder, samples)
        stop_on_problems(session, anyway=anyway)
        output.mkdir(parents=True, exist_ok=True)
        book = make_book(session, bench=bench)
    name = file_name(session.build.name)
    targets = {write_pdf: output / f"{name}.pdf", write_html: output / f"{name}.html"}
    with ThreadPoolExecutor() as pool:  # the setter of the PDF leaves the other one alone
        for done in [pool.submit(write, book, target) for write, target in targets.items()]:
            done.result()
    for target in targets.values():
        click.echo(str(target))


def file_name(title: str) -> str:
    """Return a file name for a title: plain letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:60] or "build"
