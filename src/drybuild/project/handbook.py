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
    return section.bench.take(
        section.path_of(name),
        Reading(
            value=known.value,
            low=known.low,
            high=known.high,
            origin=Origin.HANDBOOK,
            text=f"{known.low:g} to {known.high:g} {known.unit}",
            unit=known.unit,
            source=known.source_id,
            note=known.locator,
            least=least,
        ),
    )
