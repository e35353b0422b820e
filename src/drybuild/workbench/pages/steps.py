"""Next steps: what to measure, ask, inspect, decide and order, by what it is worth."""

from __future__ import annotations

from typing import Any

from drybuild.present.next_tables import effort_text, worth_text
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked, Page

MOST = 40
GO = {"measure": "/car", "inspect": "/shell", "decide": "/choices", "order": "/work"}


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    session = desk.session
    steps = session.next_steps if desk.settled else ()
    return {
        "steps": [
            (
                one,
                worth_text(one, desk.build.currency),
                effort_text(one),
                GO.get(str(one.act), "/choices"),
            )
            for one in steps[:MOST]
        ],
        "more": max(0, len(steps) - MOST),
    }


PAGE = Page(
    path="/next",
    title="Next steps",
    asks="What is worth doing next?",
    template="steps.html.j2",
    fill=fill,
    settles=True,
)
