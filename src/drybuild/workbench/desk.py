"""The one build that lies on the desk: as read, judged at once on few draws, then on all of them.

Every request works on it under one lock. A change is saved to the file first; then the checks are
judged on a few draws, as many as there is time for before the person would notice; that is seen at
once. A thread of its own judges everything on all draws, which takes its place as soon as it is
there.
"""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from operator import is_
from pathlib import Path
from typing import TypeVar

from drybuild.checks.check import Check
from drybuild.checks.verdicts import Verdict, judge
from drybuild.options.tables import limits_of
from drybuild.present.what_moved import MovedVerdict, moved_verdicts
from drybuild.project.build import Build
from drybuild.project.changed import changed_paths
from drybuild.project.folder import ENDING, digest
from drybuild.project.load import load
from drybuild.quantities.frugal import Frugal, without_large_steps
from drybuild.quantities.graph import Evaluation, Graph, Result
from drybuild.session import SAMPLES, Session
from drybuild.workbench.bookmaking import Bookmaking
from drybuild.workbench.choosing import Choosing
from drybuild.workbench.door import Door
from drybuild.workbench.memory import give_back_memory
from drybuild.workbench.reviewing import Reviewing
from drybuild.workbench.tasks import Stopped, Tasks

T = TypeVar("T")
LOG = logging.getLogger(__name__)
QUICK = 100
"""Draws behind what is shown at once; settled verdicts have `SAMPLES`."""
SLOW = "work_plan"
"""What rests on it is judged only when the verdicts settle."""
LOOK = 0.03
"""What must be worked out anew for a first look may take so long; the rest waits. [s]"""
FIRST_LOOK = 0.15
"""Likewise when a build is opened and everything is new. [s]"""
PATIENCE = 30.0
PAUSE = 0.2
"""Seconds without a change before settling begins. [s]"""


