"""Fit: the engine in its bay, to be moved until it goes in; what touches, by how much."""

from __future__ import annotations

from typing import Any

from drybuild.workbench import bay
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import Topic, draw_topics, of_topics
from drybuild.workbench.pages.page import Asked, Page

TOPICS = (
    Topic(
        title="Sections and figures",
        asks="Where does it stand, seen from the sides, and how sure is that?",
        matters=("packaging",),
        chapters=("packaging",),
        leads=("bay_margin", "bay_fit_chance", "bonnet_clearance", "sump_ground_clearance"),
    ),
    Topic(
        title="The best place",
        asks="Where would it sit best, and what would have to give?",
        matters=(),
        chapters=("packaging_place",),
        leads=("place_margin",),
    ),
)


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    from drybuild.present.template import parts_of  # noqa: PLC0415  the first page draws nothing

    build = desk.build
    engine = bay.engine_of(build)
    return {
        "engine": engine,
        "rows": bay.rows(desk.session) if engine else [],
        "handles": bay.handles(build),
        "parts_at_hand": parts_of(desk.session.evaluation) if engine else (),
        **of_topics(desk, TOPICS),
    }


PAGE = Page(
    path="/fit",
    title="Fit",
    asks="Does it go in, and what touches?",
    template="fit.html.j2",
    fill=fill,
    before=lambda desk, asked: draw_topics(desk, TOPICS, asked),
    islands=("bay",),
)
