"""The shell as measured on its datum points: what the sheet asks for, to be typed on the page."""

from __future__ import annotations

from collections.abc import Iterable

from drybuild.project.build import Build
from drybuild.project.datum import Datum, Opening, TapedByName
from drybuild.project.sections import Section
from drybuild.tables.datum import OPENINGS, SIDES, asked_lengths, point_pairs
from drybuild.workbench.entries import Entry, Group, Reader

AT = "datum"
WHEELBASES = ("wheelbase_left", "wheelbase_right")


def measured_shell(reader: Reader) -> Group:
    """Return the entries that the sheet asks for, and what else of the kind is in the file."""
    build = reader.build
    pairs = point_pairs(build.kind)
    points = [f"{one.number} {side}" for one in pairs for side in SIDES]
    openings = tuple(Group(title=name, entries=_opening(reader, name)) for name in OPENINGS)
    return Group(
        title="the shell on its points",
        entries=tuple(
            reader.entry(Datum.FIELDS[one], (AT, one), f"{AT}.{one}") for one in WHEELBASES
        ),
        groups=(
            _named(reader, Datum.lengths, asked_lengths(pairs)),
            _named(reader, Datum.heights, points),
            Group(title="openings", entries=(), groups=openings),
        ),
    )


def _named(reader: Reader, field: TapedByName, asked: Iterable[str]) -> Group:
    """Return the readings of a list by name: those that are asked for, then any others."""
    given = field.given(_datum(reader.build))
    entries = tuple(
        reader.entry(field.item, (AT, field.name, name), f"{AT}.{field.name}")
        for name in dict.fromkeys((*asked, *given))
    )
    return Group(title=field.name, entries=entries)


def _opening(reader: Reader, name: str) -> tuple[Entry, ...]:
    return tuple(
        reader.entry(field, (AT, "openings", name, one), f"{AT}.openings.{one}")
        for one, field in Opening.FIELDS.items()
    )


def _datum(build: Build) -> Section:
    return build.tops[AT]
