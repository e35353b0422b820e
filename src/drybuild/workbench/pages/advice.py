"""Advice: give the build to others, and review what they answer."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked, Page


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    reviewing = desk.reviewing
    given = desk.build.named["advice"]
    return {
        "reply": reviewing.reply,
        "effects": dict(reviewing.effects),
        "trying": desk.tasks.running("reply"),
        "advice": [one.given for one in given.values()],
    }


PAGE = Page(
    path="/advice",
    title="Advice",
    asks="What would other people do?",
    template="advice.html.j2",
    fill=fill,
)
