"""What it is for: the brief, its must lines with where each stands, and the car in figures."""

from __future__ import annotations

from typing import Any

from drybuild.checks.must import must_lines
from drybuild.project.brief import Brief
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Entry, Reader, typed_at
from drybuild.workbench.movement import HEADLINE
from drybuild.workbench.pages.matters import known_result
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.rendering import figure, told


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    session, build, verdicts = desk.session, desk.build, desk.verdicts()
    reader = Reader(build, session.evaluation, desk.doubts())
    whole = reader.group("brief", Brief, build.brief, ("brief",), "brief")
    words = [one for one in whole.entries if one.kind not in ("reading", "list of must lines")]
    readings = [one for one in whole.entries if one.kind == "reading"]
    by_line = {one.check.line: told(one, session) for one in verdicts if one.check.line}
    lines = must_lines(build)
    musts = [(_line(desk, number), by_line.get(line.line)) for number, line in enumerate(lines)]
    results = [known_result(desk, name) for name in HEADLINE]
    return {
        "title_entry": _title(desk),
        "musts": musts,
        "new_must": _line(desk, len(lines)),
        "words": words,
        "readings": readings,
        "figures": [figure(one, session) for one in results if one is not None],
        "names": sorted(name for name, one in session.graph.quantities.items() if not one.step),
    }


def _title(desk: Desk) -> Entry:
    return Entry(
        address="build",
        path="build",
        name="name of the build",
        words="What you call it",
        kind="text",
        typed=typed_at(desk.build, ("build",)),
    )


def _line(desk: Desk, number: int) -> Entry:
    return Entry(
        address=f"brief.must[{number}]",
        path=f"brief.must[{number}]",
        name=f"line {number + 1}",
        words="",
        kind="must line",
        typed=typed_at(desk.build, ("brief", "must", number)),
        example="zero_to_100_kmh <= 9.0 s",
    )


PAGE = Page(
    path="/",
    title="What it is for",
    asks="What should this car do, and what must stay as it is?",
    template="brief.html.j2",
    fill=fill,
)
