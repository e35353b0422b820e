"""What remains possible, worked out beside the pages: tabulating takes seconds, asking does not.

The options of a larger build are tabulated by a second process, which keeps the tables by content;
here they are found again. So no page waits for it, and its memory goes with it.
"""

from __future__ import annotations

import logging
import threading
from dataclasses import dataclass
from pathlib import Path

from drybuild.options.chooser import Chooser, Conflict, State
from drybuild.session import Session
from drybuild.workbench.beside import Beside
from drybuild.workbench.door import Door
from drybuild.workbench.memory import look_through
from drybuild.workbench.tasks import Stopped, Tasks

LOG = logging.getLogger(__name__)
FEW = 40
"""Up to so many options are tabulated here: a second process would take longer to start."""


@dataclass(frozen=True, kw_only=True)
class Choices:
    """What some picks leave."""

    chooser: Chooser
    state: State
    conflict: Conflict | None


class Choosing:
    """The chooser of the build on the desk, once it is ready."""

    def __init__(self, place: Path, door: Door, tasks: Tasks) -> None:
        self.place = place
        self.door = door
        self.tasks = tasks
        self._changed = threading.Condition()
        self._wanted: Session | None = None
        self._ready: Session | None = None
        self._alike: tuple[Session, Session, bool] | None = None
        self._working_on: Session | None = None
        self._closing = False
        self._known: tuple[dict[str, str], Choices] | None = None
        self._beside = Beside()
        tasks.on_turn("choices", self._turned)
        self._worker = threading.Thread(target=self._work, daemon=True, name="choosing")
        self._worker.start()

    def take(self, session: Session) -> None:
        """Get ready for a settled session; what is still right of the last one is kept."""
        with self._changed:
            self._wanted, self._alike = session, None  # lets go of what it was before
            self.tasks.try_again("choices")
            if "chooser" in vars(session) and self._ready is not None:
                self._ready = session
            now = self._working_on
            if now is not None and not session.chooses_like(now):
                self._working_on = None  # it is overtaken
                self._beside.end()
            self._changed.notify_all()

    def choices(self, session: Session) -> Choices | None:
        """Return what the picks of a session leave, or nothing while that is being worked out."""
        ready = self._ready
        if ready is None or not self._right_for(session, ready):
            return None
        picks = dict(session.build.picks)
        known = self._known
        chooser = ready.chooser
        if known is None or known[1].chooser is not chooser or known[0] != picks:
            found = Choices(
                chooser=chooser, state=chooser.state(picks), conflict=chooser.conflict(picks)
            )
            self._known = known = (picks, found)
        return known[1]

    def wait(self, session: Session, patience: float) -> None:
        """Wait until what remains possible is known for a session, or patience or work ends."""
        with self._changed:
            self._changed.wait_for(
                lambda: (
                    (self._ready is not None and self._right_for(session, self._ready))
                    or self.tasks.rests("choices")
                ),
                timeout=patience,
            )

    def close(self) -> None:
        """Let the thread end."""
        self._beside.end(for_good=True)
        with self._changed:
            self._closing = True
            self._changed.notify_all()

    def _right_for(self, session: Session, ready: Session) -> bool:
        """Whether the ready chooser is right for a session; every page asks, so it is kept."""
        known = self._alike
        if known is None or known[0] is not session or known[1] is not ready:
            self._alike = known = (session, ready, session.chooses_like(ready))
        return known[2]

    def _turned(self) -> None:
        self._beside.end()
        with self._changed:
            self._changed.notify_all()

    def _has_work(self) -> bool:
        return self._wanted is not self._ready and not self.tasks.rests("choices")

    def _work(self) -> None:
        while True:
            with self._changed:
                self._changed.wait_for(lambda: self._closing or self._has_work())
                if self._closing:
                    return
                session = self._working_on = self._wanted
            if session is None:
                continue
            try:
                self._get_ready(session)
            except Stopped:
                self.tasks.end("choices")
                continue
            except Exception:  # our own fault: the page tells it, and the next change tries again
                LOG.exception("What goes together could not be worked out.")
                self.tasks.end("choices", "failed")
                with self._changed:
                    self._changed.notify_all()
                continue
            self.tasks.end("choices")
            with self._changed:
                self._ready = session
                self._known = None
                self._changed.notify_all()

    def _get_ready(self, session: Session) -> None:
        ready = self._ready
        if ready is not None and session.chooses_like(ready):
            session.chooser = ready.chooser
            return
        self.tasks.begin("choices")

        def told(done: int, total: int) -> None:
            self.tasks.told("choices", done, total)

        def between() -> None:
            if self._closing or self._working_on is not session or self.tasks.stopped("choices"):
                raise Stopped
            self.door.make_way()

        if sum(len(one) for one in session.build.options.values() if len(one) > 1) > FEW:
            samples = str(session.evaluation.samples)
            self._beside.run("drybuild.workbench.tabulating", self.place, samples, told=told)
        between()
        session.ready_to_choose(between, told)
        look_through()
