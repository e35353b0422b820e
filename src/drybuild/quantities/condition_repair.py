"""Repairs in the order that keeps the shell true, and what is left of it while it is open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.condition import GRADES, Belief
from drybuild.physics.frame.solve import solve
from drybuild.planning.network import all_before
from drybuild.planning.repair_order import Round, Wanted, open_together, rounds, waits
from drybuild.project.body import Body
from drybuild.project.condition import Survey
from drybuild.project.samples import Values
from drybuild.project.work import Job
from drybuild.quantities.condition import STEEL, hours_of, mean_of, sheet_of, weld_of
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.shell_model import ShellModel
from drybuild.tables.condition import ZoneRow, zones
from drybuild.tables.condition_order import forbidden, split, turn_of

LIKELY = 0.25
"""Chance of work from which a zone is put on the list; common practice."""
CUT_LEAVES = 0.02
"""What is left of a member or panel while its zone is cut open: tacks and braces not counted."""


@dataclass(frozen=True, kw_only=True)
class Repair:
    """A zone's repair as it stands on the list."""

    zone: str
    round: int
    on_shell: bool
    carries: bool
    chance: float
    """That it wants a patch or a replacement. [-]"""
    grade: str
    """The likelier of the two."""
    hours: tuple[float, float, float]
    """Of that grade at the owner's pace: low, likely, high. [s]"""
    area: float
    thickness: float
    mass: float
    weld: float
    cost: float
    after: tuple[str, ...]
    """Zones that must be closed before it is opened."""


@dataclass(frozen=True, kw_only=True)
class Clash:
    """Two zones on the list that must not be open together."""

    one: str
    other: str
    rule: str
    brace: str
    why: str


@dataclass(frozen=True, kw_only=True)
class RepairList:
    """Repairs that are found or likely, in rounds; and what keeps the shell while they last."""

    rounds: tuple[Round, ...]
    repairs: Mapping[str, Repair]
    clashes: tuple[Clash, ...]

    @property
    def braces(self) -> dict[str, tuple[str, ...]]:
        """Return each brace with the zones that ask for it."""
        found: dict[str, list[str]] = {}
        for one in self.clashes:
            found.setdefault(one.brace, []).extend((one.one, one.other))
        return {brace: tuple(dict.fromkeys(names)) for brace, names in found.items()}


def must_not(one: str, other: str) -> bool:
    """Say whether two zones must not be open together."""
    return forbidden(one, other) is not None


@step("Order of all repairs that may come", source="common-practice")
def repair_rounds(body_belief: Belief, body: Body) -> tuple[Round, ...]:
    """Rank by what carries, one side at a time, nothing together that must not be cut together."""
    wanted = []
    for name, row in zones(body.zone_kind).items():
        odds = np.asarray(body_belief.odds[name])
        hours = float(odds @ [mean_of(hours_of(row, grade, 1.0)) for grade in GRADES])
        wanted.append(Wanted(name=name, rank=turn_of(name).rank, side=split(name)[1], weight=hours))
    return rounds(wanted, must_not)


@step("Repairs found and likely, in their order", source="common-practice")
def repair_list(
    repair_rounds: tuple[Round, ...], body_belief: Belief, body: Body, survey: Survey
) -> RepairList:
    """Keep the zones that are likelier than a quarter to want work; sheet, weld, money of each."""
    rows = zones(body.zone_kind)
    chances = {name: 1.0 - body_belief.odds[name][0] for name in rows}
    kept = [
        (one, names)
        for one in repair_rounds
        if (names := tuple(name for name in one.names if chances[name] >= LIKELY))
    ]
    order = tuple(
        Round(number=number, rank=one.rank, side=one.side, names=names)
        for number, (one, names) in enumerate(kept, start=1)
    )
    behind = waits(order, must_not)
    repairs = {
        name: _repair(name, rows[name], one.number, body_belief, survey, behind[name])
        for one in order
        for name in one.names
    }
    listed = list(repairs)
    pairs = [(a, b) for i, a in enumerate(listed) for b in listed[i + 1 :]]
    clashes = tuple(
        Clash(one=a, other=b, rule=rule.name, brace=rule.brace, why=rule.why)
        for a, b in pairs
        if (rule := forbidden(a, b))
    )
    return RepairList(rounds=order, repairs=repairs, clashes=clashes)


@quantity("s", "Hours that a zone is expected to take", source="bayes", per="zone", shown="h")
def rust_zone_hours(body_belief: Belief, body: Body, survey: Survey) -> Labelled:
    """Return the mean over its odds at the owner's pace."""
    found = {}
    for name, row in zones(body.zone_kind).items():
        table = [mean_of(hours_of(row, grade, 1.0)) for grade in GRADES]
        found[name] = survey.pace * float(np.asarray(body_belief.odds[name]) @ table)
    return found


