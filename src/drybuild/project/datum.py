"""The body as measured on its datum points: lengths, heights, openings, as the sheet asks them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from drybuild.project.document import Mapping, Node, Scalar
from drybuild.project.fields import ReadingField
from drybuild.project.groups import NamedField
from drybuild.project.reader import Reader
from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import Values
from drybuild.project.sections import Field, Section, describe, is_empty, unknown_entry
from drybuild.tables.datum import OPENINGS, length_ends, point_names

TAPE = 0.0015
"""Half the 5-95 % band of a length or height typed without its own spread. [m]"""


class TapedField(ReadingField):
    """A reading of a tape or a level: its spread does not grow with its size."""

    def __init__(self, words: str, *, least: float | None = 0.0) -> None:
        super().__init__("m", words, least=least, origin=Origin.MEASURED)

    def read(self, node: Node, path: str, reader: Reader) -> Reading | None:
        """Return the reading; without a spread of its own it has the tape's."""
        found = super().read(node, path, reader)
        told = not isinstance(node, Scalar) or any(
            mark in found.text for mark in ("±", "+-", "+/-", "~", " to ")
        ) if found else True  # fmt: skip
        if found is None or told:
            return found
        return replace(found, low=found.value - TAPE, high=found.value + TAPE)


class TapedByName(Field[dict[str, Values]]):
    """Readings of a tape by name: ``{1 left to 2 right: 1462 mm}``."""

    kind = "readings by name"

    def __init__(
        self, words: str, known: Callable[[str], bool], example: str, *, least: float | None = 0.0
    ) -> None:
        super().__init__(words)
        self.known = known
        self.example = example
        self.item = TapedField(words, least=least)

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, Reading] | None:
        """Return the readings whose names lead somewhere."""
        if is_empty(node):
            return None
        if not isinstance(node, Mapping):
            wrong = f"this is {describe(node)}, but readings by name belong here"
            reader.problem(
                "mapping-wanted", node.where, path, wrong, f'Write it as "{self.example}".'
            )
            return None
        found: dict[str, Reading] = {}
        for name, entry in node.entries.items():
            if not self.known(name):
                wrong = f'"{name}" does not name what is measured here'
                mend = f'Write it as "{self.example}"; points: {", ".join(point_names())}.'
                reader.problem("unknown-key", entry.key_where, f"{path}.{name}", wrong, mend)
                continue
            one = self.item.read(entry.node, f"{path}.{name}", reader)
            if one is not None:
                found[name] = one
        return found or None

    def take(self, section: Section) -> dict[str, Values]:
        """Return the samples by name; none when not given."""
        section.bench.note(section.path_of(self.name))
        return {
            name: section.bench.take(f"{section.path_of(self.name)}.{name}", one)
            for name, one in self.given(section).items()
        }

    def given(self, section: Section) -> dict[str, Reading]:
        """Return the readings by name as they stand in the file."""
        given = section.given.get(self.name)
        return given if isinstance(given, dict) else {}

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {
            "description": self.words,
            "type": ["object", "null"],
            "additionalProperties": self.item.schema(),
        }


class Opening(Section):
    """The two diagonals of a door, a screen, a lid."""

    rising = TapedField("Diagonal from low front (or low left) to high rear (or high right)")
    falling = TapedField("Diagonal from high front (or high left) to low rear (or low right)")


class OpeningsField(NamedField[Opening]):
    """Openings by name; one that no body has is a problem with a hint."""

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, Opening] | None:
        """Return the openings that exist."""
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            if name not in OPENINGS:
                unknown_entry(reader, entry, f"{path}.{name}", OPENINGS)
        found = super().read(node, path, reader)
        return found and {name: one for name, one in found.items() if name in OPENINGS}


class Datum(Section):
    """What was measured of the shell, braced and level, on the numbered points of the sheet."""

    lengths = TapedByName(
        "Lengths in plan (plumbed to the floor, or a level trammel), by their two points",
        lambda name: length_ends(name) is not None,
        "{1 left to 2 right: 1462 mm}",
    )
    heights = TapedByName(
        "Height of each point over one level line",
        lambda name: name in point_names(),
        "{3 left: 212 mm}",
        least=None,
    )
    wheelbase_left = TapedField("Left wheelbase, wheels straight ahead")
    wheelbase_right = TapedField("Right wheelbase, wheels straight ahead")
    openings = OpeningsField(Opening, "Diagonals of the openings")
