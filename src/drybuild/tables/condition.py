"""Typed readers of the body survey's tables: zones, looks, lives."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.table import read_table

GRADES = ("sound", "patch", "replace")
ZONE_KINDS = ("unitary", "open", "ladder", "open-ladder", "backbone")
"""Kinds of body that have zones of their own; an open one has a hood where others have a roof."""
OPEN_SHAPES = ("convertible", "roadster")
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
    low: bool
    """Whether it lies below the belt, where the road's spray reaches."""
    sheet_area: float
    thickness: float
    """Of the sheet when it was new. [m]"""
    aspect: float
    """Length over width of its sheet."""
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
            low=row["height"] == "low",
            sheet_area=float(row["sheet_area"]),
            thickness=float(row["thickness"]) * 1e-3,
            aspect=float(row["aspect"]),
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


@dataclass(frozen=True, kw_only=True)
class Life:
    """How much worse a climate, a storage, old repairs or drains make a zone, in deviations."""

    low: float
    """Below the belt."""
    high: float
    """Above it."""
    links: tuple[str, ...]
    """The nearer causes that it acts on; all zones when empty."""

    def on(self, row: ZoneRow) -> float:
        """Return the shift of a zone."""
        if self.links and row.link not in self.links:
            return 0.0
        return self.low if row.low else self.high


@cache
def life_of(group: str, life: str) -> Life:
    """Return what a word of a group says."""
    for row in read_table("condition_life").rows:
        if (row["group"], row["life"]) == (group, life):
            return Life(
                low=float(row["shift"]),
                high=float(row["shift_high"]),
                links=tuple(row["links"].split()),
            )
    raise TableError(f"condition_life has no {group} called {life!r}")


def life_shift(group: str, life: str) -> float:
    """Return how much worse a life makes the zones that it acts on, below the belt."""
    return life_of(group, life).low


@cache
def left_by_state() -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return the share of the sheet that each grade leaves, and its spread: sound to replace."""
    by_state = {row["state"]: row for row in read_table("condition_thickness").rows}
    rows = [by_state[grade] for grade in GRADES]
    left = tuple(float(row["left"]) for row in rows)
    spread = tuple(float(row["spread"]) for row in rows)
    return (left[0], left[1], left[2]), (spread[0], spread[1], spread[2])


def zone_kind(kind: str, shape: str) -> str:
    """Return which zones a body has, by its kind and its shape."""
    opened = {"unitary": "open", "ladder": "open-ladder"}
    return opened.get(kind, kind) if shape in OPEN_SHAPES else kind


def lives(group: str) -> tuple[str, ...]:
    """Return the words of a group: climate, storage, repairs, drains or proofing."""
    return tuple(row["life"] for row in read_table("condition_life").rows if row["group"] == group)


def _three(row: dict[str, str], grade: str) -> Three:
    low, likely, high = (float(row[f"{grade}_{end}"]) for end in ("low", "likely", "high"))
    return low * 3600.0, likely * 3600.0, high * 3600.0
