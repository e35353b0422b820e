"""The car: its measurements, where to take them, and how much each reading matters."""

from __future__ import annotations

from typing import Any

from drybuild.present.body_dimensions import DRAWN as BODY_DRAWN
from drybuild.present.body_dimensions import dimension_drawing
from drybuild.present.body_shape import body_shape
from drybuild.project.catalogue import CAR_SECTIONS
from drybuild.workbench.apart import ready
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader
from drybuild.workbench.pages.matters import DRAWN
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.pages.taping import bay_sheet, draw_bay
from drybuild.workbench.pages.where import arches_sketch, measures, weight

MOST = 8


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    bay = bay_sheet(desk)
    numbers = bay.numbers if bay else {}
    reader = Reader(desk.build, desk.session.evaluation, desk.doubts(), numbers)
    groups = {
        name: reader.group(name, cls, desk.build.car[name], ("car", name), f"car.{name}")
        for name, cls in CAR_SECTIONS.items()
    }
    weighty = sorted((one for group in groups.values() for one in group if one.matters), key=weight)
    sized = [one for name in ("body", "mass") for one in groups[name].entries]
    return {
        "groups": list(groups.values()),
        "opened": asked.get("part", ""),
        "weighty": weighty[:MOST],
        "drawing": dimension_drawing(body_shape(desk.build), measures(sized, BODY_DRAWN)),
        "arches": arches_sketch(desk.build, groups["arches"]),
        "bay": bay,
        "drawable": ready(desk),
        "drawn": DRAWN,
    }


def before(desk: Desk, asked: Asked) -> None:
    """Draw where to put the tape in the bay, where that is asked for."""
    if asked.get(DRAWN):
        desk.wait()
        draw_bay(desk)


PAGE = Page(
    path="/car",
    title="The car",
    asks="What is known of the car as it stands, and what is worth measuring?",
    template="car.html.j2",
    fill=fill,
    before=before,
)
