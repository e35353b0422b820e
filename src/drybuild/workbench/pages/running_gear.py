"""Running gear: wheels in their arches, brakes, suspension, steering, ride and handling."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import of_matters
from drybuild.workbench.pages.page import Asked, Page

MATTERS = (
    "wheels",
    "tyres",
    "brakes",
    "suspension",
    "steering",
    "ride",
    "handling",
    "cornering",
    "spring",
    "mass",
)
CHAPTERS = (
    "mass",
    "wheels",
    "brakes",
    "suspension",
    "steering",
    "handling",
    "ride",
    "running_gear",
)


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    return of_matters(desk, MATTERS, CHAPTERS)


PAGE = Page(
    path="/running-gear",
    title="Running gear",
    asks="Does it stop, steer, ride and hold the road as it should?",
    template="matters.html.j2",
    fill=fill,
    settles=True,
    islands=("plots",),
)