class Desk:
    """One open build."""

    def __init__(self, place: Path, samples: int = SAMPLES, quick: int = QUICK) -> None:
        self.place = place
        self.lock = Door()
        self.samples = samples
        self.version = 1
        """Counts the states of the build that were shown."""
        self.notice = ""
        """What happened to the build outside, until the next change."""
        self._changed = threading.Condition(self.lock.lock)
        self._quick = Session.open(place, quick)
        self._settled: Session | None = None
        self._last: Session | None = None
        self._before: tuple[Verdict, ...] = ()
        self._looked: tuple[Verdict, ...] | None = None
        self._waiting: tuple[Check, ...] = ()
        self._known: dict[str, tuple[Verdict, tuple[Result, ...]]] = {}
        self._closing = False
        self.tasks = Tasks()
        self.tasks.on_turn("verdicts", self._turned)
        self.choosing = Choosing(place, self.lock, self.tasks)
        self.bookmaking = Bookmaking(place, samples, self.tasks)
        self.reviewing = Reviewing(self.lock, self.tasks)
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
            self._look()
        return self._looked or ()

    def _look(self) -> None:
        """Judge what is remembered and what there is time for; the rest waits for settling.

        What the last change did not touch stays as it was settled.
        """
        quick, picks = self._quick, self._quick.build.assumed_picks()
        stands = self._untouched()
        slow = resting_on(quick.graph, SLOW)
        until = time.monotonic() + (LOOK if self._known else FIRST_LOOK)
        found: list[Verdict] = []
        waiting: set[str] = set()
        for check in sorted(quick.checks, key=_asked_first):
            if check in stands:
                found += stands[check]
                continue
            names = _rests_on(check, quick.graph)
            late = time.monotonic() > until and not all(
                quick.evaluation.key_of(one, picks) in quick.evaluation.memory for one in names
            )
            if late or not slow.isdisjoint(names):
                waiting.add(check.id)
            else:
                found.append(self._judged(check, quick.evaluation, picks))
        self._looked = quick.ranked(one for one in found if not one.senseless)
        self._waiting = tuple(one for one in quick.checks if one.id in waiting)

    def _untouched(self) -> dict[Check, list[Verdict]]:
        """Return the settled verdicts that other picks changed nothing of; none where senseless."""
        last, build = self._last, self._quick.build
        if last is None or changed_paths(last.build, build) != frozenset():
            return {}
        for path, reading in last.evaluation.readings.items():
            self._quick.evaluation.readings.setdefault(path, reading)
        was, now = last.build.assumed_picks(), build.assumed_picks()
        key_of = last.evaluation.key_of
        known = {one.check: [one] for one in last.verdicts}
        return {
            check: known.get(check, [])
            for check in last.checks
            if all(key_of(one, was) == key_of(one, now) for one in _rests_on(check, last.graph))
        }

    def _judged(self, check: Check, evaluation: Evaluation, picks: dict[str, str]) -> Verdict:
        """Judge on few draws, or remember it where nothing that it rests on was worked out anew."""
        names = _rests_on(check, evaluation.graph)
        results = tuple(evaluation.result(one, picks) for one in names)
        known = self._known.get(check.id)
        if known is not None and known[0].check == check and _same(known[1], results):
            return known[0]
        verdict = judge(check, evaluation, picks=picks, doubts=False)
        self._known[check.id] = (verdict, results)
        return verdict

    def doubts(self) -> tuple[Verdict, ...]:
        """Return verdicts with where their doubt comes from: the last settled ones."""
        return self._last.verdicts if self._last else self.verdicts()

    def waiting(self) -> tuple[Check, ...]:
        """Return the checks whose verdict is still being worked out."""
        if self._settled is not None:
            return ()
        self.verdicts()
        return self._waiting

    def moved(self, verdicts: tuple[Verdict, ...]) -> tuple[MovedVerdict, ...]:
        """Return the checks whose verdict differs from before the last change: was, is."""
        if not self._before:
            return ()
        told = {one.check.id for one in verdicts}
        before = [one for one in self._before if self.settled or one.check.id in told]
        return moved_verdicts(before, verdicts)

    def wait(self, version: int | None = None, patience: float = PATIENCE) -> Session:
        """Return the session once it is settled; the quick one where patience or the work ends.

        With a version, waiting also ends when the build is no longer at that version.
        """
        with self._changed:
            self._changed.wait_for(
                lambda: (
                    self.settled
                    or (version is not None and self.version != version)
                    or self.tasks.rests("verdicts")
                ),
                timeout=patience,
            )
            return self.session

    # What changes it ---------------------------------------------------------------------------

    def refresh(self) -> bool:
        """Read the files again if another program changed them; say whether it did."""
        with self.lock:
            if self._on_disk() == dict(self.build.hashes):
                return False
            self._show(load(self.place))
            self.notice = (
                f"The files were changed outside at {time.strftime('%H:%M:%S')}; "
                "what you see is what they say now."
            )
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

    def tried(self, build: Build) -> Session:
        """Return a quick session on a build that nobody saved."""
        return self._quick.renewed(build, back=False)

    def close(self) -> None:
        """Let the threads end."""
        with self._changed:
            self._closing = True
            self._changed.notify_all()
        self.choosing.close()
        self.bookmaking.close()
        self.reviewing.close()

    def _turned(self) -> None:
        with self._changed:
            self._changed.notify_all()

    def _show(self, build: Build) -> None:
        self.notice = ""
        if self._settled is not None:
            self._last = self._settled
            self._before = tuple(replace(one, judged=()) for one in self._settled.verdicts)
        self._quick = self._quick.renewed(build)
        self._settled = self._looked = None
        self.version += 1
        self.tasks.go_on("verdicts")
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
                self._changed.wait_for(lambda: self._closing or self._unsettled())
                if self._closing:
                    return
            version = self.version
            time.sleep(PAUSE)  # the answer to the change goes out first
            with self._changed:
                if version != self.version:
                    continue
                build, last = self.build, self._last
            self.tasks.begin("verdicts", len(self._quick.checks))
            try:
                session = self._on_all_draws(build, last, version)
            except Stopped:
                self.tasks.end("verdicts")
                continue
            except Exception:  # our own fault: the page tells it, and the next change tries again
                self._failed(version)
                continue
            with self._changed:
                self.tasks.end("verdicts")
                if version == self.version:
                    self._settled = self._last = session
                    self._changed.notify_all()
                    self.choosing.take(session)
            del session, last
            give_back_memory()

    def _unsettled(self) -> bool:
        return not self.settled and not self.tasks.rests("verdicts")

    def _failed(self, version: int) -> None:
        LOG.exception("The verdicts could not be settled; the first look stands.")
        with self._changed:
            if version == self.version:
                self.tasks.end("verdicts", "failed")
            self._changed.notify_all()

    def _on_all_draws(self, build: Build, last: Session | None, version: int) -> Session:
        """Judge one check after the other, behind every request; stop when the build moved on."""

        def between() -> None:
            if self._closing or version != self.version or self.tasks.stopped("verdicts"):
                raise Stopped
            self.lock.make_way()

        session = Session(build, self.place, self.samples, self._quick.graph)
        if last is not None:
            if changed_paths(last.build, build) == frozenset():
                session = last.renewed(build, back=False)
            without_large_steps(last.evaluation)
        picks = session.build.assumed_picks()
        asked = (name for check in session.checks for name in _rests_on(check, session.graph))
        frugal = Frugal(session.evaluation, asked)
        found = []
        session.evaluation.between = between
        try:
            for done, check in enumerate(session.checks):
                self.tasks.told("verdicts", done, len(session.checks))
                between()
                found.append(judge(check, session.evaluation, picks=picks))
                frugal.tidy()
        finally:
            session.evaluation.between = None
        session.verdicts = session.ranked(one for one in found if not one.senseless)
        return session


def _asked_first(check: Check) -> tuple[bool, bool]:
    return (not check.id.startswith("must."), check.advice)


def _rests_on(check: Check, graph: Graph) -> tuple[str, ...]:
    return tuple(one for one in limits_of(check) if one in graph.quantities)


def _same(some: tuple[Result, ...], others: tuple[Result, ...]) -> bool:
    return len(some) == len(others) and all(map(is_, some, others))


@cache
def resting_on(graph: Graph, name: str) -> frozenset[str]:
    """Return a quantity and all that need it."""
    found = {name}
    for one in graph.order:
        if not found.isdisjoint(graph.quantities[one].needs):
            found.add(one)
    return frozenset(found)
