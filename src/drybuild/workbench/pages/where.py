"""Where to measure: entries of the page as measures on a drawing, each leading to its form."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from drybuild.present.arches_drawing import SIDES, LipPlace, arches_drawing
from drybuild.present.body_dimensions import Measure
from drybuild.present.nominal import number
from drybuild.project.arches import ArchStation
from drybuild.project.build import Build
from drybuild.project.readings import Reading
from drybuild.project.sections import Section
from drybuild.workbench.entries import Entry, Group
from drybuild.workbench.places import shown_at

ARCHES = "car.arches"
LATERAL = ("inner", "outer", "fold")
"""Readings of a place round the lip that lie across the car."""


def weight(one: Entry) -> float:
    """Return what puts entries in order, those first that weigh most."""
    return -sum(each.share for each in one.matters)


def measures(entries: Iterable[Entry], drawn: Sequence[str]) -> dict[str, Measure]:
    """Return the entries that a drawing shows, by field."""
    shown = {one.path.rpartition(".")[2]: one for one in entries}
    found = {name: shown[name] for name in drawn if name in shown}
    most = min(found.values(), key=weight)
    return {name: _measure(one, most=one is most) for name, one in found.items()}


def _measure(one: Entry, *, most: bool = False, to: str = "") -> Measure:
    return Measure(
        name=one.name.replace("cg ", "CG "),
        value=one.value if _known(one) else one.stands_in.partition(" (")[0],
        given=_known(one),
        weighs=bool(one.matters),
        most=bool(one.matters) and most,
        to=to or f"#{one.id}",
    )


def _known(one: Entry) -> bool:
    return one.value not in ("", "?")


def arches_sketch(build: Build, group: Group) -> str:
    """Return the drawing of the arches with what is known of them."""
    plain = {one.path.rpartition(".")[2]: one for one in group.entries}
    known = measures(plain.values(), tuple(plain))
    entries = {one.path: one for one in group}
    section = build.car["arches"]
    places = {axle: _places(build, axle, entries) for axle in SIDES}
    for name in LATERAL:
        known[name] = _across(build, name, entries)
    for axle in SIDES:
        known[axle] = Measure(name=f"{axle} lip", value="", given=False, to=_adding(axle))
    diameter = number(section, "outside_diameter", build) or 0.6
    return arches_drawing(known, places, diameter)


def _places(build: Build, axle: str, entries: dict[str, Entry]) -> list[LipPlace]:
    """Return the places round a lip whose reading is known, with a way to their forms."""
    found = []
    for name, one in _stations(build, axle).items():
        angle, lip, x, height = (_value(one, word) for word in ("angle", "lip", "x", "height"))
        entry = "lip" if lip is not None else "x"
        if lip is None or angle is None:
            if x is None or height is None:
                continue
            angle, lip = math.atan2(height, x), math.hypot(x, height)
        path = f"{ARCHES}.{axle}.stations.{name}.{entry}"
        measure = _measure(entries[path], to=shown_at(build, path))
        found.append(LipPlace(angle=angle, lip=lip, measure=measure))
    return found


def _across(build: Build, name: str, entries: dict[str, Entry]) -> Measure:
    """Return what stands for one reading of every place round the lips."""
    paths = [
        f"{ARCHES}.{axle}.stations.{station}.{name}"
        for axle in SIDES
        for station, one in _stations(build, axle).items()
        if _value(one, name) is not None
    ]
    words = {"inner": "guard", "outer": "lip's edge", "fold": "fold"}[name]
    if not paths:
        return Measure(name=words, value="", given=False, to=_adding("front"))
    heaviest = min((entries[path] for path in paths), key=weight)
    return Measure(
        name=words,
        value=f"at {len(paths)} place{'s' if len(paths) > 1 else ''}",
        given=True,
        weighs=bool(heaviest.matters),
        to=shown_at(build, heaviest.path),
    )


def _stations(build: Build, axle: str) -> dict[str, ArchStation]:
    arch = build.car["arches"].given.get(axle)
    given = arch.given.get("stations") if isinstance(arch, Section) else None
    return given if isinstance(given, dict) else {}


def _value(section: Section, name: str) -> float | None:
    found = section.given.get(name)
    return found.value if isinstance(found, Reading) else None


def _adding(axle: str) -> str:
    return f"#a-car-arches-{axle}-stations"
