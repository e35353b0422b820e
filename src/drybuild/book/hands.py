"""Two processes make a book: each takes the next chapter that nobody has taken yet.

The first begins with what it shows soonest, the second with what takes longest; they meet where
they meet. What the second took and could not finish, the first makes after all.
"""

from __future__ import annotations

import os
import pickle
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from drybuild.book.pages import Chapter

LOOK_AGAIN = 0.01
"""Pause between two looks for a chapter that the other process is at, in s."""


class Bench:
    """A folder where chapters are taken by name, and laid when they are made."""

    def __init__(self, folder: Path, second: subprocess.Popen[bytes] | None = None) -> None:
        """Stand at a bench; the first process knows the second, and waits for it."""
        self.folder = folder
        self.second = second

    def take(self, name: str) -> bool:
        """Take a chapter, unless the other process was there first."""
        try:
            (self.folder / name).touch(exist_ok=False)
        except FileExistsError:
            return False
        return True

    def lay(self, name: str, chapter: Chapter) -> None:
        """Lay down a chapter that is made."""
        part = self.folder / f"{name}.part"
        part.write_bytes(pickle.dumps(chapter))
        part.replace(self.folder / f"{name}.made")

    def wait(self, name: str) -> Chapter | None:
        """Wait for a chapter of the other process; None when it ended without it."""
        target = self.folder / f"{name}.made"
        while True:
            ended = self.second is None or self.second.poll() is not None
            if target.exists():
                made: Chapter = pickle.loads(target.read_bytes())
                return made
            if ended:
                return None
            time.sleep(LOOK_AGAIN)


@contextmanager
def second_hand(place: Path, samples: int) -> Iterator[Bench]:
    """Start a second process on the chapters of a build; it ends with the block at the latest."""
    with TemporaryDirectory() as folder:
        command = [sys.executable, "-P", "-m", __name__, str(place), str(samples), folder]
        quiet = subprocess.DEVNULL
        second = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=quiet, stderr=quiet)
        try:
            yield Bench(Path(folder), second)
        finally:
            second.terminate()
            second.communicate()


def _main(place: str, samples: str, folder: str) -> None:
    from drybuild.book.contents import SECOND_HAND  # noqa: PLC0415  it imports every chapter
    from drybuild.session import Session  # noqa: PLC0415

    threading.Thread(target=_end_with_the_first, args=(folder,), daemon=True).start()
    bench = Bench(Path(folder))
    session = Session.open(Path(place), int(samples))
    for make in SECOND_HAND:
        if bench.take(make.__name__):
            bench.lay(make.__name__, make(session))


def _end_with_the_first(folder: str) -> None:
    """End when the first process is gone, even if it was killed, and clear up after it."""
    sys.stdin.buffer.read()
    shutil.rmtree(folder, ignore_errors=True)
    os._exit(1)


if __name__ == "__main__":
    _main(*sys.argv[1:4])
