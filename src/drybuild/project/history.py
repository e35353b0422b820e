"""What was changed in a build, when and why: one line each in ``history.jsonl``; undo and redo.

A line keeps the change as values (what, from, to, why, when), for people and for comparing, and as
the cut that was made in the text, so that undoing gives back the very bytes.

The file is saved first and the line written after it. Should the program be killed between the
two, a promise of the line lies beside them, and whoever writes next keeps it.
"""

from __future__ import annotations

import contextlib
import datetime
import json
import os
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from functools import lru_cache
from pathlib import Path, PurePosixPath

from drybuild.errors import SaveError
from drybuild.project.decoding import BYTE_ORDER_MARK
from drybuild.project.folder import FileText, digest
from drybuild.project.lock import locked
from drybuild.project.save import ChangedOutsideError, save_locked

HISTORY_NAME = "history.jsonl"
PROMISE_NAME = ".drybuild.saving"

Clock = Callable[[], datetime.datetime]


def now() -> datetime.datetime:
    """Return the time by the computer's clock."""
    return datetime.datetime.now(datetime.UTC)


@dataclass(frozen=True, kw_only=True)
class Change:
    """One change of one file."""

    number: int
    """Counted from 1 through the life of the build."""
    what: str
    """The address of the value: ``car.body.wheelbase``."""
    before: object
    """The value as text, list or mapping; None when there was no entry."""
    after: object
    """Likewise; None when the entry was taken out."""
    why: str
    when: str
    """In UTC, ISO 8601."""
    file: str
    """Relative to the build folder, with slashes."""
    at: int
    """Where the text was cut, in characters from its beginning."""
    cut: str
    put: str
    undoes: int | None = None
    """The change that this one takes back."""
    redoes: int | None = None
    """The change that this one makes again."""
    step: int | None = None
    """The first change of those in several files that are taken back together."""


@dataclass(frozen=True, kw_only=True)
class History:
    """Every change that can be read from the history, oldest first."""

    changes: tuple[Change, ...]
    unreadable: int = 0
    """Lines that could not be read, such as one cut short by a power failure."""

    @property
    def undoable(self) -> Change | None:
        """The change that undo would take back."""
        done, _ = self._stacks()
        return done[-1] if done else None

    @property
    def redoable(self) -> Change | None:
        """The change that redo would make again."""
        _, undone = self._stacks()
        return undone[-1] if undone else None

    def undoing(self) -> list[Change]:
        """Return the changes that undo would take back, in that order."""
        return self._together(self._stacks()[0])

    def redoing(self) -> list[Change]:
        """Return the changes that redo would make again, in that order."""
        return self._together(self._stacks()[1])

    @staticmethod
    def _together(stack: list[Change]) -> list[Change]:
        """Return the last change, and those before it that are of the same step."""
        found = stack[-1:]
        for one in reversed(stack[:-1]):
            if one.step is None or one.step != found[-1].step:
                break
            found.append(one)
        return found

    def _stacks(self) -> tuple[list[Change], list[Change]]:
        done: list[Change] = []
        undone: list[Change] = []
        for change in self.changes:
            if change.undoes is not None:
                undone.extend(one for one in done if one.number == change.undoes)
                done = [one for one in done if one.number != change.undoes]
            elif change.redoes is not None:
                done.extend(one for one in undone if one.number == change.redoes)
                undone = [one for one in undone if one.number != change.redoes]
            else:
                done.append(change)
                undone.clear()
        return done, undone


def read_history(folder: Path) -> History:
    """Return the history of a build folder; unreadable lines are skipped and counted."""
    try:
        data = (folder / HISTORY_NAME).read_bytes()
    except FileNotFoundError:
        return History(changes=())
    except OSError as fault:
        raise SaveError(f"{folder / HISTORY_NAME} cannot be read: {fault.strerror}") from fault
    lines = [line for line in data.decode("utf-8", "replace").split("\n") if line.strip()]
    found = [_change_of(line) for line in lines]
    changes = tuple(one for one in found if one is not None)
    return History(changes=changes, unreadable=len(lines) - len(changes))


