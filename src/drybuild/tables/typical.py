"""Published typical ranges: what a field is taken to be while the person has not given it.

One file a matter in ``tables/typical/``, one row a field and kind of body::

    field,kind,low,value,high,unit,source_id,locator
    car.body.wheelbase,any,2.3,2.55,2.9,m,common-practice,

`low` and `high` are the 5 and 95 % bounds. `kind` is ``any`` or a kind of body.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from drybuild.errors import TableError
from drybuild.sources import source
from drybuild.tables.ranges import Range

COLUMNS = ["field", "kind", "low", "value", "high", "unit", "source_id", "locator"]


@dataclass(frozen=True, kw_only=True)
class TypicalRange(Range):
    """A published range of one field, in the unit of its row."""

    field: str
    kind: str


def typical_range(field: str, kind: str) -> TypicalRange | None:
    """Return the range of a field for this kind of body, else for any kind, else nothing."""
    rows = typical_ranges()
    return rows.get((field, kind)) or rows.get((field, "any"))


@cache
def typical_ranges() -> dict[tuple[str, str], TypicalRange]:
    """Return every typical range by (field, kind).

    Raises
    ------
    TableError
        A row is malformed, stands twice, or its bounds are out of order.

    """
    found: dict[tuple[str, str], TypicalRange] = {}
    for file in sorted(Path(__file__).with_name("typical").glob("*.csv")):
        header, *lines = csv.reader(file.read_text(encoding="utf-8").splitlines())
        if header != COLUMNS:
            raise TableError(f"typical/{file.name}: columns must be {', '.join(COLUMNS)}")
        for line in lines:
            row = _row(line, file.name)
            if (row.field, row.kind) in found:
                raise TableError(f"typical/{file.name}: {row.field} ({row.kind}) stands twice")
            found[row.field, row.kind] = row
    return found


def _row(line: list[str], name: str) -> TypicalRange:
    if len(line) != len(COLUMNS):
        raise TableError(f"typical/{name}: {line} has {len(line)} cells, not {len(COLUMNS)}")
    field, kind, low, value, high, unit, source_id, locator = line
    source(source_id)
    row = TypicalRange(
        field=field,
        kind=kind,
        low=float(low),
        value=float(value),
        high=float(high),
        unit=unit,
        source_id=source_id,
        locator=locator,
    )
    if not row.low <= row.value <= row.high:
        raise TableError(f"typical/{name}: {field} is not in the order low, value, high")
    return row
