"""A check: a question with a limit, as data. It computes nothing; `verdicts.py` judges."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Check:
    """A question about one quantity, and the limit that answers it.

    A limit is a constant with its unit (``"500 N"``) or the name of another quantity. Give
    `at_least`, `at_most`, or both for a band.
    """

    id: str
    """Never changes: ``brakes.pedal-force``. The person overrides its limit by it."""
    asks: str
    """The question in the person's words, ending in a question mark."""
    quantity: str
    at_least: str | None = None
    at_most: str | None = None
    band: str | None = None
    """A margin below this is tight however sure it is; a constant with its unit."""
    probability: float | None = None
    """How sure the person wants it (a must line "at 80 %"); None takes the usual bands."""
    source: str = "common-practice"
    """Source id of the limit."""
    caution: str = ""
    """What can hurt here, and to whom to defer."""
    mend: str
    """What helps when it fails."""
    fails: str = ""
    """How a person would say that it fails, with ``{value}``, ``{limit}`` and, for what the brief
    keeps, ``{kept}`` where they belong."""
    advice: bool = False
    """A failing advice is said, but rules nothing out and fails no command."""
    label: str | None = None
    """Judge only this label of a labelled quantity; None judges the worst."""
    file: Path | None = None
    line: int = 0
    """Where the person wrote it, for must lines."""

    @property
    def matter(self) -> str:
        """The matter that it belongs to."""
        return self.id.partition(".")[0]
