"""How things are measured: each row speaks of entries that exist, and the most exact one counts."""

from __future__ import annotations

from fnmatch import fnmatchcase

import pytest

from drybuild.project.brief import Brief
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.groups import NamedField, NumbersField, PartField
from drybuild.project.sections import Section
from drybuild.tables.measuring import how_to
from drybuild.tables.table import read_table


def entries(key: str, section: type[Section]) -> set[str]:
    """Return the path of every entry below a section, without the person's own names."""
    found: set[str] = set()
    for name, one in section.FIELDS.items():
        path = f"{key}.{name}"
        found.add(path)
        if isinstance(one, PartField | NamedField):
            found |= entries(path, one.section)
        if isinstance(one, NumbersField):
            found |= {f"{path}[{number}]" for number in range(one.count or 5)}
    return found


def all_entries() -> set[str]:
    sections: dict[str, type[Section]] = {"brief": Brief, **SYSTEMS, **TOPS, **NAMED}
    sections |= {f"car.{name}": section for name, section in CAR_SECTIONS.items()}
    return set().union(*(entries(name, section) for name, section in sections.items()))


def brackets(text: str) -> str:
    """Return a path as plain letters: in a pattern, square brackets would mean a choice."""
    return text.replace("[", "(").replace("]", ")")


def test_every_row_speaks_of_an_entry_that_exists() -> None:
    known = [brackets(entry) for entry in all_entries()]
    rows = [row["field"] for row in read_table("how_to_measure").rows]
    lost = [row for row in rows if not any(fnmatchcase(entry, brackets(row)) for entry in known)]
    assert lost == []


def test_a_whole_path_goes_before_a_pattern() -> None:
    found = how_to("car.body.wheelbase", "m")
    assert found is not None
    assert found.field == "car.body.wheelbase"


def test_a_row_whose_error_measures_something_else_does_not_fit() -> None:
    by_length = how_to("radiator.width", "m")
    assert by_length is not None
    assert by_length.error_of(0.5, "m") == pytest.approx(0.001)
    by_pressure = how_to("radiator.cap_pressure", "Pa")
    assert by_pressure is None or by_pressure.field != "radiator.*"


def test_an_error_in_per_cent_goes_with_the_value() -> None:
    scale = how_to("engine.mass", "kg")
    assert scale is not None
    assert scale.error_of(200.0, "kg") == pytest.approx(2.0 * scale.error_of(100.0, "kg"))


def test_nobody_can_say_how_to_measure_what_is_no_entry() -> None:
    assert how_to("moon.phase") is None
