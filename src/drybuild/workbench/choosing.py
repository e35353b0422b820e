"""What remains possible, worked out beside the pages: tabulating takes seconds, asking does not."""

from __future__ import annotations

import threading
from dataclasses import dataclass

from drybuild.options.chooser import Chooser, Conflict, State
from drybuild.session import Session


@dataclass(frozen=True, kw_only=True)
class Choices:
    """What some picks leave."""

    chooser: Chooser
    state: State
    conflict: Conflict | None


class Choosing:
    """The chooser of the build on the desk, once it is ready."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._wanted: Session | None = None
        self._ready: Session | None = None
        self._closing = False
        self._known: tuple[Session, dict[str, str], Choices] | None = None
        self._worker = threading.Thread(target=self._work, daemon=True, name="choosing")
        self._worker.start()

    def take(self, session: Session) -> None:
        """Get ready for a settled session; what is still right of the last one is kept."""
        with self._changed:
            self._wanted = session
            if "chooser" in vars(session) and self._ready is not None:
                self._ready = session
            self._changed.notify_all()

    def choices(self, session: Session) -> Choices | None:
        """Return what the picks of a session leave, or nothing while that is being worked out."""
        ready = self._ready
        if ready is None or not session.chooses_like(ready):
            return None
        picks = dict(session.build.picks)
        known = self._known
        if known is None or known[0].chooser is not ready.chooser or known[1] != picks:
            chooser = ready.chooser
            found = Choices(
                chooser=chooser, state=chooser.state(picks), conflict=chooser.conflict(picks)
            )
            self._known = known = (ready, picks, found)
        return known[2]

    def wait(self, session: Session, patience: float) -> None:
        """Wait until what remains possible is known for a session, or patience ends."""
        with self._changed:
            self._changed.wait_for(
                lambda: self._ready is not None and session.chooses_like(self._ready),
                timeout=patience,
            )

    def close(self) -> None:
        """Let the thread end."""
        with self._changed:
            self._closing = True
            self._changed.notify_all()

    def _work(self) -> None:
        while True:
            with self._changed:
                self._changed.wait_for(lambda: self._closing or self._wanted is not self._ready)
                if self._closing:
                    return
                session = self._wanted
            if session is None:
                continue
            ready = self._ready
            if ready is not None and session.chooses_like(ready):
                session.chooser = ready.chooser
            else:
                session.ready_to_choose()
            with self._changed:
                self._ready = session
                self._known = None
                self._changed.notify_all()
