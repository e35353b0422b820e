"""Typed readers of the frame templates: nodes by tape measures, members, panels, measures.

A row of the left side stands for the right side too: its names get the word left or right; a node
in the middle keeps its name. A name that ends in "right" reaches across.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.table import read_table

SIDES = ("left", "right")
TEMPLATES = ("saloon", "coupe", "estate", "open", "ladder", "backbone", "tubes")
BODY_OF = {"ladder": "cab"}
"""Templates of frames that a body sits on, each with the template of that body."""
_TERM = re.compile(r"\s*([+-])?\s*(\d+(?:\.\d+)?)\s+([a-z_]+)")


@dataclass(frozen=True, kw_only=True)
class Node:
    """A place as shares of tape measures along x, y and z."""

    name: str
    shares: tuple[dict[str, float], dict[str, float], dict[str, float]]


@dataclass(frozen=True, kw_only=True)
class Bar:
    """A member between two nodes: its section, which ends are joints, the body zones it is in."""

    name: str
    start: str
    end: str
    section: str
    joints: tuple[bool, bool]
    zones: tuple[str, ...]
    family: str
    """Its name without the side."""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A panel between four nodes, and the share of its thickness that works in shear."""

    name: str
    corners: tuple[str, str, str, str]
    metal: str
    share: float
    zones: tuple[str, ...]
    family: str


@dataclass(frozen=True, kw_only=True)
class SectionSize:
    """A section's size by the middle line of its wall, and what kind of section it is."""

    shape: str
    """Closed, open (a closed one slit along its length), channel (open to the side), trough (open
    below), tube, or mount (rubber between two nodes)."""
    width: float
    height: float
    gauge: float
    holes: float = 0.0
    """Share of the wall that round holes cut away."""
    rates: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """Of a mount: force per motion along and across it, moment per turn."""


@dataclass(frozen=True, kw_only=True)
class Change:
    """One thing that a measure does: a factor on a wall, sheet or joint."""

    action: str
    target: str
    share: float


@dataclass(frozen=True, kw_only=True)
class FrameCase:
    """Where a template is held, pulled at and loaded, without the side."""

    front: str
    centre: str
    rear: str
    loaded: str
    words: str


@dataclass(frozen=True, kw_only=True)
class Hardpoint:
    """Where something outside the frame pulls at it: its place without the side."""

    place: str
    wheel: str
    """What leads the wheel there: arms or a beam axle; empty where there is no wheel."""
    words: str


@cache
def hardpoints(template: str) -> dict[str, Hardpoint]:
    """Return where wheels, engine, tow rope, jack, belts and seats pull at a template."""
    return {
        row["point"]: Hardpoint(place=row["place"], wheel=row["wheel"], words=row["words"])
        for row in _of(template, "frame_hardpoint", may_lack=True)
    }


@cache
def nodes(template: str) -> dict[str, Node]:
    """Return the nodes of a template by name, both sides."""
    found = {}
    for row in _of(template, "frame_template_node"):
        shares = (_shares(row["x"]), _shares(row["y"]), _shares(row["z"]))
        for name, sign in _sided(row["node"], middle=not any(shares[1].values())):
            across = {measure: sign * share for measure, share in shares[1].items()}
            found[name] = Node(name=name, shares=(shares[0], across, shares[2]))
    return found


@cache
def bars(template: str) -> tuple[Bar, ...]:
    """Return the members of a template, both sides."""
    known = frozenset(nodes(template))
    return tuple(
        bar for row in _of(template, "frame_template_member") for bar in _bars(row, known, "member")
    )


@cache
def sheets(template: str) -> tuple[Sheet, ...]:
    """Return the panels of a template, both sides."""
    known, found = frozenset(nodes(template)), []
    for row in _of(template, "frame_template_panel", may_lack=True):
        corners = [row[one] for one in ("first", "second", "third", "fourth")]
        sets = [tuple(_placed(one, side, known) for one in corners) for side in SIDES]
        twice = {frozenset(one) for one in sets}
        for side, placed in zip(SIDES[: len(twice)], sets, strict=False):
            first, second, third, fourth = placed
            found.append(
                Sheet(
                    name=f"{row['panel']} {side}" if len(twice) == 2 else row["panel"],
                    corners=(first, second, third, fourth),
                    metal=row["metal"],
                    share=float(row["share"]),
                    zones=_zones(row["zones"], side, len(twice) == 2),
                    family=row["panel"],
                )
            )
    return tuple(found)


@cache
def sections() -> dict[str, SectionSize]:
    """Return the usual size of every kind of section, in m."""
    return {
        row["section"]: SectionSize(
            shape=row["shape"],
            width=float(row["width"]) * 1e-3,
            height=float(row["height"]) * 1e-3,
            gauge=float(row["gauge"]) * 1e-3,
        )
        for row in read_table("frame_section").rows
    }


