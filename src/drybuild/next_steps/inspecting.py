"""Where to look: zones and finds whose state moves the cost and the end."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from drybuild.next_steps.stakes import Stakes
from drybuild.next_steps.step import Act, Step
from drybuild.next_steps.value import shares_of_doubt
from drybuild.planning.sampling import Whole
from drybuild.project.samples import Values, normal_scores
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.work_plan import Runs
from drybuild.tables.condition import GRADES, look
from drybuild.tables.measuring import HowTo, how_to

RESERVE_AT = 0.8
WAY = "probed"
"""How a zone is looked into before the shell is stripped."""
DAYS_A_WEEK, DAYS_A_YEAR = 7.0, 365.25
ZONE = "repair "
"""How the work plan names the repair of a zone."""
EVERY_ZONE = "every zone of the body"
TOGETHER = 0.25
"""Time for all zones in one go over that for each by itself; common practice, no source."""


def inspections(evaluation: Evaluation, at_stake: Stakes) -> tuple[Step, ...]:
    """Return a step for each hidden thing that a look beforehand would tell about.

    And one for looking into every zone in one go.

    Notes
    -----
    Eight builds of ten want a reserve of P80 less the mean. A finding that explains a share R² of
    the total's variance leaves √(1 − R²) of its deviation, and so of the reserve, if the shape of
    the total stays what it is; the rest need not be kept ready. Time likewise.

    References
    ----------
    .. [1] Saltelli et al., *Global Sensitivity Analysis: The Primer*, 2008, ch. 1 (from memory).

    """
    runs = evaluation.result("work_runs").value
    total = evaluation.result("total_cost").value
    if not isinstance(runs, Runs) or runs.runs.draws.runs < 200:
        return ()
    totals = _Totals(
        money=np.zeros(runs.runs.draws.runs - 1) if total is None else total[1:],
        days=runs.runs.finish_day[1:],
    )
    looks = {
        found.name: _look(found.name, runs.runs.draws.grade[row, 1:])
        for row, found in enumerate(runs.plan.discoveries)
    }
    steps = [
        _step(look_, *_explained_each(totals, look_.seen), totals, at_stake)
        for look_ in looks.values()
    ]
    zones = [one for one in looks.values() if one.zone]
    if len(zones) > 1:
        steps.append(_whole(zones, totals, at_stake))
    return tuple(step for step in steps if step.frees > 0.0 or step.weeks > 0.0)


@dataclass(frozen=True, kw_only=True)
class _Totals:
    """What a finding may tell about: money and days in each run."""

    money: Values
    days: Values


@dataclass(frozen=True, kw_only=True)
class _Look:
    """A look at one hidden thing, and what it would say in each run."""

    about: str
    zone: bool
    seen: Whole
    how: HowTo | None
    minutes: float


def _look(name: str, grade: Whole) -> _Look:
    about = name.removeprefix(ZONE)
    zone = about != name
    how = how_to(f"survey.zones.{about}" if zone else f"work.finds.{about}")
    return _Look(
        about=about,
        zone=zone,
        seen=_as_seen(grade, about) if zone else grade,
        how=how,
        minutes=how.minutes if how else 30.0,
    )


def _explained_each(totals: _Totals, seen: Whole) -> tuple[float, float]:
    found = {"seen": seen.astype(np.float64)}
    return shares_of_doubt(totals.money, found)["seen"], shares_of_doubt(totals.days, found)["seen"]


def _whole(zones: list[_Look], totals: _Totals, at_stake: Stakes) -> Step:
    """Return the step of looking into every zone; what all findings explain together."""
    table = np.array([look_.seen == grade for look_ in zones for grade in (1, 2)], np.float64).T
    # Each further zone goes faster than a single one: the car is up and the tools are out.
    minutes = sum(look_.minutes for look_ in zones) * TOGETHER
    everything = replace(zones[0], about=EVERY_ZONE, minutes=minutes)
    money, days = _explained_by_all(table, totals.money, totals.days)
    return _step(everything, money, days, totals, at_stake)


def _explained_by_all(table: Values, *totals: Values) -> list[float]:
    """Return the adjusted share of variance that a linear fit to all findings explains, of each."""
    columns = np.column_stack([np.ones(len(table)), table[:, np.ptp(table, axis=0) > 0.0]])
    wanted = np.column_stack(totals)
    spare = len(columns) - columns.shape[1]
    if spare < 1:
        return [0.0] * len(totals)
    fit = columns @ np.linalg.lstsq(columns.T @ columns, columns.T @ wanted, rcond=None)[0]
    left = np.sum((wanted - fit) ** 2, axis=0) / spare
    spread = np.var(wanted, axis=0, ddof=1)
    shares = 1.0 - np.divide(left, spread, out=np.ones_like(left), where=spread > 0.0)
    return [float(share) for share in np.maximum(shares, 0.0)]


def _step(look_: _Look, money: float, days: float, totals: _Totals, at_stake: Stakes) -> Step:
    frees = _released(totals.money, money)
    effort = max(look_.minutes, 5.0) / 60.0
    kept = frees * at_stake.idle * float(totals.days.mean()) / DAYS_A_YEAR
    return Step(
        act=Act.INSPECT,
        about=look_.about,
        what=look_.about,
        frees=frees,
        weeks=_released(totals.days, days) / DAYS_A_WEEK,
        minutes=look_.minutes,
        how=look_.how,
        score=(kept - effort * at_stake.hour) / effort,
    )


def _as_seen(grade: Whole, zone: str) -> Whole:
    """Return what a look from outside would say in each run, with its errors."""
    said = look(WAY)
    chances = np.array([said[name] for name in GRADES]).cumsum(axis=1)
    ranks = normal_scores(f"looked at {zone}", grade.size).argsort().argsort()
    luck = (ranks + 0.5) / grade.size
    seen: Whole = (luck[:, np.newaxis] > chances[grade]).sum(axis=1)
    return seen


def _released(total: Values, explained: float) -> float:
    """Return by how much the reserve shrinks once a share of the variance is known."""
    reserve = float(np.quantile(total, RESERVE_AT) - total.mean())
    left = sqrt(1.0 - min(explained, 1.0))
    return float(max(0.0, reserve) * (1.0 - left))
