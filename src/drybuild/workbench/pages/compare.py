"""Side by side: options of one system, or the build as picked beside other picks on trial."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode
from weakref import WeakKeyDictionary

from drybuild.checks.verdicts import Verdict, judge
from drybuild.present.options_tables import completion_line, reason_text
from drybuild.present.quantity_texts import result_text
from drybuild.project.readings import Reading
from drybuild.session import Session
from drybuild.workbench.apart import apart, ready
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at
from drybuild.workbench.movement import HEADLINE
from drybuild.workbench.pages.matters import DRAWN
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.rendering import counts, told

MOST = 4
"""Columns that still can be read beside each other."""
OPTION, TRY = "o.", "try."
"""What the names in the address begin with: an option to show, a pick to try."""
UNLIKE = ("name", "as_is")
_DONE: WeakKeyDictionary[Desk, set[tuple[Hashable, ...]]] = WeakKeyDictionary()
"""What has been judged side by side of the build as it is shown."""


@dataclass(frozen=True, kw_only=True)
class Column:
    """One way to build the car."""

    title: str
    picks: Mapping[str, str]
    stands: str
    """Whether it goes with the other picks, and if not, why."""
    picked: bool
    option: str = ""


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    build = desk.build
    system = asked.get("system", "")
    columns = _columns(desk, asked)
    done = _key(desk, columns) in _DONE.get(desk, ())
    shown = len(columns) > 1 and done
    verdicts = [_verdicts(desk.session, one.picks) for one in columns] if shown else []
    tried = {key.removeprefix(TRY): name for key, name in asked.items() if key.startswith(TRY)}
    choosable = {name: list(ones) for name, ones in build.options.items() if len(ones) > 1}
    return {
        "system": system if system in build.options else "",
        "columns": columns,
        "facts": _facts(desk, system, columns) if system in build.options else [],
        "waits": not done,
        "link": f"/compare?{urlencode({**asked, DRAWN: 'all'})}" if ready(desk) else "",
        "figures": _figures(desk.session, columns) if shown else [],
        "counted": [dict(counts(ones)) for ones in verdicts],
        "differing": _differing(desk, verdicts),
        "ends": [_ends(desk, one) for one in columns] if shown else [],
        "choosable": choosable,
        "taken": build.assumed_picks(),
        "tried": tried,
        "here": f"/compare?{urlencode({key: one for key, one in asked.items() if key != DRAWN})}",
    }


def before(desk: Desk, asked: Asked) -> None:
    """Judge what stands side by side beside the desk, when that is asked for."""
    if not asked.get(DRAWN):
        return
    desk.wait()
    columns = _columns(desk, asked)
    key = _key(desk, columns)
    done = _DONE.setdefault(desk, set())
    if len(columns) > 1 and key not in done and ready(desk):
        with apart(desk, queued=True) as session:
            for one in columns:
                _verdicts(session, one.picks)
            _figures(session, columns)
        done.difference_update([one for one in done if one[:2] != key[:2]])
        done.add(key)


def _key(desk: Desk, columns: list[Column]) -> tuple[Hashable, ...]:
    picks = (tuple(sorted(one.picks.items())) for one in columns)
    return desk.version, desk.settled, *picks


def _columns(desk: Desk, asked: Asked) -> list[Column]:
    system = asked.get("system", "")
    if system in desk.build.options:
        return _of_system(desk, asked, system)
    return _of_trial(desk, asked)


def _of_system(desk: Desk, asked: Asked, system: str) -> list[Column]:
    """Return a column for each option that was chosen; the picked one and the first otherwise."""
    picks = desk.build.assumed_picks()
    options = list(desk.build.options[system])
    chosen = [one for one in options if asked.get(OPTION + one)]
    if len(chosen) < 2:
        rest = [one for one in options if one not in (picks.get(system), *chosen)]
        own = [picks[system]] if system in picks and picks[system] not in chosen else []
        chosen = [*chosen, *own, *rest][:2]
    return [
        Column(
            title=one,
            picks={**picks, system: one},
            stands=_stands(desk, system, one),
            picked=picks.get(system) == one,
            option=one,
        )
        for one in chosen[:MOST]
    ]


def _of_trial(desk: Desk, asked: Asked) -> list[Column]:
    """Return the build as picked, and beside it as tried."""
    picks = desk.build.assumed_picks()
    tried = {
        system: asked[TRY + system]
        for system, options in desk.build.options.items()
        if asked.get(TRY + system) in options
    }
    changed = {one: name for one, name in tried.items() if picks.get(one) != name}
    first = Column(title="as picked", picks=picks, stands=_whole(desk, picks), picked=True)
    if not changed:
        return [first]
    both = {**picks, **changed}
    return [first, Column(title="as tried", picks=both, stands=_whole(desk, both), picked=False)]


def _stands(desk: Desk, system: str, option: str) -> str:
    found = desk.choosing.choices(desk.session)
    if found is None:
        return "being worked out"
    if option in found.state.possible.get(system, (option,)):
        return "goes with the other picks"
    reason = found.state.reasons.get((system, option))
    return f"out: {reason_text(reason)}" if reason else "out with the other picks"


def _whole(desk: Desk, picks: Mapping[str, str]) -> str:
    found = desk.choosing.choices(desk.session)
    if found is None:
        return "being worked out"
    free = {name: one for name, one in picks.items() if len(desk.build.options[name]) > 1}
    left = found.chooser.state(free).total
    return "goes together" if left is None or left > 0 else "does not go together"


def _ends(desk: Desk, column: Column) -> list[str]:
    """Return what it costs, weighs and takes to complete the build with an option."""
    found = desk.choosing.choices(desk.session)
    if found is None:
        return []
    open_ = {name for name, one in desk.build.options.items() if len(one) > 1}
    held = {name: column.picks[name] for name in desk.build.picks if name in open_}
    if column.option:
        held = {name: one for name, one in column.picks.items() if one == column.option} | held
    if found.chooser.state(held).total == 0:
        return ["no complete build holds it with the other picks"]
    currency = desk.build.currency
    return [
        completion_line(by, found.chooser.completion(held, by), currency)
        for by in ("price", "mass", "lead_time")
    ]


def _verdicts(session: Session, picks: Mapping[str, str]) -> tuple[Verdict, ...]:
    found = [judge(one, session.evaluation, picks=picks, doubts=False) for one in session.checks]
    return session.ranked(one for one in found if not one.senseless)


def _differing(desk: Desk, columns: list[tuple[Verdict, ...]]) -> list[dict[str, Any]]:
    """Return the questions that are not answered alike in every column."""
    by_id = [{one.check.id: one for one in ones} for ones in columns]
    found = []
    for key in dict.fromkeys(one for ones in by_id for one in ones):
        each = [ones.get(key) for ones in by_id]
        if len({one and one.state for one in each}) > 1:
            shown = [one and told(one, desk.session) for one in each]
            first = next(one for one in shown if one)
            found.append({"id": key, "asks": first["asks"], "each": shown})
    return found


def _figures(session: Session, columns: list[Column]) -> list[tuple[str, str, list[str]]]:
    evaluation = session.evaluation
    rows = []
    for name in HEADLINE:
        results = [evaluation.result(name, one.picks) for one in columns]
        if not all(one.open for one in results):
            label = results[0].quantity.label
            rows.append((name, label, [result_text(one, evaluation) for one in results]))
    return rows


def _facts(desk: Desk, system: str, columns: list[Column]) -> list[tuple[str, list[str]]]:
    """Return every entry that one of the options has, as written."""
    options = [desk.build.options[system][one.option] for one in columns]
    names = dict.fromkeys(name for one in options for name in one.given if name not in UNLIKE)
    rows = []
    for name in names:
        cells = []
        for column, option in zip(columns, options, strict=True):
            given = option.given.get(name)
            at = ("options", system, column.option, name)
            cells.append(given.text if isinstance(given, Reading) else typed_at(desk.build, at))
        rows.append((name, cells))
    return rows


PAGE = Page(
    path="/compare",
    title="Side by side",
    asks="What would another choice change?",
    template="compare.html.j2",
    fill=fill,
    before=before,
)
