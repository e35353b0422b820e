"""From the file to the planner's terms: jobs, orders, finds and calendar of a build.

The planner counts in hours and days; the file's sections are SI. Only here the two meet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

import numpy as np

from drybuild.physics.condition import GRADES
from drybuild.physics.condition import Discovery as ZoneDiscovery
from drybuild.physics.paint import cure_factor
from drybuild.planning.calendar import Calendar, Span
from drybuild.planning.estimates import NOTHING, ThreePoint, exactly
from drybuild.planning.jobs import Discovery, Grade, Job, Order
from drybuild.project import groups
from drybuild.project.paint import Paint
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.project.weeks import DAYS
from drybuild.project.work import Find, Work
from drybuild.project.work import Job as JobSection
from drybuild.quantities.graph import Part, Parts
from drybuild.tables.work import StandardJob, Three, habit, trade_of

HOUR, DAY = 3600.0, 86400.0
RUST = "rust"
CURES = (283.15, 343.15)
"""Warmth between which the rule on curing holds. [K]"""


@dataclass(frozen=True, kw_only=True)
class Draft:
    """Jobs while they are put together: what each does to the shell, which parts it fits."""

    jobs: dict[str, Job]
    stages: dict[str, str]
    fits: dict[str, str]
    """The job that fits a system's part; a job's name by system."""
    orders: tuple[Order, ...] = ()
    prices: dict[str, Values] = field(default_factory=dict)
    leads: dict[str, Values] = field(default_factory=dict)
    """Samples of the readings behind each order, in days, by part."""

    def staged(self, stage: str) -> tuple[str, ...]:
        """Return the jobs of a stage."""
        return tuple(name for name, one in self.stages.items() if one == stage)


def estimate(section: Section, name: str, unit: float, *, limits: bool) -> ThreePoint:
    """Return an estimate of the file in another unit; one figure gets the usual ends of such.

    Nothing when it is not given.
    """
    if not section.has(name):
        return NOTHING
    three: groups.ThreePoint = getattr(section, name)
    if three.least == three.most and three.likely > 0.0 and name in ("hours", "fitting"):
        ends = ThreePoint(*habit("single"), limits=limits)
        return ends.scaled(three.likely / unit)
    figure = ThreePoint(three.least, three.likely, three.most, limits=limits)
    return figure.scaled(1.0 / unit)


def calendar(work: Work) -> Calendar:
    """Return the owner's time; it begins today when the file does not say."""
    weights = work.weekdays
    kept = work.kept if work.has("kept") else None
    usual = float(work.hours_a_week[0]) / HOUR
    return Calendar(
        start=begins(work),
        hours_a_week=usual,
        weekdays=tuple(weights.get(day, 0.0) for day in DAYS) if weights else (1.0,) * len(DAYS),
        spans=tuple(
            Span(first=one.first, last=one.last, hours_a_week=one.hours / HOUR)
            for one in work.weeks_off
        ),
        helper_hours_a_week=float(work.helper_hours[0]) / HOUR,
        hours_kept=ThreePoint(kept.least, kept.likely, kept.most)
        if kept
        else ThreePoint(*habit("kept")),
    )


def begins(work: Work) -> date:
    """Return the day on which the work begins."""
    return work.start if work.has("start") else date.today()


def own_jobs(jobs: Mapping[str, JobSection], work: Work, choices: set[str]) -> Draft:
    """Return the jobs that the file lists; `choices` are the systems that are changed or open."""
    limits = work.ends == "limits"
    made: dict[str, Job] = {}
    fits: dict[str, str] = {}
    for name, one in jobs.items():
        made[name] = _own_job(name, one, work, choices, limits=limits)
        fits |= dict.fromkeys(one.fits, name)
    stages = {name: one.stage if one.has("stage") else "" for name, one in jobs.items()}
    return Draft(jobs=made, stages=stages, fits=fits)


def _own_job(name: str, one: JobSection, work: Work, choices: set[str], *, limits: bool) -> Job:
    rate = one.rate if one.has("rate") else work.rate
    hired = estimate(one, "hired", HOUR, limits=limits)
    made = Job(
        name=name,
        hours=estimate(one, "hours", HOUR, limits=limits),
        cost=estimate(one, "cost", 1.0, limits=limits),
        after=one.after,
        place=one.place,
        helpers=int(one.helpers[0]) if one.has("helpers") else 0,
        trade=one.trade,
        cure_days=estimate(one, "cure", DAY, limits=limits),
        away_days=estimate(one, "away", DAY, limits=limits),
        hired_hours=hired,
        hired_rate=float(rate[0]) * HOUR if hired != NOTHING else 0.0,
        earliest_day=float((one.earliest - begins(work)).days) if one.has("earliest") else 0.0,
        needs=tuple(dict.fromkeys((*one.needs, *(s for s in one.fits if s in choices)))),
        caution=one.caution,
    )
    if not one.done:
        return made
    return replace(
        made,
        hours=NOTHING,
        cure_days=NOTHING,
        away_days=NOTHING,
        helpers=0,
        earliest_day=0.0,
        cost=exactly(made.cost.likely),
    )


