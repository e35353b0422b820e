"""The car: its measurements, how to take them, and how much each reading matters."""

from __future__ import annotations

from typing import Any

from drybuild.project.catalogue import CAR_SECTIONS
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader
from drybuild.workbench.pages.page import Asked, Page

MOST = 8


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    reader = Reader(desk.build, desk.session.evaluation, desk.doubts())
    groups = [
        reader.group(name, cls, desk.build.car[name], ("car", name), f"car.{name}")
        for name, cls in CAR_SECTIONS.items()
    ]
    weighty = sorted(
        (one for group in groups for one in group if one.matters),
        key=lambda one: -sum(each.share for each in one.matters),
    )
    return {"groups": groups, "weighty": weighty[:MOST]}


PAGE = Page(
    path="/car",
    title="The car",
    asks="What is known of the car as it stands, and what is worth measuring?",
    template="car.html.j2",
    fill=fill,
)
