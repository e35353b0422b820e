"""Where figures and methods come from: one TOML file a matter in ``references/``.

Each entry says what the document is and how it was read::

    [un-r13h]
    title = "UN Regulation No. 13-H, braking of passenger cars"
    edition = "Revision 3"
    read = "from memory"     # original | reprint | from memory | common practice | computed

Nothing here judges a source; it only keeps it findable.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from drybuild.errors import TableError

READ_AS = ("original", "reprint", "from memory", "common practice", "computed")
"""How a document can have been read, from the strongest to the weakest."""


@dataclass(frozen=True, kw_only=True)
class Source:
    """One document or practice that figures come from."""

    id: str
    title: str
    edition: str
    read: str

    def __str__(self) -> str:
        edition = f", {self.edition}" if self.edition else ""
        told = ("original", "computed", "common practice")
        note = "" if self.read in told else f" ({self.read})"
        return f"{self.title}{edition}{note}"


@cache
def sources() -> dict[str, Source]:
    """Return every source by its id.

    Raises
    ------
    TableError
        Two files claim the same id, or an entry lacks a field or has an unknown `read`.

    """
    found: dict[str, Source] = {}
    for file in sorted(Path(__file__).with_name("references").glob("*.toml")):
        for name, entry in tomllib.loads(file.read_text(encoding="utf-8")).items():
            if name in found:
                raise TableError(f"source {name!r} stands twice; the second is in {file.name}")
            source = Source(
                id=name,
                title=entry["title"],
                edition=entry.get("edition", ""),
                read=entry["read"],
            )
            if source.read not in READ_AS:
                raise TableError(f"source {name!r}: read = {source.read!r}, not one of {READ_AS}")
            found[name] = source
    return found


def source(name: str) -> Source:
    """Return the source with this id.

    Raises
    ------
    TableError
        No file in ``references/`` has it.

    """
    try:
        return sources()[name]
    except KeyError:
        raise TableError(f"no source is called {name!r}; add it to references/") from None
