"""Work on a copy of the session, so that no other request waits for it."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext

from drybuild.session import Session
from drybuild.workbench.desk import Desk

_ONE = threading.Lock()
"""Drawings and comparisons are made one after the other; each would slow the others down."""


@contextmanager
def apart(desk: Desk, *, queued: bool = False) -> Iterator[Session]:
    """Give a copy of the session that is shown; what it finds is handed back at the end.

    The desk's lock is held only to copy and to hand back, and between two quantities the work
    makes way for requests. When the build has moved on meanwhile, nothing is handed back. What
    takes long is `queued`: one after the other.
    """
    with _ONE if queued else nullcontext():
        with desk.lock:
            shown = desk.session
            copy = shown.beside()
        copy.evaluation.between = desk.lock.make_way
        yield copy
        copy.evaluation.between = None
        with desk.lock:
            if desk.session is shown:
                shown.hand_back(copy)


def ready(desk: Desk) -> bool:
    """Whether what is shown is worth drawing: settled, or as settled as the person wants it."""
    return desk.settled or desk.tasks.rests("verdicts")
