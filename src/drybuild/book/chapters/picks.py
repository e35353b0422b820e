"""Picks and why: what is taken for each system, what else is possible, what rules the rest out."""

from __future__ import annotations

import re

from drybuild.book.option_texts import lead_time, mass_of, money_of
from drybuild.book.pages import Block, Chapter, Section, Sheet, Words
from drybuild.options.chooser import State
from drybuild.present.options_tables import conflict_lines, count_text, reason_text
from drybuild.present.path_words import part_words, system_words
from drybuild.project.build import AS_IT_STANDS
from drybuild.session import Session

MUST = re.compile(r"\(must\.\d+\)")
INTRO = (
    "What is taken for each system, which rivals would still go with all the other picks, and what "
    "rules the others out."
)


def picks_chapter(session: Session) -> Chapter:
    """Return the picks, the rivals and the open decisions."""
    build = session.build
    choices = [system for system, options in build.options.items() if len(options) > 1]
    blocks: list[Block] = _taken(session)
    if choices:
        picks = dict(build.picks)
        state = session.ready_to_choose().state(picks)
        blocks = [*_standing(session, state, picks), *blocks]
        blocks += _rivals(session, state)
    else:
        blocks.append(Words(text="No system has more than one option yet, so nothing is to pick."))
    blocks += _decisions(session)
    return Chapter(title="Picks and why", intro=INTRO, blocks=tuple(blocks))


def _standing(session: Session, state: State, picks: dict[str, str]) -> list[Block]:
    total = count_text(state.total)
    blocks: list[Block] = [
        Words(text=f"{total} hold these picks and pass every check that few systems decide.")
    ]
    conflict = session.chooser.conflict(picks)
    if conflict is not None:
        lines = [line.strip() for line in conflict_lines(conflict)]
        blocks += [
            Section(title="Why these picks cannot stand together"),
            Words(text=lines[0], points=tuple(line[:1].upper() + line[1:] for line in lines[1:])),
        ]
    return blocks


def _taken(session: Session) -> list[Block]:
    build, rows, silent = session.build, [], []
    assumed = build.assumed_picks()
    for system, options in build.options.items():
        name = assumed.get(system)
        if name == AS_IT_STANDS and len(options) == 1:
            silent.append(system_words(system))
            continue
        option = options[name] if name else None
        stands = "" if system in build.picks else " (not picked yet)" if len(options) > 1 else ""
        rows.append(
            (
                system_words(system),
                f"{name}{stands}" if name else "open",
                mass_of(option, build.units),
                money_of(option, build.currency),
                lead_time(option),
            )
        )
    sheet = Sheet(
        title="What is taken",
        columns=("system", "pick", "mass", "price", "lead time"),
        rows=tuple(rows),
        numeric=(2, 3, 4),
        widths=(1.5, 2.4, 1.0, 1.2, 1.0),
    )
    told = f"Nothing is said of these, so they stay as they are: {', '.join(silent)}."
    return [*([sheet] if rows else []), *([Words(text=told)] if silent else [])]


def _rivals(session: Session, state: State) -> list[Block]:
    rows = []
    for system, possible in state.possible.items():
        taken = session.build.picks.get(system)
        others = [name for name in session.build.options[system] if name != taken]
        free = [name for name in others if name in possible]
        out = [name for name in others if (system, name) in state.reasons]
        if free:
            rows.append((system_words(system), ", ".join(free), "goes with the other picks"))
        rows += [
            (
                "" if free or place else system_words(system),
                name,
                _in_words(reason_text(state.reasons[system, name]), session),
            )
            for place, name in enumerate(out)
        ]
    if not rows:
        return []
    return [
        Sheet(
            title="The rivals",
            columns=("system", "rival", "why not, or that it may be had"),
            rows=tuple(rows),
            widths=(1.1, 1.6, 4.0),
            note="A check is named in brackets; its limit and source stand in the verdict sheet.",
        )
    ]


def _in_words(reason: str, session: Session) -> str:
    """Return a reason with the systems and the brief's lines as people call them."""
    for system in session.build.options:
        reason = reason.replace(system, system_words(system))
    return MUST.sub("(the brief)", reason)


def _decisions(session: Session) -> list[Block]:
    build, forecast = session.build, session.forecast
    undecided = [s for s, o in build.options.items() if s not in build.picks and len(o) > 1]
    if not undecided:
        return [Words(text="No decision is open: every system with a choice has its pick.")]
    by = {one.system: one for one in forecast.decisions} if forecast else {}
    rows = []
    for system in undecided:
        due = by.get(system)
        day = str(forecast.day(due.safe_day)) if forecast and due else "no job waits for it"
        rows.append((system_words(system), day, part_words(due.because) if due else ""))
    return [
        Section(title="Open decisions"),
        Sheet(
            title="",
            columns=("system", "decide by", "because of"),
            rows=tuple(sorted(rows, key=lambda row: row[1])),
            widths=(1.5, 1.2, 3.0),
        ),
    ]
