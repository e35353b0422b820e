"""``drybuild open``."""

from __future__ import annotations

from pathlib import Path

import click

from drybuild.cli.opening import folder_argument


@click.command()
@folder_argument
@click.option("--no-browser", is_flag=True, help="Only print the address.")
@click.option(
    "--port", type=click.IntRange(0, 65535), default=0, help="Where to listen; a free one if 0."
)
def command(folder: Path, *, no_browser: bool, port: int) -> None:
    """Open the workbench: every page of the build, on this computer only.

    Where the folder is not there or is empty, a short path begins a new build in it.
    """
    from drybuild.workbench.serve import serve  # noqa: PLC0415  the server loads slowly

    def say(address: str) -> None:
        click.echo(f"The workbench is open at {address}")
        click.echo("The address is good for this run only. End with Ctrl+C.")

    try:
        serve(folder, port=port, browser=not no_browser, say=say)
    except KeyboardInterrupt:
        click.echo("\nThe workbench is closed.")
    except OSError as fault:
        raise click.ClickException(f"port {port} cannot be used: {fault.strerror}") from fault