def usual_jobs(
    rows: tuple[StandardJob, ...], matters: Mapping[str, str], parts: Parts, work: Work
) -> Draft:
    """Return the jobs of a usual rebuild; each fits the changed or open systems of its matters.

    Parameters
    ----------
    rows : tuple
        The table's jobs for this kind of body.
    matters : mapping
        The matter of each system that is changed or open.
    parts : Parts
        What is picked: work on something that is replaced is spared.
    work : Work
        The section about the work.

    """
    limits = work.ends == "limits"
    by_matter = {word: row.name for row in rows for word in row.fits}
    fits = {
        system: by_matter.get(system) or by_matter[matter]
        for system, matter in matters.items()
        if system in by_matter or matter in by_matter
    }
    left = {row.name: _left(row, fits, parts) for row in rows}
    return Draft(
        jobs={
            row.name: _usual_job(row, fits, left[row.name], _cure(row, parts), limits=limits)
            for row in rows
        },
        stages={row.name: row.stage for row in rows},
        fits=fits,
    )


def _left(row: StandardJob, fits: Mapping[str, str], parts: Parts) -> float:
    """Return the share of a job that replaced parts do not spare.

    A part that this very job fits spares its work only if it says itself what fitting it takes.
    """
    if not row.spared_by:
        return 1.0
    spared = [
        system
        for system in row.spared_by
        if system in parts
        and parts[system].changed
        and (fits.get(system) != row.name or parts[system].picked.has("fitting"))
    ]
    return 1.0 - len(spared) / len(row.spared_by)


def _cure(row: StandardJob, parts: Parts) -> float:
    """Return a usual job's wait, that of paint by the shop's warmth: the list tells it at 20 °C.

    Outside the rule's range (10 to 70 °C) its nearer end counts, and a check tells of the cold.
    """
    paint = parts["paint"].picked if "paint" in parts else None
    if row.trade != "paint" or not isinstance(paint, Paint) or not row.cure:
        return row.cure
    warmth = float(np.clip(paint.shop_temperature[0], *CURES))
    return row.cure * float(cure_factor(temperature=warmth))


def _usual_job(
    row: StandardJob, fits: Mapping[str, str], left: float, cure: float, *, limits: bool
) -> Job:
    def three(points: Three, unit: float) -> ThreePoint:
        return ThreePoint(*points, limits=limits).scaled(left / unit)

    return Job(
        name=row.name,
        hours=three(row.hours, HOUR),
        cost=three(row.cost, 1.0),
        after=row.after,
        place=row.place,
        helpers=row.helpers,
        trade=row.trade,
        cure_days=exactly(cure / DAY),
        away_days=three(row.away, DAY),
        needs=tuple(system for system, job in fits.items() if job == row.name),
        caution=row.caution,
    )


def matter_of(section: Section) -> str:
    """Return the matter that a section's class belongs to: the name of its module."""
    return type(section).__module__.rpartition(".")[2]


def with_parts(draft: Draft, parts: Parts, work: Work, *, usual: bool) -> Draft:
    """Return the draft with an order, and a job of fitting, for every part that is changed."""
    for part in parts.values():
        if part.changed and not part.picked.as_is:
            draft = _with_part(draft, part, work, usual=usual)
    return draft


def part_name(part: Part) -> str:
    """Return what an order is called: the option, with its system."""
    return f"{part.system}: {part.name}"


def _with_part(draft: Draft, part: Part, work: Work, *, usual: bool) -> Draft:
    option, name = part.picked, part_name(part)
    fitting = estimate(option, "fitting", HOUR, limits=work.ends == "limits")
    fitter = draft.fits.get(part.system)
    jobs = dict(draft.jobs)
    if fitter is None or (usual and fitting != NOTHING):
        jobs[f"fit {name}"] = _fitting_job(draft, part, fitting, work)
        if fitter is not None:
            jobs[fitter] = replace(jobs[fitter], after=(*jobs[fitter].after, f"fit {name}"))
        fitter = f"fit {name}"
    elif not usual and jobs[fitter].hours == NOTHING:
        jobs[fitter] = replace(jobs[fitter], hours=fitting)
    price, lead = _price(option), _lead_days(option)
    order = Order(
        part=name,
        price=_points(price) if price is not None else NOTHING,
        lead_days=_points(lead) if lead is not None else ThreePoint(*habit("lead")),
        deposit_share=float(option.deposit[0]) if option.has("deposit") else 0.0,
        needed_by=(fitter,),
        system=part.system,
        placed_day=_ordered(part.system, work),
    )
    return replace(
        draft,
        jobs=jobs,
        orders=(*draft.orders, order),
        prices=draft.prices | ({name: price} if price is not None else {}),
        leads=draft.leads | ({name: lead} if lead is not None else {}),
    )


