"""Work that takes longer than a click: how far it is, and that it can be stopped and gone on with.

Each kind of work has a name. Whoever does it tells how far it is and asks whether it shall go on;
the pages show that, and stop it.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

WORDS = {
    "verdicts": "Judging every check on all draws",
    "choices": "Trying which options go together",
    "book": "Making the book",
    "place": "Looking for the best place of the engine",
    "reply": "Trying what the reply suggests",
}
"""What is said of each kind of work."""
Standing = Literal["idle", "running", "stopped", "failed"]


class Stopped(Exception):  # noqa: N818  it is asked for, not an error
    """The person stopped this work, or the build moved on under it."""


@dataclass(kw_only=True)
class Task:
    """One kind of work."""

    name: str
    standing: Standing = "idle"
    done: int = 0
    total: int = 0

    @property
    def words(self) -> str:
        """What it does."""
        return WORDS[self.name]

    @property
    def share(self) -> int:
        """How much of it is done, in per cent."""
        return min(99, 100 * self.done // self.total) if self.total else 0


class Tasks:
    """Every kind of work, and what to do when it is stopped."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._tasks = {name: Task(name=name) for name in WORDS}
        self._hooks: dict[str, Callable[[], None]] = {}

    def on_turn(self, name: str, hook: Callable[[], None]) -> None:
        """Call this when work of a kind was stopped, or shall go on."""
        self._hooks[name] = hook

    def begin(self, name: str, total: int = 0) -> None:
        """Say that work begins."""
        with self._lock:
            self._tasks[name] = Task(name=name, standing="running", total=total)

    def told(self, name: str, done: int, total: int) -> None:
        """Say how far it is."""
        task = self._tasks[name]
        task.done, task.total = done, total

    def end(self, name: str, standing: Standing = "idle") -> None:
        """Say that it ended; one that was stopped stays so until it goes on."""
        with self._lock:
            if self._tasks[name].standing == "running":
                self._tasks[name].standing = standing

    def stop(self, name: str) -> None:
        """Stop work that is running."""
        self._turn(name, ("running",), "stopped")

    def go_on(self, name: str) -> None:
        """Let work that was stopped, or failed, begin again."""
        self._turn(name, ("stopped", "failed"), "idle")

    def try_again(self, name: str) -> None:
        """Let work that failed begin again; what a person stopped stays so."""
        self._turn(name, ("failed",), "idle")

    def _turn(self, name: str, was: tuple[Standing, ...], standing: Standing) -> None:
        with self._lock:
            if self._tasks[name].standing not in was:
                return
            self._tasks[name].standing = standing
        self._hooks.get(name, _nothing)()

    def stopped(self, name: str) -> bool:
        """Whether the person stopped this work."""
        return self._tasks[name].standing == "stopped"

    def failed(self, name: str) -> bool:
        """Whether it came to a bad end."""
        return self._tasks[name].standing == "failed"

    def rests(self, name: str) -> bool:
        """Whether it was stopped or failed: nobody works on it until it goes on."""
        return self._tasks[name].standing in ("stopped", "failed")

    def running(self, name: str) -> bool:
        """Whether it is being done now."""
        return self._tasks[name].standing == "running"

    def standing(self, name: str) -> Standing:
        """Return how it stands."""
        return self._tasks[name].standing

    def shown(self) -> list[Task]:
        """Return what is worth a line: work that runs, was stopped or failed."""
        return [one for one in self._tasks.values() if one.standing != "idle"]


def _nothing() -> None:
    """Do nothing."""
