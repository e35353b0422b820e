"""What every command shares: the folder argument, opening a session, printing problems."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from drybuild.errors import Problem, SaveError
from drybuild.project.editing import Edited
from drybuild.project.load import load
from drybuild.session import SAMPLES, Session

if TYPE_CHECKING:
    from rich.console import Console

F = TypeVar("F", bound=Callable[..., Any])  # click decorates functions of any signature
BAD_FILE = 2
"""Exit code when the build file has problems."""

folder_argument = click.argument("folder", type=click.Path(path_type=Path), default=".")
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON, all numbers in SI.")
samples_option = click.option(
    "--samples",
    type=click.IntRange(50, 100_000),
    default=SAMPLES,
    show_default=True,
    help="Draws behind every probability.",
)
anyway_option = click.option(
    "--anyway", is_flag=True, help="Go on with what could be read, though the file has problems."
)


def open_session(folder: Path, samples: int = SAMPLES) -> Session:
    """Open a build."""
    return Session.open(folder, samples)


def stop_on_problems(session: Session, *, anyway: bool = False) -> None:
    """Print the problems of the file, all of them, and stop unless told to go on."""
    if not session.problems:
        return
    print_problems(session.problems)
    if not anyway:
        click.echo("Mend these first, or go on with what could be read: add --anyway.", err=True)
        sys.exit(BAD_FILE)


def print_problems(problems: tuple[Problem, ...]) -> None:
    """Print problems to the error stream, and how many there are."""
    for problem in problems:
        click.echo(str(problem), err=True)
    count = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
    click.echo(f"{count} in the build file.", err=True)


def print_json(data: dict[str, Any], problems: tuple[Problem, ...]) -> None:
    """Print JSON, and leave with the code for a bad file when there are problems."""
    click.echo(json.dumps(data, indent=1, ensure_ascii=False))
    if problems:
        print_problems(problems)
        sys.exit(BAD_FILE)


def console() -> Console:
    """Return the terminal to print tables on."""
    from rich.console import Console  # noqa: PLC0415  the workbench and others print none

    return Console(highlight=False, soft_wrap=False)


moved_option = click.option(
    "--what-changed",
    "moved",
    is_flag=True,
    help="Say what it moved: figures by more than their noise, and verdicts.",
)


def show_moved(before: Session | None) -> None:
    """Print what moved since a session was opened; nothing where none was asked for."""
    if before is None:
        return
    from drybuild.present.what_moved import (  # noqa: PLC0415  only when it is asked for
        moved_figures,
        moved_text,
        moved_verdicts,
    )

    old = dict(before.quantities), before.verdicts
    after = before.renewed(load(before.place))
    asked = {one.quantity for one in after.checks if one.id.startswith("must.")}
    figures = moved_figures(old[0], after.quantities, after.build, asked)
    console().print(moved_text(figures, moved_verdicts(old[1], after.verdicts)))


def session_before(folder: Path, *, moved: bool) -> Session | None:
    """Return the build before a change, all of it worked out; nothing where not asked for."""
    if not moved:
        return None
    session = open_session(folder)
    session.quantities  # noqa: B018  works them out from the file as it stands
    session.verdicts  # noqa: B018  likewise
    return session


def explained(command: F) -> F:
    """Turn a refused save into a plain message with exit code 2."""
    import functools  # noqa: PLC0415  only editing commands need it

    @functools.wraps(command)
    def run(*args: Any, **kwargs: Any) -> Any:  # as the command
        try:
            return command(*args, **kwargs)
        except SaveError as fault:
            click.echo(str(fault), err=True)
            sys.exit(BAD_FILE)

    return run  # type: ignore[return-value]  # wraps keeps the signature


def show_edit(edited: Edited) -> None:
    """Print what an edit did, or the problems for which it was refused."""
    if edited.problems:
        print_problems(edited.problems)
        click.echo("Nothing was saved.", err=True)
        sys.exit(BAD_FILE)
    click.echo(change_text(edited.address, edited.before, edited.after))


def change_text(what: str, before: object, after: object) -> str:
    """Return ``what: before -> after`` in words."""
    told = ["nothing" if one is None else str(one) for one in (before, after)]
    return f"{what}: {told[0]} -> {told[1]}"
