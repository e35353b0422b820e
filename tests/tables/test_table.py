"""Tables as printed: rows that are there and that are not, columns of words, sources."""

from __future__ import annotations

from importlib.resources import files

import pytest

from drybuild.errors import TableError
from drybuild.tables.table import Table, read_table

SMALL = Table(
    "small",
    ("name", "mass", "source_id", "locator"),
    {"name": "-", "mass": "kg", "source_id": "", "locator": ""},
    (
        {"name": "a", "mass": "1.5", "source_id": "common-practice", "locator": ""},
        {"name": "b", "mass": "heavy", "source_id": "common-practice", "locator": ""},
    ),
)
TABLES = sorted(
    file.name.removesuffix(".csv")
    for file in files("drybuild").joinpath("tables").iterdir()
    if file.name.endswith(".csv")
)


@pytest.mark.parametrize("name", TABLES)
def test_every_table_reads_and_every_row_has_its_source(name: str) -> None:
    table = read_table(name)
    assert table.rows
    assert len(set(table.columns)) == len(table.columns)


def test_a_row_is_found_by_what_one_of_its_cells_holds() -> None:
    assert SMALL.row("name", "b")["mass"] == "heavy"


def test_a_row_that_is_not_there_is_refused_by_name() -> None:
    with pytest.raises(TableError, match="small has no row with name = 'c'"):
        SMALL.row("name", "c")


@pytest.mark.parametrize("column", ["mass", "length"])
def test_a_column_of_words_or_none_at_all_gives_no_numbers(column: str) -> None:
    with pytest.raises(TableError, match=column):
        SMALL.numbers(column)


def test_a_table_that_does_not_exist_is_refused() -> None:
    with pytest.raises(TableError, match="no such list"):
        read_table("no such list")
