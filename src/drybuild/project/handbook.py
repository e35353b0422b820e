"""Let a range out of a table stand in for what the person has not given.

Typical ranges that depend only on the kind of body stand in ``tables/typical/``. This is for those
that depend on something else as well: on how a suspension guides its wheels, or where in the car a
system usually sits.
"""

from __future__ import annotations

from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.tables.ranges import Range
from drybuild.units import to_si


def published(known: Range, unit: str, *, least: float | None = None) -> Reading:
    """Return a published range as a reading in an SI unit, with its source."""
    return Reading(
        value=to_si(known.value, known.unit, unit),
        low=to_si(known.low, known.unit, unit),
        high=to_si(known.high, known.unit, unit),
        origin=Origin.HANDBOOK,
        text=f"{known.low:g} to {known.high:g} {known.unit}",
        unit=known.unit,
        source=known.source_id,
        note=known.locator,
        least=least,
    )


def given_or_handbook(
    section: Section, name: str, known: Range, *, least: float | None = 0.0
) -> Values:
    """Return what the file gives for an entry, else samples of a published range."""
    if section.has(name):
        given: Values = getattr(section, name)
        return given
    return handbook(section, name, known, least=least)


def handbook(section: Section, name: str, known: Range, *, least: float | None = 0.0) -> Values:
    """Return samples of a published range, noted under the entry that the person could give.

    Parameters
    ----------
    section : Section
        The bound section that the entry belongs to.
    name : str
        The entry, or a part of it: ``position[0]``.
    known : Range
        The range, in SI.
    least : float or None
        Bound that samples keep to; None where the sign is free.

    Returns
    -------
    array
        Samples, nominal first.

    """
    return section.bench.take(section.path_of(name), published(known, known.unit, least=least))