@cache
def measures() -> tuple[str, ...]:
    """Return the kinds of measure that a frame can be given."""
    return tuple(dict.fromkeys(row["measure"] for row in read_table("frame_measure").rows))


@cache
def added_bars(measure: str, template: str) -> tuple[Bar, ...]:
    """Return the members that a measure adds to a template.

    Raises
    ------
    TableError
        The template has no such places to join.

    """
    known = frozenset(nodes(template))
    rows = [row for row in _measure(measure) if row["action"] == "add"]
    for row in rows:
        for place in (row["start"], row["end"]):
            if not {_placed(place, side, known) for side in SIDES} <= known:
                raise TableError(f"a {template} frame has no place called {place} for {measure}")
    return tuple(bar for row in rows for bar in _bars(row, known, "target"))


@cache
def changes(measure: str, template: str) -> tuple[Change, ...]:
    """Return the factors that a measure puts on walls, sheets and joints.

    Raises
    ------
    TableError
        The template has no such member or panel.

    """
    families = {bar.family for bar in bars(template)} | {one.family for one in sheets(template)}
    found = []
    for row in _measure(measure):
        if row["action"] == "add":
            continue
        if row["target"] and row["target"] not in families:
            raise TableError(f"a {template} frame has no {row['target']} for {measure}")
        found.append(Change(action=row["action"], target=row["target"], share=float(row["share"])))
    return tuple(found)


@cache
def frame_case(template: str) -> FrameCase:
    """Return where a template is held, pulled at and loaded."""
    row = read_table("frame_case").row("template", template)
    return FrameCase(
        front=row["front"],
        centre=row["centre"],
        rear=row["rear"],
        loaded=row["loaded"],
        words=row["words"],
    )


def side_names(name: str, known: frozenset[str]) -> tuple[str, ...]:
    """Return a node's name, or its left and right one."""
    return (name,) if name in known else tuple(f"{name} {side}" for side in SIDES)


def bar_pair(
    *, name: str, start: str, end: str, section: str, known: frozenset[str], both: bool
) -> tuple[Bar, ...]:
    """Return a welded member between two named places, and its twin on the other side."""
    row = {
        "member": name,
        "start": start,
        "end": end,
        "section": section,
        "joints": "none",
        "zones": "",
        "sides": "both" if both else "one",
    }
    return tuple(_bars(row, known, "member"))


def _bars(row: dict[str, str], known: frozenset[str], named: str) -> list[Bar]:
    ends = [tuple(_placed(row[end], side, known) for end in ("start", "end")) for side in SIDES]
    twin = len({frozenset(one) for one in ends}) == 2 and row.get("sides", "both") == "both"
    joints = row["joints"]
    return [
        Bar(
            name=f"{row[named]} {side}" if twin else row[named],
            start=start,
            end=end,
            section=row["section"],
            joints=(joints in ("both", "start"), joints in ("both", "end")),
            zones=_zones(row.get("zones", ""), side, twin),
            family=row[named],
        )
        for side, (start, end) in zip(SIDES[: 1 + twin], ends, strict=False)
    ]


def _placed(name: str, side: str, known: frozenset[str]) -> str:
    """Return a node's full name on a side; a name that ends in "right" is on the other one."""
    if name in known and not name.endswith(" right"):
        return name
    if name.endswith(" right"):
        return f"{name.removesuffix(' right')} {SIDES[1 - SIDES.index(side)]}"
    return f"{name} {side}"


def _zones(text: str, side: str, twin: bool) -> tuple[str, ...]:
    """Return names of body zones: as they stand and by side; the survey has one or the other."""
    stems = [one.strip() for one in text.split("+") if one.strip()]
    sides = (side,) if twin else SIDES
    return tuple(name for stem in stems for name in (stem, *(f"{stem} {one}" for one in sides)))


def _sided(name: str, *, middle: bool) -> list[tuple[str, float]]:
    return [(name, 1.0)] if middle else [(f"{name} left", 1.0), (f"{name} right", -1.0)]


def _of(template: str, table: str, *, may_lack: bool = False) -> list[dict[str, str]]:
    rows = [row for row in read_table(table).rows if template in row["templates"].split()]
    if not rows and not may_lack:
        raise TableError(f"{table} has no rows for a frame called {template!r}")
    return rows


def _measure(measure: str) -> list[dict[str, str]]:
    rows = [row for row in read_table("frame_measure").rows if row["measure"] == measure]
    if not rows:
        raise TableError(f"frame_measure has no measure called {measure!r}")
    return rows


def _shares(text: str) -> dict[str, float]:
    """Return the share of each tape measure in an entry such as ``-0.75 wheelbase + 0.2 width``."""
    found, place = {}, 0
    while place < len(text):
        term = _TERM.match(text, place)
        if term is None:
            raise TableError(f"{text!r} is no sum of shares of tape measures")
        sign, share, measure = term.groups()
        found[measure] = float(share) * (-1.0 if sign == "-" else 1.0)
        place = term.end()
    return found
