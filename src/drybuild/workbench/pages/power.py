"""Power and services: engine, gears, cooling, fuel, exhaust, wiring, cabin heat."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import of_matters
from drybuild.workbench.pages.page import Asked, Page

MATTERS = (
    "engine",
    "driveline",
    "performance",
    "packaging",
    "cooling",
    "fuel",
    "exhaust",
    "electrics",
)
CHAPTERS = (
    "engine",
    "driveline",
    "performance",
    "packaging",
    "cooling",
    "fuel",
    "exhaust",
    "electrics",
    "power",
    "services",
)


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    return of_matters(desk, MATTERS, CHAPTERS)


PAGE = Page(
    path="/power",
    title="Power and services",
    asks="Does it go, stay cool, and have fuel and current enough?",
    template="matters.html.j2",
    fill=fill,
    settles=True,
    islands=("plots",),
)
