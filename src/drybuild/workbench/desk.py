"""The one build that lies on the desk: as read, judged at once on few draws, then on all of them.

Every request works on it under one lock. A change is saved to the file first; then all checks but
those on the work plan are judged on a few draws, which is what the person sees at once, and a
thread of its own judges everything on all draws, which takes its place as soon as it is there.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from drybuild.checks.check import Check
from drybuild.checks.verdicts import Verdict, judge
from drybuild.project.build import Build
from drybuild.project.changed import changed_paths
from drybuild.project.folder import ENDING, digest
from drybuild.project.load import load
from drybuild.quantities.graph import Graph
from drybuild.session import SAMPLES, Session
from drybuild.workbench.choosing import Choosing

T = TypeVar("T")
QUICK = 100
"""Draws behind what is shown at once; settled verdicts have `SAMPLES`."""
SLOW = "work_plan"
"""What rests on it is judged only when the verdicts settle."""
PATIENCE = 30.0
PAUSE = 0.2
"""Seconds without a change before settling begins. [s]"""


class Desk:
    """One open build."""

    def __init__(self, place: Path, samples: int = SAMPLES, quick: int = QUICK) -> None:
        self.place = place
        self.lock = threading.RLock()
        self.samples = samples
        self.version = 1
        """Counts the states of the build that were shown."""
        self.notice = ""
        """What happened to the build outside, until it is read."""
        self._changed = threading.Condition(self.lock)
        self._quick = Session.open(place, quick)
        self._settled: Session | None = None
        self._last: Session | None = None
        self._before: dict[str, str] = {}
        self._looked: tuple[Verdict, ...] | None = None
        self._closing = False
        self.choosing = Choosing()
        self._worker = threading.Thread(target=self._settle, daemon=True, name="settle")
        self._worker.start()

    # What is shown -----------------------------------------------------------------------------

    @property
    def build(self) -> Build:
        """The build as its files say."""
        return self._quick.build

    @property
    def session(self) -> Session:
        """The session to show from: settled when it is, else the quick one."""
        return self._settled or self._quick

    @property
    def settled(self) -> bool:
        """Whether everything is judged on all draws."""
        return self._settled is not None

    def verdicts(self) -> tuple[Verdict, ...]:
        """Return the verdicts on what can be judged now; those that wait are left out."""
        if self._settled is not None:
            return self._settled.verdicts
        if self._looked is None:
            quick, waiting = self._quick, {check.id for check in self.waiting()}
            picks = quick.build.assumed_picks()
            found = [
                judge(one, quick.evaluation, picks=picks, doubts=False)
                for one in quick.checks
                if one.id not in waiting
            ]
            self._looked = quick.ranked(one for one in found if not one.senseless)
        return self._looked

    def doubts(self) -> tuple[Verdict, ...]:
        """Return verdicts with where their doubt comes from: the last settled ones."""
        return self._last.verdicts if self._last else self.verdicts()

    def waiting(self) -> tuple[Check, ...]:
        """Return the checks whose verdict is still being worked out."""
        if self._settled is not None:
            return ()
        slow = resting_on(self._quick.graph, SLOW)
        return tuple(
            one
            for one in self._quick.checks
            if not slow.isdisjoint({one.quantity, one.at_least, one.at_most})
        )

    def moved(self, verdicts: tuple[Verdict, ...]) -> list[tuple[Check, str, str]]:
        """Return the checks whose verdict differs from before the last change: was, is."""
        return [
            (one.check, self._before[one.check.id], str(one.state))
            for one in verdicts
            if self._before.get(one.check.id, one.state) != one.state
        ]

    def wait(self, version: int | None = None, patience: float = PATIENCE) -> Session:
        """Return the session once it is settled; the quick one when patience ends.

        With a version, waiting also ends when the build is no longer at that version.
        """
        with self._changed:
            self._changed.wait_for(
                lambda: self.settled or (version is not None and self.version != version),
                timeout=patience,
            )
            return self.session

    # What changes it ---------------------------------------------------------------------------

    def refresh(self) -> bool:
        """Read the files again if another program changed them; say whether it did."""
        with self.lock:
            if self._on_disk() == dict(self.build.hashes):
                return False
            self.notice = (
                f"The files were changed outside at {time.strftime('%H:%M:%S')}; "
                "what you see is what they say now."
            )
            self._show(load(self.place))
            return True

    def change(self, act: Callable[[], T]) -> T:
        """Do something that saves the build, and show what the files say then."""
        with self.lock:
            try:
                return act()
            finally:
                if self._on_disk() != dict(self.build.hashes):
                    self._show(load(self.place))

    def pick(self, system: str, option: str) -> None:
        """Take an option for a system, or leave it open with ``?``."""
        with self.lock:
            self._show(self._quick.picked(system, option))

    def close(self) -> None:
        """Let the threads end."""
        with self._changed:
            self._closing = True
            self._changed.notify_all()
        self.choosing.close()

    def _show(self, build: Build) -> None:
        if self._settled is not None:
            self._last = self._settled
            self._before = {one.check.id: str(one.state) for one in self._settled.verdicts}
        self._quick = self._quick.renewed(build)
        self._settled = self._looked = None
        self.version += 1
        self._changed.notify_all()

    def _on_disk(self) -> dict[Path, str]:
        """Return the content of the build's files as it is now."""
        here = self.place.glob(f"*{ENDING}") if self.place.is_dir() else (self.place,)
        seen = {one for one in here if not one.name.startswith(".")} | set(self.build.hashes)
        found = {}
        for path in seen:
            try:
                found[path] = digest(path.read_bytes())
            except OSError:
                continue
        return found

    # Settling ----------------------------------------------------------------------------------

    def _settle(self) -> None:
        while True:
            with self._changed:
                self._changed.wait_for(lambda: self._closing or not self.settled)
                if self._closing:
                    return
            version = self.version
            time.sleep(PAUSE)  # the answer to the change goes out first
            with self._changed:
                if version != self.version:
                    continue
                build, last = self.build, self._last
            if last is not None and changed_paths(last.build, build) == frozenset():
                session = last.renewed(build, back=False)
            else:
                session = Session(build, self.place, self.samples, self._quick.graph)
            if not self._worked_out(session, version):
                continue
            with self._changed:
                if version == self.version:
                    self._settled = self._last = session
                    self._changed.notify_all()
                    self.choosing.take(session)

    def _worked_out(self, session: Session, version: int) -> bool:
        """Judge one check after the other; stop when the build moved on."""
        picks = session.build.assumed_picks()
        for check in session.checks:
            if self._closing or version != self.version:
                return False
            judge(check, session.evaluation, picks=picks, doubts=False)
        return bool(session.verdicts) or not session.checks


def resting_on(graph: Graph, name: str) -> frozenset[str | None]:
    """Return a quantity and all that need it."""
    found: set[str | None] = {name}
    for one in graph.order:
        if not found.isdisjoint(graph.quantities[one].needs):
            found.add(one)
    return frozenset(found)
