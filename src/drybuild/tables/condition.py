"""Typed readers of the body survey's tables: zones, looks, lives."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.table import read_table

GRADES = ("sound", "patch", "replace")
Three = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class ZoneRow:
    """A body zone as tabulated: odds for a temperate climate, kept outside, nothing known."""

    words: str
    link: str
    stage: str
    """The stage of taking apart that shows it: strip or blast."""
    carries: bool
    """Whether it carries load, a suspension, a seat or a belt."""
    sheet_area: float
    patch: float
    replace: float
    loading: float
    link_loading: float
    patch_hours: Three
    replace_hours: Three


@cache
def zones(kind: str) -> dict[str, ZoneRow]:
    """Return the zones of a kind of body by name."""
    found = {
        row["zone"]: ZoneRow(
            words=row["words"],
            link=row["link"],
            stage=row["revealed_by"],
            carries=row["carries"] == "yes",
            sheet_area=float(row["sheet_area"]),
            patch=float(row["patch"]),
            replace=float(row["replace"]),
            loading=float(row["loading"]),
            link_loading=float(row["link_loading"]),
            patch_hours=_three(row, "patch"),
            replace_hours=_three(row, "replace"),
        )
        for row in read_table("condition_zone").rows
        if kind in row["kinds"].split()
    }
    if not found:
        raise TableError(f"condition_zone has no zones for a {kind} body")
    return found


@cache
def look(judged: str) -> dict[str, Three]:
    """Return the chance of finding sound, patch or replace, by the true state."""
    rows = [row for row in read_table("condition_look").rows if row["judged"] == judged]
    if len(rows) != len(GRADES):
        raise TableError(f"condition_look does not say how a zone is {judged!r}")
    return {
        row["state"]: (float(row["sound"]), float(row["patch"]), float(row["replace"]))
        for row in rows
    }


def looks() -> tuple[str, ...]:
    """Return the ways of judging a zone, from the poorest to the best."""
    return tuple(dict.fromkeys(row["judged"] for row in read_table("condition_look").rows))


def life_shift(group: str, life: str) -> float:
    """Return how much worse a climate, a storage or old repairs make a body, in deviations."""
    for row in read_table("condition_life").rows:
        if (row["group"], row["life"]) == (group, life):
            return float(row["shift"])
    raise TableError(f"condition_life has no {group} called {life!r}")


def lives(group: str) -> tuple[str, ...]:
    """Return the words of a group: climate, storage or repairs."""
    return tuple(row["life"] for row in read_table("condition_life").rows if row["group"] == group)


def _three(row: dict[str, str], grade: str) -> Three:
    low, likely, high = (float(row[f"{grade}_{end}"]) for end in ("low", "likely", "high"))
    return low * 3600.0, likely * 3600.0, high * 3600.0
