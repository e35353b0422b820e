"""The book of the build on the desk: made in a process of its own, kept until the build changes."""

from __future__ import annotations

import tempfile
import threading
from collections.abc import Callable, Mapping
from pathlib import Path

from drybuild.workbench.beside import Beside
from drybuild.workbench.tasks import Tasks

Hashes = Mapping[Path, str]


class Bookmaking:
    """Makes the book, one at a time."""

    def __init__(self, place: Path, samples: int, tasks: Tasks) -> None:
        self.place = place
        self.samples = samples
        self.tasks = tasks
        self._changed = threading.Condition()
        self._making: dict[Path, str] | None = None
        self._made: tuple[dict[Path, str], dict[str, bytes]] | None = None
        self._beside = Beside()
        tasks.on_turn("book", self._beside.end)

    def begin(self, hashes: Hashes) -> None:
        """Begin to make the book of the files as they are, unless it is made or being made."""
        with self._changed:
            wanted = dict(hashes)
            if self._making is not None or (self._made and self._made[0] == wanted):
                return
            self._making = wanted
            self.tasks.go_on("book")
            self.tasks.begin("book")
            threading.Thread(target=self._make, args=(wanted,), daemon=True, name="book").start()

    def made(self, hashes: Hashes) -> Mapping[str, bytes] | None:
        """Return the book of these files as pdf and html, if it is made."""
        made = self._made
        return made[1] if made and made[0] == dict(hashes) else None

    def get(self, hashes: Callable[[], Hashes], patience: float) -> Mapping[str, bytes] | None:
        """Make the book if need be, and wait for it; None if it was stopped or failed."""
        with self._changed:
            self._changed.wait_for(lambda: self._making is None, timeout=patience)
        wanted = hashes()
        if self.made(wanted) is None:
            self.begin(wanted)
        with self._changed:
            self._changed.wait_for(lambda: self._making is None, timeout=patience)
        return self.made(wanted)

    def close(self) -> None:
        """End what runs."""
        self._beside.end(for_good=True)

    def _make(self, wanted: dict[Path, str]) -> None:
        from drybuild.book.apart import BOOK_FILES  # noqa: PLC0415  the first page needs no book

        files: dict[str, bytes] = {}
        with tempfile.TemporaryDirectory() as folder:

            def told(done: int, total: int) -> None:
                self.tasks.told("book", done, total)

            good = self._beside.run(
                "drybuild.book.apart", self.place, str(self.samples), folder, told=told
            )
            if good:
                files = {
                    kind: (Path(folder) / one).read_bytes() for kind, one in BOOK_FILES.items()
                }
        with self._changed:
            self._made = (wanted, files) if good else self._made
            self._making = None
            self.tasks.end("book", "idle" if good else "failed")
            self._changed.notify_all()
