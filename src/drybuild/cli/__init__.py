"""The commands, one thin file each: parse words, ask the session, print.

Belongs here: arguments and output. Does not: sums, wording of results (present). To add one:
a click command in ``<name>.py`` and a line in `COMMANDS`.
"""

from __future__ import annotations

import importlib
import os

import click

from drybuild import __version__

if "OMP_NUM_THREADS" not in os.environ:
    # Read when numpy is loaded. The matrices are small: several threads only wait for each other,
    # take memory, and round differently from one computer to the next.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

COMMANDS = {
    "new": "Write a commented starter build for a kind of car.",
    "open": "Open the workbench: every page of the build in the browser.",
    "check": "Say what works together, what fails, and how sure that is.",
    "brakes": "Judge the brakes and size them: bores, pistons, valve, servo or none.",
    "fit": "Show what the engine touches in its bay: gaps, needs, odds, and where.",
    "place": "Find the engine's best place in its bay, and the least to alter if none.",
    "template": "Write a part's outline at full size, to try it in cardboard: PDF and DXF.",
    "tape": "Write the bay's measuring sheet: where to put the tape, the most telling first.",
    "quantities": "List every quantity with unit, spread, origin and source.",
    "options": "Show what remains possible, what each choice rules out, and a shortlist.",
    "springs": "Say which springs, bars and dampers to order for ride and roll.",
    "compare": "Lay the candidates for a suspension side by side, each with its spread.",
    "widest": "Find the widest tyre that clears, and what each change would buy.",
    "schedule": "Plan the work: cost and finish with their odds, dates, cash.",
    "shell": "Compare what can be done to the body: stiffness, mass, money, weeks.",
    "body": "Say what the body wants: repairs in order, straight or not, paint to buy.",
    "next": "Rank what to measure, inspect, decide and order next.",
    "book": "Write the build book as PDF and as one HTML file.",
    "share": "Write one HTML file of the build for other people's advice.",
    "merge": "Review a reply to a shared build and take over what convinces.",
    "pick": "Take an option for a system.",
    "set": "Change one entry of the build file in place.",
    "undo": "Take the last change back.",
    "redo": "Do again what was taken back.",
    "schema": "Print the JSON Schema of the build file, for editors.",
}


class _Commands(click.Group):
    """Loads a command's module only when it is called, so that help is quick."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        module = importlib.import_module(f"drybuild.cli.{name}_command")
        command = module.command
        return command if isinstance(command, click.Command) else None


@click.command(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="drybuild")
def main() -> None:
    """Put a classic car's rebuild together on paper, before metal is cut or money spent.

    Every command takes the folder of a build (or one build file). Start with: drybuild new FOLDER
    """
