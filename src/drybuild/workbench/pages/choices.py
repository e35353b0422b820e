"""Choices: every system and option, what stands, what is out and why, what each one takes."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

from drybuild.present.options_tables import (
    completion_line,
    conflict_lines,
    count_text,
    decide_lines,
    reason_text,
)
from drybuild.project.address import Address, write_address
from drybuild.project.build import Build
from drybuild.project.catalogue import SYSTEMS, system_class
from drybuild.project.readings import Reading
from drybuild.project.sections import Section
from drybuild.workbench.choosing import Choices
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader, typed_at
from drybuild.workbench.pages.page import Asked, Page

FACTS = ("price", "mass", "lead_time", "fitting")
REASONS = 0.25
"""A page may take so long over reasons nobody asked for before; it is then fetched again. [s]"""


@dataclass(frozen=True, kw_only=True)
class Row:
    """An option as a line of its system."""

    name: str
    standing: str
    """picked, possible, out, or waiting while that is being worked out."""
    clash: bool
    facts: tuple[str, ...]
    builds: str
    told: str
    untold: bool
    """Whether the reason is still to be worked out."""


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    found = desk.choosing.choices(desk.session)
    build = desk.build
    until = time.monotonic() + (REASONS if desk.settled else 0.0)
    systems = [
        (
            system,
            [_row(desk, found, system, name, until) for name in options],
            build.picks.get(system),
        )
        for system, options in build.options.items()
        if len(options) > 1
    ]
    fixed = [
        (system, next(iter(options)))
        for system, options in build.options.items()
        if len(options) == 1
    ]
    return {
        "systems": systems,
        "fixed": fixed,
        "known": [*SYSTEMS, *(one for one in build.options if one not in SYSTEMS)],
        "facts": ("price", "mass", "delivery", "own hours"),
        "ready": found is not None,
        "complete": found is not None
        and not any(one.untold for _, rows, _ in systems for one in rows),
        "count": count_text(found.state.total) if found else "",
        "conflict": conflict_lines(found.conflict) if found and found.conflict else (),
        "first": decide_lines(found.state) if found else (),
        "ends": _ends(found, desk) if found else (),
    }


def _ends(found: Choices, desk: Desk) -> list[str]:
    picks, currency = dict(desk.build.picks), desk.build.currency
    if found.state.total == 0:
        return []
    return [
        completion_line(by, found.chooser.completion(picks, by), currency)
        for by in ("price", "mass", "lead_time")
    ]


def _row(desk: Desk, found: Choices | None, system: str, name: str, until: float) -> Row:
    build = desk.build
    picked = build.picks.get(system) == name
    possible = found is None or name in found.state.possible.get(system, ())
    count = found.state.counts.get(system, {}).get(name) if found else None
    standing = "picked" if picked else "possible" if possible else "out"
    if found is None and not picked:
        standing = "waiting"
    told = _told(found, system, name, until) if found else ""
    return Row(
        name=name,
        standing=standing,
        clash=picked and not possible,
        facts=_facts(build, system, name),
        builds="" if count is None else _short(count),
        told=told or "",
        untold=told is None,
    )


def _facts(build: Build, system: str, name: str) -> tuple[str, ...]:
    """Return what is told of an option in its line; the same as long as nobody edits it."""
    option = build.options[system][name]
    known = _FACTS.get(option)
    if known is None:
        known = tuple(_fact(build, option, ("options", system, name, fact)) for fact in FACTS)
        _FACTS[option] = known
    return known


_FACTS: WeakKeyDictionary[Section, tuple[str, ...]] = WeakKeyDictionary()


def _fact(build: Build, option: Section, address: Address) -> str:
    given = option.given.get(str(address[-1]))
    return given.text if isinstance(given, Reading) else typed_at(build, address)


def _short(count: int) -> str:
    return f"{count:,}".replace(",", "\u202f") if count < 10**6 else f"{count:.1e}"


def _told(found: Choices, system: str, name: str, until: float) -> str | None:
    """Return why an option is out or what it rules out; nothing where there is no time to say."""
    reason = found.state.reasons.get((system, name))
    if reason:
        return reason_text(reason) if reason.told or time.monotonic() < until else None
    gone = found.state.rules_out.get((system, name), ())
    if not gone:
        return ""
    named = ", ".join(f"{other}: {option}" for other, option in gone[:4])
    return f"rules out {named}" + (f" and {len(gone) - 4} more" if len(gone) > 4 else "")


def option(desk: Desk, system: str, name: str) -> dict[str, Any]:  # a template takes anything
    """Return what the page of one option shows."""
    build = desk.build
    section, cls = build.options[system][name], system_class(system)
    reader = Reader(build, desk.session.evaluation, desk.doubts())
    group = reader.group(name, cls, section, ("options", system, name), system)
    return {
        "system": system,
        "option": name,
        "group": group,
        "picked": build.picks.get(system),
        "address": write_address(("options", system, name)),
        "typed": typed_at(build, ("options", system, name)),
    }


PAGE = Page(
    path="/choices",
    title="Choices",
    asks="Which parts go together, and what does each choice rule out?",
    template="choices.html.j2",
    fill=fill,
)
