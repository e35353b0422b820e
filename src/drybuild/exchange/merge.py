"""Take suggestions of a reply over: what each would do, and all that are accepted in one step."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from drybuild.checks.verdicts import State
from drybuild.errors import Problem, SaveError
from drybuild.exchange.reply import Reply, Suggestion, read_reply
from drybuild.present.numbers import with_band
from drybuild.project.build import Build
from drybuild.project.editing import edit_everywhere, everywhere, new_problems
from drybuild.project.load import load
from drybuild.project.writing import Value
from drybuild.quantities.graph import summary
from drybuild.session import Session

TRIAL = 200
"""Draws behind what a suggestion would do; enough to see a verdict move."""
SHOWN = ("kerb_mass", "total_cost")


@dataclass(frozen=True, kw_only=True)
class Effect:
    """What taking a suggestion would do, an option also picked."""

    moved: tuple[tuple[str, str, str], ...]
    """Questions whose verdict would change: question, was, would be."""
    figures: tuple[tuple[str, str, str], ...]
    """What it weighs and costs: words, was, would be."""


def reply_to(place: Path, build: Build, name: str, data: bytes) -> Reply:
    """Read a reply to a build, and try each suggestion on a copy of its files; nothing is saved."""
    reply = read_reply(name, data, build)
    sound = [one for one in reply.suggestions if one.sound]
    if not sound or not _problems(place, sound):
        return reply
    checked = []
    for one in reply.suggestions:
        found = _problems(place, [one]) if one.sound else ()
        located = tuple(replace(fault, file=reply.file, line=one.line) for fault in found)
        checked.append(replace(one, problems=(*one.problems, *located)))
    problems = {*reply.problems, *(fault for one in checked for fault in one.problems)}
    ordered = sorted(problems, key=lambda one: (one.line, one.field))
    return replace(reply, suggestions=tuple(checked), problems=tuple(ordered))


def effects(
    session: Session,
    suggestions: Iterable[Suggestion],
    between: Callable[[], None] | None = None,
) -> Iterator[tuple[str, Effect]]:
    """Give what each sound suggestion that is no note would do, by its id.

    What is given as `between` is called before each quantity; it may wait, or raise to stop.
    """
    base = Session(session.build, session.place, TRIAL, session.graph)
    base.evaluation.between = between
    for one in suggestions:
        if one.sound and one.kind != "note":
            with _copy(session.place, [one]) as place:
                build = load(place)
            if one.kind == "option":
                _, system, name = map(str, one.address)
                build = replace(build, picks={**build.picks, system: name})
            trial = base.renewed(build)
            trial.evaluation.between = between
            yield one.id, _effect(base, trial)


def take(place: Path, reply: Reply, ids: Iterable[str]) -> tuple[Suggestion, ...]:
    """Write the suggestions with these ids into the build, as one step that can be undone.

    Raises
    ------
    SaveError
        One of them has a problem, the build does not read with all of them together, or its files
        cannot be written. Nothing is saved.

    """
    wanted = set(ids)
    taken = tuple(one for one in reply.suggestions if one.id in wanted)
    faulty = [one for one in taken if not one.sound]
    if faulty:
        raise SaveError(f"{faulty[0].says} cannot be taken: {faulty[0].problems[0].wrong}")
    if taken:
        why = f"taken over from the reply of {reply.author}"
        problems = edit_everywhere(place, _values(taken), f"reply of {reply.author}", why)
        if problems:
            raise SaveError("together these do not read: " + "; ".join(map(str, problems)))
    return taken


def _values(suggestions: Iterable[Suggestion]) -> dict[tuple[str | int, ...], Value]:
    return {one.address: one.value for one in suggestions}


def _problems(place: Path, suggestions: list[Suggestion]) -> tuple[Problem, ...]:
    try:
        _, texts, _ = everywhere(place, _values(suggestions))
    except SaveError as fault:
        words, file = str(fault), place
        return (
            Problem(
                code="reply-no-place",
                file=file,
                line=1,
                field=suggestions[0].says,
                wrong=words,
                mend="Leave it out, or write it into the build by hand.",
            ),
        )
    return new_problems(place, texts)


@contextmanager
def _copy(place: Path, suggestions: list[Suggestion]) -> Iterator[Path]:
    """Give a copy of the build's files in which suggestions are taken."""
    folder = place if place.is_dir() else place.parent
    files, texts, _ = everywhere(place, _values(suggestions))
    with tempfile.TemporaryDirectory() as room:
        copy = Path(room) / "build"
        copy.mkdir()
        for file in load(place).hashes:
            target = copy / file.resolve().relative_to(folder.resolve())
            target.parent.mkdir(parents=True, exist_ok=True)
            if file in texts:
                target.write_text(texts[file], encoding="utf-8", newline="")
            else:
                shutil.copyfile(file, target)
        assert set(files) == set(texts)
        yield copy if place.is_dir() else copy / place.name


def _effect(was: Session, now: Session) -> Effect:
    before = {one.check.id: one for one in was.verdicts}
    moved = [
        (one.check.asks, str(before[one.check.id].state), str(one.state))
        for one in now.verdicts
        if one.check.id in before and before[one.check.id].state is not one.state
    ]
    moved.sort(key=lambda one: one[2] != str(State.FAILS))
    figures = []
    for name in SHOWN:
        words, some, others = now.graph.quantities[name].label, _told(was, name), _told(now, name)
        if some != others:
            figures.append((words, some, others))
    return Effect(moved=tuple(moved), figures=tuple(figures))


def _told(session: Session, name: str) -> str:
    result = session.evaluation.result(name)
    if result.open:
        return "open"
    one, build = result.quantity, session.build
    return with_band(summary(result.value), one.unit, one.shown, build.units, build.currency)
