"""The options' tables and the drawings, by other processes while the first works out the rest.

It is started before the build is even read, and ends at once where there is nothing to choose or
the tables are kept already: they are kept by content, and found again.
"""

from __future__ import annotations

import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from drybuild.book.pages import Chapter


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


@contextmanager
def chapters_ahead(place: Path, samples: int) -> Iterator[Callable[[], dict[str, Chapter]]]:
    """Start on the chapters that draw most; give a function that waits for them, by name.

    What a process that fails has not made is made when it is asked for.
    """
    with TemporaryDirectory() as folder:
        target = Path(folder) / "chapters"
        command = [sys.executable, "-m", __name__, str(place), str(samples), str(target)]
        quiet = subprocess.DEVNULL
        child = subprocess.Popen(command, stdin=quiet, stdout=quiet, stderr=quiet)

        def made() -> dict[str, Chapter]:
            child.wait()
            try:
                found: dict[str, Chapter] = pickle.loads(target.read_bytes())
            except (OSError, EOFError, pickle.UnpicklingError):
                return {}
            return found

        try:
            yield made
        finally:
            child.terminate()
            child.wait()


def _chapters(place: str, samples: str, target: str) -> None:
    from drybuild.book.contents import DRAWN  # noqa: PLC0415  it imports every chapter
    from drybuild.session import Session  # noqa: PLC0415

    session = Session.open(Path(place), int(samples))
    made = {make.__name__: make(session) for make in DRAWN}
    Path(target).write_bytes(pickle.dumps(made))


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
    if len(sys.argv) > 3:
        _chapters(*sys.argv[1:4])
    else:
        _main(*sys.argv[1:3])
