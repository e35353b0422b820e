"""The lock around the desk: one request at a time, and long work makes way for all of them.

Python runs one thread at a time; a thread that works something out beside the pages would make
each of them wait. So it asks to pass between its steps, and stands still while a request is being
answered.
"""

from __future__ import annotations

import threading
import time
from types import TracebackType

LULL = 0.03
"""A click is often followed by the page that it leads to; wait that long for it. [s]"""
LONGEST = 5.0
"""A request that takes longer than this does not hold work up any more. [s]"""


class Door:
    """A lock that can be taken again by who holds it, and knows whether anybody wants in."""

    def __init__(self) -> None:
        self.lock = threading.RLock()
        self._inside = 0
        self._left = 0.0
        self._empty = threading.Condition()

    def __enter__(self) -> Door:
        with self._empty:
            self._inside += 1
        self.lock.acquire()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.lock.release()
        with self._empty:
            self._inside -= 1
            self._left = time.monotonic()
            self._empty.notify_all()

    def make_way(self) -> None:
        """Stand still while a request is being answered, and a moment longer."""
        until = time.monotonic() + LONGEST
        while self._inside or time.monotonic() - self._left < LULL:
            with self._empty:
                if self._inside:
                    self._empty.wait(until - time.monotonic())
            if time.monotonic() > until:
                return
            if not self._inside:
                time.sleep(LULL / 3)
