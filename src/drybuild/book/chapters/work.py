"""Work: jobs in order with hours, dates and cautions; the plan as spans; orders and decisions."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from drybuild.book.figures import in_pages
from drybuild.book.pages import Block, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import cautions, figures, verdicts_of
from drybuild.planning.forecast import Forecast
from drybuild.present.numbers import EPOCH
from drybuild.present.path_words import part_name, part_words, system_words
from drybuild.present.plots import spans_plot
from drybuild.present.schedule_tables import money_text
from drybuild.session import Session

CRITICAL = 0.5
ROWS_A_FIGURE = 42
HOURS = (
    "jobs_count",
    "planned_hours",
    "finds_hours",
    "labour_hours",
    "helper_hours_needed",
    "hours_a_week_given",
    "hours_a_week_needed",
    "waiting_share",
    "finds_expected",
)


def work_chapter(session: Session) -> Chapter:
    """Return the plan of the work."""
    found = session.forecast
    intro = (
        "Jobs in the order of the plan: likely hours, nothing found. The third date is the one by "
        "which eight runs of ten have begun the job, finds and all."
    )
    title = "Work: jobs, orders, decisions"
    if found is None:
        missing = session.evaluation.result("work_runs").missing
        why = missing[0].why if missing else "something is missing"
        return Chapter(title=title, intro=intro, blocks=(Words(text=f"No plan yet: {why}."),))
    blocks: list[Block] = [*cautions(session, "work", extra=_cautions(found)), *_spans(found)]
    blocks += [_jobs(session, found), *_orders(found), *_decisions(found)]
    blocks += figures(session, "Hours", HOURS)
    blocks += verdicts_of(session, "The questions on the work", "work")
    return Chapter(title=title, intro=intro, blocks=tuple(blocks))


def _cautions(found: Forecast) -> list[str]:
    hurting = sum(bool(job.caution) for job in found.jobs)
    if not hurting:
        return []
    return [f"{hurting} jobs can hurt: what to mind stands beside each in the list."]


def _days(day: datetime.date) -> float:
    return float((day - EPOCH).days)


def _spans(found: Forecast) -> Iterator[Block]:
    jobs = found.jobs
    if not jobs:
        return
    reach = (
        min(_days(job.start) for job in jobs),
        max(max(_days(job.end), _days(job.start_p80)) for job in jobs),
    )
    for start, shown in in_pages(jobs, ROWS_A_FIGURE):
        svg = spans_plot(
            [job.name for job in shown],
            [_days(job.start) for job in shown],
            [_days(job.end) for job in shown],
            bold=[job.critical >= CRITICAL for job in shown],
            latest=[_days(job.start_p80) for job in shown],
            reach=reach,
        )
        yield Figure(
            svg=svg,
            caption="The plan" + (", going on" if start else "") + ". Bold: the job sets the end "
            "in at least half of the runs.",
            words=f"{len(shown)} jobs from {shown[0].start} to {shown[-1].end}; each stands in "
            "the list of jobs.",
        )


def _jobs(session: Session, found: Forecast) -> Sheet:
    currency = session.build.currency
    rows = [
        (
            str(place),
            job.name,
            f"{job.hours:.0f}",
            "" if job.cost < 1.0 else money_text(job.cost, currency),
            str(job.start),
            str(job.end),
            str(job.start_p80),
            f"{job.critical * 100:.0f} %",
            job.caution,
        )
        for place, job in enumerate(found.jobs, start=1)
    ]
    return Sheet(
        title="Jobs",
        columns=("#", "job", "hours", "cost", "start", "end", "begun by", "sets end", "caution"),
        rows=tuple(rows),
        numeric=(0, 2, 3, 7),
        widths=(0.4, 1.9, 0.65, 0.9, 1.05, 1.05, 1.05, 0.65, 2.6),
        note="Begun by: eight runs of ten have begun it by then. Sets end: share of the runs in "
        "which it stands in the chain that ends last.",
    )


def _orders(found: Forecast) -> list[Block]:
    rows = [
        (
            str(found.day(one.safe_day)),
            part_name(one.part),
            system_words(one.system),
            str(found.day(one.needed_day)),
            f"{one.chance_late * 100:.0f} %",
            "cannot be in time" if one.clash else "",
        )
        for one in sorted(found.orders, key=lambda one: one.safe_day)
    ]
    if not rows:
        return [Words(text="Nothing has to be ordered: no pick names a lead time.")]
    return [
        Sheet(
            title="Orders by date",
            columns=("order by", "part", "system", "wanted", "late", ""),
            rows=tuple(rows),
            numeric=(4,),
            widths=(1.0, 2.2, 1.5, 1.0, 0.6, 1.2),
            note="Late: share of runs in which it comes after it is wanted, ordered as the plan "
            "has it.",
        )
    ]


def _decisions(found: Forecast) -> list[Block]:
    rows = [
        (str(found.day(one.safe_day)), system_words(one.system), part_words(one.because))
        for one in sorted(found.decisions, key=lambda one: one.safe_day)
    ]
    if not rows:
        return [Words(text="No decision has a date: no job or order waits for one.")]
    return [
        Sheet(
            title="Decisions by date",
            columns=("decide by", "system", "because of"),
            rows=tuple(rows),
            widths=(1.0, 1.5, 3.0),
        )
    ]
