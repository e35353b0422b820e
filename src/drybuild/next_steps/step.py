"""A step that could be taken next, and what it is worth."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from drybuild.tables.measuring import HowTo


class Act(StrEnum):
    """What one does."""

    MEASURE = "measure"
    ASK = "ask"
    LOOK_UP = "look up"
    INSPECT = "inspect"
    DECIDE = "decide"
    ORDER = "order"


@dataclass(frozen=True, kw_only=True)
class Helps:
    """A check that a step makes surer, and by how much."""

    check: str
    share: float
    """Share of the doubt in its margin that the step's subject causes; 1 if it opens the check."""


@dataclass(frozen=True, kw_only=True)
class Step:
    """Something to measure, ask, look up, inspect, decide or order."""

    act: Act
    about: str
    """The reading's path, the zone, the system or the part."""
    what: str
    """What a person calls it: the field's words, the zone, the part."""
    worth: float = 0.0
    """Money that it saves on average: rework and wrong parts avoided, before its own effort."""
    frees: float = 0.0
    """Money that need no longer be kept ready."""
    weeks: float = 0.0
    """Weeks that it saves on average, or that need no longer be kept in reserve."""
    minutes: float = 0.0
    by: float | None = None
    """Last safe day, in days since 1970-01-01."""
    helps: tuple[Helps, ...] = ()
    how: HowTo | None = None
    score: float = 0.0
    """Net worth an hour of effort, weeks and kept money turned into money; ranks the steps."""
