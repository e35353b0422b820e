"""Work: what it will cost, when it will be done, which jobs, in what order, and the cash."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from drybuild.planning.forecast import Forecast
from drybuild.present.schedule_tables import money_text
from drybuild.present.work_calendar import Month, months_of
from drybuild.project.address import write_address
from drybuild.project.work import Job, Work
from drybuild.workbench.apart import apart
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader, typed_at
from drybuild.workbench.pages.matters import DRAWN, draw, figures_of
from drybuild.workbench.pages.page import Asked, Page

MOST = 12
DRAWINGS = ("work", "money")


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    session, build = desk.session, desk.build
    found = session.forecast if desk.settled else None
    reader = Reader(build, session.evaluation, desk.doubts())
    jobs = [
        (
            name,
            *(typed_at(build, ("jobs", name, entry)) for entry in ("hours", "cost")),
            bool(job.given.get("done")),
        )
        for name, job in build.named["jobs"].items()
    ]
    plan = reader.group("how you work", Work, build.tops["work"], ("work",), "work")
    return {
        "forecast": _told(found, build.currency) if found else None,
        "figures": figures_of(desk, DRAWINGS) if found else [],
        "drawn": DRAWN,
        "months": _months(desk, found) if found else [],
        "jobs": jobs,
        "own_jobs": set(build.named["jobs"]),
        "plan": plan,
        "missing": [] if found else _missing(desk),
    }


def before(desk: Desk, asked: Asked) -> None:
    """Work out the forecast, and draw what is asked for."""
    if desk.settled:
        with apart(desk) as session:
            session.forecast  # noqa: B018  works it out
    if asked.get(DRAWN):
        desk.wait()
        draw(desk, DRAWINGS)


def one_job(desk: Desk, name: str) -> dict[str, Any]:  # a template takes anything
    """Return what the page of one job shows."""
    job = desk.build.named["jobs"][name]
    reader = Reader(desk.build, desk.session.evaluation, desk.doubts())
    return {
        "group": reader.group(name, Job, job, ("jobs", name), "jobs"),
        "caution": job.given.get("caution") or "",
        "address": write_address(("jobs", name)),
        "typed": typed_at(desk.build, ("jobs", name)),
        "here": f"/jobs/{quote(name, safe='')}",
    }


def _missing(desk: Desk) -> list[str]:
    if not desk.settled:
        return []
    lacks = desk.session.evaluation.result("work_runs").missing
    return [f"{one.path}: {one.why}" for one in lacks[:5]]


def _told(found: Forecast, currency: str) -> dict[str, Any]:  # a template takes anything
    def money(value: float) -> str:
        return money_text(value, currency)

    return {
        "odds": [
            (words, money(getattr(found.cost, name)), str(found.day(getattr(found.finish, name))))
            for words, name in (
                ("as planned, nothing found", "plan"),
                ("half of the runs stay within", "p50"),
                ("8 runs in 10 stay within", "p80"),
                ("9 runs in 10 stay within", "p90"),
            )
        ],
        "reserve": (money(found.cost.contingency), f"{found.finish.contingency / 7.0:.0f} weeks"),
        "orders": [
            (one.part, one.system, str(found.day(one.safe_day)), one.clash, one.chance_late)
            for one in sorted(found.orders, key=lambda one: one.safe_day)
        ],
        "decisions": [
            (one.system, str(found.day(one.safe_day)), one.because)
            for one in sorted(found.decisions, key=lambda one: one.safe_day)
        ],
        "drivers": [
            (one.name, one.kind, f"{one.days / 7.0:+.1f}", money(one.money), one.odds)
            for one in found.drivers[:MOST]
        ],
        "listed": [
            (one, money(one.cost), f"{one.hours:.0f}", f"{one.critical * 100:.0f} %")
            for one in found.jobs
        ],
    }


def _months(desk: Desk, found: Forecast) -> list[Month]:
    runs = desk.session.evaluation.result("work_runs").value
    return months_of(found, runs.planned) if runs is not None else []


PAGE = Page(
    path="/work",
    title="Work",
    asks="What will it cost, when will it be done, and what has to be ordered by when?",
    template="work.html.j2",
    fill=fill,
    before=before,
    islands=("plots",),
)