@quantity("-", "Rounds of repair, each closed and measured", source="common-practice")
def rust_repair_rounds(repair_list: RepairList) -> Values:
    """Count the rounds that the repairs found and likely take on the shell."""
    on_shell = [
        one
        for one in repair_list.rounds
        if any(repair_list.repairs[name].on_shell for name in one.names)
    ]
    return np.array([float(len(on_shell))])


@quantity(
    "-", "Zones that your jobs leave open together against the rules", source="common-practice",
    per="pair",
)  # fmt: skip
def rust_cut_together(jobs: Mapping[str, Job]) -> Labelled:
    """Name each pair with its jobs and where they stand in the file."""
    opens = {name: one.opens for name, one in jobs.items() if one.has("opens") and not one.done}
    if not opens:
        raise DoesNotApply("jobs", "no job says which zones it opens")
    after = {name: tuple(one for one in job.after if one in jobs) for name, job in jobs.items()}
    found = open_together(opens, lambda name: all_before(name, after), must_not)
    told = {_told(jobs, *one): np.array([1.0]) for one in found}
    return told or {"none": np.array([0.0])}


@dataclass(frozen=True, kw_only=True)
class WhileOpen:
    """What is left of the shell while some zones are open."""

    what: str
    zones: tuple[str, ...]
    torsion: float
    """Over that of the closed shell. [-]"""
    bending: float
    allowed: bool


@step("Stiffness of the shell while zones are open", source="beam-frame-theory")
def open_stiffness(shell_model: ShellModel, repair_list: RepairList) -> tuple[WhileOpen, ...]:
    """Solve the nominal frame for each round, and for each pair that must not be open together."""
    sets = [
        (f"round {one.number}", one.names, True)
        for one in repair_list.rounds
        if any(repair_list.repairs[name].on_shell for name in one.names)
    ]
    sets += [(one.rule, (one.one, one.other), False) for one in _once_a_rule(repair_list.clashes)]
    whole = {case: _while_open(shell_model, case, ()) for case in ("torsion", "bending")}
    found = []
    for what, names, right in sets:
        shares = [_while_open(shell_model, case, names) / whole[case] for case in whole]
        if min(shares) < 1.0 - 1e-9:
            one = WhileOpen(
                what=what, zones=names, torsion=shares[0], bending=shares[1], allowed=right
            )
            found.append(one)
    return tuple(found)


def _once_a_rule(clashes: tuple[Clash, ...]) -> tuple[Clash, ...]:
    return tuple({one.rule: one for one in reversed(clashes)}.values())[::-1]


def _while_open(model: ShellModel, case: str, names: tuple[str, ...]) -> float:
    built, factors = model.built(), model.nominal()

    def left(parts: tuple[tuple[str, ...], ...]) -> Values:
        return np.array(
            [
                np.mean([CUT_LEAVES if zone in names else 1.0 for zone in own]) if own else 1.0
                for own in parts
            ]
        )

    members = factors.member * left(tuple(bar.zones for bar in built.bars))
    panels = factors.panel
    if built.sheets:
        panels = panels * left(tuple(sheet.zones for sheet in built.sheets))
    cut = replace(factors, member=members, panel=panels)
    return float(solve(elements=built.elements, factors=cut, case=built.cases[case]).stiffness)


def _repair(
    name: str, row: ZoneRow, number: int, belief: Belief, survey: Survey, after: tuple[str, ...]
) -> Repair:
    odds = belief.odds[name]
    grade = GRADES[1] if odds[1] >= odds[2] else GRADES[2]
    pace = float(survey.pace[0])
    hours, area = hours_of(row, grade, pace), sheet_of(row, grade)
    money = area * float(survey.sheet_price[0]) + mean_of(hours) * float(survey.consumables[0])
    return Repair(
        zone=name,
        round=number,
        on_shell=turn_of(name).on_shell,
        carries=row.carries,
        chance=1.0 - odds[0],
        grade=grade,
        hours=hours,
        area=area,
        thickness=row.thickness,
        mass=area * row.thickness * STEEL,
        weld=weld_of(row, grade),
        cost=money,
        after=after,
    )


def _told(jobs: Mapping[str, Job], job: str, zone: str, other_job: str, other: str) -> str:
    """Return a pair with its jobs and their lines, as a person looks for them."""
    places = []
    for name in dict.fromkeys((job, other_job)):
        where = jobs[name].where
        line = f" ({where.file.name}:{where.line})" if where else ""
        places.append(f'"{name}"{line}')
    return f"{zone} with {other}: {' and '.join(places)}"
