"""What the file or a typical range says of an entry, outside the graph: settings and drawings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from drybuild.errors import MissingInput
from drybuild.present.numbers import value_and_band
from drybuild.project.build import Build
from drybuild.project.fields import ReadingField
from drybuild.project.option import Option
from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.tables.typical import typical_range
from drybuild.units import to_si

S = TypeVar("S", bound=Section)


class Nominal:
    """A bench that gives each reading's nominal value alone."""

    def __init__(self, kind: str) -> None:
        self.kind = kind

    def take(self, path: str, reading: Reading) -> Values:
        """Return the nominal value."""
        return np.array([reading.value])

    def again(self, path: str) -> Values | None:
        """Remember nothing."""
        return None

    def note(self, path: str) -> None:
        """Keep no record: nothing here is a result."""

    def typical(self, key: str, unit: str) -> Reading | None:
        """Return the published typical range of a field, if there is one."""
        found = typical_range(key, self.kind)
        if found is None:
            return None
        return Reading(
            value=to_si(found.value, found.unit, unit),
            low=to_si(found.low, found.unit, unit),
            high=to_si(found.high, found.unit, unit),
            origin=Origin.HANDBOOK,
            text=f"{found.low:g} to {found.high:g} {found.unit}",
            unit=found.unit,
            source=found.source_id,
        )


def nominal(section: S, build: Build) -> S:
    """Return a section bound to nominal values."""
    return section.bound(Nominal(build.kind))


def picked(build: Build, system: str) -> Option | None:
    """Return the option taken for a system, or the one that it counts as while it is open."""
    name = build.assumed_picks().get(system)
    return build.options[system][name] if name is not None else None


@dataclass(frozen=True, kw_only=True)
class Setting:
    """An entry as a person reads it."""

    words: str
    value: str
    band: str
    origin: str


def setting(section: Section, name: str, build: Build, shown: str = "") -> Setting | None:
    """Return a reading as given, else as the typical range has it; None where neither is known."""
    field = type(section).FIELDS[name]
    if not isinstance(field, ReadingField):
        return None
    given = section.given.get(name)
    found = given if isinstance(given, Reading) else None
    if found is None:
        found = field.typical_reading(nominal(section, build))
    if found is None:
        return None
    triple = (found.value, found.low, found.high)
    shown = shown or field.unit
    value, band = value_and_band(triple, field.unit, shown, build.units, build.currency)
    return Setting(words=field.words, value=value, band=band, origin=str(found.origin))


def number(section: Section, name: str, build: Build) -> float | None:
    """Return an entry's nominal value in SI, or None where nothing is known."""
    try:
        value = getattr(nominal(section, build), name)
    except MissingInput:
        return None
    return float(np.ravel(value)[0])
