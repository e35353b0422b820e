"""``drybuild schema``."""

from __future__ import annotations

import json

import click

from drybuild.project.schema import build_schema


@click.command()
def command() -> None:
    """Print the JSON Schema of the build file, for editors.

    Put it in a file, and name that file in the first line of the build file:
    "# yaml-language-server: $schema=FILE".
    """
    click.echo(json.dumps(build_schema(), indent=1, ensure_ascii=False))
