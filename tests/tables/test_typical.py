"""Typical ranges: what the fields promise and what the tables hold are the same."""

from __future__ import annotations

import pytest

from drybuild.project.brief import Brief
from drybuild.project.by_choice import ReadingByChoice
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.fields import ChoiceField, ReadingField
from drybuild.project.groups import NamedField, PartField, RatedField
from drybuild.project.sections import Section
from drybuild.project.tyre_grip import FAMILIES, UNKNOWN
from drybuild.project.tyres import Tyres
from drybuild.tables.typical import typical_range, typical_ranges
from drybuild.units import to_si

WORKED_OUT = {(Tyres, "grip_family"): (*FAMILIES, UNKNOWN)}
"""Choices that are not entries themselves: worked out of others, with all that they may come to."""


def choices_of(section: type[Section], name: str) -> tuple[str, ...]:
    """Return every choice that a range may go by: an entry's, or those of what is worked out."""
    if (section, name) in WORKED_OUT:
        assert isinstance(getattr(section, name), property), f"{name} is no longer worked out"
        return WORKED_OUT[section, name]
    entry = section.FIELDS[name]
    assert isinstance(entry, ChoiceField), f"{section.__name__}.{name} is no choice"
    return entry.choices


def promised(key: str, section: type[Section]) -> dict[str, str]:
    """Return the unit of every entry that falls back to a typical range, by the range's key."""
    found: dict[str, str] = {}
    for name, entry in section.FIELDS.items():
        one = entry.value if isinstance(entry, RatedField) else entry
        if isinstance(one, PartField | NamedField):
            found |= promised(f"{key}.{name}", one.section)
        elif isinstance(one, ReadingByChoice):
            found |= {f"{key}.{name}.{choice}": one.unit for choice in choices_of(section, one.by)}
        elif isinstance(one, ReadingField) and one.typical:
            found[one.typical if isinstance(one.typical, str) else f"{key}.{name}"] = one.unit
    return found


def all_promised() -> dict[str, str]:
    """Return the same for the whole build file."""
    sections: dict[str, type[Section]] = {"brief": Brief, **SYSTEMS, **TOPS, **NAMED}
    sections |= {f"car.{name}": section for name, section in CAR_SECTIONS.items()}
    found: dict[str, str] = {}
    for name, section in sections.items():
        found |= promised(name, section)
    return found


LIKE_WHAT_IT_REPLACES = {
    f"{system}.mass"
    for system in ("radiator", "fuel_system", "exhaust", "alternator", "battery", "wiring")
}
"""Every car has one; where its mass is not said, it is like that of the one that it replaces."""


def test_every_range_is_read_by_a_field() -> None:
    assert {field for field, _ in typical_ranges()} <= set(all_promised())


def test_every_entry_that_is_called_typical_has_its_range() -> None:
    without = set(all_promised()) - {field for field, _ in typical_ranges()}
    assert without == LIKE_WHAT_IT_REPLACES


def test_every_range_measures_what_its_field_does() -> None:
    units = all_promised()
    for row in typical_ranges().values():
        unit = units[row.field]
        assert to_si(row.low, row.unit, unit) <= to_si(row.high, row.unit, unit)


@pytest.mark.parametrize("kind", ["unitary", "ladder", "backbone"])
def test_a_range_for_the_kind_of_body_goes_before_that_of_any(kind: str) -> None:
    found = typical_range("engine.mass", kind)
    assert found is not None
    assert found.kind == kind
    common = typical_range("exhaust.bore", kind)
    assert common is not None
    assert common.kind == "any"


def test_a_field_without_a_range_has_none() -> None:
    assert typical_range("engine.no_such_entry", "unitary") is None
