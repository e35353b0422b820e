"""A build as read: its sections, options and picks, and everything that is wrong with the file."""

from __future__ import annotations

from collections.abc import Mapping as MappingType
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from drybuild.errors import Problem
from drybuild.project.brief import Brief
from drybuild.project.document import Mapping
from drybuild.project.option import Option
from drybuild.project.sections import Section
from drybuild.tables.condition import zone_kind

FORMAT = 1
"""Version of the build file that this drybuild writes; older ones are read and migrated."""
AS_IT_STANDS = "as it stands"
"""Name of the option that a system has when the file gives it none."""


@dataclass(frozen=True, kw_only=True)
class Build:
    """One car's project as its files say, readable part only; problems beside it."""

    folder: Path
    name: str
    kind: str
    """Kind of body: unitary, ladder, backbone."""
    currency: str
    units: str = "metric"
    """What the person reads: metric or us."""
    brief: Brief
    car: MappingType[str, Section]
    tops: MappingType[str, Section]
    """Other top-level sections by key: survey, work."""
    named: MappingType[str, MappingType[str, Section]]
    """Top-level keys whose entries have names of the person's own: jobs."""
    options: MappingType[str, MappingType[str, Option]]
    picks: MappingType[str, str]
    limits: MappingType[str, str]
    """The person's own limits by check id, as typed text."""
    problems: tuple[Problem, ...] = ()
    hashes: MappingType[Path, str] = field(default_factory=dict)
    """Content of each file when it was read, to notice an outside edit."""
    broken: tuple[str, ...] = ()
    """Top-level keys that stand in a file but could not be read, because of a fault there."""
    tree: Mapping | None = None
    """The files as read, for the place of an entry."""

    def place_of(self, *steps: str) -> tuple[Path, int]:
        """Return file and line of an entry, or of the nearest part above it that is written."""
        place, node = (self.folder, 1), self.tree
        for step in steps:
            entry = node.entries.get(step) if isinstance(node, Mapping) else None
            if entry is None:
                break
            place = (entry.key_where.file, entry.key_where.line)
            node = entry.node if isinstance(entry.node, Mapping) else None
        return place

    @property
    def zone_kind(self) -> str:
        """Which zones a survey of the body has, by its kind and shape."""
        shape = self.car["body"].given.get("shape") if "body" in self.car else None
        return zone_kind(self.kind, shape if isinstance(shape, str) else "")

    @property
    def systems(self) -> tuple[str, ...]:
        """Every system that this build can choose for, in catalogue order."""
        return tuple(self.options)

    def as_is(self, system: str) -> str | None:
        """Return the name of the option that leaves a system as it is, if there is one."""
        for name, option in self.options[system].items():
            if option.given.get("as_is"):
                return name
        return AS_IT_STANDS if AS_IT_STANDS in self.options[system] else None

    def assumed_picks(self) -> dict[str, str]:
        """Return the picks, and "as it is" for a system that is still open and has that option."""
        return dict(self._assumed)

    @cached_property
    def _assumed(self) -> dict[str, str]:
        found: dict[str, str] = {}
        for system in self.options:
            name = self.picks.get(system) or self.as_is(system)
            if name is None and len(self.options[system]) == 1:
                name = next(iter(self.options[system]))
            if name is not None:
                found[system] = name
        return found
