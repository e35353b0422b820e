"""The options' tables, judged by a second process while the first works out the rest of the book.

Only the first book of a build needs it: the tables are kept by content, and found again.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from drybuild.options.stored import content_key, fetch, usual_folder
from drybuild.session import Session


@contextmanager
def tables_ahead(session: Session) -> Iterator[Callable[[], object]]:
    """Give a function that waits until the tables are there; start on them at once.

    Where there is nothing to choose, or the tables are kept already, it waits for nothing. A
    second process that fails does no harm: the tables are then judged when they are asked for.
    """
    if not _needed(session):
        yield lambda: None
        return
    command = [sys.executable, "-m", __name__, str(session.place), str(session.evaluation.samples)]
    quiet = subprocess.DEVNULL
    child = subprocess.Popen(command, stdin=quiet, stdout=quiet, stderr=quiet)
    try:
        yield child.wait
    finally:
        child.terminate()
        child.wait()


def _needed(session: Session) -> bool:
    if all(len(options) < 2 for options in session.build.options.values()):
        return False
    asked = tuple(check for check in session.checks if not check.advice)
    return not fetch(usual_folder(), content_key(session.build, asked, session.evaluation.samples))


def _main(folder: str, samples: str) -> None:
    Session.open(Path(folder), int(samples)).ready_to_choose()


if __name__ == "__main__":
    _main(*sys.argv[1:3])
