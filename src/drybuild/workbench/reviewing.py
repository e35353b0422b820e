"""A reply that lies on the desk for review: its suggestions, and what each of them would do."""

from __future__ import annotations

import threading

from drybuild.exchange.merge import Effect, effects
from drybuild.exchange.reply import Reply
from drybuild.session import Session
from drybuild.workbench.door import Door
from drybuild.workbench.memory import give_back_memory
from drybuild.workbench.tasks import Stopped, Tasks


class Reviewing:
    """The reply under review; trying its suggestions goes on beside the pages."""

    def __init__(self, door: Door, tasks: Tasks) -> None:
        self.door = door
        self.tasks = tasks
        self.reply: Reply | None = None
        self.effects: dict[str, Effect] = {}
        self._closing = False

    def take(self, reply: Reply, session: Session) -> None:
        """Lay a reply on the desk, in place of another, and begin to try its suggestions."""
        self.reply, self.effects = reply, {}
        self.tasks.stop("reply")
        self.tasks.go_on("reply")
        words = (reply, session, self.effects)
        threading.Thread(target=self._try, args=words, daemon=True, name="reply").start()

    def put_away(self) -> None:
        """Take the reply off the desk."""
        self.tasks.stop("reply")
        self.tasks.go_on("reply")
        self.reply, self.effects = None, {}

    def close(self) -> None:
        """Let the thread end."""
        self._closing = True

    def _try(self, reply: Reply, session: Session, found: dict[str, Effect]) -> None:
        total = sum(one.sound and one.kind != "note" for one in reply.suggestions)

        def between() -> None:
            if self._closing or self.reply is not reply or self.tasks.stopped("reply"):
                raise Stopped
            self.door.make_way()

        self.tasks.begin("reply", total)
        try:
            for done, (name, effect) in enumerate(
                effects(session, reply.suggestions, between), start=1
            ):
                found[name] = effect
                self.tasks.told("reply", done, total)
        except Stopped:
            pass
        finally:
            if self.reply is reply:
                self.tasks.end("reply")
            give_back_memory()
