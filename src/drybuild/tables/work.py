"""Typed readers of what is usual in a rebuild: jobs, trades, habits of estimating."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.tables.table import read_table
from drybuild.units import to_si

Three = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class StandardJob:
    """A job that nearly every rebuild has; SI, money in the build's currency."""

    name: str
    after: tuple[str, ...]
    place: str
    helpers: int
    trade: str
    hours: Three
    cost: Three
    cure: float
    away: Three
    stage: str
    """strips, bares, primes or closes the shell; empty for neither."""
    fits: tuple[str, ...]
    """Systems whose parts it fits, or matters; the name of a system counts first."""
    spared_by: tuple[str, ...]
    """Systems whose change takes its share of the work away: what is replaced is not overhauled."""
    caution: str


@cache
def standard_jobs(kind: str) -> tuple[StandardJob, ...]:
    """Return the jobs of a usual rebuild for a kind of body, in the table's order."""
    table = read_table("work_job")
    rows = [row for row in table.rows if kind in row["kinds"].split()]
    names = {row["job"] for row in rows}
    return tuple(_job(row, table.units, names) for row in rows)


def _job(row: dict[str, str], units: dict[str, str], names: set[str]) -> StandardJob:
    def three(name: str) -> Three:
        low, likely, high = (
            to_si(float(row[f"{name}_{end}"]), units[f"{name}_{end}"], "s")
            for end in ("low", "likely", "high")
        )
        return low, likely, high

    low, likely, high = (float(row[f"cost_{end}"]) for end in ("low", "likely", "high"))
    return StandardJob(
        name=row["job"],
        after=tuple(name for name in row["after"].split(";") if name in names),
        place=row["place"],
        helpers=int(row["helpers"]),
        trade=row["trade"],
        hours=three("hours"),
        cost=(low, likely, high),
        cure=to_si(float(row["cure"]), units["cure"], "s"),
        away=three("away"),
        stage=row["stage"],
        fits=tuple(row["fits"].split()),
        spared_by=tuple(row["spared_by"].split()),
        caution=row["caution"],
    )


@dataclass(frozen=True, kw_only=True)
class Trade:
    """How the parts of a matter are fitted."""

    trade: str
    place: str
    caution: str


@cache
def trade_of(matter: str) -> Trade:
    """Return the trade, place and caution of a matter's parts."""
    rows = {row["matter"]: row for row in read_table("work_matter").rows}
    row = rows.get(matter, rows["any"])
    return Trade(trade=row["trade"], place=row["place"], caution=row["caution"])


@cache
def habit(name: str) -> Three:
    """Return a habit of planning: hours kept, ends of a single estimate, lead time in days."""
    row = read_table("work_habit").row("habit", name)
    return float(row["low"]), float(row["likely"]), float(row["high"])
