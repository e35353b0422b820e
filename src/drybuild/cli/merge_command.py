"""``drybuild merge``."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from drybuild.cli.opening import (
    BAD_FILE,
    explained,
    folder_argument,
    open_session,
    stop_on_problems,
)


@click.command()
@folder_argument
@click.argument("reply", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--take", "taken", multiple=True, metavar="ID", help="Take this one; repeat it.")
@click.option("--all", "everything", is_flag=True, help="Take every suggestion that reads.")
@explained
def command(folder: Path, reply: Path, *, taken: tuple[str, ...], everything: bool) -> None:
    """Review a reply to a shared build, and take over some or all of its suggestions.

    Without --take or --all it only shows what each suggestion says and what it would do.
    """
    from drybuild.exchange.merge import effects, reply_to, take  # noqa: PLC0415  evaluates

    session = open_session(folder)
    stop_on_problems(session)
    from drybuild.exchange.reply import LARGEST_REPLY  # noqa: PLC0415

    with reply.open("rb") as stream:
        found = reply_to(folder, session.build, reply.name, stream.read(LARGEST_REPLY + 1))
    for problem in found.problems:
        click.echo(str(problem), err=True)
    if taken or everything:
        ids = [one.id for one in found.suggestions if one.sound] if everything else list(taken)
        unknown = sorted(set(ids) - {one.id for one in found.suggestions})
        if unknown:
            raise click.ClickException(f"no suggestion here is called {', '.join(unknown)}")
        for one in take(folder, found, ids):
            click.echo(f"Taken over: {one.says}")
        click.echo('One "drybuild undo" takes all of that back.')
    else:
        told = dict(effects(session, found.suggestions))
        click.echo(f"Reply of {found.author}: {len(found.suggestions)} suggestions")
        for one in found.suggestions:
            click.echo(f"\n{one.id}  {one.kind}: {one.says}" + ("" if one.sound else "  (faulty)"))
            if one.stands:
                click.echo(f"    stands now: {one.stands}")
            for words, was, now in told[one.id].figures if one.id in told else ():
                click.echo(f"    {words}: {was} -> {now}")
            for asks, was, now in told[one.id].moved if one.id in told else ():
                click.echo(f"    {was} -> {now}: {asks}")
        click.echo("\nTake some with --take ID, or all that read with --all.")
    if found.problems:
        sys.exit(BAD_FILE)