def _ordered(system: str, work: Work) -> float | None:
    """Return the day of the plan on which a part was ordered; it may lie before the start."""
    ordered = work.ordered
    return calendar(work).day(ordered[system]) if system in ordered else None


def _fitting_job(draft: Draft, part: Part, fitting: ThreePoint, work: Work) -> Job:
    how = trade_of(matter_of(part.picked))
    fitter = draft.fits.get(part.system)
    after = draft.jobs[fitter].after if fitter else work.fit_after or draft.staged("closes")
    return Job(
        name=f"fit {part_name(part)}",
        hours=fitting,
        after=after,
        place=how.place,
        trade=how.trade,
        needs=(part.system,),
        caution=how.caution,
    )


def _price(option: Section) -> Values | None:
    return option.price if option.has("price") else None  # type: ignore[attr-defined]  # an Option


def _lead_days(option: Section) -> Values | None:
    if not option.has("lead_time"):
        return None
    days: Values = option.lead_time / DAY  # type: ignore[attr-defined]  # an Option
    return days


def _points(samples: Values) -> ThreePoint:
    """Return the one-in-ten points of a reading's samples around its nominal value."""
    low, high = np.quantile(samples[1:], (0.1, 0.9)) if samples.size > 1 else samples[[0, 0]]
    nominal = float(samples[0])
    return ThreePoint(min(float(low), nominal), nominal, max(float(high), nominal))


def zone_discoveries(
    zones: tuple[ZoneDiscovery, ...], draft: Draft, closed: Mapping[str, tuple[str, ...]]
) -> tuple[Discovery, ...]:
    """Return the body's zones as discoveries, each where its job lays it open.

    What a stage lays open is known when the job that strips or bares the shell is done; repairs
    follow the priming, and the job that closes the shell waits for them. Zones that no job lays
    open stay hidden and are left out. `closed` names for each zone those that must be closed
    before it is cut, so that the shell stays true.
    """
    shown = {
        zone.name: revealer for zone in zones if (revealer := revealer_of(zone.revealed_by, draft))
    }
    return tuple(
        _zone(zone, shown[zone.name], draft, tuple(n for n in closed[zone.name] if n in shown))
        for zone in zones
        if zone.name in shown
    )


def _zone(zone: ZoneDiscovery, revealer: str, draft: Draft, closed: tuple[str, ...]) -> Discovery:
    return Discovery(
        name=f"repair {zone.name}",
        revealed_by=revealer,
        after=(
            *(job for job in draft.staged("primes") if job != revealer),
            *(f"repair {name}" for name in closed),
        ),
        before=draft.staged("closes"),
        grades=tuple(
            Grade(
                name=grade,
                odds=zone.odds[grade],
                hours=ThreePoint(*zone.hours[grade]),
                cost=ThreePoint(*zone.cost[grade]),
            )
            for grade in GRADES
        ),
        causes=((RUST, zone.loading), *(((zone.link, zone.link_loading),) if zone.link else ())),
        place="bay",
        trade="body",
        caution=zone.caution,
    )


def revealer_of(named: str, draft: Draft) -> str:
    """Return the job that lays a zone open: as named, else by its stage; empty if none does."""
    if named in draft.jobs:
        return named
    stages = {"strip": ("strips", "bares"), "blast": ("bares", "strips")}.get(named, ())
    return next((job for stage in stages for job in draft.staged(stage)), "")


def own_finds(finds: Mapping[str, Find], work: Work) -> tuple[Discovery, ...]:
    """Return what else the file says may be found."""
    limits = work.ends == "limits"
    return tuple(_find(name, find, limits=limits) for name, find in finds.items())


def _find(name: str, find: Find, *, limits: bool) -> Discovery:
    cause = find.cause or ""
    loading = float(find.loading[0]) if find.has("loading") else 0.0
    return Discovery(
        name=name,
        revealed_by=find.revealed_by,
        before=find.before,
        grades=tuple(
            Grade(
                name=grade,
                odds=float(result.odds[0]),
                hours=estimate(result, "hours", HOUR, limits=limits),
                cost=estimate(result, "cost", 1.0, limits=limits),
                lead_days=estimate(result, "lead_time", DAY, limits=limits),
            )
            for grade, result in find.results.items()
        ),
        causes=((cause, loading),) if cause else (),
        place=find.place,
        trade=find.trade,
        helpers=int(find.helpers[0]) if find.has("helpers") else 0,
        caution=find.caution,
    )
