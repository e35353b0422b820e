"""``drybuild share``."""

from __future__ import annotations

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
    type=click.Path(path_type=Path, dir_okay=False),
    default=Path("for-advice.html"),
    show_default=True,
    help="The file to write.",
)
@click.option(
    "--leave-out",
    type=click.Choice(["money", "places"]),
    multiple=True,
    help="What is private: prices and costs, names of places. Can be given twice.",
)
@samples_option
@anyway_option
def command(
    folder: Path, *, output: Path, leave_out: tuple[str, ...], samples: int, anyway: bool
) -> None:
    """Write one HTML file with the build and its open questions, for other people's advice."""
    from drybuild.exchange.share import PRIVATE, write_shared  # noqa: PLC0415  loads the book

    session = open_session(folder, samples)
    stop_on_problems(session, anyway=anyway)
    try:
        write_shared(session, output, [one for one in PRIVATE if one in leave_out])
    except OSError as fault:
        raise click.ClickException(f"{output} cannot be written: {fault.strerror}") from fault
    click.echo(str(output))
    click.echo("Send it on; a reply comes back as a file: drybuild merge FOLDER REPLY.yaml")
