"""Next steps: what to measure, ask, inspect, decide and order, by what it is worth."""

from __future__ import annotations

from typing import Any

from drybuild.next_steps.step import Act, Step
from drybuild.present.next_tables import effort_text, worth_text
from drybuild.present.path_words import PathWords
from drybuild.workbench.apart import apart
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import DRAWN
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.places import page_id, shown_at, zone_page

MOST = 40


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    session = desk.session
    known = _known(desk)
    steps = session.next_steps if known else ()
    words, asks = PathWords(desk.build), {one.id: one.asks for one in session.checks}
    return {
        "steps": [
            (
                one,
                worth_text(one, desk.build.currency),
                effort_text(one),
                _place(desk, one),
                words.place(one.about),
                [(asks[help.check], help) for help in one.helps[:3] if help.check in asks],
            )
            for one in steps[:MOST]
        ],
        "more": max(0, len(steps) - MOST),
        "known": known,
        "link": f"{PAGE.path}?{DRAWN}=all",
    }


def before(desk: Desk, asked: Asked) -> None:
    """Work out the steps beside the desk, when the page was sent and asks for them."""
    if desk.settled and not _known(desk) and DRAWN in asked:
        with apart(desk) as session:
            session.next_steps  # noqa: B018  works them out


def _known(desk: Desk) -> bool:
    """Whether the steps are worked out, so that the page need not wait for them."""
    return desk.settled and "next_steps" in vars(desk.session)


def _place(desk: Desk, step: Step) -> str:
    if step.act is Act.INSPECT:
        return zone_page(step.about)
    if step.act is Act.ORDER:
        return "/work"
    if step.act is Act.DECIDE:
        return f"/choices#s-{page_id(step.about)}"
    return shown_at(desk.build, step.about)


PAGE = Page(
    path="/next",
    title="Next steps",
    asks="What is worth doing next?",
    template="steps.html.j2",
    fill=fill,
    before=before,
)
