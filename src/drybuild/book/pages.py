"""What a book is made of: chapters of blocks. Both settings, PDF and HTML, read only this."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any, Literal


@dataclass(frozen=True, kw_only=True)
class Words:
    """A paragraph, or a list of points."""

    text: str = ""
    points: tuple[str, ...] = ()
    kind: Literal["words"] = "words"


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A warning where the work can hurt; set apart and never left out."""

    text: str
    kind: Literal["caution"] = "caution"


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A table. Cells are text; a cell of a verdict column holds a state word."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()
    """Columns set flush right."""
    widths: tuple[float, ...] = ()
    """Relative widths; equal when empty."""
    note: str = ""
    kind: Literal["sheet"] = "sheet"


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
class Section:
    """A heading inside a chapter."""

    title: str
    kind: Literal["section"] = "section"


Block = Words | Caution | Sheet | Figure | Section


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
    language: str = "en-GB"
    colophon: tuple[str, ...] = field(default=())

    def as_data(self) -> dict[str, Any]:  # plain data for the two templates
        """Return the book as plain data."""
        return asdict(self)