def keep(
    folder: Path,
    file: FileText,
    text: str,
    *,
    what: str,
    before: object,
    after: object,
    why: str = "",
    clock: Clock = now,
) -> FileText:
    """Save a changed text and note the change in the history.

    Parameters
    ----------
    folder : Path
        The build folder.
    file : FileText
        The file as it was read.
    text : str
        Its new text.
    what, before, after, why
        What the history says of it.
    clock : Clock
        Gives the time.

    Returns
    -------
    FileText
        The file as it is now.

    Raises
    ------
    ChangedOutsideError
        The file changed since it was read; nothing is saved.
    SaveError
        It cannot be saved.

    """
    at, cut, put = _difference(file.text, text)
    with locked(folder):
        _catch_up(folder)
        history = read_history(folder)
        change = Change(
            number=_next(history),
            what=what,
            before=before,
            after=after,
            why=why,
            when=_stamp(clock),
            file=_relative(folder, file.path),
            at=at,
            cut=cut,
            put=put,
        )
        _promise(folder, [(change, text)])
        sha256 = save_locked(file.path, text, file.sha256)
        _note(folder, [change])
    return FileText(path=file.path, text=text, sha256=sha256)


def keep_together(
    folder: Path,
    texts: Sequence[tuple[FileText, str]],
    *,
    what: str,
    before: object,
    after: object,
    why: str = "",
    clock: Clock = now,
) -> None:
    """Save changed texts of several files as one step that is taken back as a whole.

    The words are those of `keep`; when one of the files cannot be saved, none is changed.

    Raises
    ------
    ChangedOutsideError
        One of the files changed since it was read.
    SaveError
        One cannot be saved.

    """
    with locked(folder):
        _catch_up(folder)
        number = _next(read_history(folder))
        noted: list[Change] = []
        for place, (file, text) in enumerate(texts):
            at, cut, put = _difference(file.text, text)
            change = Change(
                number=number + place,
                what=what,
                before=before,
                after=after,
                why=why,
                when=_stamp(clock),
                file=_relative(folder, file.path),
                at=at,
                cut=cut,
                put=put,
                step=number if len(texts) > 1 else None,
            )
            noted.append(change)
        _promise(folder, list(zip(noted, (text for _, text in texts), strict=True)))
        saved: list[tuple[FileText, str]] = []
        try:
            for file, text in texts:
                saved.append((file, save_locked(file.path, text, file.sha256)))
        except SaveError:
            for file, sha256 in saved:
                save_locked(file.path, file.text, sha256)
            raise
        _note(folder, noted)


def undo(folder: Path, clock: Clock = now) -> Change | None:
    """Take back the last change that was not taken back yet; None when there is none.

    Raises
    ------
    ChangedOutsideError
        The place was changed by somebody else since.
    SaveError
        The file cannot be saved.

    """
    with locked(folder):
        _catch_up(folder)
        history = read_history(folder)
        last = history.undoable
        for number, one in enumerate(history.undoing(), start=_next(history)):
            change = Change(
                **{
                    **asdict(one),
                    "number": number,
                    "before": one.after,
                    "after": one.before,
                    "when": _stamp(clock),
                    "cut": one.put,
                    "put": one.cut,
                    "undoes": one.number,
                    "redoes": None,
                }
            )
            _turn(folder, one, one.put, one.cut, change)
            last = change
    return last


def redo(folder: Path, clock: Clock = now) -> Change | None:
    """Make the change again that was taken back last; None when there is none.

    Raises
    ------
    ChangedOutsideError
        The place was changed by somebody else since.
    SaveError
        The file cannot be saved.

    """
    with locked(folder):
        _catch_up(folder)
        history = read_history(folder)
        last = history.redoable
        for number, one in enumerate(history.redoing(), start=_next(history)):
            change = Change(
                **{
                    **asdict(one),
                    "number": number,
                    "when": _stamp(clock),
                    "undoes": None,
                    "redoes": one.number,
                }
            )
            _turn(folder, one, one.cut, one.put, change)
            last = change
    return last


