"""Work in a process of its own: it tells how far it is, holds up no page, and can be ended."""

from __future__ import annotations

import contextlib
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path


class Beside:
    """A second process for one piece of work at a time."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._child: subprocess.Popen[str] | None = None
        self._closed = False

    def run(self, module: str, *words: str | Path, told: Callable[[int, int], None]) -> bool:
        """Run a module that prints ``done total`` lines; say whether it came to a good end."""
        command = [sys.executable, "-P", "-m", module, *map(str, words)]
        quiet = subprocess.DEVNULL
        with self._lock:
            if self._closed:
                return False
            self._child = child = subprocess.Popen(
                command, stdin=quiet, stdout=subprocess.PIPE, stderr=quiet, text=True
            )
        with child:
            assert child.stdout is not None  # it was asked for
            for line in child.stdout:
                with contextlib.suppress(ValueError):  # a line of something else
                    done, total = map(int, line.split())
                    told(done, total)
        with self._lock:
            self._child = None
        return child.returncode == 0

    def end(self, *, for_good: bool = False) -> None:
        """End what runs; `for_good` lets nothing begin any more."""
        with self._lock:
            self._closed = self._closed or for_good
            if self._child is not None:
                self._child.kill()
