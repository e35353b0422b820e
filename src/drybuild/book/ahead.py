"""The options' tables, judged by a second process while the first works out the rest of the book.

It is started before the build is even read, and ends at once where there is nothing to choose or
the tables are kept already: they are kept by content, and found again.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def tables_ahead(place: Path, samples: int) -> Iterator[Callable[[], object]]:
    """Start on the tables of a build; give a function that waits until they are there.

    A second process that fails does no harm: the tables are then judged when they are asked for.
    """
    command = [sys.executable, "-m", __name__, str(place), str(samples)]
    quiet = subprocess.DEVNULL
    child = subprocess.Popen(command, stdin=quiet, stdout=quiet, stderr=quiet)
    try:
        yield child.wait
    finally:
        child.terminate()
        child.wait()


def _main(place: str, samples: str) -> None:
    from drybuild.session import Session  # noqa: PLC0415  the first process needs none of it yet

    session = Session.open(Path(place), int(samples))
    if any(len(options) > 1 for options in session.build.options.values()):
        session.tabulate(told=tell)


def tell(done: int, total: int) -> None:
    """Say how far this process is, for whoever started it and listens."""
    sys.stdout.write(f"{done} {total}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    _main(*sys.argv[1:3])