def _turn(folder: Path, change: Change, there: str, wanted: str, noted: Change) -> None:
    """Put `wanted` where `there` stands; refuse when the place is not as the change left it."""
    name = PurePosixPath(change.file)
    if name.is_absolute() or ".." in name.parts:
        raise SaveError(f"the history names a file outside the build folder: {change.file}")
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise SaveError(f"the history names a file outside the build folder: {change.file}")
    try:
        data = path.read_bytes()
        text = data.decode("utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise ChangedOutsideError(path, None) from fault
    at = _find(text, there, change.at)
    if at is None:
        raise ChangedOutsideError(path, text)
    turned = text[:at] + wanted + text[at + len(there) :]
    _promise(folder, [(noted, turned)])
    save_locked(path, turned, digest(data))
    _note(folder, [noted])


def _find(text: str, there: str, at: int) -> int | None:
    """Return where the text of a change stands now: in its place, else in the only other one."""
    if text[at : at + len(there)] == there:
        return at
    if there.strip() and len(there) > 8 and text.count(there) == 1:
        return text.index(there)
    return None


def _difference(old: str, new: str) -> tuple[int, str, str]:
    """Return the smallest single cut that makes one text of the other, in whole lines."""
    start = _alike(old, new)
    start = max(old.rfind("\n", 0, start) + 1, 1 if old[:1] == BYTE_ORDER_MARK == new[:1] else 0)
    end = _alike(old[start:][::-1], new[start:][::-1])
    line_break = old.find("\n", len(old) - end)
    end = len(old) - (line_break if line_break >= 0 else len(old))
    return start, old[start : len(old) - end], new[start : len(new) - end]


def _alike(one: str, other: str) -> int:
    """Return how many characters two texts have in common at the beginning."""
    alike, most = 0, min(len(one), len(other))
    while alike < most:
        middle = (alike + most + 1) // 2
        if one[alike:middle] == other[alike:middle]:
            alike = middle
        else:
            most = middle - 1
    return alike


def _promise(folder: Path, changes: Sequence[tuple[Change, str]]) -> None:
    """Put down what will be noted once these texts are saved."""
    said = [
        {"line": _line(change), "sha256": digest(text.encode("utf-8", "replace"))}
        for change, text in changes
    ]
    try:
        (folder / PROMISE_NAME).write_text(json.dumps(said), encoding="utf-8")
    except OSError as fault:
        raise SaveError(f"{folder} cannot be written to: {fault.strerror}") from fault


def _note(folder: Path, changes: Sequence[Change]) -> None:
    """Add the lines of changes that are saved, as promised."""
    for change in changes:
        _append(folder, change)
    (folder / PROMISE_NAME).unlink(missing_ok=True)


def _catch_up(folder: Path) -> None:
    """Note what a program that was killed had saved and not noted yet."""
    promise = folder / PROMISE_NAME
    if not promise.exists():
        return
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):  # it may be half a promise
        known = {one.number for one in read_history(folder).changes}
        for one in json.loads(promise.read_text("utf-8")):
            change = _change_of(one["line"])
            if change is None or change.number in known:
                continue
            if digest((folder / PurePosixPath(change.file)).read_bytes()) == one["sha256"]:
                _append(folder, change)
    promise.unlink(missing_ok=True)


def _line(change: Change) -> str:
    said = {key: value for key, value in asdict(change).items() if value is not None}
    said["from"] = said.pop("before", None)
    said["to"] = said.pop("after", None)
    return json.dumps(said, ensure_ascii=False, separators=(",", ":"))


def _append(folder: Path, change: Change) -> None:
    """Add a line; a line that was cut short before keeps a line of its own."""
    line = _line(change) + "\n"
    path = folder / HISTORY_NAME
    try:
        with path.open("ab+") as stream:
            if stream.tell() > 0:
                stream.seek(-1, os.SEEK_END)
                line = line if stream.read(1) == b"\n" else "\n" + line
            stream.write(line.encode("utf-8"))
            stream.flush()
            os.fsync(stream.fileno())
    except (OSError, UnicodeEncodeError) as fault:
        raise SaveError(f"the change is saved, but {path} could not be written") from fault


@lru_cache(maxsize=2000)
def _change_of(line: str) -> Change | None:
    """Return the change that a line tells; every page reads the history again."""
    try:
        said = json.loads(line)
        return Change(
            number=int(said["number"]),
            what=str(said["what"]),
            before=said.get("from"),
            after=said.get("to"),
            why=str(said.get("why", "")),
            when=str(said["when"]),
            file=str(said["file"]),
            at=int(said["at"]),
            cut=str(said["cut"]),
            put=str(said["put"]),
            undoes=said.get("undoes"),
            redoes=said.get("redoes"),
            step=said.get("step"),
        )
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def _next(history: History) -> int:
    return max((one.number for one in history.changes), default=0) + 1


def _stamp(clock: Clock) -> str:
    return clock().astimezone(datetime.UTC).isoformat(timespec="seconds")


def _relative(folder: Path, path: Path) -> str:
    try:
        return path.relative_to(folder).as_posix()
    except ValueError:
        return path.resolve().relative_to(folder.resolve()).as_posix()
