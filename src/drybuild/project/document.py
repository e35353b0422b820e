"""One YAML text as a tree that knows where each value stands, and what is wrong with the text.

Scalars keep their text and whether they were plain: what is a number, a yes or nothing at all is
for the section that reads them. So ``no``, ``12:30``, ``010`` and ``1e3`` stay the texts they are,
as in the core schema of YAML 1.2. A lone ``?`` is read as that text too, although strict YAML
wants it in quotes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from drybuild.errors import Problem

Style = Literal["plain", "single", "double", "literal", "folded", "block", "flow", "alias"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Where:
    """Where a key or value stands in its file."""

    file: Path
    line: int
    """Counted from 1."""
    column: int
    """Counted from 1."""
    start: int
    """First character, counted from 0 in the text of the file; anchors and tags come before it."""
    end: int
    """One past the last character; a block ends with its last value, before any comment."""
    style: Style = "plain"


@dataclass(frozen=True, kw_only=True, slots=True)
class Scalar:
    """A single value, as text."""

    value: str | None
    """None when nothing at all is written."""
    plain: bool
    """Whether it stands without quotes."""
    where: Where


@dataclass(frozen=True, kw_only=True, slots=True)
class Listing:
    """A list of values."""

    items: tuple[Node, ...]
    where: Where


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """One key of a mapping with its value."""

    key_where: Where
    node: Node


@dataclass(frozen=True, kw_only=True, slots=True)
class Mapping:
    """Values by key, in the order of the file."""

    entries: dict[str, Entry]
    where: Where

    def get(self, key: str) -> Node | None:
        """Return the value of a key, or None when there is no such key."""
        entry = self.entries.get(key)
        return entry.node if entry else None


Node = Scalar | Listing | Mapping


@dataclass(frozen=True, kw_only=True)
class Document:
    """A text, the tree that could be read from it, and everything wrong with it."""

    text: str
    root: Mapping
    problems: tuple[Problem, ...] = ()
    broken: tuple[str, ...] = field(default=())
    """Top-level keys that stand in the text but could not be read whole; they are not in root."""


def empty_root(file: Path) -> Mapping:
    """Return the root of a file in which nothing can be read."""
    return Mapping(entries={}, where=Where(file=file, line=1, column=1, start=0, end=0))
