"""Read a CSV table of published data: header row, unit row, then rows that end in their source."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from drybuild.errors import TableError
from drybuild.sources import source


@dataclass(frozen=True)
class Table:
    """A table as printed: text cells, the unit of each column, each row's source."""

    name: str
    columns: tuple[str, ...]
    units: dict[str, str]
    rows: tuple[dict[str, str], ...]

    def numbers(self, column: str) -> list[float]:
        """Return a column as floats, in the column's own unit.

        Raises
        ------
        TableError
            The table has no such column, or a cell is no number.

        """
        try:
            return [float(row[column]) for row in self.rows]
        except (KeyError, ValueError) as fault:
            raise TableError(f"{self.name}: column {column!r}: {fault}") from fault

    def row(self, column: str, value: str) -> dict[str, str]:
        """Return the one row whose `column` holds `value`.

        Raises
        ------
        TableError
            No row has it.

        """
        for row in self.rows:
            if row[column] == value:
                return row
        raise TableError(f"{self.name} has no row with {column} = {value!r}")


@cache
def read_table(name: str) -> Table:
    """Return the table ``tables/<name>.csv``.

    Raises
    ------
    TableError
        The file is missing, a row is too short, or a source id is unknown.

    """
    file = Path(__file__).with_name(f"{name}.csv")
    try:
        lines = list(csv.reader(file.read_text(encoding="utf-8").splitlines()))
    except FileNotFoundError:
        raise TableError(f"there is no table {name!r}") from None
    header, units, *body = lines
    if header[-2:] != ["source_id", "locator"]:
        raise TableError(f"{name}: the last two columns must be source_id, locator")
    rows = []
    for number, line in enumerate(body, start=3):
        if len(line) != len(header):
            raise TableError(f"{name}, line {number}: {len(line)} cells, not {len(header)}")
        row = dict(zip(header, line, strict=True))
        source(row["source_id"])
        rows.append(row)
    return Table(name, tuple(header), dict(zip(header, units, strict=True)), tuple(rows))
