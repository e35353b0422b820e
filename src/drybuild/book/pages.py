"""What a book is made of: chapters of blocks. Both settings, PDF and HTML, read only this."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, kw_only=True)
class Words:
    """A paragraph, or a list of points."""

    text: str = ""
    points: tuple[str, ...] = ()
    numbered: bool = False
    kind: Literal["words"] = "words"


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A warning where the work can hurt; set apart and never left out."""

    text: str
    points: tuple[str, ...] = ()
    kind: Literal["caution"] = "caution"


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A table of texts."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()
    """Columns set flush right."""
    states: tuple[int, ...] = ()
    """Columns of verdicts: good, tight, open, fails; shown by sign, word and colour."""
    widths: tuple[float, ...] = ()
    """Relative widths; equal when empty."""
    indents: tuple[int, ...] = ()
    """How far each row's first cell is set in; not at all when empty."""
    total: bool = False
    """Whether the last row sums up the others."""
    to_write: bool = False
    """Whether the last column is empty, for a pen; the rows are then taller."""
    note: str = ""
    kind: Literal["sheet"] = "sheet"


@dataclass(frozen=True, kw_only=True)
class Tile:
    """A figure that is read at a glance."""

    value: str
    words: str
    band: str = ""
    state: str = ""


@dataclass(frozen=True, kw_only=True)
class Tiles:
    """Figures side by side."""

    tiles: tuple[Tile, ...]
    kind: Literal["tiles"] = "tiles"


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A drawing or plot, as SVG text, with words for those who cannot see it."""

    svg: str
    caption: str
    words: str
    width: float = 1.0
    """Share of the text width."""
    kind: Literal["figure"] = "figure"


@dataclass(frozen=True, kw_only=True)
class Listing:
    """The text of a file, to copy or to keep under its name; in the HTML setting only."""

    text: str
    name: str
    words: str
    kind: Literal["listing"] = "listing"


@dataclass(frozen=True, kw_only=True)
class Section:
    """A heading inside a chapter."""

    title: str
    kind: Literal["section"] = "section"


Block = Words | Caution | Sheet | Tiles | Figure | Listing | Section


@dataclass(frozen=True, kw_only=True)
class Chapter:
    """A chapter of the book."""

    title: str
    intro: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, kw_only=True)
class Book:
    """The whole book."""

    title: str
    subtitle: str
    date: str
    headline: tuple[tuple[str, str], ...]
    """A few figures for the title page: what, value."""
    chapters: tuple[Chapter, ...]
    sort: str = "Build book"
    """What it is: a build book, a file for other people's advice."""
    language: str = "en-GB"
    paper: str = "a4"
    colophon: tuple[str, ...] = field(default=())
