"""Write the reference from the code: ``python docs/generate.py``. A test keeps it current."""

from __future__ import annotations

import sys
from itertools import groupby
from pathlib import Path
from typing import Any

import click

from drybuild.checks.all import standing_checks
from drybuild.checks.check import Check
from drybuild.cli import COMMANDS, main
from drybuild.project.brief import Brief
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.fields import ChoiceField, ReadingField
from drybuild.project.groups import NamedField, PartField, RatedField
from drybuild.project.option import Option
from drybuild.project.sections import Field, Section
from drybuild.quantities.all import graph
from drybuild.sources import source, sources
from drybuild.tables.typical import typical_ranges

FOLDER = Path(__file__).resolve().parent / "reference"


def pages() -> dict[str, str]:
    """Return the text of every generated page by file name."""
    return {
        "build-file.md": build_file(),
        "quantities.md": quantities(),
        "checks.md": checks(),
        "commands.md": commands(),
        "typical-ranges.md": typical(),
        "sources.md": source_list(),
    }


def build_file() -> str:
    """Return every field of the build file."""
    lines = [
        "# The build file: every entry",
        "",
        "Readings take any unit that measures the same thing. Forms: `1520 mm`, `1520 ± 3 mm`,",
        "`350 N·m ± 5 %`, `~650 mm` (a guess), `180 to 240 mm`, `?` (not known yet), and the long",
        "form `{value: 1520 mm, plus_minus: 3 mm, from: measured, note: ...}`. Workshop fractions",
        "such as `15/16 in` are read. An entry marked *typical* falls back to a published range.",
        "",
        "Top level: `build` (name), `format` (1), `units` (metric or us), `include` (other files),",
        "`brief`, `car`, `options`, `picks`, `limits`, and the sections below.",
        "",
        *section("`brief`", Brief, ()),
    ]
    for name, cls in CAR_SECTIONS.items():
        lines += section(f"`car.{name}`", cls, ())
    lines += ["## Every option", "", *fields(Option, ()), ""]
    for name, cls in SYSTEMS.items():
        lines += section(f"`options.{name}`", cls, tuple(Option.FIELDS))
    for name, cls in {**TOPS, **NAMED}.items():
        lines += section(f"`{name}`", cls, ())
    return "\n".join(lines) + "\n"


def section(title: str, cls: type[Section], without: tuple[str, ...]) -> list[str]:
    """Return one section as a table."""
    first = (cls.__doc__ or "").strip().splitlines()[0]
    return [f"## {title}", "", first, "", *fields(cls, without), ""]


def fields(cls: type[Section], without: tuple[str, ...], prefix: str = "") -> list[str]:
    """Return the fields of a section as table rows, sub-sections below their name."""
    lines = [] if prefix else ["| entry | what | how |", "|---|---|---|"]
    for name, one in cls.FIELDS.items():
        if name in without:
            continue
        lines.append(f"| `{prefix}{name}` | {one.words} | {how(one)} |")
        if isinstance(one, PartField):
            lines += fields(one.section, (), f"{prefix}{name}.")
        elif isinstance(one, NamedField):
            lines += fields(one.section, (), f"{prefix}{name}.NAME.")
    return lines


def how(one: Field[Any]) -> str:  # any field
    """Return how an entry is written."""
    if isinstance(one, ChoiceField):
        return "one of " + ", ".join(f"`{choice}`" for choice in one.choices)
    if isinstance(one, RatedField):
        return f"{one.kind}: {how(one.value)}, at or from-to {how(one.at)}"
    if isinstance(one, ReadingField):
        unit = "plain number or %" if one.unit == "-" else f"any unit of `{one.unit}`"
        return f"{one.kind}, {unit}" + (", *typical*" if one.typical else "")
    return one.kind


def quantities() -> str:
    """Return every quantity."""
    lines = ["# Quantities", "", "Each can stand in a `must` line. Units here are SI.", ""]
    listed = sorted(
        (one for one in graph().quantities.values() if not one.step), key=lambda one: one.matter
    )
    for matter, found in groupby(listed, key=lambda one: one.matter):
        lines += [f"## {matter.capitalize()}", "", "| name | what | unit | per | method |"]
        lines.append("|---|---|---|---|---|")
        for one in found:
            told = f"| `{one.name}` | {one.label} | {one.unit} | {one.per} |"
            lines.append(f"{told} {source(one.source)} |")
        lines.append("")
    return "\n".join(lines)


def checks() -> str:
    """Return every standing check."""
    lines = [
        "# Checks",
        "",
        "Override a limit in the build file: `limits: {ID: VALUE}`. Advice rules nothing out.",
        "",
    ]
    for matter, found in groupby(standing_checks(), key=lambda one: one.matter):
        lines += [f"## {matter.capitalize()}", ""]
        for one in found:
            lines += [f"### {one.id}", "", one.asks + (" (advice)" if one.advice else ""), ""]
            lines.append(f"- quantity: `{one.quantity}`, {limits(one)}, from {source(one.source)}")
            lines.append(f"- what helps: {one.mend}")
            if one.caution:
                lines.append(f"- caution: {one.caution}")
            lines.append("")
    return "\n".join(lines)


def limits(one: Check) -> str:
    """Return a check's limits in words."""
    words = (("at least", one.at_least), ("at most", one.at_most))
    return " and ".join(f"{word} {limit}" for word, limit in words if limit)


def commands() -> str:
    """Return every command's help."""
    lines = ["# Commands", ""]
    for name in COMMANDS:
        context = click.Context(main)
        command = main.get_command(context, name)  # type: ignore[attr-defined]  # a group
        text = command.get_help(click.Context(command, info_name=f"drybuild {name}"))
        lines += [f"## drybuild {name}", "", "```text", text, "```", ""]
    return "\n".join(lines)


def typical() -> str:
    """Return every typical range."""
    lines = [
        "# Typical ranges",
        "",
        "What an entry is taken to be until it is given; 5 to 95 % of cars of that kind.",
        "",
        "| entry | kind | low | value | high | unit | source |",
        "|---|---|---|---|---|---|---|",
    ]
    for (field, kind), row in sorted(typical_ranges().items()):
        told = f"| `{field}` | {kind} | {row.low:g} | {row.value:g} | {row.high:g} | {row.unit} |"
        lines.append(f"{told} {source(row.source_id)}{', ' if row.locator else ''}{row.locator} |")
    return "\n".join(lines) + "\n"


def source_list() -> str:
    """Return every source and how it was read."""
    lines = ["# Sources", "", "| id | document | edition | read |", "|---|---|---|---|"]
    for name, one in sorted(sources().items()):
        lines.append(f"| `{name}` | {one.title} | {one.edition} | {one.read} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for file, text in pages().items():
        (FOLDER / file).write_text(text, encoding="utf-8")
        sys.stdout.write(f"{FOLDER / file}\n")
