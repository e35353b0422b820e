"""The car: its measurements, where to take them, and how much each reading matters."""

from __future__ import annotations

from typing import Any

from drybuild.present.body_dimensions import DRAWN, Measure, dimension_drawing
from drybuild.present.body_shape import body_shape
from drybuild.project.catalogue import CAR_SECTIONS
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Entry, Group, Reader
from drybuild.workbench.pages.page import Asked, Page

MOST = 8


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    reader = Reader(desk.build, desk.session.evaluation, desk.doubts())
    groups = [
        reader.group(name, cls, desk.build.car[name], ("car", name), f"car.{name}")
        for name, cls in CAR_SECTIONS.items()
    ]
    weighty = sorted((one for group in groups for one in group if one.matters), key=_weight)
    return {
        "groups": groups,
        "opened": asked.get("part", ""),
        "weighty": weighty[:MOST],
        "drawing": dimension_drawing(body_shape(desk.build), _measures(groups)),
    }


def _weight(one: Entry) -> float:
    return -sum(each.share for each in one.matters)


def _measures(groups: list[Group]) -> dict[str, Measure]:
    """Return the entries that the drawing shows, by field."""
    shown = {
        one.path.rpartition(".")[2]: one
        for group in groups
        if group.title in ("body", "mass")
        for one in group.entries
    }
    drawn = {name: shown[name] for name in DRAWN if name in shown}
    most = min(drawn.values(), key=_weight)
    return {
        name: Measure(
            name=one.name.replace("cg ", "CG "),
            value=one.value if _known(one) else one.stands_in.partition(" (")[0],
            given=_known(one),
            weighs=bool(one.matters),
            most=bool(one.matters) and one is most,
            to=f"#{one.id}",
        )
        for name, one in drawn.items()
    }


def _known(one: Entry) -> bool:
    return one.value not in ("", "?")


PAGE = Page(
    path="/car",
    title="The car",
    asks="What is known of the car as it stands, and what is worth measuring?",
    template="car.html.j2",
    fill=fill,
)
