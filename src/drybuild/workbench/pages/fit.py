"""Fit: the engine in its bay, to be moved until it goes in; what touches, by how much."""

from __future__ import annotations

from typing import Any

from drybuild.workbench import bay
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import of_matters
from drybuild.workbench.pages.page import Asked, Page

MATTERS = ("packaging",)
CHAPTERS = ("packaging",)


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    found = bay.scene(desk)
    return {
        "engine": found["engine"],
        "rows": found["rows"],
        "handles": bay.handles(desk.build),
        **of_matters(desk, MATTERS, CHAPTERS),
    }


PAGE = Page(
    path="/fit",
    title="Fit",
    asks="Does it go in, and what touches?",
    template="fit.html.j2",
    fill=fill,
    islands=("bay",),
)
