"""Shell and body: the survey zone by zone, stiffness, body, cabin and paint."""

from __future__ import annotations

from typing import Any

from drybuild.project.condition import Survey, ZoneFinding
from drybuild.project.sections import Section
from drybuild.tables.condition import zones
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader
from drybuild.workbench.pages.matters import of_matters
from drybuild.workbench.pages.page import Asked, Page

MATTERS = ("condition", "shell", "body", "cabin", "paint")
CHAPTERS = ("shell", "condition", "survey", "body", "cabin", "paint")


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    build = desk.build
    reader = Reader(build, desk.session.evaluation, desk.doubts())
    survey = build.tops["survey"]
    given = survey.given.get("zones")
    found = given if isinstance(given, dict) else {}
    told = []
    for name, row in zones(build.kind).items():
        part = found.get(name)
        group = reader.group(
            name,
            ZoneFinding,
            part if isinstance(part, Section) else None,
            ("survey", "zones", name),
            f"survey.zones.{name}",
        )
        told.append((group, row, part.given if isinstance(part, Section) else {}))
    life = reader.group("life of the body", Survey, survey, ("survey",), "survey")
    return {
        "zones": told,
        "life": [one for one in life.entries if one.name != "zones"],
        "looked": sum(bool(one.get("found")) for _, _, one in told),
        **of_matters(desk, MATTERS, CHAPTERS),
    }


PAGE = Page(
    path="/shell",
    title="Shell and body",
    asks="What is left of the body, what has to be let in, and what does that take?",
    template="shell.html.j2",
    fill=fill,
    settles=True,
)
